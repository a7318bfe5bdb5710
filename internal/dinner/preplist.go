package dinner

import (
	"fmt"
	"strings"

	"hobside/internal/larder"
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// A PrepList is what a dinner's cooks cut, peel, grate and bring to hand, as one cook
// reads it: by day and cook, each ingredient once.
type PrepList struct {
	Planned bool      `json:"planned"` // there is a plan, which says the days and the cooks
	Days    []PrepDay `json:"days"`    // a day and a cook each, in order
}

// A PrepDay is the prep of one cook on one day.
type PrepDay struct {
	Day   string     `json:"day"`  // "2027-06-11"
	Cook  int        `json:"cook"` // 1 + index of the kitchen's cooks, 0 for anybody
	Who   string     `json:"who"`  // "" for anybody
	Lines []PrepLine `json:"lines"`
}

// A PrepLine is one ingredient. It is done when all of its keys are ticked.
type PrepLine struct {
	Name  string     `json:"name"`
	By    string     `json:"by"`   // wall clock of the first use
	Keys  []string   `json:"keys"` // MiseKey of each part: ticking the line ticks them
	Parts []PrepPart `json:"parts"`
}

// A PrepPart is work on the ingredient for one batch of a card.
type PrepPart struct {
	Amount string `json:"amount"` // edible portion, with what helps to weigh it: "170 g (crack 4)"
	Work   string `json:"work"`   // "halved"
	For    string `json:"for"`    // the card's title
	By     string `json:"by"`     // wall clock of the step that uses it
}

// PrepList returns the prep list of the dinner's plan. It is empty without a plan.
func (l *Live) PrepList(show quantity.Prefs) *PrepList {
	out := &PrepList{}
	made := l.planned
	if made == nil || made.Plan == nil || l.worked == nil {
		return out
	}
	out.Planned = true
	for _, line := range made.Input.Prep(made.Plan) {
		day := made.Plan.Serve.Add(line.Day * 24 * 60).String()[:len("2006-01-02")]
		n := len(out.Days) - 1
		if n < 0 || out.Days[n].Day != day || out.Days[n].Cook != line.Cook {
			of := PrepDay{Day: day, Cook: line.Cook}
			if line.Cook > 0 {
				of.Who = made.Input.Kitchen.Cooks[line.Cook-1]
			}
			out.Days = append(out.Days, of)
			n++
		}
		out.Days[n].Lines = append(out.Days[n].Lines, l.worked.prepLine(made.Plan, &line, show))
	}
	return out
}

// prepLine returns one line of the prep list as text.
func (w *Worked) prepLine(p *plan.Plan, line *plan.PrepLine, show quantity.Prefs) PrepLine {
	first := line.Parts[0].By
	out := PrepLine{Name: line.Name}
	for _, part := range line.Parts {
		comp := w.Demand.ByCard[part.Card]
		it := &comp.Card.Items[part.Item-1]
		amount, aside := larder.Show(it.Name+", "+it.Prep, part.Amount, comp.Card.OwnOf(it), show)
		if aside != "" {
			amount = strings.TrimSpace(amount + " (" + aside + ")")
		}
		title := w.Title(part.Card)
		if len(comp.Batches) > 1 {
			title += fmt.Sprintf(", %d of %d", part.Batch, len(comp.Batches))
		}
		out.Keys = append(out.Keys, MiseKey(part.Card, part.Batch, part.Item))
		out.Parts = append(out.Parts, PrepPart{Amount: amount, Work: part.Work, For: title, By: p.Reading(part.By).String()})
		first = min(first, part.By)
	}
	out.By = p.Reading(first).String()
	return out
}
