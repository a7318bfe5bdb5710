package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/kitchen"
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

// Cooling in two stages, as anybody writes it, is one piece of work: the second begins where
// the first ends, in the plan and in its forecast, whatever keeping time the card gives
// between; no night falls between them.
func TestStagesOfCoolingGoStraightOn(t *testing.T) {
	for _, keep := range []string{"", "; keep: 1 d chilled"} {
		in := cook(t, galley(1, "06:00–24:00", "fridge", "ice bath", "hob: 2 rings"), courses(4, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate", []string{"250 g [Base](base.md)"}, "Warm the **Base**.; hob: 1 ring; hands: 5 min; keep: straight on", "Send it.; hands: 2 min; serve"),
			"base": recipe("Fish stock", "makes: 1 kg\nkeeps: 2 d chilled", []string{"1 kg fish bones", "1 L water"}, "Boil the **fish bones** in the **water**.; hob: 1 ring; hands: 10 min; wait: 30 min",
				"Cool it.; ice bath; hands: 5 min; cool: 21 °C within 2 h"+keep, "Chill it.; fridge; hands: 5 min; cool: 5 °C within 4 h; keep: 2 d chilled"),
		})
		in.explode()
		waits := 0
		for _, l := range build(&in, in.Demand, in.chosen(), 0).lags {
			if l.why.kind == keeps && l.why.step == (Step{"base", 1, 2}) {
				waits++
				assert.Equal(t, straightOn, l.why.extra, "%q: how long the first stage's result may wait", keep)
			}
		}
		assert.Equal(t, 1, waits)
		pl, err := Make(in)
		require.NoError(t, err)
		at := map[int]Task{}
		for _, task := range pl.Tasks {
			if task.Card == "base" {
				at[task.Step.Step] = task
			}
		}
		assert.LessOrEqual(t, at[3].Start-at[2].End, straightOn, "%q", keep)
		second := ""
		for _, n := range pl.Notes {
			if strings.Contains(n, "step 3 gives no wait") {
				second = n
			}
		}
		assert.NotEmpty(t, second)
		assert.NotContains(t, second, "off the boil", "the second stage begins at 21 °C")
	}
}

// TestPerishableFoodGoesStraightOn: between two steps at room temperature, with no keeping
// time given, two hours are for what is not perishable.
func TestPerishableFoodGoesStraightOn(t *testing.T) {
	for item, minutes := range map[string]int{"chicken thighs": straightOn, "cream": straightOn, "egg whites": straightOn, "cod": straightOn, "cooked rice": straightOn, "chicken stock": straightOn,
		"flour": roomKeeps, "carrots": roomKeeps, "butter": roomKeeps, "honey": roomKeeps, "rice": roomKeeps} {
		c, problems := card.Parse("a.md", []byte("---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n- 1 kg "+item+"\n\n## Method\n\n1. Mix the **"+item+"**.\n   - hands: 5 min\n2. Go on.\n   - hands: 5 min\n"))
		require.Empty(t, problems)
		b := &builder{project: &project{}, in: &Input{Kitchen: &kitchen.Kitchen{}}}
		m, _, assumed := b.keeping(c, 0, false)
		assert.Equal(t, minutes, m, item)
		assert.True(t, assumed)
	}
}
