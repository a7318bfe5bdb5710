package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// column is what a column of the formula's table holds.
type column uint8

const (
	colOther column = iota
	colAmount
	colItem
	colPrep
	colTrim
	colEach
	colPercent
	columns
)

var columnNames = []string{"amount", "item", "prep", "trim", "each", "%"}

// columnOf returns the column that a heading names. Other usual headings count
// too.
func columnOf(heading string) column {
	switch strings.ToLower(heading) {
	case "amount", "amounts", "quantity", "qty", "weight", "how much":
		return colAmount
	case "item", "items", "ingredient", "ingredients", "what", "name":
		return colItem
	case "prep", "preparation", "note", "notes", "how":
		return colPrep
	case "trim", "trim %", "waste":
		return colTrim
	case "each", "each weighs":
		return colEach
	case "%", "percent", "baker's %", "baker’s %", "bakers %":
		return colPercent
	}
	return colOther
}

// cell is one cell with its words and their offset.
type cell struct {
	node  ast.Node
	words string
	at    int
}

// formulaTable reads the table of the formula, a row an item.
func (p *parser) formulaTable(t *east.Table, group string) {
	var buf [16]column
	cols, ok := p.formulaColumns(t, buf[:0])
	defer func() { p.amountless = false }()
	if !ok {
		return
	}
	p.expect(t.ChildCount() - 1)
	for row := t.FirstChild().NextSibling(); row != nil; row = row.NextSibling() {
		p.CrossedRow(row, len(cols))
		var cells [columns]cell
		i, short := 0, 0
		for c := row.FirstChild(); c != nil && i < len(cols); c, i = c.NextSibling(), i+1 {
			if c.Lines().Len() == 0 {
				short++ // added by the parser
			}
			if cols[i] == colOther {
				continue
			}
			words, at := p.Text(c)
			if at < 0 {
				at = c.Pos()
			}
			cells[cols[i]] = cell{c, words, at}
		}
		p.tableRow(row, &cells, short, &group)
	}
}

// formulaColumns appends the columns of a table to cols. It notes a table without
// amounts; ok is false for a table without items, which can't be read.
func (p *parser) formulaColumns(t *east.Table, cols []column) (_ []column, ok bool) {
	var has [columns]bool
	near := map[string]bool{} // columns that a misspelt heading was probably meant for
	for c := t.FirstChild().FirstChild(); c != nil; c = c.NextSibling() {
		words, wordsAt := p.Text(c)
		col := columnOf(words)
		if col != colOther && has[col] {
			p.Warn(wordsAt, `a second column "`+words+`"`, "", "it is not read; give it another heading")
			col = colOther
		}
		if col == colOther && words != "" && columnOf(words) == colOther {
			if hint := document.Nearest(strings.ToLower(words), columnNames); hint != "" {
				near[hint] = true
				p.Err(wordsAt, `unknown column "`+words+`"`, strings.ToUpper(hint[:1])+hint[1:], "")
			} else {
				p.Warn(wordsAt, `the column "`+words+`" is not read`, "", `the columns are Amount, Item, Prep, Trim, Each and %; put what cooks must know in "Prep"`)
			}
		}
		has[col] = true
		cols = append(cols, col)
	}
	p.amountless = !has[colAmount] && !has[colPercent]
	if !has[colItem] {
		if !near["item"] {
			p.Err(t.Pos(), `the formula's table has no column "Item"`, "", `head the column of names "Item"`)
		}
		return cols, false
	}
	if p.amountless && !near["amount"] {
		p.Err(t.Pos(), `the formula's table has no column "Amount"`, "", `head the column of amounts "Amount"`)
	}
	return cols, true
}

