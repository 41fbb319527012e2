package screen

// Measuring, cleaning and wrapping text.

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
)

// Columns returns how many columns a text takes on a terminal: two for a wide
// character, none for an accent that stands on the one before.
func Columns(text string) int {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return twwidth.WidthWithOptions(text, twwidth.Options{})
		}
	}
	return len(text)
}

// Clean returns the text without anything that a terminal would obey rather
// than show: control characters and marks that turn the reading direction
// round become a question mark; tabs become a blank; line ends stay.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case r == '\r' || r == '\ufeff':
			return -1
		case unicode.IsControl(r), r == unicode.ReplacementChar,
			r >= 0x200e && r <= 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
			return '?'
		}
		return r
	}, text)
}

// flat returns a text cleaned and on one line, its blanks as they were.
func flat(text string) string { return strings.ReplaceAll(Clean(text), "\n", " ") }

// Wrap breaks a text into lines of at most width columns, between words where
// it can and within a word where it must. Line ends in the text are kept,
// other runs of blanks become one, and there is at least one line. The text
// is cleaned first.
func Wrap(text string, width int) []string {
	width = max(width, 2) // a wide character must fit
	var lines []string
	for part := range strings.SplitSeq(Clean(text), "\n") {
		lines = append(lines, wrapLine(part, width)...)
	}
	return lines
}

func wrapLine(text string, width int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range words(text) {
		n := Columns(word)
		if line != "" && used+1+n <= width {
			line, used = line+" "+word, used+1+n
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for n > width {
			head := Cut(word, width)
			lines = append(lines, head)
			word = word[len(head):]
			n = Columns(word)
		}
		line, used = word, n
	}
	return append(lines, line)
}

// words parts a line at its blanks, save the one before a % sign.
func words(line string) []string {
	all := strings.Fields(line)
	kept := all[:0]
	for i, w := range all {
		if i > 0 && strings.HasPrefix(w, "%") {
			kept[len(kept)-1] += " " + w
			continue
		}
		kept = append(kept, w)
	}
	return kept
}

// Cut returns the longest beginning of a text that fits into so many columns
// and, so that a pile of accents does not grow without end, into four times
// as many characters; but always one character at least.
func Cut(text string, width int) string {
	count, end := 0, 0
	for end < len(text) {
		_, size := utf8.DecodeRuneInString(text[end:])
		if count > 0 && (count >= 4*width || Columns(text[:end+size]) > width) {
			break
		}
		count, end = count+1, end+size
	}
	return text[:end]
}

// Clip returns a text cut to so many columns with dots where the rest was;
// line ends become blanks.
func Clip(text string, width int) string {
	text = strings.Join(strings.Fields(Clean(text)), " ")
	if Columns(text) <= width {
		return text
	}
	return Cut(text, max(width-3, 1)) + "..."
}
