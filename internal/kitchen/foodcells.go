package kitchen

import (
	"errors"
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// row reads the cells of one row, by the columns that hold them.
func (p *foodParser) row(cells map[string]document.Cell) {
	name := cells["food"]
	r := parsedRow{at: name.At}
	r.Name, r.Pos = name.Words, p.Place(name.At)
	each := func(column string, read func(r *parsedRow, part string, at int)) {
		document.SplitList(cells[column].Words, cells[column].At, func(part string, at int) { read(&r, part, at) })
	}
	each("other names", func(r *parsedRow, part string, at int) {
		r.Others, r.othersAt = append(r.Others, part), append(r.othersAt, at)
	})
	each("each", p.weight)
	each("allergens", p.allergen)
	p.section(&r, cells["section"])
	p.density(&r, cells["density"])
	p.trim(&r, cells["trim"])
	p.pack(&r, cells["pack"])
	p.price(&r, cells["price"])
	p.keeps(&r, cells["keeps"])
	p.rows = append(p.rows, r)
}

// weight reads what one weighs: "150 g", or for a named part "clove 5 g".
func (p *foodParser) weight(r *parsedRow, part string, at int) {
	const form = `write it like "150 g", or "clove 5 g, head 60 g"`
	unit, figure, figureAt := quantity.Each, part, at
	if word, rest, ok := strings.Cut(part, " "); ok {
		if u, known := quantity.LookupUnit(word); known && u.Dim == quantity.Count {
			unit, figure, figureAt = u, rest, at+len(part)-len(rest)
		}
	}
	a, known, told := p.amount(figure, figureAt)
	grams, weighs := quantity.Convert(a.Qty, a.Unit, gram)
	switch {
	case told:
	case !known || !weighs:
		p.Err(at, `"`+part+`" is not what one weighs`, "", form)
	default:
		if _, twice := r.Weights[unit.Name]; twice {
			p.Err(at, "two weights of one "+unit.Name, "", "take one of the two out")
			return
		}
		if r.Weights == nil {
			r.Weights = map[string]quantity.Number{}
		}
		r.Weights[unit.Name] = grams
	}
}

var gram, _ = quantity.LookupUnit("g")

// amount reads an amount above 0 with nothing after it. ok is false where there is none;
// told is set where it added the problem, because the amount can be read in two ways.
func (p *foodParser) amount(s string, at int) (a quantity.Amount, ok, told bool) {
	a, rest, err := p.Measures.ParseAmount(s)
	var doubt *quantity.AmountError
	if errors.As(err, &doubt) && doubt.Doubtful {
		p.Err(at, `"`+s+`" `+doubt.Msg, "", doubt.Do)
		return a, false, true
	}
	return a, err == nil && a.Unit != nil && rest == "" && a.To.IsZero() && a.Qty.Sign() > 0, false
}

// allergen reads one allergen: its official name, with "may contain" where it may be in
// it, or "none" where there is none of the two lists.
func (p *foodParser) allergen(r *parsedRow, part string, at int) {
	if strings.EqualFold(part, "none") {
		if r.Assessed {
			p.Err(at, `"none" beside other allergens`, "", "take one of the two out")
		}
		r.Assessed = true
		return
	}
	tokens, meant, ok := larder.OfficialAllergen(part)
	if !ok {
		p.Err(at, `"`+part+`" is not an official allergen`, meant, `write one of the fourteen or the nine, like "milk", "nuts" or "may contain celery", or "none"`)
		return
	}
	if r.Assessed && len(r.Allergens) == 0 {
		p.Err(at, `an allergen beside "none"`, "", "take one of the two out")
	}
	r.Assessed, r.Allergens = true, append(r.Allergens, tokens...)
}

// section reads the section of the shop. Any words will do; a slip for one of the usual
// ones gets a warning.
func (p *foodParser) section(r *parsedRow, cell document.Cell) {
	r.Section = strings.ToLower(cell.Words)
	for _, s := range larder.Sections {
		if r.Section == s {
			return
		}
	}
	if hint := document.Nearest(r.Section, larder.Sections); r.Section != "" && hint != "" {
		p.Warn(cell.At, `"`+cell.Words+`" becomes a section of its own on the order list`, hint, "")
	}
}

// density reads grams per millilitre.
func (p *foodParser) density(r *parsedRow, cell document.Cell) {
	if cell.Words == "" {
		return
	}
	n, ok := document.Density(cell.Words)
	if !ok {
		p.Err(cell.At, `"`+cell.Words+`" is not a density of food`, "", `write grams per millilitre, like "1.03"`)
		return
	}
	r.Density = &n
}

// trim reads the share of the weight that is lost in trimming, "12 %".
func (p *foodParser) trim(r *parsedRow, cell document.Cell) {
	if cell.Words == "" {
		return
	}
	figure := strings.TrimSpace(strings.TrimSuffix(cell.Words, "%"))
	n, ok := document.Number(figure)
	if document.IsZero(figure) {
		ok = true
	}
	if figure == cell.Words && ok && n.Sign() > 0 && n.Cmp(quantity.Int(1)) < 0 {
		share := quantity.ShowNumber(n.Mul(quantity.Int(100)))
		p.Err(cell.At, `"`+cell.Words+`" may be a share or a percentage`, "", `write "`+share+` %", or "`+quantity.ShowNumber(n)+` %"`)
		return
	}
	if !ok || n.Cmp(quantity.Int(100)) >= 0 {
		p.Err(cell.At, `"`+cell.Words+`" is not a share that trimming takes off`, "", `write it like "12 %", from 0 % to less than 100 %`)
		return
	}
	r.Trim = &n
}

// pack reads how the food is sold: "500 g", "each", "bunch", "loose".
func (p *foodParser) pack(r *parsedRow, cell document.Cell) {
	const form = `write what one pack holds, like "500 g", or "each", "bunch" or "loose"`
	if cell.Words == "" {
		return
	}
	if strings.EqualFold(cell.Words, "loose") {
		r.Loose = true
		return
	}
	if u, ok := quantity.LookupUnit(strings.ToLower(cell.Words)); ok && u.Dim == quantity.Count {
		r.By = u
		return
	}
	a, ok, told := p.amount(cell.Words, cell.At)
	switch {
	case told:
	case !ok:
		p.Err(cell.At, `"`+cell.Words+`" is not a pack`, "", form)
	default:
		r.Pack = a
	}
}

// price reads what the food costs. A food has one price, and all prices have one currency.
func (p *foodParser) price(r *parsedRow, cell document.Cell) {
	const form = `write it like "9.20 per kg" or "0.30 each"`
	prices := 0
	document.SplitList(cell.Words, cell.At, func(part string, at int) {
		if prices++; prices == 2 {
			p.Err(at, "two prices for one food", "", "take one of the two out")
		}
		if prices > 1 {
			return
		}
		price, ok := readPrice(p.File, part, at, form)
		if !ok {
			return
		}
		if p.priced != nil && p.priced.Currency != price.Currency {
			p.Err(at, `"`+part+`" is in another currency than "`+p.priced.Item+`"`, "", "give all prices in one currency")
			return
		}
		price.Item = r.Name
		r.Price = &price
		if p.priced == nil {
			p.priced = &price
		}
	})
}

// keeps reads how long the food keeps as bought: whole days.
func (p *foodParser) keeps(r *parsedRow, cell document.Cell) {
	const day = 24 * 60 * 60
	if cell.Words == "" {
		return
	}
	seconds, ok := document.ParseSeconds(cell.Words)
	if !ok || seconds < day {
		p.Err(cell.At, `"`+cell.Words+`" is not how long it keeps as bought`, "", `write it in days, like "5 d"`)
		return
	}
	r.Keeps = seconds / day
}
