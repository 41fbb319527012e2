package compact

// This file reads the compact form.

import (
	"errors"
	"math"
	"reflect"
)

// A Reader holds a form, its words cut from the bytes without copying them.
type Reader struct {
	words []string
	parts []string
}

// Open takes a form apart into its words and parts; no part is read yet.
func Open(text string) (*Reader, error) {
	d := &decoder{in: text}
	words, ok := d.cut()
	if !ok {
		return nil, errShort
	}
	parts, ok := d.cut()
	if !ok || d.in != "" {
		return nil, errShort
	}
	return &Reader{words: words, parts: parts}, nil
}

// Parts returns how many parts the form has.
func (r *Reader) Parts() int { return len(r.parts) }

// Read fills what v points to from a part. The customs must be those that it
// was written with.
func (r *Reader) Read(part int, v any, customs ...Custom) error {
	if part < 0 || part >= len(r.parts) {
		return errShort
	}
	rv := reflect.ValueOf(v).Elem()
	d := &decoder{in: r.parts[part], words: r.words, customs: customs, plans: map[reflect.Type]*plan{}}
	if d.fixed() != fingerprint(rv.Type(), customs) {
		return ErrStale
	}
	d.plan(rv.Type()).read(d, rv)
	switch {
	case d.err != nil:
		return d.err
	case d.bad || d.in != "":
		return errShort
	}
	return nil
}

type decoder struct {
	in      string
	words   []string
	bad     bool
	err     error
	customs []Custom
	plans   map[reflect.Type]*plan
}

// A plan reads one type. It is made once a type: looking the kind and fields
// up again for every value took half the time.
type plan struct {
	read func(d *decoder, v reflect.Value)
}

// cut reads a list of lengths, then cuts so many bytes each.
func (d *decoder) cut() ([]string, bool) {
	n := d.uvarint()
	if d.bad || n > uint64(len(d.in)) {
		return nil, false
	}
	lengths := make([]uint64, n)
	total := uint64(0)
	for i := range lengths {
		lengths[i] = d.uvarint()
		if d.bad || lengths[i] > uint64(len(d.in)) {
			return nil, false
		}
		total += lengths[i]
	}
	if total > uint64(len(d.in)) {
		return nil, false
	}
	all := make([]string, n)
	for i, l := range lengths {
		all[i], d.in = d.in[:l], d.in[l:]
	}
	return all, true
}

func (d *decoder) uvarint() uint64 {
	var v uint64
	for i := 0; i < len(d.in) && i < 10; i++ {
		b := d.in[i]
		v |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			d.in = d.in[i+1:]
			return v
		}
	}
	d.bad, d.in = true, ""
	return 0
}

func (d *decoder) varint() int64 {
	u := d.uvarint()
	v := int64(u >> 1)
	if u&1 != 0 {
		v = ^v
	}
	return v
}

func (d *decoder) word() string {
	i := d.uvarint()
	if i >= uint64(len(d.words)) {
		d.bad = true
		return ""
	}
	return d.words[i]
}

// length reads how many items follow, or -1 for none at all.
func (d *decoder) length() int {
	n := d.uvarint()
	if n > uint64(len(d.in))+1 {
		d.bad = true
		return -1
	}
	return int(n) - 1
}

func (d *decoder) take(n int) string {
	if n < 0 || n > len(d.in) {
		d.bad, d.in = true, ""
		return ""
	}
	s := d.in[:n]
	d.in = d.in[n:]
	return s
}

func (d *decoder) flag() bool { return d.take(1) == "\x01" }

func (d *decoder) fixed() uint64 {
	s := d.take(8)
	var v uint64
	for i := range len(s) {
		v |= uint64(s[i]) << (8 * i)
	}
	return v
}

func (d *decoder) plan(t reflect.Type) *plan {
	p := d.plans[t]
	if p == nil {
		p = &plan{}
		d.plans[t] = p // before it is made: a type may hold itself
		p.read = d.make(t)
	}
	return p
}

