package card

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/quantity"

	"hobside/internal/document"
)

// finish looks at the card as a whole, once all of it has been read.
func (p *parser) finish() {
	if p.Unread() {
		return
	}
	c := p.card
	if c.Makes.Unit == nil && !p.faultyFront("makes", "yield", "yields", "make") {
		do := `add "makes: 1.6 kg" (or "makes: 1 plate") between "---" lines at the top`
		if told := p.cooked(); told != "" {
			do += "; " + told
		}
		p.Err(p.makesAt, "the card does not say what it makes", "", do)
	}
	if c.Title == "" {
		p.Warn(0, "the card has no title", "", `begin it with "# " and its name`)
	}
	if len(c.Items) == 0 {
		p.Warn(0, "the card has no formula", "", `add "## Formula" with a table or a list of items`)
	}
	if len(c.Steps) == 0 {
		p.Warn(0, "the card has no method", "", `add "## Method" with numbered steps`)
	}
	p.timeless()
	p.percents()
	p.sizes()
	p.yields()
	p.match()
	p.unused()
	p.overused()
	p.resolve()
	if len(c.Ways) == 1 {
		p.Warn(p.LineStart(c.Ways[0].Pos), "only one way", "", `add a second "### Way: ", or take the heading out`)
	}
	for i, w := range c.Ways {
		if !slices.ContainsFunc(c.Steps, func(s Step) bool { return s.Way == i+1 }) {
			p.Err(p.LineStart(w.Pos), `the way "`+w.Name+`" has no steps`, "", "write its steps below the heading")
		}
	}
}

// faultyFront says whether one of these words stands in the front matter: a
// value that could not be read has its problem there.
func (p *parser) faultyFront(names ...string) bool {
	for _, f := range p.Front {
		if slices.Contains(names, f.Word) || slices.Contains(names, document.Nearest(f.Word, frontWords)) {
			return true
		}
	}
	return false
}

// percents turns a formula in percent into weights.
func (p *parser) percents() {
	c := p.card
	var sum quantity.Number
	for _, it := range c.Items {
		if it.Amount.Unit == nil {
			sum = sum.Add(it.Percent)
		}
	}
	if sum.IsZero() {
		return
	}
	whole := c.Weighs
	if whole.Unit == nil && c.Makes.Unit != nil && c.Makes.Unit.Dim == quantity.Mass {
		whole = c.Makes
	}
	if whole.Unit == nil {
		p.Err(p.makesAt, "a formula in percent of nobody knows what", "", `add "formula: 2 kg" to the front matter: what it weighs in all`)
		return
	}
	c.Weighs = whole
	for i := range c.Items {
		it := &c.Items[i]
		if it.Amount.Unit == nil && !it.Percent.IsZero() {
			it.Amount = whole.Scale(it.Percent.Quo(sum))
			it.Amount.To = quantity.Number{}
		}
	}
}

// sizes compares the sizes in the front matter with what the card makes.
func (p *parser) sizes() {
	c := p.card
	if c.Makes.Unit == nil {
		return
	}
	for _, f := range p.Front {
		var a quantity.Amount
		switch f.Word {
		case "smallest":
			a = c.Smallest
		case "largest":
			a = c.Largest
		case "whole":
			a = c.Whole
		case "portion":
			a = c.Portion
		default:
			continue
		}
		if a.Unit != nil && !p.meets(a.Unit, c.Makes.Unit) {
			p.Err(f.ValueAt, `"`+f.Word+`: `+f.Value+`" can't be compared with what the card makes`, "", "write it in the unit of makes")
		}
	}
	if c.Smallest.Unit != nil && c.Largest.Unit != nil {
		if n, ok := quantity.Convert(c.Smallest.Qty, c.Smallest.Unit, c.Largest.Unit); ok && n.Cmp(c.Largest.Qty) > 0 {
			for _, f := range p.Front {
				if f.Word == "smallest" {
					p.Err(f.ValueAt, "the smallest batch is larger than the largest", "", "swap the two")
				}
			}
		}
	}
}

// meets says whether amounts in the two units can be compared for this card's
// yield: of one kind, or through what one piece or one litre of it weighs.
func (p *parser) meets(a, b *quantity.Unit) bool {
	if _, ok := quantity.Convert(quantity.Int(1), a, b); ok {
		return true
	}
	kinds := [2]quantity.Dimension{min(a.Dim, b.Dim), max(a.Dim, b.Dim)}
	switch kinds {
	case [2]quantity.Dimension{quantity.Count, quantity.Mass}:
		return p.card.Each.Unit != nil
	case [2]quantity.Dimension{quantity.Mass, quantity.Volume}:
		return true // the larder may know its density
	}
	return false
}

