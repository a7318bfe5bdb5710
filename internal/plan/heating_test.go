package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// bakes is a dinner of two components that are baked, at 240 °C and at 110 °C.
func bakes(t failer, oven string) Input {
	baked := func(title, at string) string {
		return recipe(title, "makes: 1 plate\nkeeps: 4 h room", []string{"50 g polenta"}, "Bake the **polenta**.; hands: 5 min; wait: 20 min; oven: "+at)
	}
	return cook(t, galley(1, "12:00–22:00", oven), courses(4, "bread", "tart 30 min"), map[string]string{"bread": baked("Bread", "240 °C"), "tart": baked("Tart", "110 °C")})
}

func TestHeatingUpIsInTheList(t *testing.T) {
	for _, tt := range []struct {
		oven    string
		minutes int
	}{
		{"oven: 1", 15}, // the time is common practice, no source
		{"oven: 1, hot in 20 min", 20},
	} {
		t.Run(tt.oven, func(t *testing.T) {
			in := bakes(t, tt.oven)
			p, err := Make(in)
			require.NoError(t, err)
			require.Len(t, p.Heatings, 2)
			for _, h := range p.Heatings {
				step := task(t, p, h.For.Card, 1)
				assert.Equal(t, step.Start, h.By)
				assert.Equal(t, step.Start-tt.minutes, h.At)
				title, heat := "Bread", "240 °C"
				if h.For.Card == "tart" {
					title, heat = "Tart", "110 °C"
				}
				assert.Equal(t, fmt.Sprintf("turn the oven to %s for %s, step 1 at %s", heat, title, p.Reading(h.By).Clock()), in.HeatingText(p, h))
			}
		})
	}
}

// The time that a step takes counts in how old what it takes may be at the table. An oven
// is hot before the step begins.
func TestHeatingUpIsNoPartOfAStep(t *testing.T) {
	in := cook(t, galley(1, "12:00–22:00", "fryer: 1"), courses(4, "beans"), map[string]string{"beans": recipe("Beans", "makes: 1 plate", []string{"50 g beans"},
		"Fry the **beans**.; hands: 10 min; wait: 40 min; fryer: 180 °C; load: 100 g; keep: 2 h hot")})
	p, err := Make(in)
	require.NoError(t, err)
	require.NotEmpty(t, p.Heatings)
	require.Len(t, p.Tasks, 2)
	assert.Equal(t, 2*50, p.project.took(Step{"beans", 1, 1}))
}

// Wherever equipment is first used at a temperature, or at another than before, the
// list says when it is turned on, and the kitchen is open then.
func TestEveryChangeOfTemperatureIsInTheList(t *testing.T) {
	changes := 0
	rapid.Check(t, func(rt *rapid.T) {
		in := anyDinner(rt)
		p, err := Make(in)
		if err != nil {
			return
		}
		said := map[Step]Heating{}
		for i, h := range p.Heatings {
			said[h.For] = h
			if i > 0 && h.At < p.Heatings[i-1].At {
				rt.Fatalf("%v is not in the order of the clock", h)
			}
			if p.opening(h.At, h.By) != h.At || h.At > h.By {
				rt.Fatalf("%v is turned on while the kitchen is closed", h)
			}
		}
		at, free := map[string]float64{}, map[string]int{}
		for _, task := range p.Tasks {
			for _, place := range task.On {
				e := has(in.Kitchen, place.Equipment)
				if !place.HasTemp || !e.Temp || hotIn(in.Kitchen, place.Equipment) == 0 {
					continue
				}
				unit := fmt.Sprint(place.Equipment, (place.Unit-1)/max(1, e.Places))
				if was, used := at[unit]; !used || was != place.TempC || task.Start-free[unit] > 60 { // turned off in between
					changes++
					if h, ok := said[task.Step]; !ok || h.By != task.Start && task.Load <= 1 {
						rt.Fatalf("%v starts at %d at %v °C, and nothing says that the %s is turned on", task.Step, task.Start, place.TempC, place.Equipment)
					}
					if h := said[task.Step]; used && len(h.Heats) == 1 && h.At < min(free[unit], task.Start) {
						rt.Fatalf("the %s is turned to %v °C at %d, and is used at %v °C until %d", place.Equipment, place.TempC, h.At, was, free[unit])
					}
				}
				until := task.End
				if end, used := free[unit]; used {
					until = max(until, end)
				}
				at[unit], free[unit] = place.TempC, until
			}
		}
	})
	assert.Positive(t, changes)
}

// TestPairedTemperaturesShareAnOven: 350 °F, gas mark 4 and 180 °C are one setting of an oven,
// as cookery pairs them (common practice, no source), so that one heating serves all; 170 °C
// is another, and a water bath is set to the degree.
func TestPairedTemperaturesShareAnOven(t *testing.T) {
	baked := func(title, fact string) string {
		return recipe(title, "makes: 1 plate\nkeeps: 4 h room", []string{"50 g polenta"}, "Cook the **polenta**.; hands: 5 min; wait: 20 min; "+fact)
	}
	for _, tt := range []struct {
		first, second string
		heatings      int
	}{
		{"oven: 350 °F, 1 shelf", "oven: 180 °C, 1 shelf", 1},
		{"oven: gas mark 4, 1 shelf", "oven: 180 °C, 1 shelf", 1},
		{"oven: 400 °F, 1 shelf", "oven: gas mark 6, 1 shelf", 1},
		{"oven: 180C/350F/gas 4, 1 shelf", "oven: 180 °C, 1 shelf", 1},
		{"oven: 350 °F, 1 shelf", "oven: 170 °C, 1 shelf", 2},
		{"oven: 180 °C, 1 shelf", "oven: 176 °C, 1 shelf", 2},
		{"water bath: 131 °F", "water bath: 56 °C", 2},
	} {
		equipment := "oven: 1, 2 shelves\n- water bath: 1"
		in := cook(t, galley(1, "12:00–22:00", equipment), courses(4, "bread", "tart"), map[string]string{"bread": baked("Bread", tt.first), "tart": baked("Tart", tt.second)})
		p, err := Make(in)
		require.NoError(t, err)
		assert.Len(t, p.Heatings, tt.heatings, "%s and %s", tt.first, tt.second)
	}
}
