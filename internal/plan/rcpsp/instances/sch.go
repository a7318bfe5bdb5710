package instances

import (
	"fmt"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// Sch reads a file of ProGen/max (.sch). Its time lags are from start to start, and
// negative ones are maximum time lags. Activity 0 is the start of the project and
// the last activity its end. Only renewable resources and one mode can be read.
func Sch(src []byte) (*rcpsp.Problem, error) {
	rows, err := schRows(string(src))
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || len(rows[0].v) != 4 {
		return nil, fmt.Errorf("line 1: the row must be the number of activities, of renewable resources, and two zeros")
	}
	head := rows[0].v
	jobs, resources := head[0]+2, head[1] // the file does not count the project's start and end
	if jobs < 2 || jobs > maxJobs || resources < 0 || resources > maxResources || head[2] != 0 || head[3] != 0 {
		return nil, rows[0].errorf("up to %d activities and %d renewable resources can be read, and no other kind", maxJobs, maxResources)
	}
	if len(rows) != 2+2*jobs {
		return nil, fmt.Errorf("a file of %d activities has %d rows, not %d", jobs-2, 2+2*jobs, len(rows))
	}
	p := &rcpsp.Problem{Activities: make([]rcpsp.Activity, jobs), Resources: make([]rcpsp.Resource, resources)}
	for i, r := range rows[1 : 1+jobs] {
		if err := r.lags(p, i); err != nil {
			return nil, err
		}
	}
	for i, r := range rows[1+jobs : 1+2*jobs] {
		if len(r.v) != 3+resources || r.v[0] != i || r.v[1] != 1 {
			return nil, r.errorf("the row must be %d, mode 1, the duration and %d demands", i, resources)
		}
		p.Activities[i] = rcpsp.Activity{Dur: r.v[2], Needs: needs(r.v[3:])}
	}
	last := rows[len(rows)-1]
	if len(last.v) != resources {
		return nil, last.errorf("the row must be %d capacities", resources)
	}
	for k, c := range last.v {
		p.Resources[k].Cap = c
	}
	return p, p.Validate()
}

// schRow is a row of numbers and the line it is on, counted from 1.
type schRow struct {
	v    []int
	line int
}

// schRows returns the rows of a file. Brackets around time lags carry no meaning.
func schRows(src string) ([]schRow, error) {
	var rows []schRow
	brackets := strings.NewReplacer("[", " ", "]", " ")
	for n, line := range strings.Split(src, "\n") {
		v, err := parseInts(brackets.Replace(line))
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", n+1, err)
		}
		if len(v) > 0 {
			rows = append(rows, schRow{v, n + 1})
		}
	}
	return rows, nil
}

// lags reads a row of activity i: its number, number of modes, number of
// successors, the successors, and a time lag for each.
func (r schRow) lags(p *rcpsp.Problem, i int) error {
	v := r.v
	if len(v) < 3 || v[0] != i || v[1] != 1 || v[2] < 0 || len(v) != 3+2*v[2] {
		return r.errorf("the row must be %d, 1 mode, the number of successors, the successors and as many time lags", i)
	}
	for k := range v[2] {
		to, lag := v[3+k], v[3+v[2]+k]
		if to < 0 || to >= len(p.Activities) {
			return r.errorf("there is no activity %d", to)
		}
		p.Lags = append(p.Lags, rcpsp.Lag{From: i, To: to, Min: lag})
	}
	return nil
}

func (r schRow) errorf(format string, args ...any) error {
	return fmt.Errorf("line %d: %s", r.line, fmt.Sprintf(format, args...))
}
