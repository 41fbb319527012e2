// Package compact writes plain data to bytes and back: a form that loads fast,
// for data that is built once and read at every start.
//
// It knows structs (their exported fields, in order), slices, arrays, maps with
// word keys, pointers, words, numbers and booleans. Each word is kept once. A
// change of the types changes the fingerprint in the first bytes, and old bytes
// are then refused.
//
//	text, err := compact.Encode(&v)
//	err = compact.Decode(text, &w)
package compact

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"math"
	"reflect"
	"slices"
	"strings"
)

// ErrStale says that bytes were written from other types than they are read
// into.
var ErrStale = errors.New("the compact form was made from another shape of data; generate it anew")

// errShort says that bytes end too early or point outside.
var errShort = errors.New("the compact form is damaged")

// Encode returns the bytes of what v points to.
func Encode(v any) ([]byte, error) {
	e := &encoder{at: map[string]uint64{}}
	if err := e.value(reflect.ValueOf(v).Elem()); err != nil {
		return nil, err
	}
	out := binary.LittleEndian.AppendUint64(nil, fingerprint(reflect.TypeOf(v).Elem()))
	out = binary.AppendUvarint(out, uint64(len(e.words)))
	for _, w := range e.words {
		out = binary.AppendUvarint(out, uint64(len(w)))
	}
	for _, w := range e.words {
		out = append(out, w...)
	}
	return append(out, e.out...), nil
}

// Decode fills what v points to from bytes that Encode wrote. Damaged bytes
// give an error, never a panic.
func Decode(text []byte, v any) (err error) {
	rv := reflect.ValueOf(v).Elem()
	if len(text) < 8 || binary.LittleEndian.Uint64(text) != fingerprint(rv.Type()) {
		return ErrStale
	}
	d := &decoder{in: text[8:]}
	if err := d.table(); err != nil {
		return err
	}
	d.value(rv)
	if d.bad || len(d.in) != 0 {
		return errShort
	}
	return nil
}

// fields are the indices of a type's exported fields.
func fields(t reflect.Type) []int {
	var out []int
	for i := range t.NumField() {
		if t.Field(i).IsExported() {
			out = append(out, i)
		}
	}
	return out
}

func fingerprint(t reflect.Type) uint64 {
	h := fnv.New64a()
	seen := map[reflect.Type]bool{}
	var describe func(t reflect.Type)
	describe = func(t reflect.Type) {
		fmt.Fprintf(h, "%s;", t.Kind())
		if seen[t] {
			fmt.Fprint(h, t.String())
			return
		}
		seen[t] = true
		switch t.Kind() {
		case reflect.Struct:
			for _, i := range fields(t) {
				fmt.Fprintf(h, "%s:", t.Field(i).Name)
				describe(t.Field(i).Type)
			}
		case reflect.Slice, reflect.Pointer, reflect.Map, reflect.Array:
			describe(t.Elem())
		}
	}
	describe(t)
	return h.Sum64()
}

type encoder struct {
	out   []byte
	words []string
	at    map[string]uint64
}

func (e *encoder) word(s string) {
	i, ok := e.at[s]
	if !ok {
		i = uint64(len(e.words))
		e.at[s] = i
		e.words = append(e.words, s)
	}
	e.out = binary.AppendUvarint(e.out, i)
}