// tableRow reads one row. Short is how many of its cells the parser added, and
// group the sub-heading that the rows are under.
func (p *parser) tableRow(row ast.Node, cells *[columns]cell, short int, group *string) {
	item := cells[colItem]
	amount := strings.TrimSpace(cells[colAmount].words)
	share := strings.TrimSpace(cells[colPercent].words)
	if item.words == "" {
		switch {
		case amount == "" && share == "" && cells[colPrep].words == "":
		case short > 0:
			p.Err(p.LineOf(row), "a row with a column missing: it names no item", "", `every row needs as many "|" as the heading`)
		default:
			p.Err(p.LineOf(row), "an amount without an item", "", "write the item's name, or take the row out")
		}
		return
	}
	if amount == "" && share == "" && onlyBold(item.node) {
		*group = strings.TrimRight(item.words, ":")
		return
	}
	if short > 0 {
		p.Warn(p.LineOf(row), "a row with fewer cells than the heading", "", `every row needs as many "|" as the heading`)
	}
	it := Item{Group: *group, Pos: p.Place(item.at)}
	var prep []string
	if fruit, ok := p.ofFruit(&it, strings.TrimSpace(amount+" "+item.words)); ok && document.LinkIn(item.node) == nil {
		name, taken, _ := strings.Cut(fruit, ", ")
		item.words, prep = name, append(prep, taken)
	} else if amount != "" {
		prep = p.amountCell(&it, amount, cells[colAmount].at)
	}
	if share != "" {
		if n, ok := document.Percent(strings.TrimSuffix(share, "%") + "%"); ok && n.Sign() > 0 {
			it.Percent = n
		} else {
			p.Err(cells[colPercent].at, `"`+share+`" is not a percentage`, "", `write it like "68 %"`)
		}
	}
	if it.Amount.Unit == nil && it.Percent.IsZero() {
		item.words = toTaste(&it, item.words)
	}
	if it.Amount.Unit == quantity.Each && document.LinkIn(item.node) == nil {
		if _, food := p.card.Foods.Find(item.words); !food { // "2 | bags of peas", as in a list
			if rest := p.unitBefore(&it, item.words); rest != item.words {
				item.at, item.words = item.at+len(item.words)-len(rest), rest
			}
		}
	}
	prep = append(prep, p.nameItem(&it, item.node, item.words, item.at)...)
	p.misreadUnit(&it, item.at)
	if w := cells[colTrim].words; w != "" {
		p.trim(&it, w, cells[colTrim].at)
	}
	if w := cells[colEach].words; w != "" {
		p.each(&it, w, cells[colEach].at)
	}
	p.prep(&it, prep, cells[colPrep].words, cells[colPrep].at)
	p.addItem(it, item.at)
}

// onlyBold reports whether a cell is all bold, which is how people write a
// sub-heading in a table.
func onlyBold(n ast.Node) bool {
	e, ok := n.FirstChild().(*ast.Emphasis)
	return ok && e.Level == 2 && e.NextSibling() == nil
}

// amountCell reads a cell of the amounts. It returns what follows the figure and
// belongs to the preparation: "3 large".
func (p *parser) amountCell(it *Item, s string, at int) (prep []string) {
	if n, ok := document.Percent(s); ok {
		if n.Sign() <= 0 {
			p.Err(at, `"`+s+`" is nothing of it`, "", "write a percentage above 0")
			return nil
		}
		it.Percent = n
		return nil
	}
	a, rest, ok := p.Amount(s, at)
	if !ok {
		return nil
	}
	if rest == "" {
		it.Amount = a
		return nil
	}
	it.Amount = a
	if after, words := p.measure(it, rest, at+len(s)-len(rest), false); after == "" {
		return words
	}
	it.Amount, it.Each, it.Density = quantity.Amount{}, quantity.Amount{}, quantity.Number{}
	if a.Unit == nil {
		p.Err(at, `"`+s+`" is not an amount`, "", `write a figure and a unit, like "500 g", or "to taste"`)
		return nil
	}
	p.oddUnit(document.Fact{Word: "amount", Value: s, ValueAt: at}, a, rest)
	return nil
}
