package rota

import "math"

// An offer is where a job may go, and what that adds to the cost.
type offer struct{ start, worker, cost int }

// shifts is how often a place without room is looked for a little further on.
const shifts = 3

// best returns the cheapest place for a missing job. One in skip places, chosen at
// random, is passed over; 0 passes over none. It returns false when there is none.
func (s *state) best(j, skip int) (offer, bool) {
	best := offer{cost: math.MaxInt}
	job := &s.p.Jobs[j]
	if job.Work == 0 {
		for _, o := range s.opens(job.Open + job.Early) {
			s.between(j, max(s.lo[j], o.From+job.Early), min(s.hi[j], o.To-job.Open), -1, 0, &best)
		}
		return best, best.cost < math.MaxInt
	}
	for w := range s.rows {
		row := s.rows[w]
		pos := s.position(w, s.lo[j])
		if pos > 0 { // the job before may still be at work
			pos--
		}
		for ; pos <= len(row); pos++ {
			from, to := s.lo[j], s.hi[j]
			if pos > 0 {
				o := row[pos-1]
				from = max(from, s.start[o]+s.p.Jobs[o].Work)
			}
			if pos < len(row) {
				to = min(to, s.start[row[pos]]-job.Work)
				if s.start[row[pos]] < s.lo[j] {
					continue
				}
			}
			if from > s.hi[j] {
				break
			}
			if from > to || skip > 0 && s.below(skip) == 0 {
				continue
			}
			for _, o := range s.p.Open {
				s.between(j, max(from, o.From+job.Early), min(to, o.To-job.Open), w, pos, &best)
			}
		}
	}
	return best, best.cost < math.MaxInt
}

// always is open at any time.
var always = []Span{{math.MinInt32, math.MaxInt32}}

// opens returns the spans in which so many minutes of a job must lie.
func (s *state) opens(minutes int) []Span {
	if minutes == 0 {
		return always
	}
	return s.p.Open
}

// between tries starts from one minute to another, and keeps the cheapest: the first
// and the last for which there is room, those at which the job's own cost bends, and
// one at random.
func (s *state) between(j, from, to, w, pos int, best *offer) {
	first, last := s.p.Marks.up(from), s.p.Marks.down(to)
	if first > last {
		return
	}
	t := first
	for range shifts {
		later, _, ok := s.try(j, t, w, pos, best)
		if ok {
			break
		}
		if t = s.p.Marks.up(max(later, t+1)); t > last {
			return
		}
	}
	first, t = t, last
	for range shifts {
		if t <= first {
			return
		}
		_, earlier, ok := s.try(j, t, w, pos, best)
		if ok {
			break
		}
		t = s.p.Marks.down(min(earlier, t-1))
	}
	if t <= first {
		return
	}
	last = t
	for _, slope := range s.p.Jobs[j].Cost {
		if at := s.p.Marks.down(s.p.Mirror - slope.At); at > first && at < last {
			s.try(j, at, w, pos, best)
		}
	}
	if at := s.p.Marks.down(first + s.below(last-first)); at > first {
		s.try(j, at, w, pos, best)
	}
}

// try keeps a start when it is cheaper than the best and there is room. If there is
// no room, later and earlier are where to look next.
func (s *state) try(j, t, w, pos int, best *offer) (later, earlier int, ok bool) {
	s.trials++
	cost := s.price(j, t, w, pos, best.cost)
	if cost >= best.cost {
		return t, t, true
	}
	later, earlier, ok = s.room(j, t)
	if ok && !s.hands(j, t) {
		return t + 1, t - 1, false
	}
	if ok {
		*best = offer{t, w, cost}
	}
	return later, earlier, ok
}

// hands reports whether enough workers are free for job j at t and for the missing jobs
// that are done with it.
func (s *state) hands(j, t int) bool {
	more := 0
	for _, mate := range s.mates[j] {
		if !s.placed[mate] {
			more++
		}
	}
	if more == 0 {
		return true
	}
	for w, row := range s.rows {
		pos := s.position(w, t)
		free := pos == 0 || s.start[row[pos-1]]+s.p.Jobs[row[pos-1]].Work <= t
		if free && (pos == len(row) || s.start[row[pos]] >= t+s.p.Jobs[j].Work) {
			more--
		}
	}
	return more < 0
}

// below returns a random number from 0 to n − 1.
func (s *state) below(n int) int { return int(s.rnd.Unit() * float64(n)) }
