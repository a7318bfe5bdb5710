package plan

import "hobside/internal/plan/rcpsp"

// What a minute costs, by aim. In a dinner of ordinary size no sum of gains on a
// lower aim outweighs a loss on a higher one.
const (
	perLastHour = 200_000 // hands-on, from an hour before the first course
	perOnTheDay = 10_000  // hands-on, on the day of serving
	perOverdue  = 50_000  // past its keeping time
	perKnown    = 400     // away from the accepted plan
	perWaiting  = 1       // finished earlier than needed
)

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
	t := &p.tasks[a.task]
	if at, ok := known[t.Step]; ok && t.Load <= 1 && !a.wait {
		return append(curve, rcpsp.Slope{At: max(0, m.end-at-a.dur), Early: perKnown, Late: perKnown})
	}
	if a.wait || a.dur == 0 {
		return curve
	}
	return append(curve,
		rcpsp.Slope{At: m.end + anHour, Early: perLastHour, Span: a.dur},
		rcpsp.Slope{At: m.end - p.midnight, Early: perOnTheDay, Span: a.dur})
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
		a.LastHour += max(0, t.Free-max(t.Start, -anHour))
		a.OnTheDay += max(0, t.Free-max(t.Start, p.midnight))
		a.Waiting += p.end - t.End
	}
	return a
}
