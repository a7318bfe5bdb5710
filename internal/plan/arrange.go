package plan

import (
	"hobside/internal/plan/rota"
)

// arrangeFor bounds the effort of arranging a plan for the people who follow it, in
// thousands of trials.
const arrangeFor = 60

// mostSeeds is how often that effort is spent at most. Under way it is spent once: cooks
// wait for the plan.
const mostSeeds = 3

// arrange returns starts that keep the same rules and are easier to follow. It makes so
// many trials, again with other random numbers while a start is off the marks.
func (p *project) arrange(m mirrored, starts []int, trials, seeds int) []int {
	q, jobs, ok := p.jobs(m, starts)
	if !ok {
		return starts
	}
	s := jobs
	for seed := range seeds {
		if s = rota.Improve(q, s, rota.Budget{Trials: trials, Seed: uint64(seed) + 1}); !q.Odd(s) {
			break
		}
	}
	out := make([]int, len(starts))
	for i := range p.acts {
		out[i] = s.Start[p.acts[i].task] + starts[i] - jobs.Start[p.acts[i].task]
	}
	return out
}

// jobs returns the project with one job for each task, and a plan of it. ok is false
// where more cooks are at work at one time than there are, which only happens to
// what is begun.
func (p *project) jobs(m mirrored, starts []int) (q *rota.Problem, s rota.Schedule, ok bool) {
	n := len(p.tasks)
	q = &rota.Problem{Jobs: make([]rota.Job, n), Workers: p.cooks, Rates: p.rates(), Mirror: m.end,
		Marks: rota.Marks{Every: markEvery, Phase: p.ax.serve.Minutes(), Until: -anHour - afternoon}}
	s = rota.Schedule{Start: make([]int, n), Worker: make([]int, n)}
	for _, o := range p.open {
		q.Open = append(q.Open, rota.Span{From: o.from, To: o.to})
	}
	q.Resources = make([]int, firstEquipment+len(p.pools))
	for r, pool := range p.pools {
		q.Resources[firstEquipment+r] = pool.places
	}
	first := make([]int, n)
	for j := range first {
		first[j] = -1
	}
	cards, batches := map[string]int{}, map[Step]int{}
	for i := range p.acts {
		j := p.acts[i].task
		if first[j] < 0 {
			first[j] = i
			key := p.tasks[j].Step
			key.Step = 0
			q.Jobs[j] = rota.Job{Lo: -forEver / 4, Hi: forEver / 4, Card: number(cards, key.Card), Batch: number(batches, key)}
			s.Start[j], s.Worker[j] = starts[i], -1
		}
		p.part(&q.Jobs[j], m, i, starts[i]-s.Start[j])
	}
	for _, l := range p.lags {
		from, to := p.acts[l.from].task, p.acts[l.to].task
		if from != to {
			q.Lags = append(q.Lags, rota.Lag{From: from, To: to, Min: starts[l.from] - s.Start[from] + l.min - (starts[l.to] - s.Start[to])})
		}
	}
	p.crewJobs(q, &s)
	return q, s, p.give(q, s)
}

// crewJobs adds a job for each cook more who is at a task. It starts with the task.
func (p *project) crewJobs(q *rota.Problem, s *rota.Schedule) {
	for i := range p.acts {
		for range p.acts[i].people() - 1 {
			j, of := len(q.Jobs), p.acts[i].task
			lead := &q.Jobs[of]
			q.Jobs = append(q.Jobs, rota.Job{Length: lead.Work, Work: lead.Work, Open: lead.Work, Lo: -forEver / 4, Hi: forEver / 4,
				Fixed: lead.Fixed, Start: lead.Start, Card: lead.Card, Batch: -j, With: of + 1})
			q.Lags = append(q.Lags, rota.Lag{From: of, To: j}, rota.Lag{From: j, To: of})
			s.Start, s.Worker = append(s.Start, s.Start[of]), append(s.Worker, -1)
		}
	}
}

// number returns the number of a key, a new one for a new key.
func number[K comparable](known map[K]int, key K) int {
	if _, ok := known[key]; !ok {
		known[key] = len(known)
	}
	return known[key]
}

// part adds activity i to a job, so many minutes after its start.
func (p *project) part(job *rota.Job, m mirrored, i, after int) {
	a, turned := &p.acts[i], &m.Activities[i]
	end := after + a.dur
	job.Length = max(job.Length, end)
	part := rota.Part{From: after, To: end}
	for _, u := range a.needs {
		switch u.Resource {
		case cooksResource:
			job.Work, job.Open = end, max(job.Open, end)
		case presence:
			job.Open, job.Early = max(job.Open, end), max(job.Early, -after)
		default:
			part.Uses = append(part.Uses, u)
		}
	}
	if len(part.Uses) > 0 {
		job.Parts = append(job.Parts, part)
	}
	if a.held {
		job.Fixed, job.Start = true, a.start-after
		return
	}
	job.Lo = max(job.Lo, m.end-turned.Deadline-after)
	job.Hi = min(job.Hi, m.end-turned.Release-a.dur-after)
	for _, slope := range turned.Cost {
		slope.At += end
		job.Cost = append(job.Cost, slope)
	}
}

// give gives each job that needs somebody the first cook who is free.
func (p *project) give(q *rota.Problem, s rota.Schedule) bool {
	free := make([]int, p.cooks)
	for i := range free {
		free[i] = -forEver
	}
	for _, j := range inOrder(s.Start) {
		job := &q.Jobs[j]
		if job.Work == 0 {
			continue
		}
		for k := range free {
			if s.Worker[j] < 0 && free[k] <= s.Start[j] {
				s.Worker[j], free[k] = k, s.Start[j]+job.Work
			}
		}
		if s.Worker[j] < 0 {
			if !job.Fixed {
				return false
			}
			job.Work = 0 // begun by somebody who is at something else too
		}
	}
	return true
}

// day returns the day of a minute by the clock on the wall, 0 for the day of serving.
func (p *project) day(t int) int {
	if len(p.ax.changes) == 0 {
		n := t - p.midnight
		if n < 0 {
			n -= aDay - 1
		}
		return n / aDay
	}
	return p.ax.reading(t).DaysSince(p.ax.serve)
}
