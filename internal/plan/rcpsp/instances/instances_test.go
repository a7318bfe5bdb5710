package instances

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/plan/rcpsp"
)

const testdata = "../../../../testdata/"

func read(t testing.TB, file string) []byte {
	src, err := os.ReadFile(testdata + file)
	require.NoError(t, err)
	return src
}

// The numbers are those printed in the file itself.
func TestSMReadsThePublishedNumbers(t *testing.T) {
	p, err := SM(read(t, "psplib/j30/j301_1.sm"))
	require.NoError(t, err)
	assert.Len(t, p.Activities, 32)
	assert.Equal(t, []rcpsp.Resource{{Cap: 12}, {Cap: 13}, {Cap: 4}, {Cap: 12}}, p.Resources)
	assert.Equal(t, rcpsp.Activity{Dur: 8, Needs: []rcpsp.Need{{Resource: 0, Amount: 4}}}, p.Activities[1])
	assert.Contains(t, p.Lags, rcpsp.Lag{From: 1, To: 5, Min: 8})
	assert.Len(t, p.Lags, 48)
	_, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 1})
	require.NoError(t, err)
	assert.Equal(t, 38, rep.CriticalPath, "MPM-Time in the file: the critical path")
}

func TestSchReadsThePublishedNumbers(t *testing.T) {
	p, err := Sch(read(t, "rcpspmax/ubo20/psp2.sch"))
	require.NoError(t, err)
	assert.Len(t, p.Activities, 22)
	assert.Len(t, p.Resources, 5)
	assert.Zero(t, p.Activities[0].Dur)
	p, err = Sch([]byte("1 1 0 0\n0 1 1 1 [0]\n1 1 2 2 0 [4] [-3]\n2 1 0\n0 1 0 0\n1 1 4 2\n2 1 0 0\n3\n"))
	require.NoError(t, err)
	assert.Equal(t, []rcpsp.Lag{{From: 0, To: 1, Min: 0}, {From: 1, To: 2, Min: 4}, {From: 1, To: 0, Min: -3}}, p.Lags)
	assert.Equal(t, rcpsp.Activity{Dur: 4, Needs: []rcpsp.Need{{Resource: 0, Amount: 2}}}, p.Activities[1])
	assert.Equal(t, []rcpsp.Resource{{Cap: 3}}, p.Resources)
}

// Every instance in testdata is read completely: it has the number of activities of
// its set, and reads the same after it was written.
func TestAllInstancesAreReadCompletely(t *testing.T) {
	for pattern, tt := range map[string]struct {
		files, activities int
		read              func([]byte) (*rcpsp.Problem, error)
		write             func(*rcpsp.Problem) []byte
	}{
		"psplib/j30/*.sm":      {48, 32, SM, writeSM},
		"psplib/j60/*.sm":      {24, 62, SM, writeSM},
		"rcpspmax/j20/*.sch":   {20, 22, Sch, writeSch},
		"rcpspmax/ubo20/*.sch": {18, 22, Sch, writeSch},
	} {
		files, err := filepath.Glob(testdata + pattern)
		require.NoError(t, err)
		assert.Len(t, files, tt.files, pattern)
		for _, f := range files {
			src, err := os.ReadFile(f)
			require.NoError(t, err)
			p, err := tt.read(src)
			require.NoError(t, err, f)
			assert.Len(t, p.Activities, tt.activities, f)
			assert.GreaterOrEqual(t, len(p.Lags), tt.activities-1, f)
			again, err := tt.read(tt.write(p))
			require.NoError(t, err, f)
			assert.Equal(t, withoutEmpty(p), withoutEmpty(again), f)
		}
	}
}

// Each row is a damaged file; the error names the line and what is wrong.
func TestReadersNameTheMistake(t *testing.T) {
	head := "jobs (incl. supersource/sink ):  2\n  - renewable                 :  1   R\n"
	for _, tt := range []struct {
		name, src, want string
		read            func([]byte) (*rcpsp.Problem, error)
	}{
		{"empty", "", "durations for 0 of 0 jobs", SM},
		{"too many jobs", "jobs : 999999\n", "line 1: the number of jobs must be one number from 1 to 10000", SM},
		{"jobs twice", "jobs : 2\njobs : 3\n", "line 2: the number of jobs is given twice", SM},
		{"other resources", head + "  - nonrenewable : 2 N\n", "line 3: only renewable resources", SM},
		{"successor", head + "PRECEDENCE RELATIONS:\n1 1 1 9\n", "line 4: there is no job 9", SM},
		{"count of successors", head + "PRECEDENCE RELATIONS:\n1 1 2 2\n", "line 4: the row must be a job, 1 mode, the number of successors and the successors, not [1 1 2 2]", SM},
		{"modes", head + "REQUESTS/DURATIONS:\n1 2 3 1\n", "line 4: the row must be a job, mode 1", SM},
		{"capacities", head + "RESOURCEAVAILABILITIES:\n1 2\n", "line 4: the row must be 1 capacities, not [1 2]", SM},
		{"missing rows", head + "REQUESTS/DURATIONS:\n1 1 3 1\n", "durations for 1 of 2 jobs", SM},
		{"the same row twice", head + "REQUESTS/DURATIONS:\n1 1 3 1\n1 1 3 1\n", "line 5: job 1 is given twice", SM},
		{"negative", head + "REQUESTS/DURATIONS:\n1 1 -3 1\n2 1 0 0\n", "duration -3", SM},
		{"empty", "", "line 1: the row must be the number of activities", Sch},
		{"words", "1 1 0 zero", `line 1: "zero" is not a whole number`, Sch},
		{"too many", "99999 1 0 0", "line 1: up to", Sch},
		{"lines", "1 1 0 0\n", "a file of 1 activities has 8 rows, not 1", Sch},
		{"too few lines", "0 0 0 0\n1 1 0\n0 1 0\n0 1 0\n1 1 0\n\n", "has 6 rows, not 5", Sch},
		{"number", "0 1 0 0\n1 1 0\n1 1 0\n0 1 0 0\n1 1 0 0\n1\n", "line 2: the row must be 0, 1 mode", Sch},
		{"successor", "0 1 0 0\n0 1 1 7 [0]\n1 1 0\n0 1 0 0\n1 1 0 0\n1\n", "line 2: there is no activity 7", Sch},
		{"demands", "0 1 0 0\n0 1 0\n1 1 0\n0 1 0\n1 1 0 0\n1\n", "line 4: the row must be 0, mode 1", Sch},
		{"capacities", "0 1 0 0\n0 1 0\n1 1 0\n0 1 0 0\n1 1 0 0\n1 1\n", "line 6: the row must be 1 capacities", Sch},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.read([]byte(tt.src))
			assert.ErrorContains(t, err, tt.want)
		})
	}
}

