package compact

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

type leaf struct {
	Name string
	P    float64
	N    int
	hide int
}

type tree struct {
	Title  string
	Leaves []leaf
	ByName map[string][]string
	Raw    []byte
	Box    [2]float64
	Maybe  *leaf
	Yes    bool
	Small  uint8
}

func TestDecodeGivesBackWhatWasEncoded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringN(0, 6, 20)
		one := rapid.Custom(func(t *rapid.T) leaf {
			return leaf{Name: word.Draw(t, "name"), P: rapid.Float64().Draw(t, "p"), N: rapid.Int().Draw(t, "n")}
		})
		want := tree{
			Title: word.Draw(t, "title"), Leaves: rapid.SliceOf(one).Draw(t, "leaves"),
			ByName: rapid.MapOf(word, rapid.SliceOf(word)).Draw(t, "map"), Raw: rapid.SliceOf(rapid.Byte()).Draw(t, "raw"),
			Box: [2]float64{1, math.Inf(1)}, Yes: rapid.Bool().Draw(t, "yes"), Small: rapid.Uint8().Draw(t, "small"),
		}
		if want.Yes {
			l := one.Draw(t, "maybe")
			want.Maybe = &l
		}
		text, err := Encode(&want)
		if err != nil {
			t.Fatal(err)
		}
		var got tree
		if err := Decode(text, &got); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(leaf{})); diff != "" {
			t.Fatal(diff)
		}
		again, _ := Encode(&got)
		if string(again) != string(text) {
			t.Fatal("the same data gave other bytes")
		}
	})
}

func TestDecodeRefusesBytesOfAnotherShape(t *testing.T) {
	text, _ := Encode(&leaf{Name: "a", hide: 1})
	var other tree
	if err := Decode(text, &other); !errors.Is(err, ErrStale) {
		t.Errorf("Decode into another type: %v, want ErrStale", err)
	}
	if _, err := Encode(&struct{ C chan int }{}); err == nil {
		t.Error("Encode of a channel gave no error")
	}
}

func FuzzDecodeOfDamagedBytes(f *testing.F) {
	text, _ := Encode(&tree{Title: "a", Leaves: []leaf{{Name: "b", P: 1}}, ByName: map[string][]string{"x": {"y"}}, Maybe: &leaf{}})
	f.Add(text, 9, byte(200))
	f.Add(text, len(text)-1, byte(0))
	f.Add([]byte{}, 0, byte(0))
	f.Fuzz(func(t *testing.T, text []byte, at int, to byte) {
		if at >= 8 && at < len(text) {
			text[at] = to
		}
		var got tree
		if err := Decode(text, &got); err == nil {
			if _, err := Encode(&got); err != nil {
				t.Fatal(err)
			}
		}
	})
}
