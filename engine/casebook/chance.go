package casebook

import "hash/fnv"

// Chance draws numbers that look like chance and are the same for the same
// name and number on any machine. It is no good for secrets.
type Chance struct{ state uint64 }

// Random returns a source of chance that depends on a name and a number alone.
func Random(name string, n uint64) *Chance {
	h := fnv.New64a()
	h.Write([]byte(name))
	return &Chance{h.Sum64() ^ n*0x9e3779b97f4a7c15}
}

// next returns the next 64 bits.
//
// Source: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom
// number generators", OOPSLA 2014: SplitMix64 with the constants of its
// reference code (from memory).
func (c *Chance) next() uint64 {
	c.state += 0x9e3779b97f4a7c15
	z := c.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// IntN returns a whole number from 0 to below n, which must be above 0.
func (c *Chance) IntN(n int) int { return int(c.next() % uint64(n)) }

// Float64 returns a number from 0 to below 1.
func (c *Chance) Float64() float64 { return float64(c.next()>>11) / (1 << 53) }
