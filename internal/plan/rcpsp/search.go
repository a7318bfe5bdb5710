package rcpsp

// search looks through all schedules with a shorter makespan than the best known
// one. It bounds the start of one activity after the other, propagates time lags,
// disjunctive pairs, nogoods and time tables, and learns a nogood from each
// conflict. If it is not stopped, it ends with a proof.
type search struct {
	m        *model
	gen      *generator // for improvements; holds the effort
	began    int        // effort used before this search
	t        *trail
	nogoods  nogoods
	analysis *analysis
	tables   []timeTable
	tablesOf [][]int32 // by activity: the time tables it is in
	queue    []int32   // time tables to propagate
	queued   []bool    // by time table
	guide    []int32   // starts to try first, by activity; nil if none are known
	best     []int32   // the best schedule that this search found; nil if none
	bestEnd  int32     // makespan to beat
	proven   bool      // there is no schedule with a shorter makespan
	gaveUp   bool      // a propagation was given up, so no proof is possible
}

// newSearch prepares a search for schedules that end before end, which is infinity
// if any schedule will do.
func newSearch(gen *generator, end int32) *search {
	m := gen.m
	s := &search{m: m, gen: gen, began: gen.effort.used, t: newTrail(m), nogoods: newNogoods(m),
		analysis: newAnalysis(m), tablesOf: make([][]int32, m.n), bestEnd: end}
	for k := range m.p.Resources {
		if tt := newTimeTable(m, k); len(tt.users) > 0 {
			for _, i := range tt.users {
				s.tablesOf[i] = append(s.tablesOf[i], int32(len(s.tables)))
			}
			s.tables = append(s.tables, tt)
		}
	}
	s.queued = make([]bool, len(s.tables))
	s.proven = !s.restartBelow(end)
	return s
}

// restartBelow goes back to the root and asks for a makespan below end. It returns
// false if propagation shows that there is none.
func (s *search) restartBelow(end int32) bool {
	s.t.backtrack(0)
	for i := range int32(s.m.n) {
		if s.m.fixed[i] {
			if s.m.es[i]+s.m.dur[i] >= end {
				return false
			}
		} else if !s.t.set(startAtMost(i, end-1-s.m.dur[i]), reason{}) {
			return false
		}
	}
	s.t.next = 0
	for k := range s.tables {
		s.enqueue(int32(k))
	}
	return s.propagateRoot()
}

// run searches until the effort is used up, the best schedule is proven to be
// optimal, or a schedule reaches the lower bound.
func (s *search) run(bound int32) {
	restartAfter, sinceRestart := 64, 0 // conflicts; the interval grows by a quarter
	for !s.proven && !s.gaveUp && !s.gen.effort.exhausted() {
		i := s.selectActivity()
		if i < 0 {
			s.recordSchedule()
			if s.bestEnd <= bound {
				s.proven = true
				return
			}
			s.proven = !s.restartBelow(s.bestEnd)
			sinceRestart = 0
			continue
		}
		s.t.newLevel()
		ok := s.t.set(s.decide(i), reason{kind: decision}) && s.propagate()
		for !ok && s.gen.effort.spend(1) {
			sinceRestart++
			if ok = s.resolveConflict(); s.proven {
				return
			}
		}
		if sinceRestart > restartAfter {
			sinceRestart = 0
			restartAfter += restartAfter / 4
			s.t.backtrack(0)
		}
	}
}

// resolveConflict learns a nogood, backtracks, and propagates the nogood. It
// returns false at the next conflict, and sets proven if the conflict depends on
// no decision.
func (s *search) resolveConflict() bool {
	level, added := -1, int32(0)
	if len(s.t.levels) > 0 {
		level, added = s.analysis.learn(s.t, &s.nogoods)
	}
	if level < 0 {
		s.proven = true
		return false
	}
	s.t.backtrack(level)
	n := s.nogoods.all[added]
	if !s.t.set(n[0], reason{kind: fromNogood, a: added}) {
		for _, l := range n[1:] {
			s.t.conflict = append(s.t.conflict, l.negated())
		}
		return false
	}
	return s.propagate()
}

// recordSchedule keeps the schedule in which every start is fixed. It is better
// than the best one, or the root's bounds would have excluded it.
func (s *search) recordSchedule() {
	s.gen.effort.spend(1)
	s.best = s.best[:0]
	s.bestEnd = -infinity
	for i := range int32(s.m.n) {
		s.best = append(s.best, s.t.earliest(i))
		s.bestEnd = max(s.bestEnd, s.t.earliest(i)+s.m.dur[i])
	}
	if s.m.minLagsOnly {
		s.improve()
	}
	s.guide = append(s.guide[:0], s.best...)
}

// scoresAfter is the number of conflicts after which the scores mean something.
const scoresAfter = 100

// selectActivity returns the activity to branch on, or -1 if every start is fixed.
// At first it is the one with the earliest start, later the one with the highest
// score.
func (s *search) selectActivity() int32 {
	best, bestKey := int32(-1), 0.0
	byScore := s.gen.effort.used-s.began > scoresAfter
	for i := range int32(s.m.n) {
		es, ls := s.t.earliest(i), s.t.latest(i)
		if es == ls {
			continue
		}
		key := -(float64(es) + float64(ls)/1024)
		if byScore {
			key = s.analysis.scores.of[i]
		}
		if best < 0 || key > bestKey {
			best, bestKey = i, key
		}
	}
	return best
}

// decide returns the literal to assume for activity i: that it starts where the
// best schedule has it, first from one side and then from the other, or else as
// early as it can.
func (s *search) decide(i int32) literal {
	es, ls := s.t.earliest(i), s.t.latest(i)
	if s.guide != nil {
		at := s.guide[i]
		if es < at && at <= ls {
			return startAtLeast(i, at)
		}
		if es <= at && at < ls {
			return startAtMost(i, at)
		}
	}
	return startAtMost(i, es)
}
