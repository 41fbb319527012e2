package sheet

import "testing"

func BenchmarkResolveSample(b *testing.B) {
	s, l := Parse("snag.yaml", []byte(sample))
	if len(l) > 0 {
		b.Fatal(l)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, l := testLexicon.Resolve(s); len(l) > 0 {
			b.Fatal(l)
		}
	}
}

func BenchmarkParseSample(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, l := Parse("snag.yaml", []byte(sample)); len(l) > 0 {
			b.Fatal(l)
		}
	}
}
