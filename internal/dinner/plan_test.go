package dinner

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The plan taken last counts, in whatever order the events arrive. When it is
// undone, the plan before it counts again.
func TestLastPlanCounts(t *testing.T) {
	first := at(1, Event{Device: "phone", Kind: KindPlan, Plan: map[string]int{"stock#1/step/1": -600}})
	second := at(2, Event{Device: "tablet", Kind: KindPlan, Plan: map[string]int{"stock#1/step/1": -540}})
	back := at(3, Event{Device: "tablet", Kind: KindUndo, Undo: second.ID})
	for _, events := range [][]Event{{first, second}, {second, first}} {
		s := Fold(events)
		require.NotNil(t, s.Plan)
		assert.Equal(t, map[string]int{"stock#1/step/1": -540}, s.Plan.Starts)
		assert.Equal(t, second.ID, s.Plan.Event)
	}
	assert.Equal(t, first.ID, Fold([]Event{back, second, first}).Plan.Event)
	assert.Nil(t, Fold([]Event{at(4, Event{Kind: KindNote, Text: "no plan"})}).Plan)
}

func TestValidatePlan(t *testing.T) {
	many := map[string]int{}
	for i := range MaxSteps + 1 {
		many[fmt.Sprintf("stock#1/step/%d", i+1)] = 0
	}
	for _, tt := range []struct {
		name string
		plan map[string]int
		want string
	}{
		{"empty", nil, "a plan of 0 steps: from 1 to 3000 fit"},
		{"too long", many, "a plan of 3001 steps: from 1 to 3000 fit"},
		{"not a step", map[string]int{"stock#1": 0}, `it plans "stock#1", which is not a step`},
		{"not a key", map[string]int{"?": 0}, `it plans "?", which is not a step`},
		{"months away", map[string]int{"stock#1/step/1": -90_000}, "it starts stock#1/step/1 -90000 minutes from the serving time: 60 days are the most"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ev := sound(KindPlan)
			ev.Plan = tt.plan
			assert.EqualError(t, Validate(ev), tt.want)
		})
	}
}
