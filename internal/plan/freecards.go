package plan

import (
	"cmp"
	"fmt"

	"hobside/internal/document"
)

// ways tries the other ways of each card.
func (f *freeing) ways() {
	for _, comp := range f.in.Demand.Components {
		c := comp.Card
		for w := range c.Ways {
			if w+1 != max(1, f.in.Dinner.Ways[c.ID]) && !f.in.begun(c.ID) {
				f.try(Change{Text: c.Title + ": “" + c.Ways[w].Name + "”", Do: []Deed{{Do: DoWay, Card: c.ID, Way: w + 1}}, cost: perWay})
			}
		}
	}
}

// keeps tries to let results wait longer that the reason says do not wait long enough,
// as far as the plan lets anything wait in such a place. Only the author of a card can
// say that it does, so each says so.
func (f *freeing) keeps() {
	for _, l := range f.b.waits {
		most, ok := mostKept[l.place]
		for minutes := l.within + l.over; ok; minutes = min(most, 2*minutes) {
			minutes = (minutes + markEvery - 1) / markEvery * markEvery
			if minutes > most {
				break
			}
			who := "if its author agrees; the card says " + waits(l.within, l.place)
			if l.usual {
				who = "if its author agrees; the card gives no time, and " + waits(l.within, l.place) + " is the default"
			}
			longer := perKeep * minutes / max(markEvery, l.within) // the looser, the more it changes
			place := l.place
			if place == heldAtHeat || place == "pass" || place == "" {
				place = "hot"
			}
			c := Change{Text: l.name + " may wait " + document.FormatSeconds(minutes*bySeconds) + ", " + who, cost: longer,
				Do: []Deed{{Do: DoKeep, Card: l.step.Card, Step: l.step.Step, Minutes: minutes, Place: place}}}
			if f.try(c) != nil || minutes == most {
				break
			}
		}
	}
}

// mostKept is how long a result may be let wait at most in each place, in minutes: no
// longer than what nobody gave a time for, and half an hour where it is past its best
// soon. Common practice, no source.
var mostKept = map[string]int{heldAtHeat: 30, "hot": 30, "pass": 30, "": 30, "room": roomKeeps, "chilled": coldKeeps}

// covers finds the largest possible number of covers: by doubling, then by bisection.
func (f *freeing) covers() {
	all := cmp.Or(f.in.Dinner.Covers, f.in.Dinner.Menu.Covers)
	with := func(n int) Change { return Change{Do: []Deed{{Do: DoCovers, Count: n}}} }
	can, cannot := 0, all
	for cannot-can > 1 {
		n := (can + cannot) / 2
		if cannot == all {
			n = min(n, 2*can+1) // small dinners are tried first: they take least time
		}
		if f.plan(with(n)) != nil {
			can = n
		} else {
			cannot = n
		}
	}
	if can > 0 {
		c := with(can)
		c.Text, c.Effect = plural(all-can, "cover")+" fewer", fmt.Sprintf("every course on time for %d", can)
		c.cost = perCover * (all - can) / all
		f.try(c)
	}
}
