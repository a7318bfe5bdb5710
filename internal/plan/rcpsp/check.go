package rcpsp

import (
	"fmt"
	"slices"
)

// Check says the first rule of p that s breaks, or nil. It is written apart
// from the solver, plainly and slowly, and shares nothing with it but the types:
// whoever shows a schedule to a person should have it checked first.
//
// Held activities are facts: among themselves they may break lags, windows and
// capacities, as reality does. Whatever is planned beside them may not.
func Check(p *Problem, s Schedule) error {
	if len(s) != len(p.Activities) {
		return fmt.Errorf("the schedule has %d starts for %d activities", len(s), len(p.Activities))
	}
	for i, a := range p.Activities {
		if a.Fixed {
			if s[i] != a.Start {
				return fmt.Errorf("activity %d is held at %d but starts at %d", i, a.Start, s[i])
			}
			continue
		}
		if s[i] < 0 || s[i] < a.Release {
			return fmt.Errorf("activity %d starts at %d, before its release %d", i, s[i], max(0, a.Release))
		}
		end := s[i] + a.Dur
		if a.Deadline != 0 && end > a.Deadline {
			return fmt.Errorf("activity %d ends at %d, after its deadline %d", i, end, a.Deadline)
		}
		if p.Horizon != 0 && end > p.Horizon {
			return fmt.Errorf("activity %d ends at %d, after the horizon %d", i, end, p.Horizon)
		}
	}
	for _, l := range p.Lags {
		if p.Activities[l.From].Fixed && p.Activities[l.To].Fixed {
			continue
		}
		if s[l.To] < s[l.From]+l.Min {
			return fmt.Errorf("activity %d starts at %d and activity %d at %d: the lag from %d must be at least %d",
				l.From, s[l.From], l.To, s[l.To], l.From, l.Min)
		}
	}
	for k := range p.Resources {
		if err := checkResource(p, s, k); err != nil {
			return err
		}
	}
	return nil
}

// checkResource looks at each moment at which the use of a resource or its
// capacity can have changed.
func checkResource(p *Problem, s Schedule, k int) error {
	var moments []int
	for _, c := range p.Resources[k].Changes {
		moments = append(moments, c.At)
	}
	moments = append(moments, s...)
	slices.Sort(moments)
	for _, t := range slices.Compact(moments) {
		capacity := p.Resources[k].Cap
		for _, c := range p.Resources[k].Changes {
			if c.At <= t {
				capacity = c.Cap
			}
		}
		used, planned := 0, false
		states := map[int]int{}
		free := false // a planned activity is among those that name a state
		for i, a := range p.Activities {
			if t < s[i] || t >= s[i]+a.Dur {
				continue
			}
			for _, nd := range a.Needs {
				if nd.Resource != k || nd.Amount == 0 && nd.State == 0 {
					continue
				}
				used += nd.Amount
				planned = planned || !a.Fixed && nd.Amount > 0
				if nd.State != 0 {
					states[nd.State] = i
					free = free || !a.Fixed
				}
			}
		}
		if planned && used > capacity {
			return fmt.Errorf("at %d, %d of resource %d are in use and %d are there", t, used, k, capacity)
		}
		if free && len(states) > 1 {
			return fmt.Errorf("at %d, resource %d is asked to be in %d states at once", t, k, len(states))
		}
	}
	return nil
}
