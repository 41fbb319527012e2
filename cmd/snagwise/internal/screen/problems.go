package screen

// Problems in what a person wrote, with the line and a mark under the place.

import (
	"bytes"
	"fmt"
	"strings"

	"snagwise/engine/problem"
)

// mostProblems is how many problems are written out before the rest is only
// counted.
const mostProblems = 50

// Problems writes each problem with its line of the file and a mark under the
// column. The text of a file comes from source, which returns nil if there is
// none; then, or if the place lies outside the text, only the message is
// written. After fifty problems the others are only counted.
func (s *Screen) Problems(list problem.List, source func(file string) []byte) {
	texts := make(map[string][][]byte)
	lines := func(file string) [][]byte {
		if _, ok := texts[file]; !ok {
			texts[file] = nil
			if source != nil {
				texts[file] = bytes.Split(source(file), []byte("\n"))
			}
		}
		return texts[file]
	}
	for i, p := range list {
		if i == mostProblems {
			s.Text(0, fmt.Sprintf("and %s", Count(len(list)-i, "more problem", "more problems")))
			return
		}
		s.problem(p, lines)
	}
}

func (s *Screen) problem(p problem.Problem, lines func(string) [][]byte) {
	text := p.Text
	if at := p.Pos.String(); at != "" {
		text = at + ": " + text
	}
	if p.Check != "" {
		text += " [" + p.Check + "]"
	}
	message := Wrap(flat(text), s.width-2)
	if Columns(flat(text)) <= s.width {
		message = []string{flat(text)}
	}
	for i := range message {
		if i > 0 {
			message[i] = "  " + message[i]
		}
	}
	s.lines(Strong, message...)
	if all := lines(p.Pos.File); p.Pos.Line > 0 && p.Pos.Line <= len(all) {
		s.place(p.Pos, string(bytes.ToValidUTF8(all[p.Pos.Line-1], []byte("?"))))
	}
	if p.Hint != "" {
		s.Text(2, p.Hint)
	}
}

// place writes the line and the mark. Of a long line only the neighbourhood of
// the place is shown.
func (s *Screen) place(at problem.Pos, line string) {
	gutter := fmt.Sprintf("%5d | ", at.Line)
	blank := strings.Repeat(" ", len(gutter)-2) + "| "
	room := s.width - len(gutter)
	before, after := split(line, max(at.Col-1, 0))
	if Columns(before)+Columns(after) > room {
		before, after = window(before, after, room)
	}
	s.lines(Plain, gutter+before+after)
	if at.Col > 0 {
		s.lines(Strong, blank+strings.Repeat(" ", Columns(before))+"^")
	}
}

// near is how many characters of a line are kept on each side of the place:
// more than any width can show.
const near = 1000

// split parts a line before its n-th character, counted from 0, and cleans
// both parts, of which it keeps what lies near.
func split(line string, n int) (before, after string) {
	from, at, to, count := 0, len(line), len(line), 0
	for i := range line {
		switch count {
		case n - near:
			from = i
		case n:
			at = i
		case n + near:
			to = i
		}
		if count++; count > n+near {
			break
		}
	}
	return Clean(line[from:at]), Clean(line[at:to])
}

// window cuts both parts so that they fit into the room, with dots where
// something was cut.
func window(before, after string, room int) (string, string) {
	left := room / 2
	if n := Columns(after); n < room-left {
		left = room - max(n, 1) // the mark needs a column
	}
	if Columns(before) > left {
		keep := []rune(before)
		keep = keep[max(len(keep)-4*room, 0):]
		for Columns(string(keep)) > left-3 {
			keep = keep[1:]
		}
		before = "..." + string(keep)
	}
	if right := room - Columns(before); Columns(after) > right {
		after = Cut(after, right-3) + "..."
	}
	return before, after
}
