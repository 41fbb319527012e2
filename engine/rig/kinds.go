package rig

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// Kinds is what holds for every rig: the kinds of part, the flows that join
// them, and what usually comes with each. It is not changed after LoadKinds.
type Kinds struct {
	Flows    []Flow
	Parts    []Kind
	Groups   []Group
	Controls []Control
	Usual    []UsualLink
	gauges   map[string]*document.Node // usual gauges by reading
	again    func() *Kinds             // reads them again from the files, for kinds of a compact form
	readings []string                  // those, sorted
	byID     map[string]int
	words    map[string][]string // kinds by folded word
}

// A Flow is something that runs from part to part.
type Flow struct {
	ID, Means string
	Words     []string // what people call it
}

// A Kind is a kind of part: all parts that fail alike and are joined alike.
type Kind struct {
	ID, Means, System string
	Carries           []string // flows
	Fails             []string // ways it fails, in words
	Words             []string // what people call it
	Paired            bool     // there is usually a left and a right one
	Trials            Trials
	At                problem.Pos
}

// Trials names the trials that stand for the usual ends of work on a part; each
// may be empty.
type Trials struct {
	Cured    string `yaml:"cured"`     // changed or cleaned, and the trouble went
	NoChange string `yaml:"no_change"` // changed or cleaned, no better
	Good     string `yaml:"good"`      // looked at or tested, and good
}

// A Group is what people call by one name though it is several kinds, or a
// thing inside a kind.
type Group struct {
	ID, Means string
	Parts     []string // kinds
	Words     []string
	Trials    Trials
	At        problem.Pos
}

// A Control is a lever or switch with its positions.
type Control struct {
	ID, Means string
	Part      string // kind it comes with
	Positions []string
	Words     []string
	Also      []document.Pair // other words for a position
	At        problem.Pos
}

// Position returns the position of c that a word means, or false. Case,
// underscores and hyphens do not matter.
func (c *Control) Position(word string) (string, bool) {
	w := foldWord(word)
	for _, p := range c.Positions {
		if foldWord(p) == w {
			return p, true
		}
	}
	for _, a := range c.Also {
		if foldWord(a.Key.Value) == w && slices.Contains(c.Positions, a.Value.Value) {
			return a.Value.Value, true
		}
	}
	return "", false
}

// A UsualLink says that a flow usually runs from one kind to another.
type UsualLink struct {
	Flow     string
	From, To int // indices in Kinds.Parts
}

// A File is the text of one file with its name.
type File struct {
	Name string
	Text []byte
}

// kindsFile is what a parts.yaml may hold.
type kindsFile struct {
	System document.Text `yaml:"system,required"`
	Flows  []struct {
		ID    document.Text `yaml:"id,required"`
		Means string        `yaml:"means,required"`
		Words []string      `yaml:"words"`
	} `yaml:"flows"`
	Parts []struct {
		ID      document.Text   `yaml:"id,required"`
		Means   string          `yaml:"means,required"`
		Carries []document.Text `yaml:"carries"`
		Fails   []string        `yaml:"fails"`
		Words   []string        `yaml:"words"`
		Paired  bool            `yaml:"paired"`
		Trials  Trials          `yaml:"trials"`
	} `yaml:"parts"`
	Groups []struct {
		ID     document.Text   `yaml:"id,required"`
		Means  string          `yaml:"means,required"`
		Parts  []document.Text `yaml:"parts,required"`
		Words  []string        `yaml:"words"`
		Trials Trials          `yaml:"trials"`
	} `yaml:"groups"`
	Controls []struct {
		ID        document.Text   `yaml:"id,required"`
		Means     string          `yaml:"means,required"`
		Part      document.Text   `yaml:"part,required"`
		Positions []document.Text `yaml:"positions,required"`
		Words     []string        `yaml:"words"`
		Also      []document.Pair `yaml:"also"`
	} `yaml:"controls"`
	Gauges  *document.Node `yaml:"gauges"`
	Usually *document.Node `yaml:"usually"`
}

