package plan

import (
	"cmp"
	"slices"
)

const (
	mostChanges = 6
	mostMore    = 4 // of one kind of equipment
)

// onTime is the effect of most changes.
const onTime = "every course on time"

// Free returns changes that make a blocked dinner possible, each by itself, those that
// change least first, and of each kind the smallest. Each was tried.
func (in Input) Free(b *Blocked) []Change {
	in.explode()
	f := &freeing{in: in, b: b}
	if len(b.Lacking) > 0 {
		f.lacking()
	} else {
		f.all()
	}
	slices.SortStableFunc(f.found, func(x, y Change) int { return cmp.Compare(x.cost, y.cost) })
	return f.found[:min(mostChanges, len(f.found))]
}

// freeing is a search for changes.
type freeing struct {
	in    Input
	b     *Blocked
	first Change // what each change needs as well
	found []Change
}

// try plans with a change. It returns the plan and records the change, or returns nil.
func (f *freeing) try(c Change) *Plan {
	pl := f.plan(c)
	if pl != nil {
		f.add(c, pl)
	}
	return pl
}

// plan plans with a change, nil where there is no plan.
func (f *freeing) plan(c Change) *Plan {
	changed := f.in.With(c)
	changed.Placements = 1
	pl, _ := changed.best()
	return pl
}

// add records a change that was tried.
func (f *freeing) add(c Change, pl *Plan) {
	if f.first.Text != "" {
		c.Text = f.first.Text + ", and " + c.Text
		c.Do = slices.Concat(f.first.Do, c.Do)
	}
	c.Effect = cmp.Or(c.Effect, onTime) + f.in.otherwise(pl)
	f.found = append(f.found, c)
}

// all tries every kind of change.
func (f *freeing) all() {
	f.ways()
	f.keeps()
	if f.b.large {
		f.covers()
		return
	}
	f.equipment()
	if !f.b.always { // more time changes nothing where loads wait for each other
		f.cook()
		f.hours()
		f.serve()
	}
	if len(f.found) == 0 {
		f.together()
	}
	f.covers()
}

// How much the kinds of changes change, for their order: each a rough count of the
// minutes that somebody has to do with it. Common practice, no source.
const (
	perWay   = 5
	perEarly = 20 // for an hour
	perKeep  = 60
	perAhead = 40 // a card on another day
	perDay   = 120
	perPiece = 180 // of equipment
	perCook  = 200
	perLater = 3    // for a minute
	perCover = 2000 // for all of them
)

// otherwise names the cards for which a plan chose another way than the first.
func (in *Input) otherwise(pl *Plan) string {
	text := ""
	for _, w := range pl.Ways {
		if c := in.Dinner.Cards[w.Card]; w.Way > 1 && in.Dinner.Ways[w.Card] == 0 && c != nil {
			text += ", with “" + c.Ways[w.Way-1].Name + "”"
		}
	}
	return text
}
