package plan

import (
	"cmp"
	"slices"

	"hobside/internal/demand"
	"hobside/internal/quantity"
)

// A PrepLine is one ingredient that a cook gets ready on one day, for all the cards
// that want it then.
type PrepLine struct {
	Day   int    // of the first use, after the day of serving; 0 for that day
	Cook  int    // 1 + index of the kitchen's cooks; 0 when the step needs nobody
	Line  string // demand.LineOf: lines of the order list have the same
	Name  string // as the first card writes it
	Parts []PrepPart
}

// A PrepPart is what is done to the ingredient for one batch of a card.
type PrepPart struct {
	Card   string
	Batch  int // 1 + index
	Item   int // 1 + index in the card's formula
	Work   string
	Amount quantity.Amount // edible portion
	By     int             // start of the step that uses it first
}

// Prep returns the prep list of a plan: what is cut, peeled, grated or brought to hand
// before a step, by day, cook and ingredient. An item belongs to the cook and the day of
// the step that uses it first. Lines are in the order of their first use; within a line
// the same work stands together.
func (in *Input) Prep(p *Plan) []PrepLine {
	type place struct {
		day, cook int
		line      string
	}
	at := map[place]int{}
	var out []PrepLine
	listed := map[PrepPart]bool{} // by card, batch and item
	for i := range p.Tasks {      // by start
		t := &p.Tasks[i]
		comp := p.project.demand.ByCard[t.Card]
		for item := range comp.Card.Items {
			part := PrepPart{Card: t.Card, Batch: t.Batch, Item: item + 1}
			if listed[part] || !comp.Card.Takes(t.Step.Step-1, item) || in.Dinner.Off(comp.Card, item) {
				continue
			}
			listed[part] = true
			if part.Work = comp.Card.PrepWork(item); part.Work == "" {
				continue
			}
			part.By, part.Amount = t.Start, comp.Batches[t.Batch-1].Items[item]
			it := &comp.Card.Items[item]
			of := place{p.project.day(t.Start), t.Cook, demand.LineOf(comp.Card, it)}
			if _, known := at[of]; !known {
				at[of] = len(out)
				out = append(out, PrepLine{Day: of.day, Cook: of.cook, Line: of.line, Name: it.Name})
			}
			line := &out[at[of]]
			line.Parts = append(line.Parts, part)
		}
	}
	slices.SortStableFunc(out, func(a, b PrepLine) int { return cmp.Or(a.Day-b.Day, a.Cook-b.Cook) })
	for i := range out {
		together(out[i].Parts)
	}
	return out
}

// together sorts parts so that those with the same work stand together, in the order in
// which each work comes first.
func together(parts []PrepPart) {
	first := map[string]int{}
	for i := range parts {
		number(first, parts[i].Work)
	}
	slices.SortStableFunc(parts, func(a, b PrepPart) int { return first[a.Work] - first[b.Work] })
}
