package rota

import (
	"slices"

	"hobside/internal/plan/rcpsp"
)

// A claim is the use of a resource by a part of a placed job.
type claim struct{ job, from, to, amount, state int }

// A state is a schedule in which some jobs may be missing for the moment.
type state struct {
	p      *Problem
	start  []int
	worker []int
	placed []bool
	rows   [][]int   // by worker: placed jobs with work, by start
	claims [][]claim // by resource
	odd    int       // placed jobs that start off the marks
	loads  []int     // minutes of work by hour
	weight []int     // by hour: what a minute costs for each other minute
	origin int       // first minute of loads[0]

	days    []int   // by hour
	in, out [][]tie // by job: lags to it and from it
	mates   [][]int // by job: those done with it
	before  []int   // the job with work before it in its batch, −1 for none
	after   []int
	lo, hi  []int // of missing jobs: the starts that lags allow at present
	missing []int
	queue   []int
	trials  int
	was     []offer // of the missing jobs: where they were
	rnd     *rcpsp.Random
}

// A tie is a lag from or to another job.
type tie struct{ job, min int }

// newState returns the state of a schedule.
func newState(p *Problem, s Schedule) *state {
	n := len(p.Jobs)
	st := &state{p: p, start: slices.Clone(s.Start), worker: slices.Clone(s.Worker), placed: make([]bool, n), rows: make([][]int, p.Workers),
		claims: make([][]claim, len(p.Resources)), in: make([][]tie, n), out: make([][]tie, n),
		mates: make([][]int, n), before: make([]int, n), after: make([]int, n), lo: make([]int, n), hi: make([]int, n), was: make([]offer, n)}
	for _, l := range p.Lags {
		st.out[l.From], st.in[l.To] = append(st.out[l.From], tie{l.To, l.Min}), append(st.in[l.To], tie{l.From, l.Min})
	}
	for j := range p.Jobs {
		if of := p.Jobs[j].With - 1; of >= 0 {
			st.mates[of] = append(st.mates[of], j)
			st.mates[j] = append(st.mates[j], of)
		}
	}
	last := map[int]int{}
	for j := range p.Jobs {
		st.before[j], st.after[j] = -1, -1
		if p.Jobs[j].Work == 0 {
			continue
		}
		if b, ok := last[p.Jobs[j].Batch]; ok {
			st.before[j], st.after[b] = b, j
		}
		last[p.Jobs[j].Batch] = j
	}
	st.hours(s)
	for j := range p.Jobs {
		st.place(j, s.Start[j], s.Worker[j])
	}
	return st
}

// hours sets up the loads of the hours.
func (s *state) hours(of Schedule) {
	p := s.p
	from, to := 0, 1
	for i, o := range p.Open {
		if i == 0 {
			from = o.From
		}
		from, to = min(from, o.From), max(to, o.To)
	}
	for j, t := range of.Start {
		from, to = min(from, t), max(to, t+p.Jobs[j].Length)
	}
	s.origin = from - 60 - mod(from-60+p.Marks.Phase, 60)
	n := (to-s.origin)/60 + 3
	s.loads, s.weight, s.days = make([]int, n), make([]int, n), make([]int, n)
	for k := range s.weight {
		s.weight[k], s.days[k] = p.Rates.Crowd, p.Rates.Day(s.origin+60*k)
	}
	for _, o := range p.Open {
		s.weight[(o.To-1-s.origin)/60] += p.Rates.Late
	}
}

// place puts a job into the schedule.
func (s *state) place(j, t, w int) {
	job := &s.p.Jobs[j]
	s.start[j], s.worker[j], s.placed[j] = t, w, true
	s.countOdd(j, 1)
	for i := range job.Parts {
		part := &job.Parts[i]
		for _, u := range part.Uses {
			s.claims[u.Resource] = append(s.claims[u.Resource], claim{j, t + part.From, t + part.To, u.Amount, u.State})
		}
	}
	if w >= 0 {
		s.rows[w] = slices.Insert(s.rows[w], s.position(w, t), j)
		s.load(t, job.Work, 1)
	}
}

// countOdd counts a job that starts off the marks.
func (s *state) countOdd(j, by int) {
	if s.p.Rates.Odd > 0 && !s.p.Jobs[j].Fixed && s.p.Marks.odd(s.start[j]) {
		s.odd += by
	}
}

