package screen

// Tables that fit.

import (
	"bytes"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// A Column is the head of a table's column.
type Column struct {
	Title string
	Right bool // figures: set to the right
}

// A Table is rows of cells under columns. A row with too few cells is filled
// up with empty ones, cells beyond the last column are left out.
type Table struct {
	Columns []Column
	Rows    [][]string
	Indent  int // columns of blank before it
	// Style gives the style of a row, counted from 0; nil means plain.
	Style func(row int) Style
}

const between = 2 // columns of blank between two columns of a table

// Table writes a table. Columns are as wide as they need to be; if they do
// not fit, the widest are narrowed and their cells wrapped. If even that
// leaves too little, each row is written as a list of titles and cells. A
// table without rows writes nothing.
func (s *Screen) Table(t Table) {
	if len(t.Rows) == 0 || len(t.Columns) == 0 || s.err != nil {
		return
	}
	indent := min(max(t.Indent, 0), s.width/4)
	widths := t.widths(s.width - indent)
	if widths == nil {
		s.asList(t, indent)
		return
	}
	var b bytes.Buffer
	table := newTable(&b, t.Columns)
	table.Header(t.cells(widths, func(c int) string { return t.Columns[c].Title }, nil))
	for r := range t.Rows {
		paint := func(line string) string { return line }
		if t.Style != nil {
			paint = func(line string) string { return s.paint(t.Style(r), line) }
		}
		if err := table.Append(t.cells(widths, func(c int) string { return t.cell(r, c) }, paint)); err != nil {
			s.err = err
			return
		}
	}
	if err := table.Render(); err != nil {
		s.err = err
		return
	}
	s.lines(Plain, margin(indent, strings.Split(strings.TrimRight(b.String(), "\n"), "\n"))...)
}

// newTable returns a bare table: two blanks between columns and one line under
// the heads, no wrapping and no change of words.
func newTable(w *bytes.Buffer, columns []Column) *tablewriter.Table {
	align := make(tw.Alignment, len(columns))
	for i, c := range columns {
		align[i] = tw.AlignLeft
		if c.Right {
			align[i] = tw.AlignRight
		}
	}
	pad := tw.Padding{Left: tw.Empty, Right: strings.Repeat(" ", between), Overwrite: true}
	pads := slices.Repeat([]tw.Padding{pad}, len(columns))
	pads[len(pads)-1].Right = tw.Empty
	symbols := tw.NewSymbolCustom("bare").WithRow("-").WithColumn("").WithCenter("-").
		WithMidLeft("").WithMidRight("").WithHeaderLeft("").WithHeaderMid("").WithHeaderRight("").
		WithTopLeft("").WithTopMid("").WithTopRight("").WithBottomLeft("").WithBottomMid("").WithBottomRight("")
	cell := tw.CellConfig{
		Formatting: tw.CellFormatting{AutoWrap: tw.WrapNone, AutoFormat: tw.Off},
		Alignment:  tw.CellAlignment{Global: tw.AlignLeft, PerColumn: align},
		Padding:    tw.CellPadding{Global: pad, PerColumn: pads},
	}
	return tablewriter.NewTable(w,
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders: tw.BorderNone,
			Symbols: symbols,
			Settings: tw.Settings{
				Separators: tw.Separators{ShowHeader: tw.Off, ShowFooter: tw.Off, BetweenRows: tw.Off, BetweenColumns: tw.Off},
				Lines:      tw.Lines{ShowTop: tw.Off, ShowBottom: tw.Off, ShowHeaderLine: tw.On, ShowFooterLine: tw.Off},
			},
		})),
		tablewriter.WithConfig(tablewriter.Config{Header: cell, Row: cell}),
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithTrimLine(tw.Off),
		tablewriter.WithEastAsian(tw.Off), // one measure of width for all, whatever the locale
	)
}

func (t *Table) cell(row, column int) string {
	if column >= len(t.Rows[row]) {
		return ""
	}
	return t.Rows[row][column]
}

// cells wraps one row into its widths, each line painted.
func (t *Table) cells(widths []int, text func(int) string, paint func(string) string) []string {
	out := make([]string, len(widths))
	for c, w := range widths {
		lines := Wrap(text(c), w)
		for i := range lines {
			if paint != nil {
				lines[i] = paint(lines[i])
			}
		}
		out[c] = strings.Join(lines, "\n")
	}
	return out
}

// narrow is the least width that a column of prose is cut down to, and long
// the longest word that is kept whole at the cost of other columns.
const narrow, long = 12, 24

// widths shares the room out: every column what it needs if that fits, else
// the widest are cut down alike, but none below its longest word while that
// can be helped. It returns nil if the columns would become too narrow to read.
func (t *Table) widths(room int) []int {
	room -= between * (len(t.Columns) - 1)
	need, word := make([]int, len(t.Columns)), make([]int, len(t.Columns))
	for c := range t.Columns {
		need[c], word[c] = measure(t.Columns[c].Title)
		for r := range t.Rows {
			n, w := measure(t.cell(r, c))
			need[c], word[c] = max(need[c], n, 1), max(word[c], w)
		}
	}
	for _, keep := range []int{room, long} {
		for limit := max(min(slices.Max(need), room), narrow); limit >= narrow; limit-- {
			widths, sum := make([]int, len(need)), 0
			for c := range need {
				widths[c] = max(min(need[c], limit), min(word[c], keep))
				sum += widths[c]
			}
			if sum <= room {
				return widths
			}
		}
	}
	return nil
}

// measure returns the columns that a text needs for its longest line and for
// its longest word.
func measure(text string) (line, word int) {
	for part := range strings.SplitSeq(Clean(text), "\n") {
		all := words(part)
		for _, w := range all {
			word = max(word, Columns(w))
		}
		line = max(line, Columns(strings.Join(all, " ")))
	}
	return line, word
}

// asList writes each row as titles and cells, one below the other.
func (s *Screen) asList(t Table, indent int) {
	at := 0
	for _, c := range t.Columns {
		at = max(at, Columns(c.Title)+2)
	}
	at = indent + min(at, s.width/3)
	for r := range t.Rows {
		if r > 0 {
			s.Gap()
		}
		for c, column := range t.Columns {
			if text := t.cell(r, c); text != "" {
				s.Pair(indent, at, column.Title, text)
			}
		}
	}
}
