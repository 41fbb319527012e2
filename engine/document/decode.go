package document

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"snagwise/engine/problem"
)

// A Text is a word or sentence of a file with its place.
type Text struct {
	Value string
	At    problem.Pos
	node  *Node
}

// Pos returns where the text begins; Place, where one byte of it stands.
func (t Text) Pos() problem.Pos { return t.At }

// Place returns the place in the file of byte i of the text.
func (t Text) Place(i int) problem.Pos {
	if t.node == nil {
		p := t.At
		p.Col += i
		return p
	}
	return t.node.Offset(i)
}

// A Pair is one entry of a map of words to words, in the order of the file.
type Pair struct{ Key, Value Text }

// A Decoder fills itself from a node.
type Decoder interface{ DecodeNode(*Node) problem.List }

// Decode fills what v points to from a node: structs by their `yaml` tags,
// slices from lists (a single value stands for a list of one), [Text], strings,
// numbers, booleans, []Pair from a map of words, map[string]T, *Node as it
// stands, and whatever is a [Decoder]. A tag ending in ",required" makes a
// missing key a problem. Every unknown key, wrong type and number out of range
// is reported; v holds what could be read.
func Decode(n *Node, v any) problem.List {
	var l problem.List
	decode(n, reflect.ValueOf(v).Elem(), &l)
	return l
}

var (
	textType    = reflect.TypeFor[Text]()
	nodeType    = reflect.TypeFor[*Node]()
	pairsType   = reflect.TypeFor[[]Pair]()
	decoderType = reflect.TypeFor[Decoder]()
)

func decode(n *Node, v reflect.Value, l *problem.List) {
	if v.CanAddr() && v.Addr().Type().Implements(decoderType) {
		*l = append(*l, v.Addr().Interface().(Decoder).DecodeNode(n)...)
		return
	}
	switch v.Type() {
	case nodeType:
		v.Set(reflect.ValueOf(n))
		return
	case textType:
		if s, ok := scalar(n, l, "a word or sentence"); ok {
			v.Set(reflect.ValueOf(Text{Value: s, At: n.Pos(), node: n}))
		}
		return
	case pairsType:
		decodePairs(n, v, l)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		p := reflect.New(v.Type().Elem())
		decode(n, p.Elem(), l)
		v.Set(p)
	case reflect.Struct:
		decodeStruct(n, v, l)
	case reflect.Slice:
		decodeSlice(n, v, l)
	case reflect.Map:
		decodeMap(n, v, l)
	case reflect.String:
		if s, ok := scalar(n, l, "a word or sentence"); ok {
			v.SetString(s)
		}
	case reflect.Bool:
		if s, ok := scalar(n, l, "true or false"); ok {
			b, err := strconv.ParseBool(s)
			if err != nil {
				wrongType(n, l, "true or false")
			}
			v.SetBool(b)
		}
	case reflect.Int, reflect.Int64:
		if s, ok := scalar(n, l, "a whole number"); ok {
			i, err := strconv.ParseInt(s, 10, 32)
			if err != nil {
				wrongType(n, l, "a whole number")
			}
			v.SetInt(i)
		}
	case reflect.Float64:
		if s, ok := scalar(n, l, "a number"); ok {
			f, err := strconv.ParseFloat(s, 64)
			if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
				wrongType(n, l, "a number")
				return
			}
			v.SetFloat(f)
		}
	default:
		panic(fmt.Sprintf("document: cannot decode into %s", v.Type()))
	}
}

func scalar(n *Node, l *problem.List, want string) (string, bool) {
	switch n.Kind {
	case Scalar:
		return n.Value, true
	case Null:
		l.Add(n.Pos(), "missing-value", "the value is missing", "wanted "+want)
	default:
		wrongType(n, l, want)
	}
	return "", false
}

func wrongType(n *Node, l *problem.List, want string) {
	l.Add(n.Pos(), "wrong-type", "this is "+n.describe(), "wanted "+want)
}

func (n *Node) describe() string {
	switch n.Kind {
	case MapKind:
		return "a map"
	case ListKind:
		return "a list"
	case Null:
		return "nothing"
	}
	s := n.Value
	if len(s) > 40 {
		s = s[:37] + "..."
	}
	return strconv.Quote(s)
}

func decodePairs(n *Node, v reflect.Value, l *problem.List) {
	if n.Kind == Null {
		return
	}
	if n.Kind != MapKind {
		wrongType(n, l, "a map such as {name: word}")
		return
	}
	var pairs []Pair
	for i, k := range n.Keys {
		var val Text
		decode(n.Values[i], reflect.ValueOf(&val).Elem(), l)
		pairs = append(pairs, Pair{Key: Text{k.Value, k.Pos(), k}, Value: val})
	}
	v.Set(reflect.ValueOf(pairs))
}

func decodeSlice(n *Node, v reflect.Value, l *problem.List) {
	items := n.Items
	switch n.Kind {
	case Null:
		return
	case Scalar, MapKind:
		if v.Type().Elem().Kind() == reflect.Slice {
			wrongType(n, l, "a list")
			return
		}
		items = []*Node{n}
	}
	s := reflect.MakeSlice(v.Type(), len(items), len(items))
	for i, item := range items {
		decode(item, s.Index(i), l)
	}
	v.Set(s)
}

func decodeMap(n *Node, v reflect.Value, l *problem.List) {
	if n.Kind == Null {
		return
	}
	if n.Kind != MapKind {
		wrongType(n, l, "a map")
		return
	}
	m := reflect.MakeMapWithSize(v.Type(), len(n.Keys))
	for i, k := range n.Keys {
		e := reflect.New(v.Type().Elem()).Elem()
		decode(n.Values[i], e, l)
		m.SetMapIndex(reflect.ValueOf(k.Value), e)
	}
	v.Set(m)
}

func decodeStruct(n *Node, v reflect.Value, l *problem.List) {
	if n.Kind != MapKind {
		wrongType(n, l, "a map with the keys "+strings.Join(tagNames(v.Type()), ", "))
		return
	}
	t := v.Type()
	seen := make([]*Node, t.NumField())
	for i, k := range n.Keys {
		f := fieldByTag(t, k.Value)
		if f < 0 {
			names := tagNames(t)
			l.Add(k.Pos(), "unknown-key", fmt.Sprintf("unknown key %q", k.Value), keyHint(k.Value, names))
			continue
		}
		seen[f] = n.Values[i]
		decode(n.Values[i], v.Field(f), l)
	}
	for i := range t.NumField() {
		name, opt, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ",")
		switch {
		case opt != "required":
		case seen[i] == nil:
			l.Add(n.Pos(), "missing-key", fmt.Sprintf("%q is missing", name), "")
		case seen[i].Kind == ListKind && len(seen[i].Items) == 0:
			l.Add(seen[i].Pos(), "missing-value", fmt.Sprintf("%q is an empty list", name), "")
		}
	}
	if f := v.FieldByName("At"); f.IsValid() && f.Type() == reflect.TypeFor[problem.Pos]() {
		f.Set(reflect.ValueOf(n.Pos()))
	}
}

func keyHint(key string, names []string) string {
	if near := problem.Near(key, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "known keys: " + strings.Join(names, ", ")
}

func fieldByTag(t reflect.Type, key string) int {
	for i := range t.NumField() {
		if name, _, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ","); name == key && name != "" {
			return i
		}
	}
	return -1
}

func tagNames(t reflect.Type) []string {
	var names []string
	for i := range t.NumField() {
		if name, _, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ","); name != "" {
			names = append(names, name)
		}
	}
	return names
}
