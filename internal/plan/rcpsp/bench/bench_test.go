package bench

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/plan/rcpsp"
)

const testdata = "../../../../testdata/"

var line = regexp.MustCompile(`^n=(\d+) feasible=(\d+) optimal=(\d+) avg_dev_from_best_pct=(\d+\.\d+) avg_dev_from_cpm_pct=(\d+\.\d+) schedules=(\d+) seconds=\d+\.\d+\n$`)

// Run refuses a schedule that violates a constraint, is shorter than a proven bound
// or exists where none can. The limits on the figures are loose: they catch a part
// of the solver that no longer works, not a small change of its search.
func TestRunOnTheInstancesInTestdata(t *testing.T) {
	for _, tt := range []struct {
		dir                 string
		n, feasible, atBest int
		dev                 float64
	}{
		{"psplib/j30", 48, 48, 42, 0.6},
		{"psplib/j60", 24, 24, 17, 1.4},
		{"rcpspmax/j20", 20, 20, 17, 0.6},
		{"rcpspmax/ubo20", 18, 18, 17, 0.3},
	} {
		t.Run(tt.dir, func(t *testing.T) {
			var out bytes.Buffer
			require.NoError(t, Run(testdata+tt.dir, 500, &out))
			got := line.FindStringSubmatch(out.String())
			require.NotNil(t, got, "%q", out.String())
			var n, feasible, optimal, schedules int
			var best, cpm float64
			_, err := fmt.Sscan(fmt.Sprint(got[1], " ", got[2], " ", got[3], " ", got[4], " ", got[5], " ", got[6]), &n, &feasible, &optimal, &best, &cpm, &schedules)
			require.NoError(t, err)
			assert.Equal(t, tt.n, n)
			assert.Equal(t, tt.feasible, feasible)
			assert.GreaterOrEqual(t, optimal, tt.atBest)
			assert.LessOrEqual(t, best, tt.dev)
			assert.Greater(t, cpm, best)
			assert.Equal(t, 500, schedules)
		})
	}
}

// Each row is a folder that Run refuses, and the error.
func TestRunNamesWhatIsWrong(t *testing.T) {
	// activity 1 starts at least 5 after activity 0, and activity 0 at least -3 after 1
	const instance = "0 1 0 0\n0 1 1 1 [5]\n1 1 1 0 [-3]\n0 1 0 0\n1 1 0 0\n1\n"
	for _, tt := range []struct {
		name  string
		files map[string]string
		want  string
	}{
		{"nothing there", nil, "no .sm or .sch file there"},
		{"no best known", map[string]string{"psp2.sch": instance}, "best-known.csv"},
		{"two best known", map[string]string{"psp2.sch": instance, "a-best-known.csv": "", "b-best-known.csv": ""}, "2 best-known files; keep one"},
		{"a short row", map[string]string{"psp2.sch": instance, "a-best-known.csv": "instance,lower_bound\npsp2,3\n"}, "a-best-known.csv:2: a row must be instance, lower bound, upper bound"},
		{"listed twice", map[string]string{"psp2.sch": instance, "a-best-known.csv": "i,l,u\npsp2,3,3\npsp2,3,3\n"}, `a-best-known.csv:3: instance "psp2" is listed twice`},
		{"bounds exchanged", map[string]string{"psp2.sch": instance, "a-best-known.csv": "i,l,u\npsp2,5,3\n"}, "a-best-known.csv:2: the bounds 5 and 3"},
		{"not CSV", map[string]string{"psp2.sch": instance, "a-best-known.csv": "i,l,u\n\"psp2\n"}, "a-best-known.csv: parse error on line 2"},
		{"not a number", map[string]string{"psp2.sch": instance, "a-best-known.csv": "i,l,u\npsp2,3,x\n"}, `a-best-known.csv:2: the bounds "3" and "x" must be whole numbers`},
		{"infeasible after all", map[string]string{"psp2.sch": instance, "a-best-known.csv": "i,l,u,s\npsp2,30,30,optimal\n"}, "psp2: reported infeasible, but the best known end is 30"},
		{"damaged", map[string]string{"x.sm": "jobs : no\n", "a-best-known.csv": "i,l,u\n"}, "x.sm: line 1: the number of jobs must be one number"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			for name, text := range tt.files {
				require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
			}
			assert.ErrorContains(t, Run(dir, 100, &bytes.Buffer{}), tt.want)
		})
	}
}

// The best-known file may be beside the folder.
func TestBestKnownFileBesideTheFolderIsRead(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "set"), 0o700))
	src, err := os.ReadFile(testdata + "psplib/j30/j301_1.sm")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "set", "j301_1.sm"), src, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "set-best-known.csv"), []byte("instance,lower_bound,upper_bound\nj301_1,43,43\n"), 0o600))
	var out bytes.Buffer
	require.NoError(t, Run(filepath.Join(dir, "set"), 2000, &out))
	assert.Regexp(t, `^n=1 feasible=1 optimal=1 avg_dev_from_best_pct=0\.00 avg_dev_from_cpm_pct=13\.16 `, out.String())
}

// BenchmarkSolve shows how the work grows with the number of activities: 1,000
// schedules of problems made of one to seven copies of an instance.
func BenchmarkSolve(b *testing.B) {
	one, err := readInstance(testdata + "psplib/j60/j609_4.sm")
	require.NoError(b, err)
	for _, times := range []int{1, 2, 4, 7} {
		p := &rcpsp.Problem{Resources: one.Resources}
		for k := range times {
			at := k * len(one.Activities)
			p.Activities = append(p.Activities, one.Activities...)
			for _, l := range one.Lags {
				p.Lags = append(p.Lags, rcpsp.Lag{From: at + l.From, To: at + l.To, Min: l.Min})
			}
			if k > 0 { // start within ten of one another: a maximum time lag
				p.Lags = append(p.Lags, rcpsp.Lag{From: at, To: at - len(one.Activities), Min: -10})
			}
		}
		b.Run(fmt.Sprint(len(p.Activities)), func(b *testing.B) {
			for b.Loop() {
				if s, _, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 1000, Seed: seed}); err == nil {
					if err := rcpsp.Check(p, s); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
