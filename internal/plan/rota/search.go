package rota

import (
	"math"
	"slices"

	"hobside/internal/plan/rcpsp"
)

// A Budget bounds the search and fixes its random choices.
type Budget struct {
	Trials int // places that are tried for a job; three times as many while a job starts off the marks
	Seed   uint64
}

// mostMissing is how many jobs are removed at once at most.
const mostMissing = 12

// passed is one in how many places for a job are passed over, for variety.
const passed = 8

// Improve returns a schedule that costs no more than s. s must keep the windows, the
// lags, the hours and the resources of p; then so does what is returned.
func Improve(p *Problem, s Schedule, b Budget) Schedule {
	st := newState(p, s)
	st.rnd = rcpsp.NewRandom(b.Seed)
	free := st.free()
	if len(free) == 0 || p.Workers == 0 {
		return s
	}
	best := Schedule{slices.Clone(st.start), slices.Clone(st.worker)}
	now, least := 0, 0
	// A schedule that is dearer by less than a threshold is accepted. The threshold
	// falls to nothing, but not while jobs start off the marks.
	warm := float64(2 * max(p.Rates.Change, 1))
	begun, failed := 0, 0
	for st.trials < begun+b.Trials && failed < 200+20*len(free) {
		if st.odd > 0 && st.trials < 2*b.Trials {
			begun, failed = st.trials, 0
		}
		cold := float64(st.trials-begun) / float64(b.Trials)
		st.ruin(free)
		grown, ok := st.recreate(int(warm * max(0, 0.9-cold) * st.rnd.Unit()))
		if !ok {
			failed++
			continue
		}
		if now += grown; now < least {
			least, failed = now, 0
			copy(best.Start, st.start)
			copy(best.Worker, st.worker)
		}
	}
	return best
}

// recreate takes the missing jobs out of the schedule and puts each back where it costs
// least. It returns by how much the cost has grown. Where that is more than most, or a
// job finds no place, it leaves everything as it was and returns false.
func (s *state) recreate(most int) (grown int, ok bool) {
	for k := len(s.missing) - 1; k >= 0; k-- {
		j := s.missing[k]
		s.was[j] = offer{s.start[j], s.worker[j], 0}
		s.take(j)
		grown -= s.price(j, s.was[j].start, s.was[j].worker, s.at(s.was[j]), math.MaxInt)
	}
	done := 0
	for ok = s.relax(); ok && done < len(s.missing); {
		j := s.missing[done]
		var o offer
		if o, ok = s.best(j, passed); ok {
			grown += o.cost
			s.place(j, o.start, o.worker)
			done++
			ok = s.settle(j)
		}
	}
	if ok && grown <= most {
		return grown, true
	}
	for _, j := range s.missing[:done] {
		s.take(j)
	}
	for _, j := range s.missing {
		s.place(j, s.was[j].start, s.was[j].worker)
	}
	return 0, false
}

// at returns the position that a place has in its worker's row.
func (s *state) at(o offer) int {
	if o.worker < 0 {
		return 0
	}
	return s.position(o.worker, o.start)
}

// free returns the jobs that may move.
func (s *state) free() []int {
	var out []int
	for j := range s.p.Jobs {
		if !s.p.Jobs[j].Fixed {
			out = append(out, j)
		}
	}
	return out
}

// ruin chooses the jobs to remove: neighbours in a batch, or neighbours in time.
// They are put back in the order of the list.
func (s *state) ruin(free []int) {
	s.missing = s.missing[:0]
	k := s.below(len(free))
	seed := free[k]
	if s.odd > 0 && s.below(2) == 0 { // rather one that is off the marks
		for i := range free {
			if j := free[(k+i)%len(free)]; s.p.Marks.odd(s.start[j]) {
				seed = j
				break
			}
		}
	}
	if s.odd == 0 && s.below(4) == 0 { // rather one that is handed over
		for i := range free {
			if j := free[(k+i)%len(free)]; s.handedOver(j) {
				seed = j
				break
			}
		}
	}
	n := 1 + s.below(mostMissing)
	switch s.below(3) {
	case 0: // of its batch, and what waits for it
		s.tie(seed, n)
	case 1: // close in time
		s.near(seed, 1+n/2)
	default: // both
		s.tie(seed, 1+n/2)
		s.near(s.missing[s.below(len(s.missing))], 1+n/3)
	}
	order := s.below(3)
	if order == 0 {
		return // those that are tied first
	}
	for k := range s.missing { // few: by insertion
		for ; k > 0 && s.start[s.missing[k]] < s.start[s.missing[k-1]]; k-- {
			s.missing[k], s.missing[k-1] = s.missing[k-1], s.missing[k]
		}
	}
	if order == 1 {
		slices.Reverse(s.missing)
	}
}

// handedOver reports whether the job before in a job's batch is done on the same day by
// another worker.
func (s *state) handedOver(j int) bool {
	b := s.before[j]
	return b >= 0 && s.worker[b] != s.worker[j] && s.day(s.start[b]) == s.day(s.start[j])
}

// add adds a job to those to remove, and those that are done with it.
func (s *state) add(j int) {
	if s.p.Jobs[j].Fixed || slices.Contains(s.missing, j) {
		return
	}
	s.missing = append(s.missing, j)
	for _, mate := range s.mates[j] {
		s.add(mate)
	}
}

// tie adds jobs that are tied to a job by lags, up to n in all.
func (s *state) tie(j, n int) {
	s.add(j)
	for k := 0; k < len(s.missing) && len(s.missing) < n; k++ {
		of := s.missing[k]
		for _, l := range s.out[of] {
			if len(s.missing) < n && s.p.Jobs[l.job].Batch == s.p.Jobs[of].Batch {
				s.add(l.job)
			}
		}
		for _, l := range s.in[of] {
			if len(s.missing) < n && (s.p.Jobs[l.job].Batch == s.p.Jobs[of].Batch || s.below(4) == 0) {
				s.add(l.job)
			}
		}
	}
}

// near adds the jobs of the rows that start closest to a job, n of each.
func (s *state) near(j, n int) {
	s.add(j)
	t := s.start[j]
	for w := range s.rows {
		if len(s.rows) > 1 && w != s.worker[j] && s.below(2) == 0 {
			continue
		}
		row := s.rows[w]
		lo := s.position(w, t)
		hi := lo
		for range n {
			if lo > 0 && (hi >= len(row) || t-s.start[row[lo-1]] <= s.start[row[hi]]-t) {
				lo--
			} else if hi < len(row) {
				hi++
			}
		}
		for _, o := range row[lo:hi] {
			if len(s.missing) < mostMissing {
				s.add(o)
			}
		}
	}
}
