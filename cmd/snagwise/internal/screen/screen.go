// Package screen puts words, tables and problems on a terminal, or into a
// file or pipe, so that they can be read in eighty columns, without colour and
// out of doors.
//
// A [Screen] takes what it is given and never writes a line wider than its
// width. Colour is used on a terminal only, and says nothing that the words do
// not. Text may come from strangers' files: control characters are taken out
// before it is shown.
//
//	s := screen.Open(os.Stdout, os.Getenv)
//	s.Heading("What is likely")
//	s.Text(0, "The fuel filter is choked: "+screen.Chance(.7)+".")
//	return s.Err()
package screen

import (
	"bytes"
	"io"
	"os"
	"strconv"
	"strings"

	"golang.org/x/term"
)

// Widths of a screen, in columns.
const (
	usual  = 80
	widest = 100
	least  = 40
)

// A Screen is where a command writes for people. It keeps the first error of
// writing and goes on without writing after it, so that callers ask once, at
// the end.
type Screen struct {
	w      io.Writer
	width  int
	colour bool
	begun  bool // something has been written
	gap    bool // the last line was empty
	err    error
}

// Open returns a screen on w. Its width is that of COLUMNS if set to a number,
// else that of the terminal if w is one, else 80, and in any case from 40 to
// 100. It has colour if w is a terminal other than a dumb one and NO_COLOR is
// unset or empty. The environment is read through env, such as os.Getenv.
//
// Source for NO_COLOR: no-color.org (from memory).
func Open(w io.Writer, env func(string) string) *Screen {
	terminal, wide := false, 0
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		terminal = true
		if n, _, err := term.GetSize(int(f.Fd())); err == nil {
			wide = n
		}
	}
	return open(w, env, terminal, wide)
}

func open(w io.Writer, env func(string) string, terminal bool, wide int) *Screen {
	if n, err := strconv.Atoi(env("COLUMNS")); err == nil && n > 0 {
		wide = n
	}
	if wide <= 0 {
		wide = usual
	}
	return &Screen{
		w:      w,
		width:  min(max(wide, least), widest),
		colour: terminal && env("NO_COLOR") == "" && env("TERM") != "dumb",
	}
}

// Width returns how many columns a line may have, 40 to 100.
func (s *Screen) Width() int { return s.width }

// Err returns the first error of writing.
func (s *Screen) Err() error { return s.err }

// A Style is how words stand out on a terminal with colour. Elsewhere all
// styles look alike, so a style must never be the only sign of anything.
type Style uint8

const (
	Plain Style = iota
	Strong
	Alarm // what must be done at once
	Quiet // what may be skipped
)

// paint wraps one line in the style. The line is clean already.
func (s *Screen) paint(style Style, line string) string {
	code := map[Style]string{Strong: "1", Alarm: "1;31", Quiet: "2"}[style]
	if !s.colour || code == "" || line == "" {
		return line
	}
	return "\x1b[" + code + "m" + line + "\x1b[0m"
}

// lines writes finished lines, in one call.
func (s *Screen) lines(style Style, lines ...string) {
	if s.err != nil || len(lines) == 0 {
		return
	}
	var b bytes.Buffer
	for _, l := range lines {
		b.WriteString(s.paint(style, strings.TrimRight(l, " ")))
		b.WriteByte('\n')
	}
	_, s.err = s.w.Write(b.Bytes())
	s.begun = true
	s.gap = lines[len(lines)-1] == ""
}

// Gap leaves one line empty, unless nothing has been written yet or the line
// before is empty already.
func (s *Screen) Gap() {
	if s.begun && !s.gap {
		s.lines(Plain, "")
	}
}

// Heading writes the title of a part: a gap, the words, and a line beneath
// them.
func (s *Screen) Heading(text string) {
	s.Gap()
	lines := Wrap(text, s.width)
	rule := 0
	for _, l := range lines {
		rule = max(rule, Columns(l))
	}
	s.lines(Strong, lines...)
	s.lines(Plain, strings.Repeat("-", rule))
}

// Text writes a paragraph, wrapped and indented by so many columns.
func (s *Screen) Text(indent int, text string) { s.Styled(Plain, indent, text) }

// Styled writes a paragraph in a style.
func (s *Screen) Styled(style Style, indent int, text string) {
	s.hang(style, indent, "", text)
}

// Verbatim writes one line with its blanks as they stand, cut to the width.
func (s *Screen) Verbatim(line string) { s.lines(Plain, Cut(flat(line), s.width)) }

// Item writes a paragraph that hangs from a mark, such as "- " or "1. ": the
// lines after the first begin below the text, not below the mark.
func (s *Screen) Item(indent int, mark, text string) { s.hang(Plain, indent, mark, text) }

// Alert writes what must be done at once: a word such as "STOP", and the text
// hanging from it.
func (s *Screen) Alert(word, text string) { s.hang(Alarm, 0, word+"  ", text) }

// Pair writes a label and its text, the text beginning at column at, counted
// from 0; a label that is longer pushes the first line to the right.
func (s *Screen) Pair(indent, at int, label, text string) {
	mark := flat(label)
	mark += strings.Repeat(" ", max(at-indent-Columns(mark), 2))
	if indent+Columns(mark) > max(at, 2) && Columns(text) > s.width-indent-Columns(mark) {
		s.Text(indent, label)
		s.Text(at, text)
		return
	}
	s.hang(Plain, indent, mark, text)
}

// hang writes text with its lines beginning after the mark.
func (s *Screen) hang(style Style, indent int, mark, text string) {
	mark = flat(mark)
	indent = min(max(indent, 0), s.width/2)
	left := indent + Columns(mark)
	if left > s.width/2 { // no room beside so long a mark
		left = min(indent+2, s.width/2)
		s.lines(style, margin(indent, Wrap(mark, s.width-indent))...)
		mark = ""
	}
	lines := margin(left, Wrap(text, s.width-left))
	if mark != "" {
		lines[0] = strings.Repeat(" ", indent) + mark + lines[0][left:]
	}
	s.lines(style, lines...)
}

// margin puts so many blanks before each line.
func margin(n int, lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = strings.Repeat(" ", n) + l
	}
	return out
}
