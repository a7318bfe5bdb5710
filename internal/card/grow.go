package card

import (
	"slices"
	"strconv"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Loads returns the number of loads in which a step is done when the card is
// made factor times over: 18 pieces through a fryer that takes 4 are 5 loads. It
// is 1 for a step that names no load, or whose load can't be compared with
// anything the step handles.
//
// The load is compared with what the card makes; where those don't meet
// ("load: 500 g" on a card that makes pieces) with the step's own items.
func (c *Card) Loads(s *Step, factor quantity.Number) int {
	if s.Load.Unit == nil || s.Load.Qty.Sign() <= 0 {
		return 1
	}
	handled, ok := c.handled(s, factor, s.Load.Unit)
	if !ok {
		return 1
	}
	n, fits := handled.Quo(s.Load.Need()).Ceil().Int64()
	if !fits || n > 100_000 {
		return 100_000 // far too many, but still a number: the amounts have a problem of their own
	}
	return max(1, int(n))
}

// HalfEmpty reports whether a step's only load is less than half of a full one.
func (c *Card) HalfEmpty(s *Step, factor quantity.Number) bool {
	if s.Load.Unit == nil || s.Load.Qty.Sign() <= 0 {
		return false
	}
	handled, ok := c.handled(s, factor, s.Load.Unit)
	return ok && handled.Add(handled).Cmp(s.Load.Need()) < 0
}

// handled returns how much of the batch a step handles, in unit.
func (c *Card) handled(s *Step, factor quantity.Number, unit *quantity.Unit) (quantity.Number, bool) {
	if n, _, ok := between(c.Title, c.Makes.Need().Mul(factor), c.Makes.Unit, unit, c.Own()); ok {
		return n, true
	}
	if oneEach(c.Makes.Unit, unit) {
		return c.Makes.Need().Mul(factor), true
	}
	var sum quantity.Number
	found := false
	for _, r := range s.Text {
		if r.Item == 0 {
			continue
		}
		it, times := &c.Items[r.Item-1], factor
		if it.Fixed {
			times = quantity.Int(1)
		}
		a := it.Amount
		if r.Part.Unit != nil {
			a = r.Part
		}
		if a.Unit == nil {
			continue
		}
		if n, _, ok := between(it.Name, a.Need().Mul(times), a.Unit, unit, c.OwnOf(it)); ok {
			sum, found = sum.Add(n), true
		}
	}
	if !found && c.Each.Unit != nil {
		if n, _, err := larder.Convert(c.Title, c.Makes.Need().Mul(factor), c.Makes.Unit, unit, c.Own()); err == nil {
			return n, true
		}
	}
	return sum, found
}

// oneEach reports whether two units are both what one guest gets: 4 portions are 4 plates.
func oneEach(a, b *quantity.Unit) bool {
	guest := func(u *quantity.Unit) bool {
		return u != nil && (u.Name == "plate" || u.Name == "portion" || u.Name == "cover")
	}
	return guest(a) && guest(b)
}

// Time returns a step's attended and unattended time for a batch of factor
// times the card: per load where the step has loads, and grown where it says
// "+ 2 min per 6 pieces".
func (c *Card) Time(s *Step, factor quantity.Number) (hands, wait document.Duration) {
	loads := c.Loads(s, factor)
	return c.grow(s, s.Hands, factor, loads, 1), c.grow(s, s.Wait, factor, loads, c.sideBySide(s, factor))
}

// sideBySide returns in how many pots or pans a step stands on the hob at the same time: what
// grows with the amount takes as long as it does for the share of one. A step done load by load
// has one after the other.
func (c *Card) sideBySide(s *Step, factor quantity.Number) int {
	onHob := slices.ContainsFunc(s.Equipment, func(q Equipment) bool { return q.Name == "hob" })
	if s.Wait.Per.Unit == nil || s.Vessel.Name == "" || s.Load.Unit != nil || !onHob {
		return 1
	}
	step := slices.IndexFunc(c.Steps, func(other Step) bool { return other.Pos == s.Pos })
	if step < 0 {
		return 1
	}
	return c.Vessels(step, factor)
}

// uncounted adds a warning for each step whose load, or whose time per so much, can't be
// compared with what the card makes nor with what the step names: it would count once.
func (p *parser) uncounted() {
	c := p.card
	for i := range c.Steps {
		s := &c.Steps[i]
		for _, of := range [...]struct {
			word, per string
			a         quantity.Amount
		}{{"hands", "per ", s.Hands.Per}, {"wait", "per ", s.Wait.Per}, {"load", "", s.Load}} {
			if of.a.Unit == nil || c.Makes.Unit == nil {
				continue
			}
			if _, ok := c.handled(s, quantity.Int(1), of.a.Unit); !ok {
				p.Warn(p.LineStart(s.Pos), "step "+strconv.Itoa(s.Number)+": \""+of.word+": "+of.per+quantity.Show(of.a, quantity.Prefs{AsTyped: true})+
					"\" can't be counted: neither the card nor the step has an amount in that unit", "", "write it by "+c.Makes.Unit.Plural+", which the card makes, or name in the step what it is counted by")
			}
		}
		for _, k := range append(slices.Clone(s.Keep), s.Plates.Keep) {
			per := k.Shelves.Per
			if k.Shelves.Count > 0 && per.Unit == nil && c.IsPlate() {
				p.Warn(p.LineStart(s.Pos), "step "+strconv.Itoa(s.Number)+`: "`+k.Shelves.Words+`" does not say for how many plates`, "", `write it like "`+k.Shelves.Words+` per 18 plates"`)
			}
			if per.Unit != nil && c.Makes.Unit != nil {
				if _, ok := c.amountIn(per.Unit, quantity.Int(1)); !ok {
					p.Warn(p.LineStart(s.Pos), "step "+strconv.Itoa(s.Number)+`: "`+k.Shelves.Words+`" can't be counted: the card makes no amount in that unit`, "",
						"write it by "+c.Makes.Unit.Plural+", which the card makes")
				}
			}
		}
	}
}

// grow returns a time for a batch of factor times the card, done in so many loads, of which the
// part that grows goes by the share of one of several vessels.
func (c *Card) grow(s *Step, d document.Duration, factor quantity.Number, loads, vessels int) document.Duration {
	d.Low, d.High = d.Low*loads, d.High*loads
	if d.Per.Unit == nil || d.Per.Qty.Sign() <= 0 {
		return d
	}
	handled, ok := c.handled(s, factor, d.Per.Unit)
	if !ok {
		return d
	}
	// Whole groups: three pieces take as long as the six they were timed for.
	groups, fits := handled.Quo(quantity.Int(int64(vessels))).Quo(d.Per.Qty).Ceil().Int64()
	if !fits || groups > 100_000 {
		groups = 100_000
	}
	d.Low += int(groups) * d.PerLow
	d.High += int(groups) * d.PerHigh
	d.PerLow, d.PerHigh, d.Per = 0, 0, quantity.Amount{}
	return d
}
