package monitor

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/larder"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// LabelDeferral is what every sheet of labels ends with.
const LabelDeferral = "Dates by count of days, not by looking at the food. Allergens: the items by name, against the food table and what the cards say; labels of what was bought, " +
	"traces and shared tools were not checked. " + Deferral

// A Label is the label of one thing that the dinner makes and keeps.
type Label struct {
	Key         string   `json:"key"` // of the batch
	Name        string   `json:"name"`
	Amount      string   `json:"amount"`
	Done        bool     `json:"done"`        // it is made
	Made        string   `json:"made"`        // "Sat 12 Jun 2027, 14:05", "" while it is not made
	By          string   `json:"by"`          // who ticked its last step
	Use         string   `json:"use"`         // "Tue 15 Jun 2027"; "within 4 days" while it is not made; "" where there is no number
	Basis       string   `json:"basis"`       // where the last day of use comes from
	Keeps       []string `json:"keeps"`       // as the card says: "4 d chilled"
	List        string   `json:"list"`        // whose list of allergens the names below are from, in words
	Carries     []string `json:"carries"`     // official names
	May         []string `json:"may"`         // what may be in it, official names
	NotAssessed []string `json:"notAssessed"` // items that are not in the food table
	Without     []string `json:"without"`     // what its author says it does not contain
	Container   string   `json:"container"`   // what it is kept in; "" where the card doesn't say
	Words       string   `json:"words"`       // what else the card wants on the label
}

// Labels returns a label for every batch of a component and for what it sets
// aside, in the order they are made. Plates get none: they go to the table.
func (r *Reader) Labels() []Label {
	w := r.Dinner.Worked()
	if w == nil {
		return nil
	}
	var out []Label
	for _, comp := range slices.Backward(w.Demand.Components) {
		c := comp.Card
		if c.IsPlate() {
			continue
		}
		sheet := demand.AllergensOf(w.Input, c.ID)
		for i, batch := range comp.Batches {
			made, by := r.made(c, w.Way(c), i+1)
			amount := batch.Amount
			if batch.Measured {
				amount = batch.Got
			}
			key := dinner.BatchKey(c.ID, i+1)
			of := Label{Key: key, By: by, Container: c.Service.Container, Words: c.Service.Label}
			out = append(out, r.label(of, c.Title, r.amount(quantity.Amount{Qty: amount, Unit: comp.Unit}), c.Keeps, sheet, made, r.dateOf(c, i+1, nil)))
			of = Label{Key: key, By: by} // what it sets aside has a container of its own
			for _, s := range c.Saves {
				out = append(out, r.label(of, s.Name, r.amount(s.Amount.Scale(batch.Factor)), s.Keeps, sheet, made, r.dateOfSaved(c, i+1, s.Keeps)))
			}
		}
	}
	return out
}

// made returns when the last step of a batch was done, in Unix milliseconds, and
// by whom; 0 while one is not done.
func (r *Reader) made(c *card.Card, way, batch int) (at int64, by string) {
	for i := range c.Steps {
		if !c.Steps[i].In(way) {
			continue
		}
		done, who := r.doneAt(c, batch, i)
		if done == 0 {
			return 0, ""
		}
		if done > at {
			at, by = done, who
		}
	}
	return at, by
}

// doneAt returns when step i of a batch was done, in Unix milliseconds, and by whom; 0
// while it is not done.
func (r *Reader) doneAt(c *card.Card, batch, i int) (at int64, by string) {
	s, key := r.Dinner.State(), dinner.StepKey(c.ID, batch, i+1)
	if end, ok := s.Ends[key]; ok && end.At > 0 {
		return end.At, r.who(end.Event, end.Device)
	}
	if tick := s.Ticks[key]; tick.Done {
		return tick.At, r.who(tick.Event, tick.Device)
	}
	return 0, ""
}

// label completes a label: name, amount, dates, allergens.
func (r *Reader) label(l Label, name, amount string, keep []card.Keep, sheet demand.PlateSheet, made int64, d date) Label {
	l.Name, l.Amount, l.Without = name, amount, sheet.Without
	for _, k := range keep {
		l.Keeps = append(l.Keeps, k.String())
	}
	if made > 0 {
		l.Done, l.Made = true, r.day(made)+", "+r.timeOfDay(made)
	}
	rules := r.Dinner.Worked().Rules()
	l.Use, l.Basis = d.use, d.basis
	list := larder.EU
	if rules == safety.US {
		list = larder.US
	}
	l.List = list.Whose()
	for _, c := range sheet.Carried {
		if c.List != list {
			continue
		}
		name := larder.OfficialName(c.List, c.Code)
		if c.Certainty == larder.May {
			l.May = append(l.May, name)
		} else {
			l.Carries = append(l.Carries, name)
		}
	}
	for _, via := range sheet.NotAssessed {
		l.NotAssessed = append(l.NotAssessed, via[len(via)-1])
	}
	return l
}
