package card

import (
	"strings"

	"hobside/internal/quantity"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"hobside/internal/document"
)

// formulaBlock reads one block below "## Formula": a table or a list. Other
// blocks are words for the reader.
func (p *parser) formulaBlock(n ast.Node, group string) {
	switch n := n.(type) {
	case *east.Table:
		p.formulaTable(n, group)
	case *ast.List:
		p.expect(n.ChildCount())
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			if block := item.FirstChild(); block != nil {
				p.listItem(block, group)
			}
		}
	}
}

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

// cell is one cell's words and where they stand.
type cell struct {
	node  ast.Node
	words string
	at    int
}

func (p *parser) formulaTable(t *east.Table, group string) {
	var buf [16]column
	cols := buf[:0] // by position
	var has [columns]bool
	near := map[string]bool{} // columns that a heading was surely meant for
	at := t.Pos()
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
			}
		}
		has[col] = true
		cols = append(cols, col)
	}
	p.amountless = !has[colAmount] && !has[colPercent]
	defer func() { p.amountless = false }()
	switch {
	case !has[colItem]:
		if !near["item"] {
			p.Err(at, `the formula's table has no column "Item"`, "", `head the column of names "Item"`)
		}
		return
	case p.amountless && !near["amount"]:
		p.Err(at, `the formula's table has no column "Amount"`, "", `head the column of amounts "Amount"`)
	}
	p.expect(t.ChildCount() - 1)
	for row := t.FirstChild().NextSibling(); row != nil; row = row.NextSibling() {
		var cells [columns]cell
		i, short := 0, 0
		for c := row.FirstChild(); c != nil && i < len(cols); c, i = c.NextSibling(), i+1 {
			if c.Lines().Len() == 0 {
				short++ // the parser filled the row up
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

func (p *parser) tableRow(row ast.Node, cells *[columns]cell, short int, group *string) {
	item := cells[colItem]
	amount := strings.TrimSpace(cells[colAmount].words)
	share := strings.TrimSpace(cells[colPercent].words)
	if item.words == "" {
		switch {
		case amount == "" && share == "" && cells[colPrep].words == "":
		case short > 0:
			p.Err(p.lineStart(row), "a row with a column missing: it names no item", "", `every row needs as many "|" as the heading`)
		default:
			p.Err(p.lineStart(row), "an amount without an item", "", "write the item's name, or take the row out")
		}
		return
	}
	if amount == "" && share == "" && onlyBold(item.node) {
		*group = strings.TrimRight(item.words, ":")
		return
	}
	it := Item{Group: *group, Pos: p.Place(item.at)}
	var prep []string
	if amount != "" {
		prep = p.amountCell(&it, amount, cells[colAmount].at)
	}
	if share != "" {
		if n, ok := document.Percent(strings.TrimSuffix(share, "%") + "%"); ok && n.Sign() > 0 {
			it.Percent = n
		} else {
			p.Err(cells[colPercent].at, `"`+share+`" is no percentage`, "", `write it like "68 %"`)
		}
	}
	p.nameItem(&it, item.node, item.words, item.at)
	if w := cells[colTrim].words; w != "" {
		p.trim(&it, w, cells[colTrim].at)
	}
	if w := cells[colEach].words; w != "" {
		p.each(&it, w, cells[colEach].at)
	}
	p.prep(&it, prep, cells[colPrep].words, cells[colPrep].at)
	p.addItem(it, item.at)
}

// onlyBold says whether a cell is all bold: people head parts of a table so.
func onlyBold(n ast.Node) bool {
	e, ok := n.FirstChild().(*ast.Emphasis)
	return ok && e.Level == 2 && e.NextSibling() == nil
}

// amountCell reads a cell of amounts. A size between figure and name ("3
// large") is returned: it belongs to the preparation.
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
	if rest[0] == '(' {
		it.Amount = a
		return []string{rest}
	}
	switch strings.ToLower(rest) {
	case "small", "medium", "large", "big", "heaped", "level", "scant", "generous":
		it.Amount = a
		return []string{rest}
	}
	if a.Unit == nil {
		p.Err(at, `"`+s+`" is no amount`, "", `write a figure and a unit, like "500 g", or "to taste"`)
		return nil
	}
	p.oddUnit(document.Fact{Word: "amount", Value: s, ValueAt: at}, a, rest)
	return nil
}

// nameItem takes the item's name from its cell or line, and the card it links to.
func (p *parser) nameItem(it *Item, n ast.Node, name string, at int) {
	if l := document.LinkIn(n); l != nil {
		if id, save, ok := document.Target(l); ok {
			it.Card, it.Save = id, save
		} else if dest := string(l.Destination); !strings.Contains(dest, ":") {
			p.Err(at, `the link to "`+dest+`" leads to no card`, "", `link to a card's file, like "brown-chicken-stock.md"`)
		}
	}
	name = strings.TrimSpace(name)
	if head, ok := strings.CutSuffix(name, "(optional)"); ok {
		name, it.Optional = strings.TrimSpace(head), true
	}
	it.Name = document.Valid(name)
	it.Mix = len(name) > 4 && strings.EqualFold(name[:4], "any ")
}

func (p *parser) trim(it *Item, s string, at int) {
	n, ok := document.Percent(s)
	switch {
	case document.IsZero(s):
		p.Err(at, `"`+s+`" lost in trimming is nothing lost`, "", `take it out and write "untrimmed" in its place`)
	case !ok:
		p.Err(at, `"`+s+`" is no share lost in trimming`, "", `write it like "12 %"`)
	case n.Cmp(quantity.Int(100)) >= 0:
		p.Err(at, `"`+s+`" lost in trimming leaves nothing to cook`, "", `write the share that is thrown away: "12 %" where 88 % is left`)
	default:
		it.Trim = n.Mul(quantity.Frac(1, 100))
	}
}

func (p *parser) each(it *Item, s string, at int) {
	it.Each = p.positive(document.Fact{Word: "each", Value: s, ValueAt: at})
}

// prep reads the phrases that are facts and keeps the others.
func (p *parser) prep(it *Item, have []string, s string, at int) {
	if s == "" && len(have) == 0 {
		return
	}
	document.SplitList(s, at, func(part string, at int) {
		low := strings.ToLower(part)
		switch {
		case low == "optional" || low == "(optional)":
			it.Optional = true
			return
		case low == "to taste" || low == "as needed":
			if it.Amount.Unit == nil {
				it.Amount = quantity.Amount{ToTaste: true}
				return
			}
		case strings.HasPrefix(low, "trim ") && strings.HasSuffix(low, "%"):
			p.trim(it, strings.TrimSpace(part[5:]), at+5)
			return
		case strings.HasPrefix(low, "each ") && len(low) > 5 && document.IsDigit(low[5]):
			p.each(it, strings.TrimSpace(part[5:]), at+5)
			return
		case packed(low) > 0:
			n := packed(low)
			it.Pack = p.positive(document.Fact{Word: "pack", Value: strings.TrimSpace(part[n:]), ValueAt: at + n})
			return
		case strings.HasPrefix(low, "any "):
			it.Mix = true
		case low == "not eaten":
			it.Uneaten = true // and said to the reader as well
		}
		have = append(have, part)
	})
	it.Prep = document.Valid(strings.Join(have, ", "))
}

// packed says where the size begins in "pack 500 g", 0 where no pack is meant.
func packed(prep string) int {
	for _, word := range [...]string{"pack ", "packs of ", "bag ", "bags of "} {
		if n := len(word); strings.HasPrefix(prep, word) && len(prep) > n && document.IsDigit(prep[n]) {
			return n
		}
	}
	return 0
}

// expect makes room for so many items: an item is large to move.
func (p *parser) expect(n int) {
	if n = min(n, maxItems); p.card.Items == nil && n > 0 {
		p.card.Items, p.items = make([]Item, 0, n), make([]naming, 0, n)
	}
}

// addItem ends an item.
func (p *parser) addItem(it Item, at int) {
	if it.Amount.Unit == nil && !it.Amount.ToTaste && it.Percent.IsZero() && !p.amountless && !p.faulty(it.Pos.Line) {
		p.Warn(at, `"`+it.Name+`" has no amount`, "", `write one, or "to taste" if that is meant`)
	}
	if !p.room(len(p.card.Items), maxItems, "items", at) {
		return
	}
	p.card.Items = append(p.card.Items, it)
	p.items = append(p.items, naming{words: words(it.Name), at: at})
}

// faulty says whether the last problem is about this line: one is enough.
func (p *parser) faulty(line int) bool {
	return len(p.Problems) > 0 && p.Problems[len(p.Problems)-1].Line == line
}
