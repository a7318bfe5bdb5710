// Package bench measures the solver on folders of public instances: [Run] solves
// every instance of a folder and prints one line. Unlike the solver it reads files
// and a clock.
package bench

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"hobside/internal/plan/rcpsp"
	"hobside/internal/plan/rcpsp/instances"
)

// seed is the seed of every run, so that two people get the same figures.
const seed = 1

// Run solves every .sm and .sch file in dir with the given number of schedules
// each, compares the makespans with the *-best-known.csv there or beside dir, and
// prints one line to out:
//
//	n=48 feasible=48 optimal=41 avg_dev_from_best_pct=0.05 avg_dev_from_cpm_pct=11.30 schedules=5000 seconds=1.20
//
// feasible counts the instances that were answered: with a schedule, or with
// "infeasible" where that is the known answer. optimal counts those that reached
// the best known makespan, and the infeasible ones. The deviations are averages
// over the instances with a known makespan and a schedule; cpm is the critical path.
//
// Run returns an error if a file cannot be read, and if the solver is wrong: a
// schedule that violates a constraint, is shorter than a proven bound, or exists
// where none can, or "infeasible" for an instance that has a schedule.
func Run(dir string, schedules int, out io.Writer) error {
	files, err := instanceFiles(dir)
	if err != nil {
		return err
	}
	known, err := bestKnown(dir)
	if err != nil {
		return err
	}
	var sum totals
	begin := time.Now()
	for _, file := range files {
		p, err := readInstance(file)
		if err != nil {
			return err
		}
		name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
		best, listed := known[name]
		if err := sum.solve(p, best, listed, schedules); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	n := float64(max(1, sum.measured))
	_, err = fmt.Fprintf(out, "n=%d feasible=%d optimal=%d avg_dev_from_best_pct=%.2f avg_dev_from_cpm_pct=%.2f schedules=%d seconds=%.2f\n",
		len(files), sum.feasible, sum.optimal, sum.fromBest/n, sum.fromCPM/n, schedules, time.Since(begin).Seconds())
	return err
}

// totals counts the answers of a run.
type totals struct {
	feasible, optimal int
	measured          int     // instances with a known makespan and a schedule
	fromBest, fromCPM float64 // sums of deviations, in percent
}

// solve solves one instance, adds the answer, and returns an error if the answer is
// wrong. best is valid only if the instance is listed.
func (sum *totals) solve(p *rcpsp.Problem, best record, listed bool, schedules int) error {
	s, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: schedules, Seed: seed})
	if infeasible := new(rcpsp.InfeasibleError); errors.As(err, &infeasible) {
		if listed && !best.infeasible {
			return fmt.Errorf("reported infeasible, but the best known end is %d", best.upper)
		}
		sum.feasible++
		sum.optimal++
		return nil
	}
	if errors.Is(err, rcpsp.ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := rcpsp.Check(p, s); err != nil {
		return fmt.Errorf("the solver violated a constraint: %w", err)
	}
	if best.infeasible {
		return errors.New("known to be infeasible, but a schedule was found")
	}
	sum.feasible++
	if !listed {
		return nil
	}
	end := s.Makespan(p)
	if end < best.lower {
		return fmt.Errorf("ends at %d, below the proven bound %d", end, best.lower)
	}
	if end <= best.upper {
		sum.optimal++
	}
	sum.fromBest += percent(end, best.upper)
	sum.fromCPM += percent(end, rep.CriticalPath)
	sum.measured++
	return nil
}

// percent returns by how many percent end is above base.
func percent(end, base int) float64 { return 100 * float64(end-base) / float64(max(1, base)) }

// readInstance reads one instance; the extension says in which format.
func readInstance(file string) (*rcpsp.Problem, error) {
	src, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	read := instances.SM
	if filepath.Ext(file) == ".sch" {
		read = instances.Sch
	}
	p, err := read(src)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	return p, nil
}

// instanceFiles returns the paths of all instances in dir, sorted.
func instanceFiles(dir string) ([]string, error) {
	var files []string
	for _, pattern := range []string{"*.sm", "*.sch"} {
		some, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return nil, err
		}
		files = append(files, some...)
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s: no .sm or .sch file there", dir)
	}
	slices.Sort(files)
	return files, nil
}