// The budget is a hard bound, also where the search finds a schedule with its
// last unit and could still shorten it by justification.
func TestBudgetIsNeverExceeded(t *testing.T) {
	files, err := filepath.Glob(testdata + "psplib/j30/*.sm")
	require.NoError(t, err)
	for _, file := range files {
		src, err := os.ReadFile(file)
		require.NoError(t, err)
		p, err := SM(src)
		require.NoError(t, err)
		for budget := 3; budget <= 60; budget += 7 {
			_, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: budget})
			require.NoError(t, err)
			require.LessOrEqual(t, rep.Schedules, budget, file)
		}
	}
}

// fuzz runs a reader on any bytes. Property 1: it returns an error or a valid
// problem, which reads the same again after it was written. Property 2: solving it
// gives a schedule that Check accepts, or an error, within the budget.
func fuzz(f *testing.F, read func([]byte) (*rcpsp.Problem, error), write func(*rcpsp.Problem) []byte, seeds ...string) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		p, err := read(src)
		if err != nil {
			return
		}
		require.NoError(t, p.Validate())
		if len(p.Activities) > 60 {
			return
		}
		again, err := read(write(p))
		require.NoError(t, err)
		require.Equal(t, withoutEmpty(p), withoutEmpty(again))
		const budget = 20
		s, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: budget})
		require.LessOrEqual(t, rep.Schedules, budget)
		if err == nil {
			require.NoError(t, rcpsp.Check(p, s))
		}
	})
}

// withoutEmpty makes an empty list of resources nil: a file that names none means
// the same as one that counts zero.
func withoutEmpty(p *rcpsp.Problem) *rcpsp.Problem {
	if len(p.Resources) == 0 {
		p.Resources = nil
	}
	return p
}

// pastBudget is an instance whose last unit of a budget of 20 finds a schedule that
// two further passes of justification would shorten.
const pastBudget = `jobs : 7
- renewable : 2 R
PRECEDENCE RELATIONS:
1 1 0
2 1 1 4
3 1 1 5
4 1 0
5 1 0
6 1 0
7 1 0
REQUESTS/DURATIONS:
1 1 6 0 3
2 1 4 3 2
3 1 2 2 0
4 1 3 2 3
5 1 4 0 2
6 1 3 0 2
7 1 3 2 1
RESOURCEAVAILABILITIES:
4 4
`

// The seeds are small: the fuzzer spends up to a minute on shortening an input as
// long as a published file, and TestAllInstancesAreReadCompletely reads those.
func FuzzSM(f *testing.F) {
	fuzz(f, SM, writeSM, pastBudget,
		"jobs : 1\n - renewable : 1 R\nREQUESTS/DURATIONS:\n1 1 3 1\nRESOURCEAVAILABILITIES:\n1\n",
		"jobs : 3\n - renewable : 1 R\n - nonrenewable : 0 N\nPRECEDENCE RELATIONS:\n1 1 1 3\nREQUESTS/DURATIONS:\n1 1 3 1\n2 1 4 1\n3 1 1 2\nRESOURCEAVAILABILITIES:\n2\n")
}

func FuzzSch(f *testing.F) {
	fuzz(f, Sch, writeSch,
		"1 1 0 0\n0 1 1 1 [0]\n1 1 2 2 0 [4] [-3]\n2 1 0\n0 1 0 0\n1 1 4 2\n2 1 0 0\n3\n",
		"2 2 0 0\n0 1 2 1 2 [0] [0]\n1 1 1 3 [3]\n2 1 2 3 1 [2] [-5]\n3 1 0\n0 1 0 0 0\n1 1 3 1 0\n2 1 2 1 2\n3 1 0 0 0\n1 2\n")
}
