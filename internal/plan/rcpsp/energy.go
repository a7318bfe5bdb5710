package rcpsp

import (
	"slices"
	"sort"
)

// Energy is the amount of a resource times the time it is used. What a set of
// activities requires within an interval cannot be more than what the resource
// has there (energetic reasoning, in its simplest form: only activities whose
// whole window lies in the interval count).

// job is one activity's need of the resource under examination.
type job struct{ activity, es, end, amount int32 } // end: latest end

// checkOverload looks for a resource and an interval in which activities must run
// that require more energy than there is. It proves little by itself, but it is a
// reason that a person understands.
func (m *model) checkOverload() *InfeasibleError {
	for k := range m.p.Resources {
		if o := m.overload(k, m.jobs(k)); o != nil {
			return &InfeasibleError{Overload: o}
		}
	}
	return nil
}

// jobs returns what the activities that are not fixed need of resource k, in the
// order of their latest ends.
func (m *model) jobs(k int) []job {
	var jobs []job
	for i := range m.needs {
		for _, nd := range m.needs[i] {
			if nd.Resource == k && nd.Amount > 0 && !m.fixed[i] {
				jobs = append(jobs, job{int32(i), m.es[i], m.ls[i] + m.dur[i], int32(nd.Amount)})
			}
		}
	}
	sort.Slice(jobs, func(a, b int) bool { return jobs[a].end < jobs[b].end })
	return jobs
}

// overload returns the first overloaded interval of resource k. Only intervals
// from an earliest start to a latest end can be tight, so only those are tried.
func (m *model) overload(k int, jobs []job) *Overload {
	available := m.available(k)
	for a, first := range jobs {
		if slices.ContainsFunc(jobs[:a], func(j job) bool { return j.es == first.es }) {
			continue // the same intervals have been tried
		}
		var required int64
		before := available(first.es)
		for b, last := range jobs {
			if last.es >= first.es {
				required += int64(last.amount) * int64(m.dur[last.activity])
			}
			if b+1 < len(jobs) && jobs[b+1].end == last.end {
				continue
			}
			got := available(last.end) - before
			if required <= max(0, got) {
				continue
			}
			o := &Overload{Resource: k, From: int(first.es), To: int(last.end), Required: int(required), Available: int(got)}
			for _, j := range jobs[:b+1] {
				if j.es >= first.es {
					o.Activities = append(o.Activities, int(j.activity))
				}
			}
			slices.Sort(o.Activities)
			return o
		}
	}
	return nil
}

// available returns a function that gives the energy of resource k from zero up to
// a time, which must not be negative: only fixed activities start before zero.
func (m *model) available(k int) func(int32) int64 {
	f := &m.base
	sum := make([]int64, len(f.at)) // up to the start of each step
	for s := 1; s < len(f.at); s++ {
		sum[s] = sum[s-1] + int64(f.freeAt(s-1, k))*int64(max(0, f.at[s])-max(0, f.at[s-1]))
	}
	return func(t int32) int64 {
		s := f.find(t)
		return sum[s] + int64(f.freeAt(s, k))*int64(t-max(0, f.at[s]))
	}
}

// lowerBound returns a time before which no schedule can end: the length of the
// critical path or, if that is later, the time by which the calendar of some
// resource has provided the energy that all activities require.
func (m *model) lowerBound() int32 {
	end := m.criticalPath()
	for k := range m.p.Resources {
		end = max(end, m.energyBound(k))
	}
	return end
}

// criticalPath returns the earliest end of the activity that ends last, by time
// windows alone.
func (m *model) criticalPath() int32 {
	end := -infinity
	for i := range m.es {
		end = max(end, m.es[i]+m.dur[i])
	}
	return end
}

// energyBound returns the earliest time by which resource k has provided the
// energy that the activities which are not fixed require; infinity if it never
// does, -infinity if they require none.
func (m *model) energyBound(k int) int32 {
	var required int64
	first := infinity
	for i := range m.needs {
		for _, nd := range m.needs[i] {
			if nd.Resource == k && !m.fixed[i] && nd.Amount > 0 {
				required += int64(nd.Amount) * int64(m.dur[i])
				first = min(first, m.es[i])
			}
		}
	}
	if required == 0 {
		return -infinity
	}
	f := &m.base
	for s := f.find(first); ; s++ {
		free := int64(f.freeAt(s, k))
		from := max(first, f.at[s])
		last := s+1 == len(f.at)
		if last && free == 0 {
			return infinity
		}
		if free > 0 && (last || free*int64(f.at[s+1]-from) >= required) {
			return from + int32((required+free-1)/free)
		}
		required -= free * int64(f.at[s+1]-from)
	}
}
