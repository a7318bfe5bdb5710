package plan

import (
	"hobside/internal/plan/rcpsp"
	"hobside/internal/plan/rota"
)

// What a minute costs, by aim. In a dinner of ordinary size no sum of gains on a
// lower aim outweighs a loss on a keeping time or on the last hour.
const (
	perLastHour  = 1_000_000 // hands-on, from an hour before the first course
	perAfternoon = 400       // hands-on, in the two hours before that
	perOnTheDay  = 150       // hands-on, on the day of serving
	perOverdue   = 5_000_000 // past its keeping time
	perStale     = 5_000_000 // past its keeping time when its course goes out
	perKnown     = 2_000     // away from the accepted plan
	perWaiting   = 1         // finished earlier than needed
	perKeeping   = 20_000    // a whole keeping time used up
	longKeeping  = aDay      // nobody tastes the difference in what keeps as long
)

// afternoon is how long before the last hour the kitchen should be calm.
const afternoon = 2 * anHour

// What else makes a plan hard to follow, in the same unit.
const (
	perOdd      = 200_000   // a start off the five-minute marks
	perChange   = 15_000    // a cook changes cards
	perHandover = 40_000    // a batch changes cooks
	perAway     = 1_000_000 // a minute of work is given to a cook who is not there
	perStretch  = 5_000     // a minute of work without a break beyond the kitchen's longest
	perClosing  = 6         // in the hour before closing, as often as a minute in any other hour
)

// markEvery is the marks of the clock on which steps start that are far ahead,
// in minutes. On the day, up to the calm afternoon's end, they count too.
const markEvery = 5

// cost returns the cost of starting activity i, on the solver's axis.
func (p *project) cost(m mirrored, i int, known map[Step]int) rcpsp.Curve {
	a := &p.acts[i]
	if a.held {
		return nil
	}
	curve := rcpsp.Curve{{Late: perWaiting}}
	for _, s := range p.softs {
		if s.act == i {
			curve = append(curve, rcpsp.Slope{At: max(0, m.end-s.at-a.dur), Early: perOverdue})
		}
	}
	for _, s := range p.stales {
		if s.act == i {
			curve = append(curve, rcpsp.Slope{At: max(0, m.end-s.at), Late: perStale})
		}
	}
	t := &p.tasks[a.task]
	if at, ok := known[t.Step]; ok && t.Load <= 1 && !a.wait {
		return append(curve, rcpsp.Slope{At: max(0, m.end-at-a.dur), Early: perKnown, Late: perKnown})
	}
	switch pull := p.pulls[i]; {
	case pull > 0: // rather late
		curve = append(curve, rcpsp.Slope{Late: pull})
	case pull < 0: // rather early
		curve = append(curve, rcpsp.Slope{At: max(0, m.end-m.from), Early: -pull})
	}
	if a.wait || a.dur == 0 {
		return curve
	}
	n := max(1, a.people())
	return append(curve,
		rcpsp.Slope{At: m.end + anHour, Early: n * perLastHour, Span: a.dur},
		rcpsp.Slope{At: m.end + anHour + afternoon, Early: n * perAfternoon, Span: a.dur},
		rcpsp.Slope{At: m.end - p.midnight, Early: n * perOnTheDay, Span: a.dur})
}

// pull sets the pulls of the activities: results should wait little where they keep
// for less than a day, the less the shorter they keep. What a minute of waiting
// costs draws the step before later and the step after earlier.
func (p *project) pull() {
	p.pulls = make([]int, len(p.acts))
	for _, l := range p.lags {
		if k := l.why.extra; l.why.kind == keeps && k > straightOn && k < longKeeping {
			p.pulls[l.to] += perKeeping / k
			p.pulls[l.from] -= perKeeping / k
		}
	}
	for i := range p.acts {
		if a := &p.acts[i]; a.course > 0 && a.hi > a.lo && a.hi-a.lo < longKeeping {
			p.pulls[i] += perKeeping / (a.hi - a.lo)
		}
	}
}

// rates are what a plan costs besides the costs of its activities.
func (p *project) rates() rota.Rates {
	level := max(1, 4/max(1, p.cooks))
	return rota.Rates{Odd: perOdd, Change: perChange, Handover: perHandover, Stretch: perStretch, Longest: p.pauses.per, Pause: p.pauses.long,
		Crowd: level, Late: perClosing * level, Day: p.day}
}

// judge returns the aims of a finished plan.
func (p *project) judge(tasks []Task, courses []Course) Aims {
	var a Aims
	for _, c := range courses {
		a.Late += c.At - c.Due
	}
	for i := range tasks {
		t := &tasks[i]
		if t.Held {
			continue
		}
		n := max(1, t.People())
		a.LastHour += n * max(0, t.Free-max(t.Start, -anHour))
		a.OnTheDay += n * max(0, t.Free-max(t.Start, p.midnight))
		a.Waiting += p.end - t.End
	}
	return a
}
