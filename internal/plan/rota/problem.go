package rota

import "hobside/internal/plan/rcpsp"

// A Problem is a set of jobs with lags between them, the workers who do them and
// the resources that they share. Times are minutes on one axis; any of them may be
// negative.
type Problem struct {
	Jobs      []Job
	Lags      []Lag
	Resources []int  // capacity of each
	Open      []Span // the hours in which somebody works, in order, apart from each other
	Workers   int
	Marks     Marks
	Rates     Rates
	Mirror    int // Job.Cost is a curve over this minus the start
}

// A Job is done without interruption. Its first Work minutes need a worker.
type Job struct {
	Parts  []Part // what it uses, when
	Length int    // minutes from its start to its end
	Work   int    // minutes at its start that need a worker, 0 for none
	Open   int    // minutes from its start that must lie within one span of Problem.Open; at least Work
	Early  int    // minutes before its start that must lie within that span too
	Lo, Hi int    // allowed starts

	With  int  // 1 + the job that it is done with by another worker: a lag each way has them start together; 0 for none
	Fixed bool // it is done from Start and does not move
	Start int

	Card  int         // jobs of one card follow each other without a change
	Batch int         // jobs of one batch, in the order of Jobs, are handed over or stay with a worker
	Cost  rcpsp.Curve // of Problem.Mirror − start
}

// A Part is the use of resources for a part of a job.
type Part struct {
	From, To int // minutes after the job's start
	Uses     []rcpsp.Need
}

// A Lag says that job To starts at least Min minutes after job From. A negative Min
// says that From starts at most -Min after To.
type Lag struct{ From, To, Min int }

// A Span is a time from From up to To.
type Span struct{ From, To int }

// Marks are the minutes at which jobs should start: those at which start plus Phase
// is divisible by Every, for starts before Until.
type Marks struct{ Every, Phase, Until int }

// Rates are what a schedule costs besides the jobs' own costs. A zero rate costs
// nothing.
type Rates struct {
	Odd      int // each start that is not on a mark
	Change   int // each change of card of a worker on one day; jobs that it helps with do not count
	Handover int // each pair of consecutive jobs of a batch on one day with different workers

	Stretch int // each minute that a worker works without a pause beyond Longest
	Longest int // minutes
	Pause   int // minutes without work that count as a pause

	// Crowd is for each minute of work in an hour times all the other minutes in it, so
	// that level work costs least. Hours are counted from Phase. Late is the same,
	// added for the last hour of a span of Open.
	Crowd, Late int

	Day func(start int) int // the day of a minute; days begin where an hour does
}

// A Schedule is when each job starts, and its worker, −1 for none.
type Schedule struct {
	Start  []int
	Worker []int
}

// odd reports whether a start is off the marks.
func (m *Marks) odd(t int) bool { return m.Every > 1 && t < m.Until && (t+m.Phase)%m.Every != 0 }

// Odd reports whether a job that may move starts off the marks.
func (p *Problem) Odd(s Schedule) bool {
	for j := range p.Jobs {
		if !p.Jobs[j].Fixed && p.Marks.odd(s.Start[j]) {
			return true
		}
	}
	return false
}

// up returns the first allowed start from t on.
func (m *Marks) up(t int) int {
	if m.odd(t) {
		t += m.Every - mod(t+m.Phase, m.Every)
	}
	return t
}

// down returns the last allowed start up to t.
func (m *Marks) down(t int) int {
	if m.odd(t) {
		t -= mod(t+m.Phase, m.Every)
	}
	return t
}

// mod returns the remainder from 0 to n − 1.
func mod(a, n int) int { return ((a % n) + n) % n }
