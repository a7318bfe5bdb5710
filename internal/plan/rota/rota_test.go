package rota

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/plan/rcpsp"
)

// anyProblem draws a problem of so many jobs at most, and a schedule of it: jobs are
// placed one after the other in time, some of them with a second worker, and lags are drawn that this schedule keeps.
func anyProblem(t *rapid.T, most int) (*Problem, Schedule) {
	n := rapid.IntRange(2, most).Draw(t, "jobs")
	p := &Problem{Workers: rapid.IntRange(1, 3).Draw(t, "workers"), Resources: []int{0, 0, 1, 2}, Open: []Span{{-120, -60}, {0, 24 * 60}},
		Marks: Marks{Every: 5, Phase: rapid.IntRange(0, 4).Draw(t, "phase"), Until: rapid.SampledFrom([]int{-30, 60, 2000}).Draw(t, "until")},
		Rates: Rates{Odd: 500, Change: 100, Handover: 200, Stretch: 3, Longest: 60, Pause: 10, Crowd: 1, Late: 2,
			Day: func(t int) int { return (t + 1440*9) / 1440 }}}
	p.Marks.Phase = 60 * rapid.IntRange(0, 2).Draw(t, "hour") // days begin where an hour does
	var s Schedule
	at := -110
	for range n {
		work := rapid.SampledFrom([]int{0, 5, 7, 10, 20}).Draw(t, "work")
		wait := rapid.SampledFrom([]int{0, 0, 10, 33}).Draw(t, "wait")
		job := Job{Length: work + wait, Work: work, Open: work, Lo: -2000, Hi: 2000, Card: rapid.IntRange(0, 2).Draw(t, "card"), Batch: rapid.IntRange(0, 2).Draw(t, "batch")}
		if rapid.Bool().Draw(t, "watched") {
			job.Open = job.Length
		}
		if at > 30 {
			job.Early = rapid.SampledFrom([]int{0, 0, 15}).Draw(t, "early")
		}
		if rapid.Bool().Draw(t, "uses") {
			use := rcpsp.Need{Resource: rapid.IntRange(2, 3).Draw(t, "resource"), Amount: 1, State: rapid.IntRange(0, 2).Draw(t, "state")}
			job.Parts = []Part{{From: 0, To: job.Length, Uses: []rcpsp.Need{use}}}
		}
		if rapid.Bool().Draw(t, "priced") {
			job.Cost = rcpsp.Curve{{At: rapid.IntRange(-100, 300).Draw(t, "best"), Early: 2, Late: 3}}
		}
		at += rapid.IntRange(0, 15).Draw(t, "gap")
		if at < 0 && at+job.Open > -60 {
			at = 0
		}
		worker := -1
		if work > 0 {
			worker = rapid.IntRange(0, p.Workers-1).Draw(t, "worker")
		}
		if rapid.IntRange(0, 9).Draw(t, "fixed") == 0 {
			job.Fixed, job.Start = true, at
		} else if rapid.Bool().Draw(t, "window") {
			job.Lo, job.Hi = at-rapid.IntRange(0, 40).Draw(t, "lo"), at+rapid.IntRange(0, 40).Draw(t, "hi")
		}
		p.Jobs, s.Start, s.Worker = append(p.Jobs, job), append(s.Start, at), append(s.Worker, worker)
		if of := len(p.Jobs) - 1; n < most && work > 0 && p.Workers > 1 && rapid.IntRange(0, 3).Draw(t, "shared") == 0 {
			p.Jobs = append(p.Jobs, Job{Length: work, Work: work, Open: work, Lo: -2000, Hi: 2000, Fixed: job.Fixed, Start: job.Start,
				Card: job.Card, Batch: -len(p.Jobs), With: of + 1})
			p.Lags = append(p.Lags, Lag{of, of + 1, 0}, Lag{of + 1, of, 0})
			s.Start, s.Worker = append(s.Start, at), append(s.Worker, (worker+1)%p.Workers)
			most--
		}
		at += job.Length
	}
	n = len(p.Jobs)
	for range rapid.IntRange(0, n).Draw(t, "lags") {
		from, to := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		if from != to {
			p.Lags = append(p.Lags, Lag{from, to, s.Start[to] - s.Start[from] - rapid.IntRange(0, 30).Draw(t, "slack")})
		}
	}
	return p, s
}

