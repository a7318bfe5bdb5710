package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A cooling step that gives no wait waits by the forecast, one that gives one
// by its own, and where there is no basis there is no number.
func TestCoolingStepWithoutTimeUsesForecast(t *testing.T) {
	dinner := func(title, facts string) Input {
		return cook(t, galley(1, "06:00–24:00", "fridge", "ice bath", "hob: 2 rings"), courses(4, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate", []string{"250 g [Base](base.md)"}, "Warm the **Base**.; hob: 1 ring; hands: 5 min; keep: straight on", "Send it.; hands: 2 min; serve"),
			"base":  recipe(title, "makes: 1 kg\nkeeps: 2 d chilled", []string{"1 kg beef bones", "1 L water"}, "Boil the **beef bones** in the **water**.; hob: 1 ring; hands: 10 min; wait: 30 min", "Cool it.; "+facts),
		})
	}
	cooled := func(in Input) (Task, *Plan) {
		pl, err := Make(in)
		require.NoError(t, err)
		for _, task := range pl.Tasks {
			if task.Step == (Step{"base", 1, 2}) {
				return task, pl
			}
		}
		t.Fatal("the step is not in the plan")
		return Task{}, nil
	}

	own, pl := cooled(dinner("Brown stock", "ice bath; hands: 5 min; wait: 40 min; cool: 5 °C within 6 h; keep: 2 d chilled"))
	assert.Equal(t, 45, own.End-own.Start)
	assert.Empty(t, pl.Notes)

	forecast, pl := cooled(dinner("Brown stock", "ice bath; hands: 5 min; cool: 5 °C within 6 h; keep: 2 d chilled"))
	assert.Greater(t, forecast.End-forecast.Start, 15)
	assert.LessOrEqual(t, forecast.End-forecast.Start, 6*60+5)
	require.NotEmpty(t, pl.Notes)
	assert.Contains(t, pl.Notes[0], "Brown stock, step 2 gives no wait: cooling to 5 °C is forecast to take ")

	slow, pl := cooled(dinner("Brown stock", "fridge; hands: 5 min; cool: 5 °C within 1 h; keep: 2 d chilled"))
	assert.Equal(t, 65, slow.End-slow.Start, "the card's own limit bounds it")
	assert.Contains(t, pl.Notes[0], ", over its limit of 1 h: lay it thinner, or use an ice bath")

	none, pl := cooled(dinner("Whatever it is", "fridge; hands: 5 min; cool: 5 °C; keep: 2 d chilled"))
	assert.Equal(t, 5, none.End-none.Start)
	assert.Empty(t, pl.Notes)
}
