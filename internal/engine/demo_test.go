package engine

import (
	"encoding/json"
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/document"
)

var update = flag.Bool("update", false, "write down what the tests in testdata got")

// golden compares with a file of testdata, as indented JSON.
func golden(t *testing.T, file string, got any) {
	t.Helper()
	b, err := json.MarshalIndent(got, "", "  ")
	require.NoError(t, err)
	b = append(b, '\n')
	if *update {
		require.NoError(t, os.WriteFile(file, b, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(b))
}

// TestDemo opens the demo dinner as the phone does. The golden file holds what
// a cook would look at first.
func TestDemo(t *testing.T) {
	_, d := demo(t)
	assert.Equal(t, 18, d.Covers)
	assert.Equal(t, "2027-06-12T19:30", d.Serve)
	for _, f := range d.Problems {
		assert.NotEqual(t, document.Error, f.Severity, f.Error())
	}

	type line struct {
		Card     string
		Make     []string
		GoesInto []string
		Saves    []string
	}
	overview := struct {
		Courses []Course
		Guests  []dinner.ExclusionGroup
		Cards   []line // in the order to make them
	}{Courses: d.Courses, Guests: d.Guests}
	steps := 0
	made := map[string]bool{}
	for _, c := range d.Cards {
		l := line{Card: c.ID, GoesInto: c.GoesInto, Saves: c.Saves}
		for _, m := range c.Batches {
			l.Make = append(l.Make, m.Make)
			steps += len(m.Steps)
			for _, mise := range m.Mise {
				assert.True(t, mise.Card == "" || made[mise.Card], "%s comes before %s, which it needs", c.ID, mise.Card)
			}
		}
		made[c.ID] = true
		overview.Cards = append(overview.Cards, l)
	}
	golden(t, "testdata/demo.json", overview)
	assert.Equal(t, "2027-05-02, 24 pieces, by the second cook, two slices broke", cardOf(t, d, "honey-parfait").Batches[0].Tested)
	assert.GreaterOrEqual(t, len(d.Cards), 22)
	assert.GreaterOrEqual(t, steps, 110)

	stock := cardOf(t, d, "light-chicken-stock")
	assert.GreaterOrEqual(t, len(stock.GoesInto), 3, "a stock that goesInto three other cards")
	assert.Equal(t, []string{"Lamb"}, stock.Courses)

	// 16 slices of a card of 14 pieces and 3 eggs: 3 × 16/14 = 3.43 eggs of 50 g.
	egg := miseOf(t, d, "almond-cake", "eggs")
	assert.Equal(t, "171 g", egg.Amount)
	assert.Equal(t, "crack 4", egg.Aside)
	assert.Equal(t, "8/7", cardOf(t, d, "almond-cake").Batches[0].Exact)
}

// TestDemoBatchInFull is one batch to the last word.
func TestDemoBatchInFull(t *testing.T) {
	_, d := demo(t)
	golden(t, "testdata/braised-lamb.json", cardOf(t, d, "braised-lamb"))
}
