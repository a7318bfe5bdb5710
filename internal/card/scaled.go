package card

import (
	"strconv"
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Scaled is a card made a number of times over, with amounts as one cook reads
// them: the amounts by item and by use, rounded so that the parts of an item add
// up, with times and loads. The page, the stove, the sheets and the command line
// all write out this one value.
type Scaled struct {
	Card   *Card
	Factor quantity.Number
	Makes  string
	Items  []ScaledItem // in the order of Card.Items
	Steps  []ScaledStep // in the order of Card.Steps
	Saves  []string     // the amount of each by-product, in the order of Card.Saves

	show quantity.Prefs
}

// A ScaledItem is the amount of one item of the formula.
type ScaledItem struct {
	Exact   quantity.Amount
	Amount  string // "340 g"
	Aside   string // what a cook needs beside it: "crack 4", "2.7 leaves"
	Percent string // as typed, "68 %"; "" for an item typed as an amount
}

// Beside returns what is shown beside the amount: the aside, else the percentage
// as typed, else "".
func (it *ScaledItem) Beside() string {
	if it.Aside != "" {
		return it.Aside
	}
	return it.Percent
}

// A ScaledStep is what one step uses and how long it takes.
type ScaledStep struct {
	Uses        []ScaledUse       // of each run of the step's text; empty for words and for steps of other ways
	Until       string            // the sign of done, its amount scaled
	Heat        string            // "oven 220 °C, 2 shelves; hob"
	Hands, Wait document.Duration // for the whole batch
	Load        string            // "4 pieces at a time, 5 loads", "" where the step names no load
	Saves       []string          // "chicken fat, 160 g"
}

// A ScaledUse is the amount of an item that one run of a step's text uses.
type ScaledUse struct{ Amount, Aside string }

// Scale makes a card factor times over by a way: 1 + index in Ways, 0 for a card
// that has none. Way 0 of a card with ways is for reading: each way's steps use
// what they use when the card is made by that way.
func (c *Card) Scale(factor quantity.Number, way int, show quantity.Prefs) *Scaled {
	s := &Scaled{Card: c, Factor: factor, show: show, Items: make([]ScaledItem, len(c.Items)), Steps: make([]ScaledStep, len(c.Steps))}
	s.Makes = s.amount(c.Makes.Scale(factor))
	for i := range c.Items {
		it := &c.Items[i]
		out := ScaledItem{Exact: it.Takes(factor)}
		out.Amount, out.Aside = s.item(it, out.Exact)
		if !it.Percent.IsZero() {
			out.Percent = quantity.ShowNumber(it.Percent) + " %"
		}
		s.Items[i] = out
	}
	for _, b := range c.Saves {
		s.Saves = append(s.Saves, s.amount(b.Amount.Scale(factor)))
	}
	for i := range c.Steps {
		if c.Steps[i].In(way) || way == 0 {
			s.Steps[i] = s.step(&c.Steps[i])
		}
	}
	from, to := way, way
	if way == 0 && len(c.Ways) > 0 {
		from, to = 1, len(c.Ways)
	}
	for w := from; w <= to; w++ {
		used, _ := c.Uses(w, factor)
		shown := s.uses(used)
		for i := range shown {
			if c.Steps[i].In(w) {
				s.Steps[i].Uses = shown[i]
			}
		}
	}
	return s
}

// amount writes an amount as this cook reads it.
func (s *Scaled) amount(a quantity.Amount) string { return quantity.Show(a, s.show) }

// item writes an amount of an item, with what a cook needs beside it.
func (s *Scaled) item(it *Item, a quantity.Amount) (text, aside string) {
	return larder.Show(it.Name+", "+it.Prep, a, s.Card.OwnOf(it), s.show)
}

// step writes what a step says beside its sentence.
func (s *Scaled) step(step *Step) ScaledStep {
	c := s.Card
	out := ScaledStep{Until: step.Until.Words, Heat: step.Heat(s.show)}
	if step.Until.Amount.Unit != nil {
		out.Until = s.amount(step.Until.Amount.Scale(s.Factor))
	}
	out.Hands, out.Wait = c.Time(step, s.Factor)
	if step.Load.Unit != nil {
		out.Load = "all in one load"
		if n := c.Loads(step, s.Factor); n != 1 {
			out.Load = s.amount(step.Load) + " at a time, " + strconv.Itoa(n) + " loads"
		}
		if _, asWater, _ := between(c.Title, c.Makes.Need(), c.Makes.Unit, step.Load.Unit, c.Own()); asWater {
			out.Load += " (taken at 1 kg a litre)"
		}
	}
	for _, slug := range step.Saves {
		for i, b := range c.Saves {
			if b.Slug == slug {
				out.Saves = append(out.Saves, b.Name+", "+s.Saves[i])
			}
		}
	}
	return out
}

// Heat writes the equipment that a step occupies, temperatures as one cook reads
// them: "oven 220 °C, 2 shelves; hob".
func (s *Step) Heat(show quantity.Prefs) string {
	var out []string
	for _, q := range s.Equipment {
		switch {
		case q.Words == "":
			out = append(out, q.Name)
		case q.HasTemp && show.System == quantity.US:
			out = append(out, q.Name+" "+quantity.ShowFahrenheit(q.TempC)+" ("+q.Words+")")
		default:
			out = append(out, q.Name+" "+q.Words)
		}
	}
	return strings.Join(out, "; ")
}

// degrees writes a temperature in this cook's degrees.
func (s *Scaled) degrees(c float64) string {
	if s.show.System == quantity.US {
		return quantity.ShowFahrenheit(c)
	}
	return celsius(c)
}

func celsius(c float64) string { return strconv.FormatFloat(c, 'f', -1, 64) + " °C" }
