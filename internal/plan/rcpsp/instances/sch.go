package instances

import (
	"fmt"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// Sch reads a ProGen/max file: lags from start to start, negative ones maximum
// lags. Activity 0 is the project's start and the last one its end.
func Sch(src []byte) (*rcpsp.Problem, error) {
	var rows [][]int
	var at []int // the line each row came from
	for n, line := range strings.Split(string(src), "\n") {
		line = strings.NewReplacer("[", " ", "]", " ").Replace(line)
		v, err := ints(line)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", n+1, err)
		}
		if len(v) > 0 {
			rows, at = append(rows, v), append(at, n+1)
		}
	}
	if len(rows) == 0 || len(rows[0]) != 4 {
		return nil, fmt.Errorf("line 1: wanted the number of activities, of renewable resources, and two zeros")
	}
	jobs, renewable := rows[0][0]+2, rows[0][1]
	if jobs < 2 || jobs > maxJobs || renewable < 0 || renewable > maxResources || rows[0][2] != 0 || rows[0][3] != 0 {
		return nil, fmt.Errorf("line %d: up to %d activities and %d renewable resources can be read, and no other kind", at[0], maxJobs, maxResources)
	}
	if len(rows) != 2+2*jobs {
		return nil, fmt.Errorf("wanted %d lines for %d activities, found %d", 2+2*jobs, jobs-2, len(rows))
	}
	p := &rcpsp.Problem{Activities: make([]rcpsp.Activity, jobs), Resources: make([]rcpsp.Resource, renewable)}
	for i := range jobs {
		v, n := rows[1+i], at[1+i]
		if len(v) < 3 || v[0] != i || v[1] != 1 || v[2] < 0 || len(v) != 3+2*v[2] {
			return nil, fmt.Errorf("line %d: wanted %d, one mode, count, successors and as many lags", n, i)
		}
		for k := range v[2] {
			to, lag := v[3+k], v[3+v[2]+k]
			if to < 0 || to >= jobs {
				return nil, fmt.Errorf("line %d: there is no activity %d", n, to)
			}
			p.Lags = append(p.Lags, rcpsp.Lag{From: i, To: to, Min: lag})
		}
	}
	for i := range jobs {
		v, n := rows[1+jobs+i], at[1+jobs+i]
		if len(v) != 3+renewable || v[0] != i || v[1] != 1 {
			return nil, fmt.Errorf("line %d: wanted %d, mode 1, duration and %d demands", n, i, renewable)
		}
		p.Activities[i] = rcpsp.Activity{Dur: v[2], Needs: needs(v[3:])}
	}
	if last := rows[len(rows)-1]; len(last) != renewable {
		return nil, fmt.Errorf("line %d: wanted %d capacities", at[len(at)-1], renewable)
	}
	for k, c := range rows[len(rows)-1] {
		p.Resources[k].Cap = c
	}
	return p, p.Validate()
}
