package demand

import (
	"maps"

	"hobside/internal/quantity"
)

// A Consequence is what follows when a component gave less or more than planned:
// how much each use gets now, and what can be done. All amounts are in the
// component's unit.
type Consequence struct {
	Card    string
	Planned quantity.Number // planned yield of all batches
	Made    quantity.Number // what they give, measured where weighed
	Need    quantity.Number
	Short   quantity.Number   // 0 when there is enough
	Gets    []quantity.Number // for each of Component.Uses
	Covers  int               // how many covers get a whole portion
	Portion quantity.Number   // the largest portion factor, in hundredths, at which it is enough for all; 0: none is
	Again   quantity.Number   // amount of another batch; 0 when there is enough
	TopUp   quantity.Number   // how much may be topped up, at most Short; 0 when the card allows none
}

// Consequences returns one for every component that was weighed or is short. Each
// choice is worked out by exploding the dinner with it, so that its numbers are
// those that the cook gets:
//
//   - fewer covers: Input.Covers at Consequence.Covers
//   - smaller portions: Input.Portions of the card at Consequence.Portion
//   - make again: Input.Again of the card
//   - top up: the batch's weight plus Consequence.TopUp
func Consequences(in Input, d *Demand) []Consequence {
	var out []Consequence
	for _, comp := range d.Components {
		m, tell := Consequence{Card: comp.Card.ID, Made: comp.Made, Need: comp.Need}, comp.Short
		for _, batch := range comp.Batches {
			m.Planned = m.Planned.Add(batch.Amount)
			tell = tell || batch.Measured
		}
		if !tell || comp.Card.IsPlate() {
			continue
		}
		m.Covers = d.Covers
		for _, u := range comp.Uses {
			m.Gets = append(m.Gets, u.Amount)
		}
		if comp.Short {
			m.shortage(in, d, comp)
		}
		out = append(out, m)
	}
	return out
}

// shortage works out the choices.
func (m *Consequence) shortage(in Input, d *Demand, comp *Component) {
	m.Short = comp.lacks()
	for i, u := range comp.Uses { // shared in proportion
		if comp.Made.Cmp(comp.Need) < 0 {
			m.Gets[i] = u.Amount.Mul(comp.Made).Quo(comp.Need)
		}
	}
	m.Covers = most(d.Covers, func(n int) bool {
		fewer := in
		fewer.Covers = n
		if n == 0 {
			fewer.Covers = -1
		}
		return reaches(fewer, m.Card)
	})
	hundredth := quantity.Frac(1, 100)
	if n := most(99, func(n int) bool {
		smaller := in
		smaller.Portions = maps.Clone(in.Portions)
		if smaller.Portions == nil {
			smaller.Portions = map[string]quantity.Number{}
		}
		smaller.Portions[m.Card] = hundredth.Mul(quantity.Int(int64(n)))
		return n == 0 || reaches(smaller, m.Card)
	}); n > 0 {
		m.Portion = hundredth.Mul(quantity.Int(int64(n)))
	}
	if comp.Card.TopUp != "" {
		for _, batch := range comp.Batches {
			if batch.Measured {
				m.TopUp = m.TopUp.Add(batch.Got.Mul(comp.Card.TopMost))
			}
		}
		if m.TopUp.Cmp(m.Short) > 0 {
			m.TopUp = m.Short
		}
	}
	again := in
	again.Again = maps.Clone(in.Again)
	if again.Again == nil {
		again.Again = map[string]bool{}
	}
	again.Again[m.Card] = true
	if more, _ := Explode(again); more.ByCard[m.Card] != nil {
		for _, batch := range more.ByCard[m.Card].Batches {
			if !batch.Fixed {
				m.Again = m.Again.Add(batch.Amount)
			}
		}
	}
}

// reaches reports whether a component is enough for a dinner.
func reaches(in Input, id string) bool {
	d, _ := Explode(in)
	comp := d.ByCard[id]
	return comp == nil || !comp.Short
}

// most returns the greatest n from 0 to limit for which ok holds; ok must hold up
// to some n and not above it.
func most(limit int, ok func(n int) bool) int {
	low, high := 0, limit
	for low < high {
		mid := low + (high-low+1)/2
		if ok(mid) {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return low
}