// ReadKinds loads the kinds from every file named parts.yaml below the top of
// a file system, in the order of their names.
func ReadKinds(fsys fs.FS) (*Kinds, problem.List) {
	var files []File
	var l problem.List
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Base(name) != "parts.yaml" {
			return err
		}
		text, err := fs.ReadFile(fsys, name)
		files = append(files, File{name, text})
		return err
	})
	if err != nil {
		l.Addf(problem.Pos{}, "unreadable", "%v", err)
	}
	sort.Slice(files, func(i, j int) bool { return files[i].Name < files[j].Name })
	k, more := LoadKinds(files...)
	return k, append(l, more...).Sorted()
}

// LoadKinds reads the kinds of part from files. All faults of all files are
// reported at once; the kinds hold what could be read.
func LoadKinds(files ...File) (*Kinds, problem.List) {
	k := &Kinds{gauges: map[string]*document.Node{}, byID: map[string]int{}, words: map[string][]string{}}
	var l problem.List
	read := make([]kindsFile, len(files))
	for i, f := range files {
		node, faults := document.Parse(f.Name, f.Text)
		l = append(l, faults...)
		if node == nil {
			continue
		}
		l = append(l, document.Decode(node, &read[i])...)
		k.name(&read[i], &l)
	}
	for i := range read {
		k.tie(&read[i], &l)
	}
	for reading := range k.gauges {
		k.readings = append(k.readings, reading)
	}
	slices.Sort(k.readings)
	for _, reading := range k.readings {
		k.checkUsualGauge(reading, &l)
	}
	return k, l.Sorted()
}

// name takes in what a file names: flows and kinds.
func (k *Kinds) name(f *kindsFile, l *problem.List) {
	for _, w := range f.Flows {
		if k.flowAt(w.ID.Value) >= 0 {
			l.Addf(w.ID.At, "name-twice", "flow %q is already there", w.ID.Value)
			continue
		}
		checkID(w.ID, l)
		k.Flows = append(k.Flows, Flow{w.ID.Value, w.Means, w.Words})
	}
	for _, p := range f.Parts {
		id := p.ID.Value
		if id == "" {
			continue
		}
		if _, twice := k.byID[id]; twice {
			l.Addf(p.ID.At, "name-twice", "kind of part %q is already there", id)
			continue
		}
		if len(k.Parts) >= maxParts {
			l.Addf(p.ID.At, "too-many", "more than %d kinds of part", maxParts)
			return
		}
		checkID(p.ID, l)
		k.byID[id] = len(k.Parts)
		k.Parts = append(k.Parts, Kind{ID: id, Means: p.Means, System: f.System.Value, Carries: values(p.Carries),
			Fails: p.Fails, Words: p.Words, Paired: p.Paired, Trials: p.Trials, At: p.ID.At})
		k.call(id, append([]string{id}, p.Words...))
	}
}

// tie takes in what refers to kinds and flows; all must be named by now.
func (k *Kinds) tie(f *kindsFile, l *problem.List) {
	for _, p := range f.Parts {
		for _, flow := range p.Carries {
			k.wantFlow(flow, l)
		}
	}
	for _, g := range f.Groups {
		if slices.ContainsFunc(k.Groups, func(o Group) bool { return o.ID == g.ID.Value }) {
			l.Addf(g.ID.At, "name-twice", "group %q is already there", g.ID.Value)
			continue
		}
		checkID(g.ID, l)
		var parts []string
		for _, p := range g.Parts {
			if k.wantKind(p, l) >= 0 {
				parts = append(parts, p.Value)
			}
		}
		k.Groups = append(k.Groups, Group{g.ID.Value, g.Means, parts, g.Words, g.Trials, g.ID.At})
		for _, p := range parts {
			k.call(p, append([]string{g.ID.Value}, g.Words...))
		}
	}
	for _, c := range f.Controls {
		k.takeControl(Control{c.ID.Value, c.Means, c.Part.Value, values(c.Positions), c.Words, c.Also, c.ID.At}, c.ID, c.Part, l)
	}
	k.takeGauges(f.Gauges, l)
	k.takeUsual(f.Usually, l)
}

