package plan

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/kitchen"
)

// inVessel is a dinner of 8 kg of stock that is boiled and cooled, with what is typed of each.
func inVessel(t *testing.T, boil, cool string) Input {
	return cook(t, galley(1, "06:00–24:00", "fridge", "ice bath", "hob: 2 rings", "blender: 2, 2 L at a time"), courses(4, "plate"), map[string]string{
		"plate": recipe("Plate", "makes: 1 plate", []string{"2 kg [Stock](stock.md)"}, "Warm the **Stock**.; hob: 1 ring; hands: 5 min; keep: straight on", "Send it.; hands: 2 min; serve"),
		"stock": recipe("Stock", "makes: 8 kg\nkeeps: 2 d chilled", []string{"8 kg beef bones", "8 L water"},
			"Boil the **beef bones** in the **water**.; "+boil, "Cool it.; ice bath; hands: 5 min; keep: 2 d chilled; cool: 8 °C within 4 h; "+cool),
	})
}

// taskOf returns the task of a step of the stock, and its plan.
func taskOf(t *testing.T, in Input, step int) (Task, *Plan) {
	t.Helper()
	pl, err := Make(in)
	require.NoError(t, err)
	for _, task := range pl.Tasks {
		if task.Step == (Step{"stock", 1, step}) {
			return task, pl
		}
	}
	t.Fatal("the step is not in the plan")
	return Task{}, nil
}

// TestEachPotTakesARing: 16 kg are two pots of 12 L, which take both rings; in one of 20 L
// one ring is enough.
func TestEachPotTakesARing(t *testing.T) {
	for pot, rings := range map[string]int{"pot: 2, 12 L": 2, "pot: 20 L": 1} {
		task, _ := taskOf(t, inVessel(t, "hob: 1 ring; "+pot+"; hands: 10 min; wait: 30 min", "wait: 3 h"), 1)
		n := 0
		for _, on := range task.On {
			if on.Equipment == "hob" {
				n++
			}
		}
		assert.Equal(t, rings, n, pot)
	}
}

// TestCoolingForecastGoesByTheVessel: the same stock is cold sooner in shallow trays than in
// one pot, and a card whose time is too short for its vessel is told.
func TestCoolingForecastGoesByTheVessel(t *testing.T) {
	const boil = "hob: 1 ring; hands: 10 min; wait: 30 min"
	minutes := map[string]int{}
	for _, in := range []string{"tray: 53 × 33 cm, 2 cm deep", "tray: 53 × 33 cm, 5 cm deep"} {
		task, _ := taskOf(t, inVessel(t, boil, in), 2)
		minutes[in] = task.End - task.Start
	}
	assert.Less(t, minutes["tray: 53 × 33 cm, 2 cm deep"], minutes["tray: 53 × 33 cm, 5 cm deep"])
	_, pl := taskOf(t, inVessel(t, boil, "pot: 12 L; wait: 20 min"), 2)
	assert.Contains(t, strings.Join(pl.Notes, "\n"), "Stock, step 2 cools to 8 °C in 20 min by its card; in its pot it is forecast to take ")
	_, pl = taskOf(t, inVessel(t, boil, "tray: 53 × 33 cm, 2 cm deep; wait: 3 h 30 min"), 2)
	assert.NotContains(t, strings.Join(pl.Notes, "\n"), "by its card")
}

// TestBlenderIsFilledAsFullAsTheCardSays: 8 kg through half of the kitchen's 2 L, one blender
// at a time, are 8 loads.
func TestBlenderIsFilledAsFullAsTheCardSays(t *testing.T) {
	in := inVessel(t, "blender: half full; hands: 4 min", "wait: 3 h")
	in.explode()
	b := &builder{project: &project{}, in: &in}
	s := b.fitted(&in.Dinner.Cards["stock"].Steps[0])
	assert.Equal(t, "1", s.Load.Qty.String())
	assert.Equal(t, 8, in.Dinner.Cards["stock"].Loads(s, in.Demand.ByCard["stock"].Batches[0].Factor))
}

// TestMorePotsThanRingsTakeTurns: 16 kg are two pots of 12 L; on one ring they boil for half an hour one
// after the other, and 2 min a kilo are for the half that is in one pot at a time.
func TestMorePotsThanRingsTakeTurns(t *testing.T) {
	for _, tt := range []struct {
		rings, wait string
		minutes     int
		turns       bool
	}{
		{"hob: 2 rings", "30 min", 40, false},
		{"hob: 1 ring", "30 min", 70, true},
		{"hob: 2 rings", "2 min per kg", 18, false}, // of the 8 kg that the card makes, 4 in each
		{"hob: 1 ring", "2 min per kg", 26, true},
	} {
		in := inVessel(t, "hob: 1 ring; pot: 2, 12 L; hands: 10 min; wait: "+tt.wait, "wait: 3 h")
		in.Kitchen.Equipment[slices.IndexFunc(in.Kitchen.Equipment, func(e kitchen.Equipment) bool { return e.Name == "hob" })].Count = map[string]int{"hob: 2 rings": 2, "hob: 1 ring": 1}[tt.rings]
		task, pl := taskOf(t, in, 1)
		assert.Equal(t, tt.minutes, task.End-task.Start, "%s %s", tt.rings, tt.wait)
		assert.Equal(t, tt.turns, strings.Contains(strings.Join(pl.Notes, "\n"), "Stock, step 1 takes 2 pots, and the hob has 1 ring: it is done in 2 turns"), tt.rings)
	}
}
