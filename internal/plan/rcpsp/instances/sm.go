package instances

import (
	"bytes"
	"fmt"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// SM reads a PSPLIB single-mode file. Activities keep the file's order, counted
// from 0; every precedence becomes a lag as long as the predecessor.
func SM(src []byte) (*rcpsp.Problem, error) {
	p := &rcpsp.Problem{}
	jobs, renewable := 0, 0
	section := ""
	var succ [][]int
	seen := map[int]bool{} // jobs with a row in REQUESTS/DURATIONS
	for n, line := range bytes.Split(src, []byte("\n")) {
		text := strings.TrimSpace(string(line))
		fail := func(format string, args ...any) error {
			return fmt.Errorf("line %d: %s", n+1, fmt.Sprintf(format, args...))
		}
		if head, rest, ok := strings.Cut(text, ":"); ok {
			key := strings.Join(strings.Fields(head), " ")
			switch {
			case strings.HasPrefix(key, "jobs"):
				v, err := ints(rest)
				if err != nil || len(v) != 1 || v[0] < 1 || v[0] > maxJobs {
					return nil, fail("wanted one number of jobs, 1 to %d, in %q", maxJobs, text)
				}
				if jobs > 0 {
					return nil, fail("the number of jobs is given twice")
				}
				jobs = v[0]
				p.Activities = make([]rcpsp.Activity, jobs)
				succ = make([][]int, jobs)
			case strings.HasPrefix(key, "- renewable"):
				v, err := ints(strings.TrimRight(rest, " \tR"))
				if err != nil || len(v) != 1 || v[0] < 0 || v[0] > maxResources {
					return nil, fail("wanted one number of renewable resources, 0 to %d, in %q", maxResources, text)
				}
				renewable = v[0]
				p.Resources = make([]rcpsp.Resource, renewable)
			case strings.HasPrefix(key, "- nonrenewable"), strings.HasPrefix(key, "- doubly"):
				if v, err := ints(strings.TrimRight(rest, " \tND")); err != nil || len(v) != 1 || v[0] != 0 {
					return nil, fail("only renewable resources can be read")
				}
			case rest == "":
				section = key
			}
			continue
		}
		v, err := ints(text)
		if err != nil || len(v) == 0 {
			continue // a rule of asterisks, a heading
		}
		switch section {
		case "PRECEDENCE RELATIONS":
			if len(v) < 3 || v[0] < 1 || v[0] > jobs || v[1] != 1 || v[2] != len(v)-3 {
				return nil, fail("wanted job, one mode, count, successors: %q", text)
			}
			for _, s := range v[3:] {
				if s < 1 || s > jobs {
					return nil, fail("there is no job %d", s)
				}
				succ[v[0]-1] = append(succ[v[0]-1], s-1)
			}
		case "REQUESTS/DURATIONS":
			if len(v) != 3+renewable || v[0] < 1 || v[0] > jobs || v[1] != 1 {
				return nil, fail("wanted job, mode 1, duration and %d demands: %q", renewable, text)
			}
			if seen[v[0]] {
				return nil, fail("job %d is given twice", v[0])
			}
			seen[v[0]] = true
			a := &p.Activities[v[0]-1]
			a.Dur, a.Needs = v[2], needs(v[3:])
		case "RESOURCEAVAILABILITIES":
			if len(v) != renewable {
				return nil, fail("wanted %d capacities: %q", renewable, text)
			}
			for k, c := range v {
				p.Resources[k].Cap = c
			}
		}
	}
	if jobs == 0 || len(seen) != jobs {
		return nil, fmt.Errorf("the file gives durations for %d of %d jobs", len(seen), jobs)
	}
	for i, to := range succ {
		for _, j := range to {
			p.Lags = append(p.Lags, rcpsp.Lag{From: i, To: j, Min: p.Activities[i].Dur})
		}
	}
	return p, p.Validate()
}
