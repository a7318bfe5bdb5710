package rota

import "fmt"

// Check returns an error for the first rule of p that s breaks, nil if there is
// none. It shares nothing with the search but the types. Fixed jobs may break
// rules among themselves.
func Check(p *Problem, s Schedule) error {
	for j := range p.Jobs {
		job, t := &p.Jobs[j], s.Start[j]
		if job.Fixed {
			if t != job.Start {
				return fmt.Errorf("job %d is fixed at %d and starts at %d", j, job.Start, t)
			}
			continue
		}
		if t < job.Lo || t > job.Hi {
			return fmt.Errorf("job %d starts at %d, outside %d to %d", j, t, job.Lo, job.Hi)
		}
		open := job.Open+job.Early == 0
		for _, o := range p.Open {
			open = open || o.From <= t-job.Early && t+job.Open <= o.To
		}
		if !open {
			return fmt.Errorf("job %d starts at %d and is not within the hours for %d minutes", j, t, job.Open)
		}
		if w := s.Worker[j]; (job.Work > 0) != (w >= 0) || w >= p.Workers {
			return fmt.Errorf("job %d has worker %d of %d", j, w, p.Workers)
		}
		for k := range p.Jobs {
			if k != j && s.Worker[k] == s.Worker[j] && s.Worker[j] >= 0 && s.Start[k] < t+job.Work && t < s.Start[k]+p.Jobs[k].Work {
				return fmt.Errorf("worker %d is at jobs %d and %d at one time", s.Worker[j], j, k)
			}
		}
		for _, part := range job.Parts {
			for at := t + part.From; at < t+part.To; at++ {
				for _, u := range part.Uses {
					used, states := inUse(p, s, u.Resource, at)
					if used > p.Resources[u.Resource] || u.State != 0 && states > 1 {
						return fmt.Errorf("at %d, %d of resource %d are in use, in %d states; job %d is among them", at, used, u.Resource, states, j)
					}
				}
			}
		}
	}
	for _, l := range p.Lags {
		if p.Jobs[l.From].Fixed && p.Jobs[l.To].Fixed {
			continue
		}
		if s.Start[l.To] < s.Start[l.From]+l.Min {
			return fmt.Errorf("job %d starts at %d and job %d at %d: at least %d must lie between", l.From, s.Start[l.From], l.To, s.Start[l.To], l.Min)
		}
	}
	return nil
}

// inUse returns how much of a resource is in use at a minute, and in how many states.
func inUse(p *Problem, s Schedule, resource, at int) (used, states int) {
	in := map[int]bool{}
	for j := range p.Jobs {
		for _, part := range p.Jobs[j].Parts {
			if at < s.Start[j]+part.From || at >= s.Start[j]+part.To {
				continue
			}
			for _, u := range part.Uses {
				if u.Resource == resource {
					used += u.Amount
					if u.State != 0 {
						in[u.State] = true
					}
				}
			}
		}
	}
	return used, len(in)
}
