// Package bench measures the solver on folders of public instances. Unlike the
// solver it reads files and a clock. [Run] prints one line for a folder.
package bench

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"hobside/internal/plan/rcpsp"
	"hobside/internal/plan/rcpsp/instances"
)

// seed is the seed of every run, so that two people see the same figures.
const seed = 1

// Run solves every .sm and .sch file in dir with the given number of schedules
// each, compares with the one *-best-known.csv there, and prints one line:
//
//	n=48 feasible=48 optimal=41 avg_dev_from_best_pct=0.05 avg_dev_from_cpm_pct=11.30 schedules=5000 seconds=1.20
//
// feasible counts the instances that were answered: a schedule that passes the
// check, or "infeasible" where that is the known answer. optimal counts those that
// reached the best known end, and infeasible ones named as such. The deviations
// are averages over the instances with a known end and a schedule found.
func Run(dir string, schedules int, out io.Writer) error {
	files, err := find(dir)
	if err != nil {
		return err
	}
	known, err := bestKnown(dir)
	if err != nil {
		return err
	}
	var feasible, optimal, measured int
	var fromBest, fromCPM float64
	begin := time.Now()
	for _, file := range files {
		p, err := readInstance(file)
		if err != nil {
			return err
		}
		name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
		best, listed := known[name]
		s, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: schedules, Seed: seed})
		if err != nil {
			if impossible := new(rcpsp.InfeasibleError); errors.As(err, &impossible) {
				if listed && !best.infeasible {
					return fmt.Errorf("%s: reported infeasible, but the best known end is %d", name, best.upper)
				}
				feasible++
				optimal++
			} else if !errors.Is(err, rcpsp.ErrNotFound) {
				return fmt.Errorf("%s: %w", name, err)
			}
			continue
		}
		if err := rcpsp.Check(p, s); err != nil {
			return fmt.Errorf("%s: the solver broke a rule: %w", name, err)
		}
		if listed && best.infeasible {
			return fmt.Errorf("%s: known to be infeasible, but a schedule was found", name)
		}
		feasible++
		end := s.Makespan(p)
		if listed {
			if end < best.lower {
				return fmt.Errorf("%s: ends at %d, below the proven bound %d", name, end, best.lower)
			}
			if end <= best.upper {
				optimal++
			}
			fromBest += percent(end, best.upper)
			fromCPM += percent(end, rep.CriticalPath)
			measured++
		}
	}
	seconds := time.Since(begin).Seconds()
	fmt.Fprintf(out, "n=%d feasible=%d optimal=%d avg_dev_from_best_pct=%.2f avg_dev_from_cpm_pct=%.2f schedules=%d seconds=%.2f\n",
		len(files), feasible, optimal, fromBest/float64(max(1, measured)), fromCPM/float64(max(1, measured)), schedules, seconds)
	return nil
}

func percent(got, base int) float64 { return 100 * float64(got-base) / float64(max(1, base)) }

// readInstance reads one instance, by its extension.
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

func find(dir string) ([]string, error) {
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

// record is one line of a best-known file.
type record struct {
	lower, upper int
	infeasible   bool
}

// bestKnown reads the one *-best-known.csv in dir, or beside it if dir has none.
func bestKnown(dir string) (map[string]record, error) {
	found, err := filepath.Glob(filepath.Join(dir, "*-best-known.csv"))
	if err != nil {
		return nil, err
	}
	if len(found) == 0 {
		found = []string{filepath.Clean(dir) + "-best-known.csv"}
	}
	if len(found) > 1 {
		return nil, fmt.Errorf("%s: %d best-known files; keep one", dir, len(found))
	}
	f, err := os.Open(found[0])
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", found[0], err)
	}
	known := map[string]record{}
	for n, row := range rows[min(1, len(rows)):] {
		if len(row) < 3 {
			return nil, fmt.Errorf("%s:%d: wanted instance, lower bound, upper bound", found[0], n+2)
		}
		r := record{infeasible: len(row) > 3 && row[3] == "infeasible"}
		if !r.infeasible {
			var err1, err2 error
			r.lower, err1 = strconv.Atoi(row[1])
			r.upper, err2 = strconv.Atoi(row[2])
			if err := errors.Join(err1, err2); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", found[0], n+2, err)
			}
		}
		known[row[0]] = r
	}
	return known, nil
}
