package plan

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A little kitchen whose every plan can be tried: all its times are multiples
// of five minutes, so if it has a plan at all it has one on that grid, and the
// best by the aims is on it too (each order of the steps asks for differences
// of starts only, and those have their corners there).
const grid = 5

// littleStep is one step of the little kitchen's dinner, described without a
// card.
type littleStep struct {
	card, number int
	hands, wait  int
	people       int // who share the hands-on time, each for so long
	keep         int // minutes
	rings        int
	heat         int // of the oven, 0 for no oven
	after        []int
	due          bool // its course goes out at 0
}

type littleKitchen struct {
	hands, rings int
	hours        [][2]int // minutes after the serving time
	steps        []littleStep
}

// anyLittle draws a dinner: a plate and up to two components of one to two
// steps.
func anyLittle(t *rapid.T) littleKitchen {
	k := littleKitchen{hands: rapid.IntRange(1, 2).Draw(t, "hands"), rings: rapid.IntRange(1, 2).Draw(t, "rings"),
		hours: [][2]int{{-22 * 60, -21 * 60}, {-95, 30}}} // 21:00–22:00 and 17:25–19:30
	n := rapid.IntRange(2, 3).Draw(t, "cards")
	var ends []int
	for c := n - 1; c >= 0; c-- {
		before := -1
		for s := range rapid.IntRange(1, 2).Draw(t, "steps") {
			st := littleStep{people: 1, card: c, number: s + 1, hands: grid * rapid.IntRange(1, 5).Draw(t, "hands"),
				keep: rapid.SampledFrom([]int{5, 15, 30, 60, 24 * 60}).Draw(t, "keep")}
			st.wait = grid * rapid.SampledFrom([]int{0, 0, 2, 6}).Draw(t, "wait")
			switch rapid.IntRange(0, 3).Draw(t, "on") {
			case 0:
				st.rings = rapid.IntRange(1, k.rings).Draw(t, "rings")
			case 1:
				st.heat = rapid.SampledFrom([]int{120, 180}).Draw(t, "heat")
			}
			if before >= 0 {
				st.after = append(st.after, before)
			}
			if c == 0 && s == 0 {
				st.after = append(st.after, ends...) // the plate's first step takes up all
			}
			before = len(k.steps)
			k.steps = append(k.steps, st)
		}
		if c > 0 {
			ends = append(ends, before)
		} else {
			s := &k.steps[before]
			if s.due = true; s.heat == 0 && s.rings == 0 && k.hands*s.hands >= 4 {
				s.people = k.hands // it plates up
			}
		}
	}
	return k
}

// input writes the little kitchen as cards.
func (k littleKitchen) input(t failer) Input {
	steps := map[int][]string{}
	for _, s := range k.steps {
		text := fmt.Sprintf("Do it.; hands: %d min; keep: %d min room", s.hands*s.people, s.keep)
		if s.wait > 0 {
			text += fmt.Sprintf("; wait: %d min", s.wait)
		}
		if s.rings > 0 {
			text += fmt.Sprintf("; hob: %d rings", s.rings)
		}
		if s.heat > 0 {
			text += fmt.Sprintf("; oven: %d °C", s.heat)
		}
		steps[s.card] = append(steps[s.card], text)
	}
	cards := map[string]string{}
	items := []string{"10 g salt"}
	for c := len(steps) - 1; c > 0; c-- {
		cards[fmt.Sprintf("c%d", c)] = recipe(fmt.Sprintf("Card %d", c), "makes: 1 kg", []string{"500 g onions"}, steps[c]...)
		items = append(items, fmt.Sprintf("50 g [Card %d](c%d.md)", c, c))
	}
	cards["c0"] = recipe("Card 0", "makes: 1 plate", items, steps[0]...)
	in := cook(t, galley(k.hands, "17:25–19:30", fmt.Sprintf("hob: %d", k.rings), "oven: 1, 1 shelf"), courses(1, "c0"), cards)
	in.Kitchen.Hours = append(in.Kitchen.Hours, in.Kitchen.Hours[0])
	in.Kitchen.Hours[1].Days, in.Kitchen.Hours[1].From, in.Kitchen.Hours[1].To = -1, 21*60, 22*60
	return in
}

// The last hour and what waits too long for its course are weighed against each other.
const (
	aLastMinute  = 1 // hands-on, in the last hour
	aStaleMinute = 5 // past its keeping time when the course goes out
)

// alone returns the little kitchen with no step shared.
func (k littleKitchen) alone() littleKitchen {
	k.steps = slices.Clone(k.steps)
	for i := range k.steps {
		s := &k.steps[i]
		s.hands, s.people = s.hands*s.people, 1
	}
	return k
}