// take removes a job from the schedule.
func (s *state) take(j int) {
	job := &s.p.Jobs[j]
	s.placed[j] = false
	s.countOdd(j, -1)
	for i := range job.Parts {
		for _, u := range job.Parts[i].Uses {
			all := s.claims[u.Resource]
			for k := range all {
				if all[k].job == j {
					all[k] = all[len(all)-1]
					s.claims[u.Resource] = all[:len(all)-1]
					break
				}
			}
		}
	}
	if w := s.worker[j]; w >= 0 {
		k := s.position(w, s.start[j])
		for s.rows[w][k] != j { // begun jobs may start together
			k++
		}
		s.rows[w] = slices.Delete(s.rows[w], k, k+1)
		s.load(s.start[j], job.Work, -1)
	}
}

// position returns where a job that starts at t belongs in a worker's row.
func (s *state) position(w, t int) int {
	row := s.rows[w]
	lo, hi := 0, len(row)
	for lo < hi {
		if mid := (lo + hi) / 2; s.start[row[mid]] < t {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// load adds or removes work in the hours it falls in.
func (s *state) load(t, work, sign int) {
	for work > 0 {
		k := (t - s.origin) / 60
		n := min(work, s.origin+(k+1)*60-t)
		s.loads[k] += sign * n
		t, work = t+n, work-n
	}
}

// relax works out between which starts the missing jobs may lie. It returns false
// when one has none.
func (s *state) relax() bool {
	for _, j := range s.missing {
		lo, hi := s.p.Jobs[j].Lo, s.p.Jobs[j].Hi
		for _, l := range s.in[j] {
			if s.placed[l.job] {
				lo = max(lo, s.start[l.job]+l.min)
			}
		}
		for _, l := range s.out[j] {
			if s.placed[l.job] {
				hi = min(hi, s.start[l.job]-l.min)
			}
		}
		if lo > hi {
			return false
		}
		s.lo[j], s.hi[j] = lo, hi
	}
	s.queue = append(s.queue[:0], s.missing...)
	return s.spread()
}

// settle narrows the starts of the missing jobs after job j was placed. It returns
// false when one has none left.
func (s *state) settle(j int) bool {
	s.lo[j], s.hi[j] = s.start[j], s.start[j]
	s.queue = append(s.queue[:0], j)
	return s.spread()
}

// spread narrows the starts of missing jobs by those of the jobs in the queue.
func (s *state) spread() bool {
	for k := 0; k < len(s.queue); k++ {
		j := s.queue[k]
		for _, l := range s.out[j] {
			if lo := s.lo[j] + l.min; !s.placed[l.job] && lo > s.lo[l.job] {
				if lo > s.hi[l.job] {
					return false
				}
				s.lo[l.job] = lo
				s.queue = append(s.queue, l.job)
			}
		}
		for _, l := range s.in[j] {
			if hi := s.hi[j] - l.min; !s.placed[l.job] && hi < s.hi[l.job] {
				if hi < s.lo[l.job] {
					return false
				}
				s.hi[l.job] = hi
				s.queue = append(s.queue, l.job)
			}
		}
	}
	return true
}

// room reports whether the resources have room for job j at t. If not, later and
// earlier are where to look next.
func (s *state) room(j, t int) (later, earlier int, ok bool) {
	job := &s.p.Jobs[j]
	later, earlier, ok = t, t, true
	for i := range job.Parts {
		part := &job.Parts[i]
		from, to := t+part.From, t+part.To
		for _, u := range part.Uses {
			cap, used, clash := s.p.Resources[u.Resource], u.Amount, false
			first, last := to, from
			for k := range s.claims[u.Resource] {
				c := &s.claims[u.Resource][k]
				if c.from >= to || c.to <= from || c.job == j {
					continue
				}
				used += c.amount
				if c.state != 0 && u.State != 0 && c.state != u.State {
					clash = true
				}
				first, last = min(first, c.to), max(last, c.from)
			}
			if !clash && (used <= cap || s.peak(u.Resource, j, from, to)+u.Amount <= cap) {
				continue
			}
			ok = false
			later, earlier = max(later, t+first-from), min(earlier, t-(to-last))
		}
	}
	return later, earlier, ok
}

// peak returns the most of a resource that other jobs use at one moment of a time.
func (s *state) peak(resource, j, from, to int) int {
	most := 0
	all := s.claims[resource]
	for k := range all {
		c := &all[k]
		if c.from >= to || c.to <= from || c.job == j {
			continue
		}
		at, sum := max(from, c.from), 0
		for m := range all {
			if d := &all[m]; d.job != j && d.from <= at && at < d.to {
				sum += d.amount
			}
		}
		most = max(most, sum)
	}
	return most
}
