package card

import (
	"math"
	"strconv"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

var litre, _ = quantity.LookupUnit("L")

// leftFree is the part of a pot, a pan or a bucket that stays free, so that it can boil and
// be carried. Common practice, no source. Trays and tins are filled as deep as they say.
const leftFree = 0.1

// overFull is by how much of one vessel the last may be too full before another is counted:
// a density is known no better. Our own working value.
const overFull = 0.05

// vessel reads the vessel of a step.
func (p *parser) vessel(step int, name string, f document.Fact) {
	s := &p.card.Steps[step]
	if s.Vessel.Name != "" {
		p.Err(f.At, "step "+strconv.Itoa(s.Number)+` has a second vessel, "`+name+`"`, "", "take one out, or part the step in two")
		return
	}
	if v, ok := p.File.Vessel(name, f); ok {
		s.Vessel = v
	}
}

// A Fill is what goes into the vessel of a step.
type Fill struct {
	Grams, Litres float64
	Assumed       []string // the items whose density is not known: taken at 1 kg a litre
	Vessels       int      // how many that fills
}

// Fill returns what goes into the vessel of a step, by its index, when the card is made
// factor times over by a way: the items that the step names and, where it goes on in the
// same vessel, those of the steps before; a step that names none has what the card makes. A
// volume goes by the density of the food where that is known. ok is false for a step
// without a vessel, and where nothing says how much it is.
func (c *Card) Fill(step, way int, factor quantity.Number) (f Fill, ok bool) {
	v := c.Steps[step].Vessel
	if v.Name == "" {
		return f, false
	}
	run := []int{step}
	for j, more := c.StepBefore(step); more && same(c.Steps[j].Vessel, v); j, more = c.StepBefore(j) {
		run = append([]int{j}, run...)
	}
	used, _ := c.Uses(way, factor)
	named := false
	for k, i := range run {
		for r, u := range used[i] {
			if n := c.Steps[i].Text[r].Item; n > 0 {
				named = true
				it := &c.Items[n-1]
				f.add(it.Name, u.Amount, c.OwnOf(it))
			}
		}
		if until := c.Steps[i].Until.Amount; until.Unit != nil && k < len(run)-1 { // it has boiled down
			f = Fill{}
			f.add(c.Title, until.Scale(factor), c.Own())
		}
	}
	if !named {
		f.add(c.Title, c.Makes.Scale(factor), c.Own())
	}
	if f.Litres <= 0 {
		return f, false
	}
	f.Vessels = max(1, int(math.Ceil(f.Litres/Room(v)-overFull)))
	return f, true
}

// Vessels returns how many vessels a step takes when the card is made factor times over: as
// many as its food fills, and no fewer than the card says.
func (c *Card) Vessels(step int, factor quantity.Number) int {
	s := &c.Steps[step]
	f, _ := c.Fill(step, s.Way, factor)
	return max(1, f.Vessels, s.Vessel.Count)
}

// same reports whether two steps name one vessel.
func same(a, b document.Vessel) bool { return a.Name == b.Name && a.Words == b.Words }

// Room returns how many litres go into one vessel.
func Room(v document.Vessel) float64 {
	switch v.Name {
	case "pot", "pan", "bucket":
		return v.Litres * (1 - leftFree)
	}
	return v.Litres
}

// add puts an amount of food into a fill. What has neither weight nor volume is left out.
func (f *Fill) add(name string, a quantity.Amount, own larder.Own) {
	if a.Unit == nil {
		return
	}
	g, _, errGrams := larder.Convert(name, a.Need(), a.Unit, gram, own)
	l, _, errLitres := larder.Convert(name, a.Need(), a.Unit, litre, own)
	grams, litres := g.Float64(), l.Float64()
	switch {
	case errGrams != nil && errLitres != nil:
		return
	case errGrams != nil:
		grams = litres * 1000
	case errLitres != nil:
		litres = grams / 1000
	}
	if errGrams != nil || errLitres != nil {
		f.Assumed = append(f.Assumed, name)
	}
	f.Grams, f.Litres = f.Grams+grams, f.Litres+litres
}

// vesselShown returns the vessel of a step with how many the batch fills: as an author
// types it, and as the stove shows it.
func (s *Scaled) vesselShown(step int) (value, stove string) {
	v, n := s.Card.Steps[step].Vessel, s.Card.Vessels(step, s.Factor)
	if n == 1 {
		return v.Words, v.Words
	}
	return strconv.Itoa(n) + ", " + v.Words, strconv.Itoa(n) + " of " + v.Words
}
