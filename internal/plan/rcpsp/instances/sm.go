package instances

import (
	"fmt"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// SM reads a single-mode file of PSPLIB (.sm). The jobs of the file become
// activities in the same order, counted from 0. Each precedence becomes a time lag
// as long as the predecessor. Only renewable resources can be read.
func SM(src []byte) (*rcpsp.Problem, error) {
	f := smFile{problem: &rcpsp.Problem{}, given: map[int]bool{}}
	for n, line := range strings.Split(string(src), "\n") {
		if err := f.line(strings.TrimSpace(line)); err != nil {
			return nil, fmt.Errorf("line %d: %w", n+1, err)
		}
	}
	if f.jobs == 0 || len(f.given) != f.jobs {
		return nil, fmt.Errorf("the file gives durations for %d of %d jobs", len(f.given), f.jobs)
	}
	p := f.problem
	for i, successors := range f.successors {
		for _, j := range successors {
			p.Lags = append(p.Lags, rcpsp.Lag{From: i, To: j, Min: p.Activities[i].Dur})
		}
	}
	return p, p.Validate()
}

// smFile is a file that is being read.
type smFile struct {
	problem    *rcpsp.Problem
	jobs       int // 0 until the file has given it
	resources  int
	section    string       // heading of the section that the line is in
	successors [][]int      // by activity
	given      map[int]bool // jobs, counted from 1, that have a duration
}

// line reads one line: a heading with a colon or a row of numbers. Everything else
// separates sections and is ignored.
func (f *smFile) line(text string) error {
	if head, value, ok := strings.Cut(text, ":"); ok {
		return f.heading(strings.Join(strings.Fields(head), " "), value)
	}
	v, err := parseInts(text)
	if err != nil || len(v) == 0 {
		return nil
	}
	switch f.section {
	case "PRECEDENCE RELATIONS":
		return f.precedence(v)
	case "REQUESTS/DURATIONS":
		return f.request(v)
	case "RESOURCEAVAILABILITIES":
		return f.availability(v)
	}
	return nil
}

func (f *smFile) heading(key, value string) error {
	switch {
	case strings.HasPrefix(key, "jobs"):
		v, err := parseInts(value)
		if err != nil || len(v) != 1 || v[0] < 1 || v[0] > maxJobs {
			return fmt.Errorf("the number of jobs must be one number from 1 to %d, not %q", maxJobs, value)
		}
		if f.jobs > 0 {
			return fmt.Errorf("the number of jobs is given twice")
		}
		f.jobs = v[0]
		f.problem.Activities = make([]rcpsp.Activity, f.jobs)
		f.successors = make([][]int, f.jobs)
	case strings.HasPrefix(key, "- renewable"):
		v, err := parseInts(strings.TrimRight(value, " \tR"))
		if err != nil || len(v) != 1 || v[0] < 0 || v[0] > maxResources {
			return fmt.Errorf("the number of renewable resources must be one number from 0 to %d, not %q", maxResources, value)
		}
		f.resources = v[0]
		f.problem.Resources = make([]rcpsp.Resource, f.resources)
	case strings.HasPrefix(key, "- nonrenewable"), strings.HasPrefix(key, "- doubly"):
		if v, err := parseInts(strings.TrimRight(value, " \tND")); err != nil || len(v) != 1 || v[0] != 0 {
			return fmt.Errorf("only renewable resources can be read")
		}
	case value == "":
		f.section = key
	}
	return nil
}

// precedence reads a row of job, number of modes, number of successors, successors.
func (f *smFile) precedence(v []int) error {
	if len(v) < 3 || v[0] < 1 || v[0] > f.jobs || v[1] != 1 || v[2] != len(v)-3 {
		return fmt.Errorf("the row must be a job, 1 mode, the number of successors and the successors, not %d", v)
	}
	for _, s := range v[3:] {
		if s < 1 || s > f.jobs {
			return fmt.Errorf("there is no job %d", s)
		}
		f.successors[v[0]-1] = append(f.successors[v[0]-1], s-1)
	}
	return nil
}

// request reads a row of job, mode, duration and one demand for each resource.
func (f *smFile) request(v []int) error {
	if len(v) != 3+f.resources || v[0] < 1 || v[0] > f.jobs || v[1] != 1 {
		return fmt.Errorf("the row must be a job, mode 1, the duration and %d demands, not %d", f.resources, v)
	}
	if f.given[v[0]] {
		return fmt.Errorf("job %d is given twice", v[0])
	}
	f.given[v[0]] = true
	a := &f.problem.Activities[v[0]-1]
	a.Dur, a.Needs = v[2], needs(v[3:])
	return nil
}

// availability reads the row of capacities.
func (f *smFile) availability(v []int) error {
	if len(v) != f.resources {
		return fmt.Errorf("the row must be %d capacities, not %d", f.resources, v)
	}
	for k, c := range v {
		f.problem.Resources[k].Cap = c
	}
	return nil
}