func (e *encoder) value(v reflect.Value) error {
	switch v.Kind() {
	case reflect.String:
		e.word(v.String())
	case reflect.Bool:
		b := byte(0)
		if v.Bool() {
			b = 1
		}
		e.out = append(e.out, b)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		e.out = binary.AppendVarint(e.out, v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		e.out = binary.AppendUvarint(e.out, v.Uint())
	case reflect.Float64:
		e.out = binary.LittleEndian.AppendUint64(e.out, math.Float64bits(v.Float()))
	case reflect.Pointer:
		if v.IsNil() {
			e.out = append(e.out, 0)
			return nil
		}
		e.out = append(e.out, 1)
		return e.value(v.Elem())
	case reflect.Slice:
		if v.IsNil() {
			e.out = append(e.out, 0)
			return nil
		}
		e.out = binary.AppendUvarint(e.out, uint64(v.Len())+1)
		if v.Type().Elem().Kind() == reflect.Uint8 {
			e.out = append(e.out, v.Bytes()...)
			return nil
		}
		return e.items(v)
	case reflect.Array:
		return e.items(v)
	case reflect.Map:
		return e.entries(v)
	case reflect.Struct:
		for _, i := range fields(v.Type()) {
			if err := e.value(v.Field(i)); err != nil {
				return err
			}
		}
	default:
		return fmt.Errorf("compact: cannot write a %s", v.Type())
	}
	return nil
}

func (e *encoder) items(v reflect.Value) error {
	for i := range v.Len() {
		if err := e.value(v.Index(i)); err != nil {
			return err
		}
	}
	return nil
}

func (e *encoder) entries(v reflect.Value) error {
	if v.IsNil() {
		e.out = append(e.out, 0)
		return nil
	}
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	e.out = binary.AppendUvarint(e.out, uint64(len(keys))+1)
	for _, k := range keys {
		e.word(k.String())
		if err := e.value(v.MapIndex(k)); err != nil {
			return err
		}
	}
	return nil
}

type decoder struct {
	in    []byte
	words []string
	bad   bool
	shape map[reflect.Type][]int
}

// table reads the words, all cut from one string.
func (d *decoder) table() error {
	n := d.uvarint()
	if d.bad || n > uint64(len(d.in)) {
		return errShort
	}
	lengths := make([]uint64, n)
	total := uint64(0)
	for i := range lengths {
		lengths[i] = d.uvarint()
		total += lengths[i]
		if d.bad || total > uint64(len(d.in)) {
			return errShort
		}
	}
	if total > uint64(len(d.in)) {
		return errShort
	}
	all := string(d.in[:total])
	d.in = d.in[total:]
	d.words = make([]string, n)
	for i, l := range lengths {
		d.words[i], all = all[:l], all[l:]
	}
	d.shape = map[reflect.Type][]int{}
	return nil
}

func (d *decoder) uvarint() uint64 {
	v, n := binary.Uvarint(d.in)
	if n <= 0 {
		d.bad, d.in = true, nil
		return 0
	}
	d.in = d.in[n:]
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

func (d *decoder) take(n int) []byte {
	if n < 0 || n > len(d.in) {
		d.bad, d.in = true, nil
		return make([]byte, max(n, 0))
	}
	b := d.in[:n]
	d.in = d.in[n:]
	return b
}

func (d *decoder) value(v reflect.Value) {
	if d.bad {
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(d.word())
	case reflect.Bool:
		v.SetBool(d.take(1)[0] == 1)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		x, n := binary.Varint(d.in)
		if n <= 0 {
			d.bad = true
			return
		}
		d.in = d.in[n:]
		v.SetInt(x)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(d.uvarint())
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(binary.LittleEndian.Uint64(d.take(8))))
	case reflect.Pointer:
		if d.take(1)[0] == 1 {
			v.Set(reflect.New(v.Type().Elem()))
			d.value(v.Elem())
		}
	case reflect.Slice:
		n := d.length()
		if n < 0 {
			return
		}
		if v.Type().Elem().Kind() == reflect.Uint8 {
			v.SetBytes(slices.Clone(d.take(n)))
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			d.value(v.Index(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			d.value(v.Index(i))
		}
	case reflect.Map:
		d.entries(v)
	case reflect.Struct:
		idx, ok := d.shape[v.Type()]
		if !ok {
			idx = fields(v.Type())
			d.shape[v.Type()] = idx
		}
		for _, i := range idx {
			d.value(v.Field(i))
		}
	}
}

func (d *decoder) entries(v reflect.Value) {
	n := d.length()
	if n < 0 {
		return
	}
	m := reflect.MakeMapWithSize(v.Type(), n)
	for range n {
		k := d.word()
		e := reflect.New(v.Type().Elem()).Elem()
		d.value(e)
		if d.bad {
			return
		}
		m.SetMapIndex(reflect.ValueOf(k), e)
	}
	v.Set(m)
}
