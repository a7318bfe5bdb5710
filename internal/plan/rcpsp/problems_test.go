package rcpsp

import (
	"pgregory.net/rapid"
)

// size limits a random problem; a horizon of zero leaves it to the solver.
type size struct{ activities, dur, resources, horizon int }

var (
	tiny   = size{4, 4, 2, 12}
	middle = size{25, 9, 5, 0}
)

// anyProblem returns a valid problem that may or may not have a schedule: lags of
// both kinds, calendars, states and, if harsh, windows and fixed activities.
func anyProblem(t *rapid.T, z size, harsh bool) *Problem {
	p := &Problem{Horizon: z.horizon}
	for range rapid.IntRange(0, z.resources).Draw(t, "resources") {
		r := Resource{Cap: rapid.IntRange(1, 4).Draw(t, "cap")}
		if rapid.Bool().Draw(t, "calendar") {
			at := 0
			for range rapid.IntRange(1, 3).Draw(t, "changes") {
				at += rapid.IntRange(1, 5).Draw(t, "at")
				r.Changes = append(r.Changes, Change{at, rapid.IntRange(0, 4).Draw(t, "cap")})
			}
			r.Changes = append(r.Changes, Change{at + 3, 4}) // open again in the end
		}
		p.Resources = append(p.Resources, r)
	}
	n := rapid.IntRange(1, z.activities).Draw(t, "activities")
	for range n {
		a := Activity{Dur: rapid.IntRange(0, z.dur).Draw(t, "dur")}
		for k := range p.Resources {
			if rapid.Bool().Draw(t, "needs") {
				most := 2
				if harsh {
					most = 4
				}
				a.Needs = append(a.Needs, Need{k, rapid.IntRange(0, most).Draw(t, "amount"), rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "state")})
			}
		}
		if harsh {
			switch rapid.IntRange(0, 7).Draw(t, "window") {
			case 0:
				a.Release = rapid.IntRange(1, 5).Draw(t, "release")
			case 1:
				a.Deadline = rapid.IntRange(1, 12).Draw(t, "deadline")
			case 2:
				a.Fixed, a.Start = true, rapid.IntRange(-2, 6).Draw(t, "start")
			}
		}
		p.Activities = append(p.Activities, a)
	}
	for range rapid.IntRange(0, 2*n).Draw(t, "lags") {
		i, j := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		if i == j {
			continue
		}
		if i > j { // forwards a minimum lag, backwards a generous maximum lag
			low := -3 * z.dur
			if harsh {
				low = -z.dur
			}
			p.Lags = append(p.Lags, Lag{i, j, rapid.IntRange(low, 0).Draw(t, "max")})
		} else {
			p.Lags = append(p.Lags, Lag{i, j, rapid.IntRange(0, z.dur).Draw(t, "min")})
		}
	}
	return p
}

// everyStart tries all combinations of starts up to the horizon and calls yes for
// each schedule that Check accepts.
func everyStart(p *Problem, yes func(Schedule)) {
	s := make(Schedule, len(p.Activities))
	var try func(i int)
	try = func(i int) {
		if i == len(s) {
			if Check(p, s) == nil {
				yes(s)
			}
			return
		}
		a := p.Activities[i]
		if a.Fixed {
			s[i] = a.Start
			try(i + 1)
			return
		}
		for t := 0; t+a.Dur <= p.Horizon; t++ {
			s[i] = t
			try(i + 1)
		}
	}
	try(0)
}
