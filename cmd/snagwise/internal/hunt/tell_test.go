package hunt

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
	"snagwise/engine/hunt"
)

var engine = sync.OnceValue(func() *diagnose.Engine {
	lib, l := load.Open(load.Choice{})
	if len(l) > 0 {
		panic(l)
	}
	r, l := lib.Rig(load.Usual)
	if len(l) > 0 {
		panic(l)
	}
	e, l := lib.Engine(r)
	if len(l) > 0 {
		panic(l)
	}
	return e
})

// sitting is a session over a new journal in a folder of its own.
func sitting(t testing.TB, typed string) *Session {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 8, 15, 14, 40, 0, 0, time.UTC) }
	dir := t.TempDir()
	j, err := Create(dir, "x", Header{Rig: "hollin", Began: now().Format(time.RFC3339)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := j.Close(); err != nil {
			t.Error(err)
		}
	})
	s := &Session{In: bufio.NewReader(strings.NewReader(typed)), Out: io.Discard, Now: now, Dir: dir,
		Page: screen.Open(io.Discard, func(string) string { return "" })}
	s.Begin(hunt.New(engine(), nil), j)
	return s
}

// TestTell: what is typed becomes facts, each at its moment.
func TestTell(t *testing.T) {
	idle, crank := hunt.Moment{Phase: "idle"}, hunt.Moment{Phase: "crank"}
	for _, tt := range []struct {
		said string
		want []hunt.Fact
		wait []hunt.Pending
	}{
		{"black smoke, at idle", []hunt.Fact{{Kind: hunt.Seen, Name: "black_smoke", At: idle}}, nil},
		{"at idle black smoke and oil pressure 55", []hunt.Fact{
			{Kind: hunt.Seen, Name: "black_smoke", At: idle}, {Kind: hunt.Read, Name: "oil_pressure", Values: []string{"55 psi"}, At: idle}}, nil},
		{"idle: no black smoke", []hunt.Fact{{Kind: hunt.NotSeen, Name: "black_smoke", At: idle}}, nil},
		{"!black_smoke", []hunt.Fact{{Kind: hunt.NotSeen, Name: "black_smoke"}}, nil},
		{"won't fire", []hunt.Fact{{Kind: hunt.Seen, Name: "cranks_no_fire", At: crank}}, nil},
		{"cold day", []hunt.Fact{{Kind: hunt.Circumstance, Name: "cold_day"}}, nil},
		{"at idle, booster on, oil pressure?", []hunt.Fact{{Kind: hunt.Unread, Name: "oil_pressure", At: idle.With("booster=on")}}, nil},
		{"rpm 1,750", nil, []hunt.Pending{{Text: "engine_rpm", Reading: "engine_rpm", Values: []string{"1750 rpm"}}}},
		{"oil pressure", nil, []hunt.Pending{{Text: "oil pressure", Reading: "oil_pressure"}}},
		{"no charge whatever I try", nil, []hunt.Pending{{Text: "no charge whatever I try"}}},
		{"without any purple smoke", nil, []hunt.Pending{{Text: "any purple smoke", Denied: true}}},
		{"oil_cooler.leaks=oil", []hunt.Fact{part("part", "oil_cooler", "leaks", "oil")}, nil},
		{"oil cooler . leaks = petrol", []hunt.Fact{part("part", "oil_cooler", "leaks", "fuel")}, nil},
		{"oil cooler leaks oil", []hunt.Fact{part("part", "oil_cooler", "leaks", "oil")}, nil},
		{"oil leaking from the oil cooler", []hunt.Fact{part("part", "oil_cooler", "leaks", "oil")}, nil},
		{"oil_cooler.leaks=oil, oil cooler.how_much=drips", []hunt.Fact{part("part", "oil_cooler", "leaks", "oil", "how_much", "drips")}, nil},
		{"left magneto.changed=no help", []hunt.Fact{part("part", "magneto_left", "changed", "no better")}, nil},
		{"fuel fine filter changed, no help", []hunt.Fact{part("part", "fuel_fine_filter", "changed", "no better")}, nil},
		{"magneto.felt=hot", []hunt.Fact{part("part", "magneto", "felt", "hot")}, nil}, // either may be meant
		{"fuel fine filter.worked_on=cleaned and refitted and black smoke", []hunt.Fact{{Kind: hunt.Seen, Name: "black_smoke"}, part("part", "fuel_fine_filter", "worked_on", "cleaned and refitted")}, nil},
		{"fuel_fine_filter.worked_on=cleaned, fuel fine filter.when=this morning", []hunt.Fact{part("part", "fuel_fine_filter", "worked_on", "cleaned", "when", "this morning")}, nil},
		{"starter motor felt very hot", []hunt.Fact{part("part", "starter_motor", "felt", "hot")}, nil},
		{"fuel good as far as the engine fuel pump, gone at the fuel fine filter", []hunt.Fact{part("flow", "fuel", "good_as_far_as", "engine_fuel_pump", "gone_at", "fuel_fine_filter")}, nil},
		{"fuel.good_as_far_as=engine fuel pump and fuel.gone_at=fuel fine filter", []hunt.Fact{part("flow", "fuel", "good_as_far_as", "engine_fuel_pump", "gone_at", "fuel_fine_filter")}, nil},
		{"oil coler.leaks=oil", nil, []hunt.Pending{{Text: "oil coler", Part: map[string][]string{"part": {"oil coler"}, "leaks": {"oil"}}}}},
		{"oil cooler.leaks=orl", nil, nil},
		{"oil cooler.leeks=oil", nil, nil},
		{"!oil cooler.leaks=oil", nil, nil},
		{"oil cooler.how_much=drips", nil, nil},
		{"yes", nil, nil},
		{"12", nil, nil},
		{"?", nil, nil},
		{"", nil, nil},
	} {
		s := sitting(t, "")
		steps, _ := s.tell(tt.said)
		var facts []hunt.Fact
		var wait []hunt.Pending
		for _, st := range steps {
			if st.Tell != nil {
				facts = append(facts, *st.Tell)
			}
			wait = append(wait, st.Wait...)
		}
		if d := cmp.Diff([]any{tt.want, tt.wait}, []any{facts, wait}); d != "" {
			t.Errorf("tell(%q) (-want +got):\n%s", tt.said, d)
		}
	}
}

