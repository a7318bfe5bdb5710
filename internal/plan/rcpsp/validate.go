package rcpsp

import "fmt"

// Validate returns an error for the first value of p that has no meaning: an index
// out of range, a negative duration, changes out of order, or a number outside
// its limits. It does not check whether p has a schedule.
func (p *Problem) Validate() error {
	if p.Horizon < 0 || p.Horizon > MaxTime {
		return fmt.Errorf("horizon %d is outside 0 to %d", p.Horizon, MaxTime)
	}
	for k := range p.Resources {
		if err := p.Resources[k].validate(k); err != nil {
			return err
		}
	}
	for i := range p.Activities {
		if err := p.validateActivity(i); err != nil {
			return err
		}
	}
	n := len(p.Activities)
	for k, l := range p.Lags {
		if l.From < 0 || l.From >= n || l.To < 0 || l.To >= n {
			return fmt.Errorf("lag %d is from activity %d to activity %d, but the activities are 0 to %d", k, l.From, l.To, n-1)
		}
		if outOfRange(l.Min) {
			return fmt.Errorf("lag %d: %d is outside -%d to %d", k, l.Min, MaxTime, MaxTime)
		}
	}
	return nil
}

func (r *Resource) validate(k int) error {
	if r.Cap < 0 || r.Cap > MaxCapacity {
		return fmt.Errorf("resource %d: capacity %d is outside 0 to %d", k, r.Cap, MaxCapacity)
	}
	for c, ch := range r.Changes {
		if ch.Cap < 0 || ch.Cap > MaxCapacity {
			return fmt.Errorf("resource %d, change %d: capacity %d is outside 0 to %d", k, c, ch.Cap, MaxCapacity)
		}
		if outOfRange(ch.At) {
			return fmt.Errorf("resource %d, change %d: time %d is outside -%d to %d", k, c, ch.At, MaxTime, MaxTime)
		}
		if c > 0 && ch.At <= r.Changes[c-1].At {
			return fmt.Errorf("resource %d: change %d at %d must come after the one at %d", k, c, ch.At, r.Changes[c-1].At)
		}
	}
	return nil
}

func (p *Problem) validateActivity(i int) error {
	a := &p.Activities[i]
	if a.Dur < 0 || a.Dur > MaxTime {
		return fmt.Errorf("activity %d: duration %d is outside 0 to %d", i, a.Dur, MaxTime)
	}
	if outOfRange(a.Release) || outOfRange(a.Deadline) || outOfRange(a.Start) {
		return fmt.Errorf("activity %d: release, deadline or start is outside -%d to %d", i, MaxTime, MaxTime)
	}
	for k, nd := range a.Needs {
		if nd.Resource < 0 || nd.Resource >= len(p.Resources) {
			return fmt.Errorf("activity %d needs resource %d, but there are %d resources", i, nd.Resource, len(p.Resources))
		}
		if nd.Amount < 0 || nd.Amount > MaxCapacity {
			return fmt.Errorf("activity %d needs %d of resource %d: outside 0 to %d", i, nd.Amount, nd.Resource, MaxCapacity)
		}
		for _, before := range a.Needs[:k] {
			if before.Resource == nd.Resource {
				return fmt.Errorf("activity %d needs resource %d twice: add the amounts", i, nd.Resource)
			}
		}
	}
	return a.Cost.validate(i)
}

func outOfRange(t int) bool { return t < -MaxTime || t > MaxTime }
