package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/plan/rcpsp"
)

// atHand is the longest unattended time of a load, in minutes, at which the cook
// stays: loads through a fryer are one piece of work, trays in an oven are not.
const atHand = 10

// mostLoads is how many loads are planned one by one; more are one piece of work.
const mostLoads = 12

// step adds one step of one batch: its hands-on part and its unattended part, load
// by load where there are loads.
func (b *builder) step(comp *demand.Component, key Step, given *card.Step) {
	c := comp.Card
	factor := comp.Batches[key.Batch-1].Factor
	s := b.ringed(comp, key, b.fitted(given))
	hands, wait := c.Time(s, factor)
	if n := b.turns(comp, key, given); n > 1 {
		wait.Low, wait.High = wait.Low*n, wait.High*n
	}
	if forecast := b.cools(comp, key, s); !forecast.IsZero() {
		wait = forecast
	}
	hot := slices.ContainsFunc(s.Equipment, func(q card.Equipment) bool { return b.heat(q.Name) })
	work, _ := planned(hands, true)
	people := b.crew(key, s)
	work = (work + people - 1) / people
	rest, free := planned(wait, hot)
	spreadOf := handSpread(hands).over(people)
	restSpread := waitSpread(wait, hot)
	if b.attended(key, s) {
		rest, _ = planned(wait, true)
		work, rest, free = work+rest, 0, 0
		spreadOf, restSpread = spreadOf.and(waitSpread(wait, true)), spread{}
	}
	loads := c.Loads(s, factor)
	if pr, ok := b.in.Progress[key]; ok && pr.Begun {
		b.asItWas(key, s, pr, people, minutes(work), minutes(rest), free/bySeconds)
		return
	}
	p := part{key: key, step: s, watched: hot && !s.Unwatched, people: people, free: free / bySeconds, work: spreadOf, rest: restSpread}
	p.bench, p.kept = b.bench(key, s)
	if loads == 1 {
		if c.HalfEmpty(s, factor) {
			b.note(b.name(key) + " takes the time of a full load, though less than half of one goes in")
		}
		b.loads(p, 1, 0, minutes(work), minutes(rest))
		return
	}
	units := b.atOnce(s, loads)
	cycles := (loads + units - 1) / units
	perWork, perRest := (work*units+loads-1)/loads, (rest+loads-1)/loads
	p.units = units
	// The first load waits for the last, so its keeping time starts earlier.
	p.aged = (cycles - 1) * (minutes(perWork) + minutes(perRest))
	if perRest <= atHand*bySeconds || cycles > mostLoads {
		if perRest > atHand*bySeconds {
			p.watched = true
		}
		p.work = p.work.and(p.rest)
		all := minutes(cycles * (perWork + perRest))
		p.aged = all - all/cycles
		b.loads(p, 1, 0, all, 0)
		return
	}
	b.loads(p, cycles, cycles, minutes(perWork), minutes(perRest))
}

// onePan is equipment on whose places one pan stands: its loads go into that pan one
// after the other, also where more places are free.
const onePan = "hob"

// atOnce returns how many loads the kitchen can run at the same time.
func (b *builder) atOnce(s *card.Step, loads int) int {
	units := loads
	for _, q := range s.Equipment {
		if e := has(b.in.Kitchen, q.Name); counted(e) {
			room := capacity(e)
			if q.Name == onePan {
				room = q.Count
			}
			if b.units[e.Name] != nil {
				room = e.Places // of the one oven at that temperature
			}
			units = min(units, room/max(1, q.Count))
		}
	}
	return max(1, min(units, 8))
}

// A part is what the activities of a step have in common.
type part struct {
	key     Step
	step    *card.Step
	units   int
	watched bool
	people  int // who share the hands-on time
	free    int
	aged    int

	work, rest spread // of the whole step

	bench, kept []rcpsp.Need // states of the bench while somebody is at it, and of the equipment after
}

// loads adds n pieces of work, each with its unattended part, one after another.
func (b *builder) loads(p part, n, of, work, rest int) {
	first, before := len(b.acts), -1
	var sp span
	head := -1
	for k := range n {
		t := Task{Step: p.key}
		if of > 1 {
			t.Load, t.Loads = k+1, of
		}
		b.tasks = append(b.tasks, t)
		task := len(b.tasks) - 1
		equipment := b.needs(p.step, max(1, p.units))
		people := rcpsp.Need{Resource: cooksResource, Amount: p.people}
		there := rcpsp.Need{Resource: presence, Amount: 1}
		if work > 0 || rest == 0 {
			a := act{task: task, dur: work, spread: p.work.of(work), lo: -forEver / 4, hi: forEver / 4}
			if work > 0 {
				a.needs = slices.Concat([]rcpsp.Need{people}, equipment, p.bench)
			}
			b.acts = append(b.acts, a)
		}
		sp = span{first: first, last: len(b.acts) - 1, free: p.free}
		if rest > 0 {
			needs := slices.Concat(equipment, p.kept)
			if p.watched {
				needs = append([]rcpsp.Need{there}, needs...)
			}
			if len(needs) == 0 && work > 0 {
				sp.tail = rest // no counted equipment: no activity, only time
			} else {
				b.acts = append(b.acts, act{task: task, wait: true, dur: rest, spread: p.rest.of(rest), needs: needs, lo: -forEver / 4, hi: forEver / 4})
				now := len(b.acts) - 1
				if work > 0 {
					b.lags = append(b.lags,
						lag{now - 1, now, work, why{kind: attached, step: p.key}},
						lag{now, now - 1, -work, why{kind: attached, step: p.key}})
					b.arcs = append(b.arcs, arc{now - 1, now, 0})
				}
				sp = span{first: first, last: now, free: p.free}
			}
		}
		if before >= 0 {
			begin := sp.last
			if b.acts[begin].wait && begin > 0 && b.acts[begin-1].task == task {
				begin--
			}
			b.lags = append(b.lags,
				lag{before, begin, b.acts[before].dur, why{kind: follows, step: p.key}},
				lag{begin, before, -(b.acts[before].dur + straightOn), why{keeps, p.key, straightOn, heldAtHeat, true}})
			b.arcs = append(b.arcs, arc{before, begin, 0})
		}
		before = sp.last
		if head < 0 {
			head = sp.last
		}
		if k == 0 && sp.last < len(b.acts) {
			b.heating(p, task, sp.first)
			if work > 0 {
				b.clear(p, task, sp.first)
			}
		}
	}
	if sp.first >= len(b.acts) { // a step without any time
		b.acts = append(b.acts, act{task: len(b.tasks) - 1, lo: -forEver / 4, hi: forEver / 4})
		sp.last = sp.first
		head = sp.last
	}
	sp.head = head
	if p.aged > 0 {
		sp.free = -p.aged
	}
	b.ready(p.key, sp.first)
	b.spans[p.key] = sp
}

// ready keeps a step from starting before now, or before the time it was postponed
// to.
func (b *builder) ready(key Step, first int) {
	a := &b.acts[first]
	if b.in.ahead != nil && !b.in.ahead[key.Card] {
		a.lo = max(a.lo, b.in.usually)
	}
	if at, ok := b.in.Later[key]; ok && b.in.Under {
		a.lo = max(a.lo, at)
	}
	if b.in.Under {
		a.lo = max(a.lo, b.in.Now)
	}
}
