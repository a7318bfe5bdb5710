package rcpsp

import (
	"slices"
	"sort"
)

// crowd looks for a stretch of time and a resource such that the activities that
// must run within it take more than there is. It proves little by itself but is
// the kind of reason a person understands.
func (m *model) crowd() *InfeasibleError {
	type job struct{ i, lo, end, work int32 }
	var jobs []job
	for k := range m.p.Resources {
		jobs = jobs[:0]
		for i := range m.cons {
			for _, nd := range m.cons[i] {
				if nd.Resource == k && nd.Amount > 0 && !m.held[i] {
					jobs = append(jobs, job{int32(i), m.lo[i], m.hi[i] + m.dur[i], int32(nd.Amount)})
				}
			}
		}
		sort.Slice(jobs, func(a, b int) bool { return jobs[a].end < jobs[b].end })
		have := m.provided(k)
		for a, first := range jobs {
			if slices.ContainsFunc(jobs[:a], func(j job) bool { return j.lo == first.lo }) {
				continue // the same stretches have been looked at
			}
			var need int64
			upto := have(first.lo)
			for b, last := range jobs {
				if last.lo >= first.lo {
					need += int64(last.work) * int64(m.dur[last.i])
				}
				if b+1 < len(jobs) && jobs[b+1].end == last.end {
					continue
				}
				if got := have(last.end) - upto; need > max(0, got) {
					why := &Overload{Resource: k, From: int(first.lo), To: int(last.end), Required: int(need), Available: int(got)}
					for _, j := range jobs[:b+1] {
						if j.lo >= first.lo {
							why.Activities = append(why.Activities, int(j.i))
						}
					}
					slices.Sort(why.Activities)
					return &InfeasibleError{Overload: why}
				}
			}
		}
	}
	return nil
}

// provided gives how much of resource k there is from zero up to a time, which
// must not be negative: no activity starts before zero unless it is held.
func (m *model) provided(k int) func(int32) int64 {
	f := &m.busy
	free := func(s int) int64 { return int64(f.free[s*f.words+k/4] >> (k % 4 * 16) & MaxCapacity) }
	sum := make([]int64, len(f.at)) // up to the beginning of each step, counted from zero
	for s := 1; s < len(f.at); s++ {
		sum[s] = sum[s-1] + free(s-1)*int64(max(0, f.at[s])-max(0, f.at[s-1]))
	}
	return func(t int32) int64 {
		s := f.find(t)
		return sum[s] + free(s)*int64(t-max(0, f.at[s]))
	}
}