// tryAll tries every plan and returns the least sum of hands-on time in the last hour
// and of time past a keeping time when the course goes out.
func (k littleKitchen) tryAll() (least int, found bool) {
	starts := make([]int, len(k.steps))
	var place func(i, sum int)
	place = func(i, sum int) {
		if found && sum >= least {
			return
		}
		if i < 0 {
			least, found = sum, true
			return
		}
		s := &k.steps[i]
		for _, h := range k.hours {
			for at := h[0]; at+s.hands <= h[1]; at += grid {
				if starts[i] = at; !k.fits(i, starts) {
					continue
				}
				place(i-1, sum+aLastMinute*s.people*max(0, at+s.hands-max(at, -60))+aStaleMinute*k.stale(i, at+s.hands+s.wait))
			}
		}
	}
	place(len(k.steps)-1, 0)
	return least, found
}

// stale returns how many minutes more than it keeps step i waits for the course when
// it is done at end. It counts for what the plate takes and for the plate's own steps.
func (k littleKitchen) stale(i, end int) int {
	s, left := &k.steps[i], 0
	taken := s.card == 0
	for j := i + 1; j < len(k.steps); j++ {
		o := &k.steps[j]
		if o.card == 0 {
			left += o.hands + o.wait
			taken = taken || slices.Contains(o.after, i)
		}
	}
	if s.due || !taken || s.keep >= 24*60 {
		return 0
	}
	return max(0, -end-max(s.keep, left+5))
}

// weighed returns the sum of tryAll for a plan.
func (k littleKitchen) weighed(pl *Plan) int {
	sum := aLastMinute * pl.Aims.LastHour
	for i, s := range k.steps {
		for _, t := range pl.Tasks {
			if t.Card == fmt.Sprintf("c%d", s.card) && t.Step.Step == s.number {
				sum += aStaleMinute * k.stale(i, t.End)
			}
		}
	}
	return sum
}

// heating returns how long the oven heats up before a step: not at all where the step
// before on its card is in the oven too.
func (k littleKitchen) heating(i int) int {
	s := &k.steps[i]
	if s.heat == 0 || i > 0 && k.steps[i-1].card == s.card && k.steps[i-1].heat > 0 {
		return 0
	}
	return 15
}

// fits reports whether step i may start where it does, given the steps after it
// in the list.
func (k littleKitchen) fits(i int, starts []int) bool {
	s := &k.steps[i]
	at, free := starts[i], starts[i]+s.hands
	end := free + s.wait
	if s.due && (end > 0 || end < -s.keep) {
		return false
	}
	hot := at - k.heating(i)
	if s.heat > 0 || s.rings > 0 {
		open := false
		for _, h := range k.hours {
			open = open || h[0] <= hot && end <= h[1]
		}
		if !open {
			return false
		}
	}
	for j := i + 1; j < len(k.steps); j++ {
		if o := &k.steps[j]; s.heat > 0 && o.heat > 0 && s.heat != o.heat && hot < starts[j]+o.hands+o.wait && starts[j]-k.heating(j) < end {
			return false // not hot, or not cool, in time
		}
		for _, p := range k.steps[j].after {
			if p == i && (starts[j] < end || starts[j] > end+s.keep) {
				return false
			}
		}
	}
	for t := at; t < end; t += grid {
		hands, rings := 0, 0
		for j := i; j < len(k.steps); j++ {
			o := &k.steps[j]
			if t < starts[j] || t >= starts[j]+o.hands+o.wait {
				continue
			}
			if t < starts[j]+o.hands {
				hands += o.people
			}
			rings += o.rings
			if j > i && o.heat > 0 && s.heat > 0 {
				return false // one shelf
			}
		}
		if hands > k.hands || rings > k.rings {
			return false
		}
	}
	return true
}

// TestPlanIsAsGoodAsExhaustiveSearch: a plan is found just where there is one. The search for
// the best one is not exhaustive; hardly ever is there another that leaves less
// to do in the last hour and serves it fresher. The aims below that are compared in package rota.
func TestPlanIsAsGoodAsExhaustiveSearch(t *testing.T) {
	n, possible, worse := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		k := anyLittle(t)
		in := k.input(t)
		least, found := k.tryAll()
		if !found { // it does not fit when it is shared
			k = k.alone()
			least, found = k.tryAll()
		}
		made, err := Make(in)
		n++
		if found != (err == nil) {
			t.Logf("%+v", k)
			t.Fatalf("there is a plan: %v; Make says: %v", found, err)
		}
		if !found {
			return
		}
		possible++
		if said := breaks(in, made); len(said) > 0 {
			t.Fatalf("%v", said)
		}
		pl, err := in.attempt(in.chosen(), 0)
		if err != nil {
			t.Fatalf("without time in hand there is none: %v", err)
		}
		if sum := k.weighed(pl); sum != least {
			worse++
			if sum < least {
				t.Fatalf("%+v: %+v, %d is better than the best there is, %d", k, pl.Aims, sum, least)
			}
		}
	})
	t.Logf("%d kitchens, %d with a plan, %d of them not the best", n, possible, worse)
	assert.Greater(t, possible, n/10)
	assert.LessOrEqual(t, worse, 3+possible/50, "one in two hundred is not the best, give or take a few")
}