// total returns the cost of a schedule, counted anew and not by the search's own
// sums of differences.
func total(p *Problem, s Schedule) int {
	r, sum := &p.Rates, 0
	hours := map[int]int{}
	last := map[int]int{} // by batch
	for j := range p.Jobs {
		job, t := &p.Jobs[j], s.Start[j]
		sum += job.Cost.At(p.Mirror - t)
		if t < p.Marks.Until && mod(t+p.Marks.Phase, p.Marks.Every) != 0 {
			sum += r.Odd
		}
		if job.Work == 0 {
			continue
		}
		for m := t; m < t+job.Work; m++ {
			hours[(m+p.Marks.Phase+600000)/60]++
		}
		if b, ok := last[job.Batch]; ok && s.Worker[b] != s.Worker[j] && r.Day(s.Start[b]) == r.Day(t) {
			sum += r.Handover
		}
		last[job.Batch] = j
	}
	for h, n := range hours {
		rate := r.Crowd
		for _, o := range p.Open {
			if (o.To-1+p.Marks.Phase+600000)/60 == h {
				rate += r.Late
			}
		}
		sum += rate * n * n
	}
	for w := range p.Workers {
		var row []int
		for j := range p.Jobs {
			if s.Worker[j] == w {
				row = append(row, j)
			}
		}
		slices.SortFunc(row, func(a, b int) int { return s.Start[a] - s.Start[b] })
		from, to := 0, 0
		leads := slices.DeleteFunc(slices.Clone(row), func(j int) bool { return p.Jobs[j].With > 0 })
		for k, j := range leads {
			if k > 0 && r.Day(s.Start[leads[k-1]]) == r.Day(s.Start[j]) && p.Jobs[leads[k-1]].Card != p.Jobs[j].Card {
				sum += r.Change
			}
		}
		for k, j := range row {
			free := s.Start[j] + p.Jobs[j].Work
			if k == 0 || s.Start[j]-to >= r.Pause {
				from = s.Start[j]
			} else {
				sum -= r.Stretch * max(0, to-from-r.Longest)
			}
			to = free
			sum += r.Stretch * max(0, to-from-r.Longest)
		}
	}
	return sum
}

// TestImproveKeepsTheRules improves random schedules: each rule is kept, nothing
// costs more, and the same input gives the same schedule.
func TestImproveKeepsTheRules(t *testing.T) {
	gained := 0
	rapid.Check(t, func(t *rapid.T) {
		if checkImprove(t) {
			gained++
		}
	})
	assert.Greater(t, gained, 10, "most random schedules can be improved")
}

// FuzzImprove has the fuzzer choose the problem.
func FuzzImprove(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { checkImprove(t) }))
}

func checkImprove(t *rapid.T) (gained bool) {
	p, s := anyProblem(t, 12)
	require.NoError(t, Check(p, s))
	b := Budget{Trials: rapid.IntRange(1, 3000).Draw(t, "trials"), Seed: rapid.Uint64().Draw(t, "seed")}
	out := Improve(p, s, b)
	require.NoError(t, Check(p, out))
	require.LessOrEqual(t, total(p, out), total(p, s))
	require.Equal(t, out, Improve(p, s, b))
	return total(p, out) < total(p, s)
}

// TestPricesAddUp removes and places jobs at random: the sum of the prices is the
// difference of the costs.
func TestPricesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := anyProblem(t, 8)
		st := newState(p, s)
		st.rnd = rcpsp.NewRandom(1)
		was := total(p, s)
		for range 5 {
			j := rapid.IntRange(0, len(p.Jobs)-1).Draw(t, "job")
			if p.Jobs[j].Fixed {
				continue
			}
			st.take(j)
			before := st.price(j, st.start[j], st.worker[j], st.at(offer{st.start[j], st.worker[j], 0}), 1<<60)
			st.missing = []int{j}
			o := offer{st.start[j], st.worker[j], before}
			if st.relax() {
				if found, ok := st.best(j, 0); ok {
					o = found
				}
			}
			st.place(j, o.start, o.worker)
			now := total(p, Schedule{st.start, st.worker})
			require.Equal(t, o.cost-before, now-was)
			was = now
			require.NoError(t, Check(p, Schedule{st.start, st.worker}))
		}
	})
}

