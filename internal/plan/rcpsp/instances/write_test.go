package instances

import (
	"fmt"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// writeSM writes a problem as a single-mode file. Its time lags must be as long as
// their first activity.
func writeSM(p *rcpsp.Problem) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "jobs (incl. supersource/sink ):  %d\nRESOURCES\n  - renewable                 :  %d   R\n", len(p.Activities), len(p.Resources))
	b.WriteString("  - nonrenewable              :  0   N\nPRECEDENCE RELATIONS:\njobnr.    #modes  #successors   successors\n")
	for i := range p.Activities {
		to, _ := lagsFrom(p, i)
		fmt.Fprintf(&b, "%d 1 %d", i+1, len(to))
		for _, j := range to {
			fmt.Fprintf(&b, " %d", j+1)
		}
		b.WriteString("\n")
	}
	b.WriteString("****\nREQUESTS/DURATIONS:\njobnr. mode duration\n------\n")
	for i := range p.Activities {
		fmt.Fprintf(&b, "%d 1 %s\n", i+1, numbers(append([]int{p.Activities[i].Dur}, demands(p, i)...)))
	}
	fmt.Fprintf(&b, "****\nRESOURCEAVAILABILITIES:\n  R 1\n%s\n", numbers(capacities(p)))
	return []byte(b.String())
}

// writeSch writes a problem as a file with minimum and maximum time lags.
func writeSch(p *rcpsp.Problem) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "%d %d 0 0\n", len(p.Activities)-2, len(p.Resources))
	for i := range p.Activities {
		to, lags := lagsFrom(p, i)
		fmt.Fprintf(&b, "%d 1 %d %s", i, len(to), numbers(to))
		for _, l := range lags {
			fmt.Fprintf(&b, " [%d]", l)
		}
		b.WriteString("\n")
	}
	for i := range p.Activities {
		fmt.Fprintf(&b, "%d 1 %s\n", i, numbers(append([]int{p.Activities[i].Dur}, demands(p, i)...)))
	}
	b.WriteString(numbers(capacities(p)) + "\n")
	return []byte(b.String())
}

// lagsFrom returns the activities that have a time lag from i, and the lags.
func lagsFrom(p *rcpsp.Problem, i int) (to, lags []int) {
	for _, l := range p.Lags {
		if l.From == i {
			to, lags = append(to, l.To), append(lags, l.Min)
		}
	}
	return to, lags
}

// demands returns what activity i needs of each resource.
func demands(p *rcpsp.Problem, i int) []int {
	out := make([]int, len(p.Resources))
	for _, n := range p.Activities[i].Needs {
		out[n.Resource] = n.Amount
	}
	return out
}

func capacities(p *rcpsp.Problem) []int {
	var out []int
	for _, r := range p.Resources {
		out = append(out, r.Cap)
	}
	return out
}

func numbers(v []int) string { return strings.Trim(fmt.Sprint(v), "[]") }
