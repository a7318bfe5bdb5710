package card

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/document"
)

// finish adds the problems of the card as a whole, once all of it is read.
func (p *parser) finish() {
	if p.Unread() {
		return
	}
	c := p.card
	if c.Makes.Unit == nil && !p.faultyFront("makes", "yield", "yields", "make", "serves", "servings", "portions") {
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
	if len(c.Steps) == 0 && !p.unnumbered {
		p.Warn(0, "the card has no method", "", `add "## Method" with numbered steps`)
	}
	p.timeless()
	p.spareUnit()
	p.percents()
	p.sizes()
	p.yields()
	p.bareCounts()
	p.match()
	p.unused()
	p.overused()
	p.resolve()
	p.resolveLines()
	p.uncounted()
	if len(c.Ways) == 1 {
		p.Warn(p.LineStart(c.Ways[0].Pos), "only one way", "", `add a second "### Way: ", or take the heading out`)
	}
	for i, w := range c.Ways {
		if !slices.ContainsFunc(c.Steps, func(s Step) bool { return s.Way == i+1 }) {
			p.Err(p.LineStart(w.Pos), `the way "`+w.Name+`" has no steps`, "", "write its steps below the heading")
		}
	}
}

// faultyFront reports whether one of these words, or a misspelt one, is in the
// front matter: a value that could not be read has its problem there.
func (p *parser) faultyFront(names ...string) bool {
	for _, f := range p.Front {
		if slices.Contains(names, f.Word) || slices.Contains(names, document.Nearest(f.Word, frontWords)) {
			return true
		}
	}
	return false
}

// timeless warns of steps that take no time. Facts may follow below a step's own
// list, so this is checked at the end.
func (p *parser) timeless() {
	for _, m := range p.method.noTime {
		if s := p.card.Steps[m.step]; s.Hands.IsZero() && s.Wait.IsZero() {
			p.Warn(m.at, "step "+strconv.Itoa(s.Number)+" takes no time", "", `add how long: "hands: 10 min" or "wait: 45 min"`)
		}
	}
}

// resolve checks what the facts "after" and "saves" name.
func (p *parser) resolve() {
	for _, b := range p.befores {
		switch b.fact.Word {
		case "after":
			p.after(b.step, b.fact)
		case "before":
			p.order(b.step, b.fact)
		case "saves":
			p.saving(b.fact)
		}
	}
}

// after finds the step that a step waits for.
func (p *parser) after(step int, f document.Fact) {
	s := &p.card.Steps[step]
	low := strings.ToLower(f.Value)
	start := low == "start" || low == "the start"
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(low, "step")))
	if err != nil && !start {
		p.order(step, f)
		return
	}
	if s.After != (After{}) {
		p.Err(f.At, "step "+strconv.Itoa(s.Number)+` has two lines "after" for its own card`, "", "take one out, or write the later of the two")
		return
	}
	if start {
		s.After.Start = true
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

// saving checks that what a step sets aside has its line under "## Saves".
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
