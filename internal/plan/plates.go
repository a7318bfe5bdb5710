package plan

import "hobside/internal/menu"

// platesFirst makes the plates for guests who can't have something come before the
// others of their course: while boards, hands and the pass are clean.
func (b *builder) platesFirst() {
	for _, course := range b.in.Dinner.Menu.Courses {
		for i := range course.Served() {
			if len(course.Plates[i].For) == 0 {
				continue
			}
			for k := i - 1; k >= 0; k-- {
				if len(course.Plates[k].For) == 0 {
					b.plateFirst(&course.Plates[i], &course.Plates[k])
					break
				}
			}
		}
	}
}

// plateFirst makes the last step of a plate start no later than that of another. The
// plate then waits at the pass while the others are made. Where its card says that it
// keeps less long than that, the order stays free.
func (b *builder) plateFirst(plate, other *menu.Plate) {
	from, to := b.demand.ByCard[plate.Card], b.demand.ByCard[other.Card]
	if from == nil || to == nil || plate.Card == other.Card {
		return
	}
	first, then := b.lasts(from.Card), b.lasts(to.Card)
	if len(first) != 1 || len(then) != 1 {
		return // no one step sends it
	}
	step, last := Step{plate.Card, 1, first[0] + 1}, Step{other.Card, 1, then[0] + 1}
	a, ok1 := b.spans[step]
	z, ok2 := b.spans[last]
	if !ok1 || !ok2 || b.acts[a.first].held || b.acts[z.first].held {
		return
	}
	took := b.took(last)
	if len(from.Card.Steps[first[0]].Keep) > 0 || len(from.Card.Keeps) > 0 {
		if m, _, _ := b.keeping(from.Card, first[0], true); m < took {
			return
		}
	} else if sent := &b.acts[a.last]; sent.course > 0 {
		sent.lo = min(sent.lo, sent.hi-plated-took)
	}
	b.lags = append(b.lags, lag{a.first, z.first, 0, why{kind: follows, step: step}})
	b.arcs = append(b.arcs, arc{a.first, z.first, -b.acts[a.first].dur})
}
