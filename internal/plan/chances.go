package plan

import (
	"slices"
	"sort"

	"hobside/internal/plan/rcpsp"
)

// Chances is how often a plan works when steps take as long as they really may.
type Chances struct {
	Runs    int
	Courses []CourseChance
	Decide  []Decider // the steps that most often make a course late
	Collide []Collision
}

// Slack returns the step for which ten minutes more make most evenings good; ok is false
// where they make no difference anywhere.
func (c Chances) Slack() (most Decider, ok bool) {
	for _, d := range c.Decide {
		if d.Helped-d.Before > most.Helped-most.Before {
			most, ok = d, true
		}
	}
	return most, ok
}

// A Collision is two cooks who want the same place at one time, because the first took
// longer than planned.
type Collision struct {
	First, Second Step
	Place         string  // "oven"
	Share         float64 // of the runs
}

// A CourseChance is how likely a course is on time.
type CourseChance struct {
	Name   string
	OnTime float64 // share of the runs
	Late   int     // minutes late that 19 of 20 runs stay within
}

// A Decider is a step that makes courses late.
type Decider struct {
	Step  Step
	Share float64 // of the runs in which a course was late
	// Before is the share of runs in which all courses are on time, Helped the
	// same when this step has ten minutes more.
	Before, Helped float64
}

const (
	grace  = 2  // minutes late that still count as on time
	slack  = 10 // extra minutes for a step, to find where they help most
	tested = 5  // how many deciders that is tried for
)

// Chances simulates the plan so many times. No step starts before its planned time;
// a delay moves what waits for the step, for its cook or for its equipment. The
// same seed gives the same answer.
func (p *Plan) Chances(runs int, seed uint64) Chances {
	g := newGame(p)
	out := Chances{Runs: runs}
	late := make([][]float64, len(p.Courses))
	blamed := map[Step]int{}
	lateRuns := 0
	met := map[Collision]int{}
	for run := range runs {
		g.play(seed, run, -1)
		g.collisions(met)
		if g.lateness(late) {
			lateRuns++
			g.blame(blamed)
		}
	}
	out.Collide = collided(met, runs)
	for i, c := range p.Courses {
		sort.Slice(late[i], func(a, b int) bool { return late[i][a] < late[i][b] })
		on := 0
		for _, v := range late[i] {
			if v <= grace {
				on++
			}
		}
		cc := CourseChance{Name: c.Name, OnTime: 1}
		if n := len(late[i]); n > 0 {
			cc.OnTime = float64(on) / float64(n)
			cc.Late = max(0, int(late[i][n*19/20]+0.5))
		}
		out.Courses = append(out.Courses, cc)
	}
	for s, n := range blamed {
		out.Decide = append(out.Decide, Decider{Step: s, Share: float64(n) / float64(max(1, lateRuns))})
	}
	sort.Slice(out.Decide, func(i, j int) bool {
		a, b := &out.Decide[i], &out.Decide[j]
		if a.Share != b.Share {
			return a.Share > b.Share
		}
		return a.Step.less(b.Step)
	})
	out.Decide = out.Decide[:min(tested, len(out.Decide))]
	for i := range out.Decide {
		d := &out.Decide[i]
		d.Before = 1 - float64(lateRuns)/float64(max(1, runs))
		stillLate := 0
		for run := range runs {
			g.play(seed, run, g.taskOf(d.Step))
			if g.lateness(nil) {
				stillLate++
			}
		}
		d.Helped = 1 - float64(stillLate)/float64(max(1, runs))
	}
	return out
}

// collided returns the collisions that happen most often.
func collided(met map[Collision]int, runs int) []Collision {
	var out []Collision
	for c, n := range met {
		if c.Share = float64(n) / float64(max(1, runs)); c.Share >= 0.01 {
			out = append(out, c)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := &out[i], &out[j]
		switch {
		case a.Share != b.Share:
			return a.Share > b.Share
		case a.First != b.First:
			return a.First.less(b.First)
		case a.Second != b.Second:
			return a.Second.less(b.Second)
		}
		return a.Place < b.Place
	})
	return out[:min(tested, len(out))]
}

