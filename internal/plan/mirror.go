package plan

import "hobside/internal/plan/rcpsp"

// mirrored is a project with its time axis reversed, for the solver: zero is the
// project's end.
type mirrored struct {
	*rcpsp.Problem
	end, from int            // minutes after the serving time: the solver's zero, and its horizon
	back      map[[2]int]lag // the solver's lag -> ours
}

// mirror reverses the time axis of a project. One more activity is fixed at the far
// end, so that every schedule is equally long and only the costs decide.
func (p *project) mirror(from int, known map[Step]int) mirrored {
	m := mirrored{Problem: &rcpsp.Problem{}, end: p.end, from: from, back: map[[2]int]lag{}}
	m.Horizon = m.end - from
	for i := range p.acts {
		a := &p.acts[i]
		x := rcpsp.Activity{Dur: a.dur, Needs: a.needs, Cost: p.cost(m, i, known)}
		if a.held {
			x.Fixed, x.Start = true, m.end-a.start-a.dur
			if x.Start+x.Dur > m.Horizon {
				m.Horizon = x.Start + x.Dur // it happened before anything planned
			}
		} else {
			x.Release = max(0, m.end-max(a.hi, from)-a.dur)
			x.Deadline = max(1, m.end-max(a.lo, from))
		}
		m.Activities = append(m.Activities, x)
	}
	for _, l := range p.lags {
		turned := rcpsp.Lag{From: l.to, To: l.from, Min: l.min + p.acts[l.to].dur - p.acts[l.from].dur}
		m.Lags = append(m.Lags, turned)
		key := [2]int{turned.From, turned.To}
		if was, ok := m.back[key]; !ok || was.min < l.min {
			m.back[key] = l
		}
	}
	m.Activities = append(m.Activities, rcpsp.Activity{Fixed: true, Start: m.Horizon})
	if len(p.absent) == 0 {
		m.Resources = append(m.Resources, m.hours(p.open, p.cooks), m.hours(p.open, crowd))
	} else {
		m.Resources = append(m.Resources, m.calendar(p, p.cooksAt), m.calendar(p, func(t int) int { return min(1, p.cooksAt(t)) * crowd }))
	}
	for i := range p.pools {
		m.Resources = append(m.Resources, m.calendar(p, func(t int) int { return p.placesAt(&p.pools[i], t) }))
	}
	return m
}

// hours returns a resource that is available while the kitchen is open.
func (m mirrored) hours(open []shift, capacity int) rcpsp.Resource {
	var r rcpsp.Resource
	for i := len(open) - 1; i >= 0; i-- {
		begin, end := m.end-open[i].to, m.end-open[i].from
		if end <= 0 {
			continue
		}
		if begin <= 0 {
			r.Cap = capacity
		} else {
			r.Changes = append(r.Changes, rcpsp.Change{At: begin, Cap: capacity})
		}
		r.Changes = append(r.Changes, rcpsp.Change{At: end})
	}
	return r
}

// starts converts a schedule of the solver to our axis.
func (m mirrored) starts(s rcpsp.Schedule) []int {
	out := make([]int, len(s)-1)
	for i := range out {
		out[i] = m.end - s[i] - m.Activities[i].Dur
	}
	return out
}

// schedule converts starts to the solver's axis.
func (m mirrored) schedule(starts []int) rcpsp.Schedule {
	out := make(rcpsp.Schedule, 0, len(starts)+1)
	for i, t := range starts {
		out = append(out, m.end-t-m.Activities[i].Dur)
	}
	return append(out, m.Horizon)
}