func (d *decoder) make(t reflect.Type) func(*decoder, reflect.Value) {
	if c := customOf(d.customs, t); c != nil {
		return func(d *decoder, v reflect.Value) { d.custom(c, v) }
	}
	switch t.Kind() {
	case reflect.String:
		return func(d *decoder, v reflect.Value) { v.SetString(d.word()) }
	case reflect.Bool:
		return func(d *decoder, v reflect.Value) { v.SetBool(d.flag()) }
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return func(d *decoder, v reflect.Value) { v.SetInt(d.varint()) }
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return func(d *decoder, v reflect.Value) { v.SetUint(d.uvarint()) }
	case reflect.Float64:
		return func(d *decoder, v reflect.Value) { v.SetFloat(math.Float64frombits(d.fixed())) }
	case reflect.Pointer:
		elem := d.plan(t.Elem())
		return func(d *decoder, v reflect.Value) {
			if d.flag() {
				v.Set(reflect.New(t.Elem()))
				elem.read(d, v.Elem())
			}
		}
	case reflect.Slice:
		return d.makeSlice(t)
	case reflect.Array:
		elem := d.plan(t.Elem())
		return func(d *decoder, v reflect.Value) {
			for i := 0; i < t.Len() && !d.bad; i++ {
				elem.read(d, v.Index(i))
			}
		}
	case reflect.Map:
		elem := d.plan(t.Elem())
		return func(d *decoder, v reflect.Value) { d.entries(v, elem) }
	case reflect.Struct:
		return d.makeStruct(t)
	}
	return func(d *decoder, v reflect.Value) { d.bad = true }
}

func (d *decoder) makeStruct(t reflect.Type) func(*decoder, reflect.Value) {
	at := fields(t)
	plans := make([]*plan, len(at))
	for k, i := range at {
		plans[k] = d.plan(t.Field(i).Type)
	}
	return func(d *decoder, v reflect.Value) {
		for k, i := range at {
			if d.bad {
				return
			}
			plans[k].read(d, v.Field(i))
		}
	}
}

func (d *decoder) makeSlice(t reflect.Type) func(*decoder, reflect.Value) {
	if t.Elem().Kind() == reflect.Uint8 {
		return func(d *decoder, v reflect.Value) {
			if n := d.length(); n >= 0 {
				v.SetBytes([]byte(d.take(n)))
			}
		}
	}
	switch t {
	case reflect.TypeFor[[]string]():
		return func(d *decoder, v reflect.Value) { readList(d, v.Addr().Interface().(*[]string), (*decoder).word) }
	case reflect.TypeFor[[]int]():
		return func(d *decoder, v reflect.Value) {
			readList(d, v.Addr().Interface().(*[]int), func(d *decoder) int { return int(d.varint()) })
		}
	}
	elem := d.plan(t.Elem())
	size := max(1, int(t.Elem().Size()))
	return func(d *decoder, v reflect.Value) {
		n := d.length()
		if n < 0 {
			return
		}
		if n > maxBytes/size {
			d.bad = true
			return
		}
		v.Set(reflect.MakeSlice(t, n, n))
		for i := 0; i < n && !d.bad; i++ {
			elem.read(d, v.Index(i))
		}
	}
}

// maxBytes bounds the room that one list may take, so that damaged bytes do not
// ask for more than there is.
const maxBytes = 1 << 26

// readList reads a list of a common type without going through its values one
// by one.
func readList[T any](d *decoder, to *[]T, one func(*decoder) T) {
	n := d.length()
	if n < 0 {
		return
	}
	list := make([]T, n)
	for i := range list {
		list[i] = one(d)
	}
	*to = list
}

func (d *decoder) custom(c *Custom, v reflect.Value) {
	n := d.uvarint()
	if n > uint64(len(d.in)) {
		d.bad = true
		return
	}
	x, err := c.Read([]byte(d.take(int(n))))
	if err != nil {
		d.bad, d.err = true, errors.Join(d.err, err)
		return
	}
	if rv := reflect.ValueOf(x); rv.IsValid() {
		v.Set(rv)
	}
}

func (d *decoder) entries(v reflect.Value, elem *plan) {
	n := d.length()
	if n < 0 {
		return
	}
	t := v.Type()
	m := reflect.MakeMapWithSize(t, n)
	for range n {
		k := d.word()
		e := reflect.New(t.Elem()).Elem()
		elem.read(d, e)
		if d.bad {
			return
		}
		m.SetMapIndex(reflect.ValueOf(k), e)
	}
	v.Set(m)
}