// timeless finds the steps that take no time. Facts may stand below a step's
// own list, so it is asked only now.
func (p *parser) timeless() {
	for _, m := range p.method.noTime {
		if s := p.card.Steps[m.step]; s.Hands.IsZero() && s.Wait.IsZero() {
			p.Warn(m.at, "step "+strconv.Itoa(s.Number)+" takes no time", "", `add how long: "hands: 10 min" or "wait: 45 min"`)
		}
	}
}

// unused finds the items no step names.
func (p *parser) unused() {
	if len(p.card.Steps) == 0 {
		return
	}
	for i, n := range p.items {
		if !n.used {
			p.Warn(n.at, `no step names "`+p.card.Items[i].Name+`"`, "", "write it in bold in the step that uses it")
		}
	}
}

// overused finds items of which the steps of one way use more than there is.
func (p *parser) overused() {
	c := p.card
	parts := false
	for _, b := range p.bolds {
		r := c.Steps[b.step].Text[b.run]
		if r.Item == 0 {
			continue
		}
		parts = parts || r.Part.Unit != nil || !r.Share.IsZero()
		whole := c.Items[r.Item-1].Amount
		if r.Part.Unit == nil || whole.Unit == nil {
			continue
		}
		if _, ok := quantity.Convert(r.Part.Qty, r.Part.Unit, whole.Unit); !ok {
			p.Warn(b.at, `a part of "`+c.Items[r.Item-1].Name+`" in `+r.Part.Unit.Plural+", where the formula has "+whole.Unit.Plural+": what is left can't be worked out", "", "write both in one unit")
		}
	}
	if !parts {
		return
	}
	told := map[int]bool{}
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		_, over := c.Uses(way, quantity.Int(1))
		for i := len(p.bolds) - 1; i >= 0; i-- {
			b := p.bolds[i]
			r := c.Steps[b.step].Text[b.run]
			s := c.Steps[b.step]
			n, isOver := over[r.Item]
			if r.Item == 0 || !isOver || told[r.Item] || s.Way != 0 && s.Way != way || r.Part.Unit == nil && r.Share.IsZero() {
				continue
			}
			told[r.Item] = true
			it := c.Items[r.Item-1]
			p.Err(b.at, "the steps use "+shown(it.Amount.Qty.Add(n), it.Amount.Unit)+` of "`+it.Name+`", the formula has `+shown(it.Amount.Qty, it.Amount.Unit),
				"", "put more in the formula or less in the steps")
		}
	}
}

func shown(n quantity.Number, u *quantity.Unit) string {
	return quantity.Show(quantity.Amount{Qty: n, Unit: u}, quantity.Prefs{Scale: quantity.Frac(1, 10)})
}

// resolve finds what "after" and "saves" name.
func (p *parser) resolve() {
	for _, b := range p.befores {
		switch b.fact.Word {
		case "after":
			p.after(b.step, b.fact)
		case "saves":
			p.saving(b.fact)
		}
	}
}

func (p *parser) after(step int, f document.Fact) {
	s := &p.card.Steps[step]
	low := strings.ToLower(f.Value)
	if low == "start" || low == "the start" {
		s.After.Start = true
		return
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(low, "step")))
	if err != nil {
		p.Err(f.ValueAt, `"`+f.Value+`" is nothing a step can wait for`, "", `write "after: start" or "after: step 2"`)
		return
	}
	for i := step - 1; i >= 0; i-- {
		other := p.card.Steps[i]
		if other.Number == n && (other.Way == 0 || other.Way == s.Way) {
			s.After.Step = i + 1
			return
		}
	}
	switch {
	case n >= s.Number:
		p.Err(f.ValueAt, "a step can only wait for one above it", "", `write "after: start" or the number of an earlier step`)
	default:
		p.Err(f.ValueAt, "there is no step "+strconv.Itoa(n)+" that is done whenever this one is", "", "name a step above it, of the same way or of none")
	}
}

func (p *parser) saving(f document.Fact) {
	if p.Full() {
		return
	}
	slug := document.Slug(f.Value)
	names := make([]string, len(p.card.Saves))
	for i, s := range p.card.Saves {
		if s.Slug == slug {
			return
		}
		names[i] = s.Name
	}
	p.Err(f.ValueAt, `"`+f.Value+`" is not under "## Saves"`, document.Nearest(strings.ToLower(f.Value), names), `add a line there: "- `+f.Value+`: 160 g"`)
}