// part is a statement about a part, as keys and words by turns.
func part(words ...string) hunt.Fact {
	f := hunt.Fact{Kind: hunt.Part, Part: map[string][]string{}}
	for i := 0; i < len(words); i += 2 {
		f.Part[words[i]] = []string{words[i+1]}
	}
	return f
}

// TestParseSlot: minutes from now, or a time of day, the next such.
func TestParseSlot(t *testing.T) {
	now := time.Date(2026, 8, 15, 14, 40, 20, 0, time.UTC)
	for _, tt := range []struct{ text, want string }{
		{"20m", "15:00"}, {"20", "15:00"}, {"20 minutes", "15:00"}, {"1h10m", "15:50"}, {"15:05", "15:05"}, {"15.05", "15:05"}, {"1505", "15:05"}, {"14:30", "14:30"}, {"02:00", "02:00"},
	} {
		got, err := ParseSlot(tt.text, now)
		if err != nil || got.Format("15:04") != tt.want {
			t.Errorf("ParseSlot(%q) = %v, %v, want %s", tt.text, got, err, tt.want)
		}
	}
	if got, err := ParseSlot("02:00", now); err != nil || got.Day() != 16 {
		t.Errorf("ParseSlot(02:00) = %v, %v, want tomorrow", got, err)
	}
	for _, text := range []string{"", "soon", "-5m", "25:00", "900h", "1e400"} {
		if got, err := ParseSlot(text, now); err == nil {
			t.Errorf("ParseSlot(%q) = %v, want an error", text, got)
		}
	}
}

// TestWriteWhole: a file is replaced whole, and nothing else is left.
func TestWriteWhole(t *testing.T) {
	name := filepath.Join(t.TempDir(), "x.yaml")
	for _, text := range []string{"one", "two and more"} {
		if err := WriteWhole(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != text {
			t.Errorf("%q, %v, want %q", got, err, text)
		}
	}
	if list, err := os.ReadDir(filepath.Dir(name)); err != nil || len(list) != 1 {
		t.Errorf("%v, %v, want the one file", list, err)
	}
	if err := WriteWhole(filepath.Join(name, "below"), nil); err == nil {
		t.Error("a file below a file is written, want an error")
	}
}

// FuzzTell: whatever is typed, nothing panics, and what is kept goes together.
func FuzzTell(f *testing.F) {
	for _, seed := range []string{"black smoke, at idle", "oil pressure 55 psi", "!x", "booster=on", "rpm 2400 -> 1950", "no, not, never", "\x1b[2J", "mag drop 140 on the left", "idle: : at idle", "oil cooler.leaks=oil", "x.felt=hot", ".=", "fuel good as far as x, gone at y", "changed the left magneto, no better", "1e999 psi", "é?"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		s := sitting(t, "")
		steps, _ := s.tell(screen.Clean(typed))
		if _, err := s.Answer(typed, steps); err != nil {
			t.Fatal(err)
		}
		if _, l := s.hunt.Account(); len(l) > 0 {
			t.Errorf("%q was kept and does not go together: %v", typed, l)
		}
	})
}

// FuzzJournal: whatever a journal holds, it is opened or refused with its
// place, and a line cut short is never taken for an answer.
func FuzzJournal(f *testing.F) {
	head := `{"hunt":1,"rig":"hollin","began":"2026-08-15T14:40:00Z"}` + "\n"
	for _, seed := range []string{"", head, head + `{"said":"x"}` + "\n", head + `{"said":"x"`, "{}\n", head + "[1]\n", head + `{"steps":[{"take":99}]}` + "\n", "\x00\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "x"+ending), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		j, err := Open(dir, "x")
		if err != nil {
			return
		}
		if n := strings.Count(text, "\n"); len(j.Read) > n-1 {
			t.Errorf("%d answers from %d whole lines", len(j.Read), n)
		}
		if err := j.Close(); err != nil {
			t.Fatal(err)
		}
	})
}
