package rcpsp

import (
	"fmt"
	"slices"
)

// Check returns an error for the first constraint of p that s violates, nil if
// there is none. It is plain and slow, and shares nothing with the solver but the
// types, so that it also finds the solver's mistakes. Check a schedule before you
// show it to a person. p must be valid.
//
// Fixed activities describe what has happened: among themselves they may violate
// time lags, windows and capacities. Activities that are planned beside them may
// not.
func Check(p *Problem, s Schedule) error {
	if len(s) != len(p.Activities) {
		return fmt.Errorf("the schedule has %d starts for %d activities", len(s), len(p.Activities))
	}
	for i, a := range p.Activities {
		if a.Fixed {
			if s[i] != a.Start {
				return fmt.Errorf("activity %d is fixed at %d but starts at %d", i, a.Start, s[i])
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
			return fmt.Errorf("activity %d starts at %d and activity %d at %d: the time lag from %d must be at least %d",
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

// checkResource checks the capacity and the states of resource k at each moment at
// which its use or its capacity can have changed: at changes and at starts.
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
		used, planned := 0, false // planned: an activity that is not fixed is among the users
		states, stateful := map[int]bool{}, false
		for i, a := range p.Activities {
			if t < s[i] || t >= s[i]+a.Dur {
				continue
			}
			for _, nd := range a.Needs {
				if nd.Resource != k {
					continue
				}
				used += nd.Amount
				planned = planned || !a.Fixed && nd.Amount > 0
				if nd.State != 0 {
					states[nd.State] = true
					stateful = stateful || !a.Fixed
				}
			}
		}
		if planned && used > capacity {
			return fmt.Errorf("at %d, %d of resource %d are in use, but its capacity is %d", t, used, k, capacity)
		}
		if stateful && len(states) > 1 {
			return fmt.Errorf("at %d, resource %d would have to be in %d states at the same time", t, k, len(states))
		}
	}
	return nil
}
