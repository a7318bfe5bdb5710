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

// Improve returns a schedule that costs no more than s. s must keep the windows, the
// lags, the hours and the resources of p; then so does what is returned.
func Improve(p *Problem, s Schedule, b Budget) Schedule {
	st := newState(p, s)
	st.rnd, st.mostTrials = rcpsp.NewRandom(b.Seed), b.Trials
	free := st.free()
	if len(free) == 0 || p.Workers == 0 {
		return s
	}
	best := Schedule{slices.Clone(st.start), slices.Clone(st.worker)}
	now, least := 0, 0
	was := make([]offer, len(p.Jobs))
	// A schedule that is dearer by less than the threshold is accepted; the threshold
	// falls to nothing.
	warm := float64(2 * max(p.Rates.Change, 1))
	failed, odd := 0, st.odd
	for st.trials < st.mostTrials && failed < 200+20*len(free) || odd > 0 && st.trials < 3*st.mostTrials {
		st.ruin(free)
		grown := 0
		for k := len(st.missing) - 1; k >= 0; k-- {
			j := st.missing[k]
			was[j] = offer{st.start[j], st.worker[j], 0}
			st.take(j)
			grown -= st.price(j, was[j].start, was[j].worker, st.at(was[j]), math.MaxInt)
		}
		done := 0
		ok := st.relax()
		threshold := int(warm * max(0, 0.9-float64(st.trials)/float64(st.mostTrials)) * st.rnd.Unit())
		for ; ok && done < len(st.missing); done++ {
			j := st.missing[done]
			var o offer
			if o, ok = st.best(j, 8); !ok {
				break
			}
			grown += o.cost
			st.place(j, o.start, o.worker)
			if ok = done+1 == len(st.missing) || st.relax(); !ok {
				done++
				break
			}
		}
		if !ok || grown > threshold {
			for _, j := range st.missing[:done] {
				st.take(j)
			}
			for _, j := range st.missing {
				st.place(j, was[j].start, was[j].worker)
			}
			failed++
			continue
		}
		if now += grown; now < least {
			least, failed, odd = now, 0, st.odd
			copy(best.Start, st.start)
			copy(best.Worker, st.worker)
		}
	}
	return best
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
	if s.odd > 0 && (s.trials > s.mostTrials || s.below(4) == 0) { // rather one that is off the marks
		for i := range free {
			if j := free[(k+i)%len(free)]; s.p.Marks.odd(s.start[j]) {
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
		s.near(seed, 1+n/3)
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

// add adds a job to those to remove.
func (s *state) add(j int) {
	if !s.p.Jobs[j].Fixed && !slices.Contains(s.missing, j) {
		s.missing = append(s.missing, j)
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