func (k *Kinds) takeControl(c Control, id, part document.Text, l *problem.List) {
	if slices.ContainsFunc(k.Controls, func(o Control) bool { return o.ID == c.ID }) {
		l.Addf(id.At, "name-twice", "control %q is already there", c.ID)
		return
	}
	checkID(id, l)
	k.wantKind(part, l)
	if len(c.Positions) < 2 {
		l.Add(id.At, "no-choice", fmt.Sprintf("control %q has fewer than two positions", c.ID), "list every position it can stand in")
	}
	for _, a := range c.Also {
		if !slices.Contains(c.Positions, a.Value.Value) {
			l.Add(a.Value.At, "unknown-position", fmt.Sprintf("unknown position %q", a.Value.Value), problem.DidYouMean(a.Value.Value, c.Positions))
		}
	}
	k.Controls = append(k.Controls, c)
}

func (k *Kinds) takeGauges(n *document.Node, l *problem.List) {
	if n == nil || n.Kind == document.Null {
		return
	}
	if n.Kind != document.MapKind {
		l.Add(n.Pos(), "wrong-type", "gauges must be a map", "wanted {reading: {unit: ..., bands: ...}}")
		return
	}
	for i, key := range n.Keys {
		if k.gauges[key.Value] != nil {
			l.Addf(key.Pos(), "name-twice", "the usual gauge of %q is already there", key.Value)
			continue
		}
		k.gauges[key.Value] = n.Values[i]
	}
}

func (k *Kinds) takeUsual(n *document.Node, l *problem.List) {
	eachChain(n, k.flowNames(), l, func(flow string, chain []document.Text) {
		last := -1
		for _, name := range chain {
			i := k.wantKind(name, l)
			switch link := (UsualLink{flow, last, i}); {
			case i < 0 || last < 0:
			case i == last:
				l.Addf(name.At, "to-itself", "%q is joined to itself", name.Value)
			case len(k.Usual) >= maxLinks/10:
				l.Addf(name.At, "too-many", "more than %d usual links", maxLinks/10)
			case !slices.Contains(k.Usual, link):
				k.Usual = append(k.Usual, link)
			}
			last = i
		}
	})
}

// checkUsualGauge reads a usual gauge once for its faults.
func (k *Kinds) checkUsualGauge(reading string, l *problem.List) {
	node := k.gauges[reading]
	var f gaugeFile
	*l = append(*l, document.Decode(node, &f)...)
	for _, t := range f.Tap {
		k.wantKind(t, l)
	}
	g := Gauge{Reading: reading}
	g.fill(&f, l)
}

// Kind returns the index of a kind of part.
func (k *Kinds) Kind(id string) (int, bool) {
	i, ok := k.byID[id]
	return i, ok
}

// Group returns the group with an id.
func (k *Kinds) Group(id string) (*Group, bool) {
	for i := range k.Groups {
		if k.Groups[i].ID == id {
			return &k.Groups[i], true
		}
	}
	return nil, false
}

// GroupOf returns the first group that holds a kind, or "".
func (k *Kinds) GroupOf(kind string) string {
	for i := range k.Groups {
		if len(k.Groups[i].Parts) > 1 && slices.Contains(k.Groups[i].Parts, kind) {
			return k.Groups[i].ID
		}
	}
	return ""
}

// TrialsOf returns the trials that stand for work on what goes by a word, with
// the kinds of part that it means: a group by its id or one of its words, else a
// kind by its id. There are none for words that nothing of the sort is called.
func (k *Kinds) TrialsOf(word string) (Trials, []string) {
	w := foldWord(word)
	for i := range k.Groups {
		g := &k.Groups[i]
		if foldWord(g.ID) == w || slices.ContainsFunc(g.Words, func(o string) bool { return foldWord(o) == w }) {
			return g.Trials, g.Parts
		}
	}
	for i := range k.Parts {
		if foldWord(k.Parts[i].ID) == w {
			return k.Parts[i].Trials, []string{k.Parts[i].ID}
		}
	}
	return Trials{}, nil
}

// UsualReadings returns the readings that have usual bands, sorted.
func (k *Kinds) UsualReadings() []string { return slices.Clone(k.readings) }

// UsualTaps returns the kinds of part at one of which a reading is usually had,
// or none where nothing is usual of it.
func (k *Kinds) UsualTaps(reading string) []string {
	node := k.usualGauge(reading)
	if node == nil {
		return nil
	}
	var f gaugeFile
	document.Decode(node, &f) // its faults are those of the file of kinds
	var out []string
	for _, t := range f.Tap {
		out = append(out, t.Value)
	}
	return out
}

