package plan

import (
	"slices"
	"sort"
)

// Chances are how a plan fares when steps take as long as they really may.
type Chances struct {
	Runs    int
	Courses []CourseChance
	Decide  []Decider // the steps that most often make a course late
}

// A CourseChance is how likely a course goes out on time.
type CourseChance struct {
	Name   string
	OnTime float64 // share of the runs
	Late   int     // minutes late in the worst run but one in twenty
}

// A Decider is a step that makes courses late.
type Decider struct {
	Step  Step
	Share float64 // of the runs in which a course was late
	// Helped is the share of runs in which all courses are on time if this step
	// had ten minutes more; Before the same as it is.
	Before, Helped float64
}

const (
	grace  = 2  // minutes that nobody at the table notices
	slack  = 10 // minutes more for a step, to see where they help most
	tested = 5  // deciders for which that is tried
)

// Chances plays the plan through so many times. Nobody starts a step before its
// time; what overruns pushes on what waits for it, for its hands or its place.
// The same seed gives the same answer.
func (p *Plan) Chances(runs int, seed uint64) Chances {
	g := newGame(p)
	out := Chances{Runs: runs}
	late := make([][]float64, len(p.Courses))
	blamed := map[Step]int{}
	lateRuns := 0
	for run := range runs {
		g.play(seed, run, -1)
		if g.lateness(late) {
			lateRuns++
			g.blame(blamed)
		}
	}
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

// game is a plan being played through.
type game struct {
	p      *project
	plan   *Plan
	starts []int
	order  []int
	into   [][]arc // arcs by where they lead
	begin  []float64
	took   []float64
	by     []int // which activity made each begin late, −1 for none
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

// play plays it once. The step of task helped, if any, has ten minutes more.
func (g *game) play(seed uint64, run, helped int) {
	d := dice{seed + uint64(run)*0x632be59bd9b4e019}
	for i := range g.p.acts {
		a := &g.p.acts[i]
		g.took[i] = float64(a.dur)
		if a.spread.high > 0 && !a.held {
			g.took[i] = a.spread.draw(&d)
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

// lateness notes by how much each course is late, and says whether one is.
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

// blame goes back from each late course along what held it up, and counts the
// steps there that took longer than planned, each once.
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
