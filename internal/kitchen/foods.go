package kitchen

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Foods are a kitchen's own foods: what it knows of a food better than the built-in
// table, and what the food costs.
type Foods struct {
	ID     string // the file's name without ".md"
	File   string // as given to ParseFoods, for problems
	Title  string
	Rows   []FoodRow
	Source []byte // the file, byte for byte
}

// A FoodRow is one food, as its row in the table says it.
type FoodRow struct {
	larder.OwnFood
	Price *Price // nil where the row gives none
	Pos   document.Pos
}

// foodColumns are the columns of the table of foods, as a file heads them.
var foodColumns = []string{"food", "other names", "section", "each", "density", "trim", "allergens", "pack", "price", "keeps"}

// IsFoods reports whether a text is a kitchen's own foods: the first column of its first
// table is headed "food".
func IsFoods(src []byte) bool {
	before := ""
	for line := range strings.Lines(string(src[:min(len(src), document.MaxBytes)])) {
		line = strings.TrimSpace(line)
		if strings.Contains(line, "|") && strings.Contains(line, "-") && strings.Trim(line, "|-: \t") == "" && strings.Contains(before, "|") {
			first, _, _ := strings.Cut(strings.TrimPrefix(before, "|"), "|")
			return foodColumn(first) == "food"
		}
		before = line
	}
	return false
}

// foodColumn returns the column that a heading names, "" for none. Other usual headings
// count too.
func foodColumn(heading string) string {
	switch low := strings.ToLower(strings.TrimSpace(heading)); low {
	case "food", "foods":
		return "food"
	case "other names", "other name", "also", "also called":
		return "other names"
	case "section", "each", "density", "trim", "allergens", "pack", "price", "keeps":
		return low
	case "allergen", "contains":
		return "allergens"
	case "prices":
		return "price"
	}
	return ""
}

// ParseFoods reads a kitchen's own foods, as [Parse] reads a kitchen.
func ParseFoods(file string, src []byte) (*Foods, []document.Problem) {
	return ParseFoodsFor(file, src, quantity.USMeasures)
}

// ParseFoodsFor reads a kitchen's own foods, with pints of m where the file names no "rules".
func ParseFoodsFor(file string, src []byte, m quantity.Measures) (*Foods, []document.Problem) {
	p := &foodParser{File: document.Open(file, src)}
	p.MeasureBy(m)
	p.foods = &Foods{ID: document.ID(file), File: file, Source: src}
	for _, f := range p.Front {
		if f.Word == "rules" {
			p.Rules(f)
			continue
		}
		p.UnknownWord(f, []string{"rules"})
	}
	for n := p.Root.FirstChild(); n != nil; n = n.NextSibling() {
		switch n := n.(type) {
		case *ast.Heading:
			if words, _ := p.Text(n); n.Level == 1 && p.foods.Title == "" {
				p.foods.Title = strings.TrimSpace(words)
			}
		case *east.Table:
			p.table(n)
		case *ast.List:
			p.Err(p.LineOf(n), "a list is not read as foods", "", "give each food a row of the table")
		case *ast.Paragraph, *ast.CodeBlock:
			if words, at := p.Lines(n); strings.Contains(words, "|") {
				at += len(words) - len(strings.TrimLeft(words, " "))
				p.Err(at, `"`+document.Clip(words)+`" is no row of the table`, "", "put it right below the table's last row, with no empty line and no spaces before it")
			}
		}
	}
	p.named()
	if p.foods.Title == "" && !p.Unread() && len(src) > 0 {
		p.Warn(p.Top(), "the kitchen's foods have no title", "", `begin the file with "# " and its name`)
	}
	return p.foods, p.Done()
}

// foodParser reads one file of foods. Its methods for the cells of a row and for the
// names are in the files foodcells.go and foodnames.go.
type foodParser struct {
	*document.File
	foods  *Foods
	rows   []parsedRow
	priced *Price // the first price, whose currency is that of all
}

// A parsedRow is a row with the places of its names.
type parsedRow struct {
	FoodRow
	at       int
	othersAt []int // of OwnFood.Others
}

// table reads one table, a row a food.
func (p *foodParser) table(t *east.Table) {
	columns, ok := p.columns(t)
	if !ok {
		return
	}
	for row := t.FirstChild().NextSibling(); row != nil; row = row.NextSibling() {
		p.CrossedRow(row, len(columns))
		cells := map[string]document.Cell{}
		said := false
		for i, cell := range p.Cells(row, len(columns)) {
			cell.Words = strings.TrimSpace(cell.Words)
			if cell.Words == "–" || cell.Words == "-" {
				cell.Words = ""
			}
			said = said || cell.Words != ""
			if columns[i] != "" {
				cells[columns[i]] = cell
			}
		}
		switch {
		case !said:
		case cells["food"].Words == "":
			p.Err(p.LineOf(row), "a row without a food", "", "write the food's name in its first cell, or take the row out")
		default:
			p.row(cells)
		}
	}
}

// columns returns what each column of a table holds, "" for one that is not read. ok is
// false for a table without a column of foods.
func (p *foodParser) columns(t *east.Table) (out []string, ok bool) {
	has := map[string]bool{}
	for c := t.FirstChild().FirstChild(); c != nil; c = c.NextSibling() {
		words, at := p.Text(c)
		at = max(at, p.LineOf(t))
		col := foodColumn(words)
		switch {
		case col != "" && has[col]:
			p.Err(at, `a second column "`+words+`"`, "", "put both in one column")
			col = ""
		case col == "" && strings.TrimSpace(words) != "":
			if hint := document.Nearest(strings.ToLower(words), foodColumns); hint != "" {
				p.Err(at, `unknown column "`+words+`"`, hint, "")
			} else {
				p.Warn(at, `the column "`+words+`" is not read`, "", "the columns are "+strings.Join(foodColumns, ", "))
			}
		}
		has[col] = true
		out = append(out, col)
	}
	if !has["food"] {
		p.Err(p.LineOf(t), `a table without a column "food" is not read`, "", `head the column of names "food"`)
	}
	return out, has["food"]
}
