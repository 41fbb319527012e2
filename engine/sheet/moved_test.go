package sheet

import "testing"

// A change told by its size alone says which way a reading went and no more.
func TestAChangeMayBeToldByItsSizeAlone(t *testing.T) {
	for _, tt := range []struct {
		text string
		want Judged
	}{
		{"down 150 psi", JudgedFalling},
		{"fell by 5-10 psi", JudgedFalling},
		{"Lost 3 psi", JudgedFalling},
		{"up 2 psi", JudgedRising},
		{"rose by 0.5 bar", JudgedRising},
	} {
		s, l := Parse("f", []byte("moments:\n  - readings: {oil_pressure: "+tt.text+"}\n"))
		a, more := testLexicon.Resolve(s)
		if l = append(l, more...); len(l) > 0 {
			t.Errorf("%s: %v", tt.text, l)
			continue
		}
		v := a.Moments[0].Readings[0]
		if v.Judged != tt.want || v.IsFigure {
			t.Errorf("%s: judged %v, figure %v, want %v and no figure", tt.text, v.Judged, v.IsFigure, tt.want)
		}
	}
	for _, tt := range []struct {
		text string
		col  int
	}{
		{"down 150 rpm", 34},     // no unit of pressure
		{"fell by 5 wotsit", 34}, // no unit at all
	} {
		s, l := Parse("f", []byte("moments:\n  - readings: {oil_pressure: "+tt.text+"}\n"))
		_, more := testLexicon.Resolve(s)
		l = append(l, more...)
		if len(l) != 1 || l[0].Check != "bad-quantity" || l[0].Pos.Line != 2 || l[0].Pos.Col < tt.col {
			t.Errorf("%s: %v, want one bad quantity from column %d of line 2", tt.text, l, tt.col)
		}
	}
}
