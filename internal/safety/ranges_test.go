package safety

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Working ranges in percent, each against its row of the reference table. Most
// rows are from memory or our own, and say so; the table here says the same of
// each, so that a range is never shown with more authority than it has.
func TestWorkingRangesMatchTheirRows(t *testing.T) {
	f, err := os.Open("../../testdata/reference/ratios.csv")
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	byID := map[string][]string{}
	for _, r := range all {
		byID[r[0]] = r
	}
	ids := []string{"gel_soft_set", "gel_sliceable_jelly", "gel_aspic", "gel_gummy", "agar_use", "gla_use", "gha_use", "pec_hm", "pec_lm", "xan", "alg", "mc", "lec", "guar", "lbg",
		"kappa_set", "star_corn", "bp_salt", "cure_eq"}
	require.Len(t, working, len(ids))
	for i, w := range working {
		r := byID[ids[i]]
		require.NotNil(t, r, ids[i])
		value := r[3]
		if strings.HasPrefix(r[4], "degC") { // its range of use is among the conditions
			value = strings.Fields(r[5])[0]
		}
		low, high, ok := strings.Cut(value, "-")
		require.True(t, ok, value)
		assert.Equal(t, []float64{num(t, low), num(t, high)}, []float64{w.Low, w.High}, "%s %s; %s (%s)", w.Item, w.Use, r[6], r[7])
		assert.Equal(t, map[string]Status{"READ": Read, "MEMORY": Memory, "OWN": Practice}[r[7]], w.Source.Status, "%s %s", w.Item, w.Use)
	}
	assert.Equal(t, byID["kappa_set"][5], byID["iota_set"][5], "one range for both carrageenans")
}

// Boiling for an hour takes any food past every cooking limit: own working rule.
func TestAnHourOfBoilingNeedsNoProbe(t *testing.T) {
	for minutes, gaps := range map[float64]int{59.9: 1, 60: 0} {
		assert.Len(t, Gaps(US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise.", Minutes: minutes}}), gaps, "%v min", minutes)
	}
}

// The band of a reduction that is weighed on a steady line: a boil is never steady
// to better than a twentieth, and a scale that is not named errs by a hundredth of
// the first weight. Common practice, no source; the divisions by hand.
func TestBandOfAReduction(t *testing.T) {
	// 10 kg lose 1 kg in 60 min: 1/60 kg a minute, 5 kg in 300 min.
	exact, err := Reduction([]Weighing{{0, 10}, {60, 9}}, 5, 1e-9)
	require.NoError(t, err)
	assert.InDelta(t, 300, exact.Minute, 1e-6)
	assert.InDelta(t, 60+240/1.05, exact.Early, 1e-3)
	assert.InDelta(t, 60+240/0.95, exact.Late, 1e-3)
	// A scale that errs by 0.1 kg: each end of the line, and the last weight.
	rough, err := Reduction([]Weighing{{0, 10}, {60, 9}}, 5, 0)
	require.NoError(t, err)
	assert.InDelta(t, 300, rough.Minute, 1e-6)
	assert.InDelta(t, 60+3.9/(1.0/60+0.2/60), rough.Early, 1e-6)
	assert.InDelta(t, 60+4.1/(1.0/60-0.2/60), rough.Late, 1e-6)
	named, err := Reduction([]Weighing{{0, 10}, {60, 9}}, 5, 0.1)
	require.NoError(t, err)
	assert.Equal(t, rough, named)
}
