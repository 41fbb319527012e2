// Package compact writes plain data to bytes and back: a form that loads fast,
// for data that is built once and read at every start.
//
// It knows structs (their exported fields, in order), slices, arrays, maps with
// word keys, pointers, words, numbers and booleans; a [Custom] says how another
// type is kept. A [Writer] puts several parts into one form, and each word is
// kept once over all of them; a [Reader] reads the parts that are wanted. A
// change of the types changes the fingerprint of a part, and old bytes are then
// refused.
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

// A Custom says how the values of one type are kept, as bytes of its own
// making. Write gets a value of the type, Read returns one.
type Custom struct {
	Type  reflect.Type
	Write func(v any) ([]byte, error)
	Read  func(text []byte) (any, error)
}

// Encode returns the bytes of what v points to: a form of one part.
func Encode(v any) ([]byte, error) {
	var w Writer
	if err := w.Add(v); err != nil {
		return nil, err
	}
	return w.Bytes(), nil
}

// Decode fills what v points to from bytes that Encode wrote. Damaged bytes
// give an error, never a panic.
func Decode(text []byte, v any) error {
	r, err := Open(string(text))
	if err != nil {
		return err
	}
	return r.Read(0, v)
}

// A Writer collects the parts of a form. The zero Writer is ready.
type Writer struct {
	parts [][]byte
	words []string
	at    map[string]uint64
}

// Add writes what v points to as the next part.
func (w *Writer) Add(v any, customs ...Custom) error {
	if w.at == nil {
		w.at = map[string]uint64{}
	}
	e := &encoder{Writer: w, customs: customs}
	t := reflect.TypeOf(v).Elem()
	e.out = binary.LittleEndian.AppendUint64(nil, fingerprint(t, customs))
	if err := e.value(reflect.ValueOf(v).Elem()); err != nil {
		return err
	}
	w.parts = append(w.parts, e.out)
	return nil
}

// Bytes returns the form: the words, then the parts.
func (w *Writer) Bytes() []byte {
	out := binary.AppendUvarint(nil, uint64(len(w.words)))
	for _, s := range w.words {
		out = binary.AppendUvarint(out, uint64(len(s)))
	}
	for _, s := range w.words {
		out = append(out, s...)
	}
	out = binary.AppendUvarint(out, uint64(len(w.parts)))
	for _, p := range w.parts {
		out = binary.AppendUvarint(out, uint64(len(p)))
	}
	return slices.Concat(append([][]byte{out}, w.parts...)...)
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

func customOf(customs []Custom, t reflect.Type) *Custom {
	for i := range customs {
		if customs[i].Type == t {
			return &customs[i]
		}
	}
	return nil
}

// fingerprint tells shapes of data apart: FNV-1a over a description.
func fingerprint(t reflect.Type, customs []Custom) uint64 {
	h := fnv.New64a()
	seen := map[reflect.Type]bool{}
	var describe func(t reflect.Type)
	describe = func(t reflect.Type) {
		fmt.Fprintf(h, "%s;", t.Kind())
		if seen[t] || customOf(customs, t) != nil {
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
	*Writer
	out     []byte
	customs []Custom
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
	if c := customOf(e.customs, v.Type()); c != nil {
		text, err := c.Write(v.Interface())
		e.out = binary.AppendUvarint(e.out, uint64(len(text)))
		e.out = append(e.out, text...)
		return err
	}
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
