package plan

import (
	"errors"
)

// best returns the plan with the first ways that fit, or why there is none.
func (in *Input) best() (*Plan, error) {
	ways := in.chosen()
	pl, first := in.attempt(ways, -1)
	if pl != nil {
		pl.Ways = in.choices(ways, nil)
		return pl, nil
	}
	type option struct {
		card string
		way  int
	}
	var open []option // ways that the cook has not chosen
	for _, comp := range in.Demand.Components {
		if _, fixed := in.Dinner.Ways[comp.Card.ID]; len(comp.Card.Ways) > 1 && !fixed && !in.begun(comp.Card.ID) {
			for w := 2; w <= len(comp.Card.Ways); w++ {
				open = append(open, option{comp.Card.ID, w})
			}
		}
	}
	// Change the way of one card, then of two, and so on.
	for _, other := range subsets(len(open)) {
		ways := in.chosen()
		for _, k := range other {
			ways[open[k].card] = open[k].way
		}
		if !in.fits(ways) {
			continue
		}
		if pl, _ := in.attempt(ways, -1); pl != nil {
			pl.Ways = in.choices(ways, first)
			return pl, nil
		}
	}
	return nil, first
}

// subsets returns the first sixteen non-empty subsets of n things, smallest first.
func subsets(n int) [][]int {
	var out [][]int
	for size := 1; size <= n && len(out) < 16; size++ {
		pick := make([]int, 0, size)
		var from func(k int)
		from = func(k int) {
			if len(pick) == size {
				out = append(out, append([]int{}, pick...))
				return
			}
			for ; k < n && len(out) < 16; k++ {
				pick = append(pick, k)
				from(k + 1)
				pick = pick[:len(pick)-1]
			}
		}
		from(0)
	}
	return out
}

// chosen returns a copy of the ways that the cook chose.
func (in *Input) chosen() map[string]int {
	ways := map[string]int{}
	for id, w := range in.Dinner.Ways {
		ways[id] = w
	}
	return ways
}

// begun reports whether any step of a card was started.
func (in *Input) begun(card string) bool {
	for key := range in.Progress {
		if key.Card == card {
			return true
		}
	}
	return false
}

// choices returns the way used of every card with several, and why.
func (in *Input) choices(ways map[string]int, trouble error) []Choice {
	var out []Choice
	for _, comp := range in.Demand.Components {
		c := comp.Card
		if len(c.Ways) < 2 {
			continue
		}
		w := min(max(1, ways[c.ID]), len(c.Ways))
		choice := Choice{Card: c.ID, Way: w}
		switch {
		case in.Dinner.Ways[c.ID] > 0:
			choice.Why = "as you chose"
		case w == 1:
			choice.Why = "the first way on the card, and it fits"
		default:
			choice.Why = "“" + c.Ways[0].Name + "” does not fit"
			if b := new(Blocked); errors.As(trouble, &b) && len(b.Because) > 0 {
				choice.Why += ": " + b.Because[0]
			}
		}
		out = append(out, choice)
	}
	return out
}