// TestImproveFindsTheCheapest compares with every schedule of small problems whose
// jobs all start on marks.
func TestImproveFindsTheCheapest(t *testing.T) {
	tried, missed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p, s := anyProblem(t, 3)
		p.Marks.Until = 2000
		p.Open = []Span{{-120, -60}, {0, 90}}
		for j := range p.Jobs {
			s.Start[j] = p.Marks.up(s.Start[j])
			p.Jobs[j].Fixed = false
		}
		if Check(p, s) != nil {
			return
		}
		least := total(p, s)
		try := Schedule{make([]int, len(s.Start)), make([]int, len(s.Start))}
		var place func(j int)
		place = func(j int) {
			if j == len(p.Jobs) {
				if Check(p, try) == nil {
					least = min(least, total(p, try))
				}
				return
			}
			workers := p.Workers
			if p.Jobs[j].Work == 0 {
				workers = 1
			}
			for at := max(-120, s.Start[j]-20); at < min(90, s.Start[j]+30); at += 5 {
				if at = p.Marks.up(at); at < p.Jobs[j].Lo || at > p.Jobs[j].Hi {
					continue
				}
				for w := range workers {
					try.Start[j], try.Worker[j] = at, w
					if p.Jobs[j].Work == 0 {
						try.Worker[j] = -1
					}
					place(j + 1)
				}
			}
		}
		place(0)
		tried++
		if got := total(p, Improve(p, s, Budget{Trials: 6000, Seed: 1})); got > least {
			missed++
		}
	})
	require.Positive(t, tried)
	assert.LessOrEqual(t, missed, tried/10+1, "of %d", tried)
}

// TestCheckFindsBrokenRules breaks one rule at a time.
func TestCheckFindsBrokenRules(t *testing.T) {
	use := []Part{{0, 10, []rcpsp.Need{{Resource: 0, Amount: 1, State: 1}}}}
	other := []Part{{0, 10, []rcpsp.Need{{Resource: 0, Amount: 1, State: 2}}}}
	p := &Problem{Jobs: []Job{{Work: 10, Open: 10, Length: 10, Hi: 50, Parts: use}, {Work: 10, Open: 10, Length: 10, Hi: 50, Parts: other}, {Length: 5, Fixed: true, Start: 3}},
		Lags: []Lag{{0, 1, 10}}, Resources: []int{2}, Open: []Span{{0, 100}}, Workers: 2}
	require.NoError(t, Check(p, Schedule{[]int{0, 10, 3}, []int{0, 0, -1}}))
	for _, tt := range []struct {
		start, worker []int
		want          string
	}{
		{[]int{0, 10, 4}, []int{0, 0, -1}, "is fixed at 3 and starts at 4"},
		{[]int{0, 60, 3}, []int{0, 0, -1}, "outside 0 to 50"},
		{[]int{0, 10, 3}, []int{0, 2, -1}, "has worker 2 of 2"},
		{[]int{0, 10, 3}, []int{0, -1, -1}, "has worker -1 of 2"},
		{[]int{0, 5, 3}, []int{0, 0, -1}, "at one time"},
		{[]int{0, 5, 3}, []int{0, 1, -1}, "in 2 states"},
		{[]int{10, 0, 3}, []int{0, 0, -1}, "at least 10 must lie between"},
	} {
		require.ErrorContains(t, Check(p, Schedule{tt.start, tt.worker}), tt.want)
	}
	p.Open[0].To = 15
	require.ErrorContains(t, Check(p, Schedule{[]int{0, 10, 3}, []int{0, 0, -1}}), "not within the hours")
	p.Open[0].To, p.Resources[0] = 100, 0
	require.ErrorContains(t, Check(p, Schedule{[]int{0, 10, 3}, []int{0, 0, -1}}), "of resource 0 are in use")
}