// A game is a simulation of a plan.
type game struct {
	p      *project
	plan   *Plan
	starts []int
	order  []int
	into   [][]arc // arcs by their target
	begin  []float64
	took   []float64
	by     []int // the activity that delayed each, −1 for none
}

func newGame(pl *Plan) *game {
	p := pl.project
	g := &game{p: p, plan: pl, starts: p.starts, into: make([][]arc, len(p.acts)),
		begin: make([]float64, len(p.acts)), took: make([]float64, len(p.acts)), by: make([]int, len(p.acts))}
	waits := make([]int, len(p.acts))
	out := make([][]int, len(p.acts))
	for _, a := range p.arcs {
		g.into[a.to] = append(g.into[a.to], a)
		out[a.from] = append(out[a.from], a.to)
		waits[a.to]++
	}
	for i := range p.acts {
		if waits[i] == 0 {
			g.order = append(g.order, i)
		}
	}
	for k := 0; k < len(g.order); k++ {
		for _, to := range out[g.order[k]] {
			if waits[to]--; waits[to] == 0 {
				g.order = append(g.order, to)
			}
		}
	}
	return g
}

// play simulates one run. The task helped, unless −1, has ten minutes more.
func (g *game) play(seed uint64, run, helped int) {
	// Each run has a sequence of its own, so that a run with a helped task is compared
	// with the same run without.
	r := rcpsp.NewRandom(seed + uint64(run)*0x632be59bd9b4e019)
	for i := range g.p.acts {
		a := &g.p.acts[i]
		g.took[i] = float64(a.dur)
		if a.spread.high > 0 && !a.held {
			g.took[i] = a.spread.draw(r)
		}
		if a.task == helped && g.took[i] > float64(a.dur) {
			g.took[i] = max(float64(a.dur), g.took[i]-slack)
		}
	}
	for _, i := range g.order {
		g.begin[i], g.by[i] = float64(g.starts[i]), -1
		if g.p.acts[i].held {
			continue
		}
		for _, a := range g.into[i] {
			if t := g.begin[a.from] + g.took[a.from] + float64(a.tail); t > g.begin[i] {
				g.begin[i], g.by[i] = t, a.from
			}
		}
	}
}

// collisions counts, once each, the places that one cook wants while another's work there
// goes on: more than the grace after all else that the work waits for.
func (g *game) collisions(met map[Collision]int) {
	seen := map[Collision]bool{}
	for _, q := range g.p.queues {
		free := g.begin[q.from] + g.took[q.from]
		ready := float64(g.starts[q.to])
		for _, a := range g.into[q.to] {
			if a.from != q.from {
				ready = max(ready, g.begin[a.from]+g.took[a.from]+float64(a.tail))
			}
		}
		c := Collision{First: g.p.tasks[g.p.acts[q.from].task].Step, Second: g.p.tasks[g.p.acts[q.to].task].Step, Place: q.place}
		if free > ready+grace && !seen[c] {
			seen[c] = true
			met[c]++
		}
	}
}

// lateness adds by how much each course is late, and reports whether any is.
func (g *game) lateness(late [][]float64) bool {
	any := false
	for i, c := range g.plan.Courses {
		worst := 0.0
		for k := range g.p.acts {
			if a := &g.p.acts[k]; a.course == i+1 {
				worst = max(worst, g.begin[k]+g.took[k]-float64(c.At))
			}
		}
		any = any || worst > grace
		if late != nil {
			late[i] = append(late[i], worst)
		}
	}
	return any
}

// blame follows the delays back from each late course and counts, once each, the
// steps that took longer than planned.
func (g *game) blame(blamed map[Step]int) {
	seen := map[Step]bool{}
	for k := range g.p.acts {
		a := &g.p.acts[k]
		if a.course == 0 || g.begin[k]+g.took[k]-float64(g.plan.Courses[a.course-1].At) <= grace {
			continue
		}
		for i := k; i >= 0; i = g.by[i] {
			s := g.p.tasks[g.p.acts[i].task].Step
			if g.took[i] > float64(g.p.acts[i].dur)+0.5 && !seen[s] {
				seen[s] = true
				blamed[s]++
			}
		}
	}
}

func (g *game) taskOf(s Step) int {
	return slices.IndexFunc(g.p.tasks, func(t Task) bool { return t.Step == s })
}
