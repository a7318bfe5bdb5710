package rota

// price returns what placing job j at t with worker w adds to the cost, which it
// may also lower. The job is not placed; pos is its position in the worker's row.
// The search for a price stops when it is no less than most.
func (s *state) price(j, t, w, pos, most int) int {
	job := &s.p.Jobs[j]
	r := &s.p.Rates
	sum := 0
	if len(job.Cost) > 0 {
		sum = job.Cost.At(s.p.Mirror - t)
	}
	if r.Odd > 0 && s.p.Marks.odd(t) {
		sum += r.Odd
	}
	if w < 0 {
		return sum
	}
	sum += s.crowd(t, job.Work)
	day := s.day(t)
	sum += s.changes(j, w, pos, day)
	for _, o := range [2]int{s.before[j], s.after[j]} {
		if o >= 0 && s.placed[o] && s.worker[o] != w && s.day(s.start[o]) == day {
			sum += r.Handover
		}
	}
	if r.Stretch > 0 && sum < most {
		sum += s.stretch(t, job.Work, w, pos)
	}
	return sum
}

// day returns the day of a minute.
func (s *state) day(t int) int { return s.days[(t-s.origin)/60] }

// changes returns by how much the cost of changing cards grows. Help with a job of
// another worker changes nothing: both do it together, and each goes on with its own.
func (s *state) changes(j, w, pos, day int) int {
	r, row := &s.p.Rates, s.rows[w]
	if s.p.Jobs[j].With > 0 {
		return 0
	}
	card := s.p.Jobs[j].Card
	prev, next := pos-1, pos
	for prev >= 0 && s.p.Jobs[row[prev]].With > 0 {
		prev--
	}
	for next < len(row) && s.p.Jobs[row[next]].With > 0 {
		next++
	}
	if prev >= 0 {
		if prev = row[prev]; s.day(s.start[prev]) != day {
			prev = -1
		}
	}
	if next == len(row) {
		next = -1
	} else if next = row[next]; s.day(s.start[next]) != day {
		next = -1
	}
	n := 0
	if prev >= 0 && s.p.Jobs[prev].Card != card {
		n++
	}
	if next >= 0 && s.p.Jobs[next].Card != card {
		n++
	}
	if prev >= 0 && next >= 0 && s.p.Jobs[prev].Card != s.p.Jobs[next].Card {
		n--
	}
	return n * r.Change
}

// crowd returns what more work in the hours from t on costs.
func (s *state) crowd(t, work int) int {
	sum := 0
	for work > 0 {
		k := (t - s.origin) / 60
		n := min(work, s.origin+(k+1)*60-t)
		sum += s.weight[k] * n * (2*s.loads[k] + n)
		t, work = t+n, work-n
	}
	return sum
}

// stretch returns by how much the cost of work without a pause grows.
func (s *state) stretch(t, work, w, pos int) int {
	r, row := &s.p.Rates, s.rows[w]
	from, left := t, t // the stretch before, and where it ends
	for k := pos - 1; k >= 0; k-- {
		o := row[k]
		free := s.start[o] + s.p.Jobs[o].Work
		if from-free >= r.Pause {
			break
		}
		if k == pos-1 {
			left = free
		}
		from = s.start[o]
	}
	to, right := t+work, t+work // the stretch after, and where it begins
	for k := pos; k < len(row); k++ {
		o := row[k]
		if s.start[o]-to >= r.Pause {
			break
		}
		if k == pos {
			right = s.start[o]
		}
		to = max(to, s.start[o]+s.p.Jobs[o].Work)
	}
	over := func(from, to int) int { return max(0, to-from-r.Longest) }
	grown := over(from, to)
	if from < t && to > t+work && right-left < r.Pause {
		return r.Stretch * (grown - over(from, to)) // it was one before
	}
	if from < t {
		grown -= over(from, left)
	}
	if to > t+work {
		grown -= over(right, to)
	}
	return r.Stretch * grown
}
