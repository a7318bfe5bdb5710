package engine

import (
	"fmt"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder"
	"hobside/internal/safety"
)

// labels writes a label for every batch of a component, and for what it sets
// aside. Plates get none: they go to the table.
func (e *Engine) labels(in ClockCall) (*LabelsView, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	v := &LabelsView{Labels: []LabelView{}, Defer: "Dates by count of days, not by looking at the food. Allergens: the items by name, against the food table and what the cards say; labels of what was bought, " +
		"traces and shared tools were not checked. " + deferral}
	if f.Worked() == nil {
		return v, nil
	}
	input := f.Worked().Input
	for _, c := range f.view.Cards {
		comp := f.Worked().Demand.ByCard[c.ID]
		if comp == nil || c.Plate {
			continue
		}
		sheet := demand.AllergensOf(input, c.ID)
		for m, batch := range c.Batches {
			made, by := f.madeAt(batch)
			l := e.label(f, c.Title, comp.Card.Keeps, sheet, made, in)
			l.Key, l.By, l.Amount = batch.Key, by, batch.Make
			if batch.Got != "" {
				l.Amount = batch.Got
			}
			v.Labels = append(v.Labels, l)
			for _, s := range comp.Card.Saves {
				l := e.label(f, s.Name, s.Keeps, sheet, made, in)
				l.Key, l.By, l.Amount = batch.Key, by, e.amount(s.Amount.Scale(comp.Batches[m].Factor))
				v.Labels = append(v.Labels, l)
			}
		}
	}
	return v, nil
}

// madeAt is when the last step of a batch was done, and by whom; 0 while one
// is not.
func (f *followed) madeAt(m BatchView) (at int64, by string) {
	if len(m.Steps) == 0 {
		return 0, ""
	}
	for _, s := range m.Steps {
		t := f.State().Ticks[s.Key]
		done, who := t.At, f.who(t.Event, t.Device)
		if end, ok := f.State().Ends[s.Key]; ok && end.At > 0 {
			done, who = end.At, f.who(end.Event, end.Device)
		} else if !t.Done {
			return 0, ""
		}
		if done > at {
			at, by = done, who
		}
	}
	return at, by
}

func (e *Engine) label(f *followed, name string, keep []card.Keep, sheet demand.PlateSheet, made int64, in ClockCall) LabelView {
	l := LabelView{Name: name, Keeps: keeps(keep), Carries: []string{}, May: []string{}, NotAssessed: []string{}, Without: []string{}, Done: made > 0}
	if made > 0 {
		l.Made = dayOf(made, in.Offset) + ", " + clockOf(made, in.Offset)
	}
	l.Use, l.Basis = useOf(f.Worked().Rules(), name, keep, made, in.Offset)
	list := larder.EU
	l.List = "of the fourteen of the EU and UK"
	if f.Worked().Rules() == safety.US {
		list = larder.US
		l.List = "of the nine of the US"
	}
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
	l.Without = append(l.Without, sheet.Without...)
	return l
}

// useOf is the last day of use of what is kept cold, and on whose word: the
// rule set's count of days, or the card's own where that is shorter. Frozen and
// dry food has the card's word only.
func useOf(rules safety.Rules, name string, keep []card.Keep, made int64, offset int) (use, basis string) {
	days, place := 0, ""
	for _, k := range keep {
		if place == "" || k.Place == "chilled" {
			place, days = k.Place, k.Seconds/86400+1 // the day it was made is day 1
		}
	}
	if place != "" && place != "chilled" {
		use = "within " + safety.Span(float64(days-1)*1440)
		if days == 1 {
			use = "the same day"
		}
		if made > 0 {
			use = dayOf(made+int64(days-1)*86_400_000, offset)
		}
		return use, "kept " + placeWord(place) + ": the card's own; no count of days of the rules is for that"
	}
	u, err := safety.UseBy(rules, days)
	if err != nil {
		return "", err.Error()
	}
	if u.Days == 0 {
		return "", u.Words
	}
	_, basis, _ = strings.Cut(u.Words, "among them: ")
	if u.Assumed != "" {
		basis += "; " + u.Assumed
	}
	if made == 0 {
		if u.Days == 1 {
			return "the day it is made", basis
		}
		return "within " + itoa(u.Days) + " days, the day it is made among them", basis
	}
	return dayOf(made+int64(u.After)*86_400_000, offset), basis
}

func placeWord(place string) string {
	if place == "room" {
		return "at room temperature"
	}
	return place
}

// dayOf writes a day as a label does.
func dayOf(ms int64, offset int) string {
	t := wallOf(ms, offset)
	return t.Weekday().String()[:3] + " " + itoa(t.Day()) + " " + t.Month().String()[:3] + " " + itoa(t.Year())
}