// usualGauge returns what is usual of the gauge of a reading, or nil.
func (k *Kinds) usualGauge(reading string) *document.Node {
	if k.again != nil {
		if full := k.again(); full != nil {
			return full.gauges[reading]
		}
	}
	return k.gauges[reading]
}

func (k *Kinds) call(kind string, words []string) {
	for _, w := range words {
		w = foldWord(w)
		if !slices.Contains(k.words[w], kind) {
			k.words[w] = append(k.words[w], kind)
		}
	}
}

func (k *Kinds) called(word string) []string { return k.words[word] }

func (k *Kinds) flowAt(id string) int {
	return slices.IndexFunc(k.Flows, func(f Flow) bool { return f.ID == id })
}

func (k *Kinds) flowNames() []string {
	var names []string
	for _, f := range k.Flows {
		names = append(names, f.ID)
	}
	return names
}

func (k *Kinds) kindNames() []string {
	var names []string
	for i := range k.Parts {
		names = append(names, k.Parts[i].ID)
	}
	return names
}

func (k *Kinds) wantFlow(t document.Text, l *problem.List) {
	if k.flowAt(t.Value) < 0 {
		l.Add(t.At, "unknown-name", fmt.Sprintf("unknown flow %q", t.Value), problem.DidYouMean(t.Value, k.flowNames()))
	}
}

func (k *Kinds) wantKind(t document.Text, l *problem.List) int {
	i, ok := k.byID[t.Value]
	if !ok {
		l.Add(t.At, "unknown-name", fmt.Sprintf("unknown kind of part %q", t.Value), problem.DidYouMean(t.Value, k.kindNames()))
		return -1
	}
	return i
}

// eachChain calls use for every chain of a map from flows to lists of chains.
func eachChain(n *document.Node, flows []string, l *problem.List, use func(flow string, chain []document.Text)) {
	if n == nil || n.Kind == document.Null {
		return
	}
	if n.Kind != document.MapKind {
		l.Add(n.Pos(), "wrong-type", "connections must be a map", "wanted {flow: [[part, part, ...], ...]}")
		return
	}
	for i, key := range n.Keys {
		if !slices.Contains(flows, key.Value) {
			l.Add(key.Pos(), "unknown-name", fmt.Sprintf("unknown flow %q", key.Value), problem.DidYouMean(key.Value, flows))
			continue
		}
		if n.Values[i].Kind != document.ListKind && n.Values[i].Kind != document.Null {
			l.Add(n.Values[i].Pos(), "wrong-type", "a flow must be a list of chains", "wanted [[part, part, ...], ...]")
			continue
		}
		for _, item := range n.Values[i].Items {
			if enough(*l) {
				return
			}
			if item.Kind != document.ListKind {
				l.Add(item.Pos(), "wrong-type", "a chain must be a list of parts", "wanted [part, part, ...]")
				continue
			}
			var chain []document.Text
			*l = append(*l, document.Decode(item, &chain)...)
			if len(chain) < 2 {
				l.Add(item.Pos(), "short-chain", "a chain joins at least two parts", "wanted [part, part, ...]")
				continue
			}
			use(key.Value, chain)
		}
	}
}

func values(texts []document.Text) []string {
	var list []string
	for _, t := range texts {
		list = append(list, t.Value)
	}
	return list
}

// checkID reports an id that could not stand in a condition.
func checkID(t document.Text, l *problem.List) {
	ok := t.Value != "" && len(t.Value) <= 80
	for i, r := range t.Value {
		ok = ok && (r >= 'a' && r <= 'z' || i > 0 && (r == '_' || r >= '0' && r <= '9'))
	}
	if !ok {
		l.Add(t.At, "bad-id", fmt.Sprintf("%q is no id", t.Value), "lower-case letters, digits and underscores, a letter first")
	}
}

// foldWord makes names comparable: lower case, one blank between words.
func foldWord(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return r == ' ' || r == '_' || r == '-' || r == '\t'
	}), " ")
}
