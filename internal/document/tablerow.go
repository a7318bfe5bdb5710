package document

import (
	"bytes"
	"strconv"

	"github.com/yuin/goldmark/ast"
)

// LineOf returns the offset at which the line of a block begins.
func (f *File) LineOf(n ast.Node) int {
	at := n.Pos()
	if at < 0 && n.Lines().Len() > 0 {
		at = n.Lines().At(0).Start
	}
	at = min(max(at, 0), len(f.body))
	for at > 0 && f.body[at-1] != '\n' {
		at--
	}
	return at
}

// CrossedRow adds a problem for a row that has more cells than its table has columns,
// because Markdown drops what is in them.
func (f *File) CrossedRow(row ast.Node, columns int) {
	at := f.LineOf(row)
	line, _ := cutLine(f.body[at:])
	line = bytes.Trim(line, " \t\r")
	line = bytes.TrimSuffix(bytes.TrimPrefix(line, []byte("|")), []byte("|"))
	if cells := 1 + bytes.Count(line, []byte("|")) - bytes.Count(line, []byte(`\|`)); cells > columns {
		f.Err(at, "a row with "+strconv.Itoa(cells)+" cells in a table of "+strconv.Itoa(columns)+" columns", "", `take a "|" out, or write a "|" that belongs to the words as "\|"`)
	}
}

// A Cell is the words of one cell of a table, and their offset. A cell without words has
// the offset of its place.
type Cell struct {
	Words string
	At    int
}

// Cells returns the cells of a row, as many as its table has columns.
func (f *File) Cells(row ast.Node, columns int) []Cell {
	out := make([]Cell, 0, columns)
	for c := row.FirstChild(); c != nil && len(out) < columns; c = c.NextSibling() {
		words, at := f.Text(c)
		if at < 0 {
			at = max(c.Pos(), f.LineOf(row))
		}
		out = append(out, Cell{words, at})
	}
	for len(out) < columns {
		out = append(out, Cell{At: f.LineOf(row)})
	}
	return out
}
