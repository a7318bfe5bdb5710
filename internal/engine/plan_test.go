package engine

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// serveAt is when the demo dinner is served, as a phone in London has it.
var serveAt = time.Date(2027, 6, 12, 18, 30, 0, 0, time.UTC).UnixMilli()

func minutesAfter(n int) int64 { return serveAt + int64(n)*60_000 }

// TestPlanOfTheDemo looks at the plan as the phone gets it, weeks before.
func TestPlanOfTheDemo(t *testing.T) {
	p, d := demo(t)
	v := call[dinner.Schedule](t, p.e, "plan", PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-40 * 24 * 60), Full: true})
	require.Empty(t, v.Blocked)
	assert.False(t, v.Under)
	assert.Empty(t, v.Moves)
	assert.Equal(t, []string{"first cook", "second cook"}, v.Cooks)
	steps := map[string]string{}
	for _, c := range d.Cards {
		for _, m := range c.Batches {
			for _, s := range m.Steps {
				steps[s.Key] = ""
			}
		}
	}
	for _, task := range v.Tasks {
		assert.Contains(t, steps, task.Key)
		steps[task.Key] = task.From
		assert.NotEmpty(t, task.Say)
		assert.LessOrEqual(t, task.Start, task.Free)
		assert.LessOrEqual(t, task.Free, task.End)
		assert.LessOrEqual(t, task.Start, task.Latest)
	}
	for key, from := range steps {
		assert.NotEmpty(t, from, "%s is in the dinner but not in the plan", key)
		assert.Contains(t, v.Starts, key)
	}
	var courses []string
	for _, c := range v.Courses {
		courses = append(courses, c.Wall)
		assert.Zero(t, c.Late)
	}
	assert.Equal(t, []string{"2027-06-12T19:30", "2027-06-12T19:55", "2027-06-12T20:25", "2027-06-12T21:00", "2027-06-12T21:35"}, courses)
	assert.Len(t, v.Chances, 5)
	assert.Contains(t, v.Places, "ring 1")
	assert.Equal(t, dinner.ShiftTime{From: -3030, To: -2700, Wall: "2027-06-10T17:00", End: "2027-06-10T22:30"}, v.Hours[0])
	require.Len(t, v.Ways, 1)
	assert.Equal(t, dinner.WayTaken{Card: "pressed-lamb", Title: "Pressed lamb", Number: 1, Way: "crisp in the pan, heat in the oven", Why: "the first way on the card, and it fits", Taken: true}, v.Ways[0])
}

// TestPlanTellsOfRoom: what is held and warmed goes into the demo kitchen's cupboard and fridge,
// with a line to tick for each thing that is got ready.
func TestPlanTellsOfRoom(t *testing.T) {
	p, _ := demo(t)
	v := call[dinner.Schedule](t, p.e, "plan", PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-40 * 24 * 60)})
	require.Empty(t, v.Blocked)
	assert.Empty(t, v.Full)
	var stores []string
	for _, line := range v.Room {
		name, _, _ := strings.Cut(line, ": fullest ")
		stores = append(stores, name)
	}
	assert.Equal(t, []string{"hot cupboard", "fridge", "freezer"}, stores)
	ready := map[string]string{}
	for i, h := range v.Heats {
		ready[h.Key] = h.Say
		if i > 0 {
			assert.LessOrEqual(t, v.Heats[i-1].Start, h.Start)
		}
	}
	assert.Equal(t, "put 18 plates in the hot cupboard for Pea soup, chive curd, herb oil, step 4", ready["pea-soup-plate#1/plates/4"])
	assert.Contains(t, ready["pea-soup-plate#1/hold/4"], "turn the hot cupboard to 70 °C for 18 plates for Pea soup")
}

// TestPlanTakenIsKept takes a plan: the next plan keeps its starts and lists
// what differs.
func TestPlanTakenIsKept(t *testing.T) {
	p, _ := demo(t)
	ask := PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-40 * 24 * 60)}
	first := call[dinner.Schedule](t, p.e, "plan", ask)
	p.tap(dinner.Event{Kind: dinner.KindPlan, Plan: first.Starts})
	assert.Empty(t, call[dinner.Schedule](t, p.e, "plan", ask).Moves, "nothing has changed")

	// Twenty minutes into the evening before, the first three steps are late.
	ask.Now = minutesAfter(first.Tasks[0].Start + 30)
	late := call[dinner.Schedule](t, p.e, "plan", ask)
	require.Empty(t, late.Blocked)
	assert.True(t, late.Under)
	assert.NotEmpty(t, late.Moves)
	assert.Contains(t, late.Moves[0], ": starts ")
	assert.Contains(t, late.Moves[0], ", was ")
	for _, task := range late.Tasks {
		assert.GreaterOrEqual(t, task.Start, first.Tasks[0].Start+30)
	}
}

// TestPlanKeepsDoneSteps checks that ticked steps stay where they were and that
// a running timer is waited for.
func TestPlanKeepsDoneSteps(t *testing.T) {
	p, _ := demo(t)
	ask := PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-40 * 24 * 60)}
	first := call[dinner.Schedule](t, p.e, "plan", ask).Tasks
	one, two := first[0], first[1]
	p.now = minutesAfter(one.End)
	p.tap(dinner.Event{Kind: dinner.KindTick, On: one.Key, Done: true})
	p.tap(dinner.Event{Kind: dinner.KindTimer, On: two.Key, Start: minutesAfter(two.Start), End: minutesAfter(two.End + 25)})
	ask.Now = minutesAfter(two.Start + 12)
	v := call[dinner.Schedule](t, p.e, "plan", ask)
	require.Empty(t, v.Blocked)
	byKey := map[string]dinner.Task{}
	for _, task := range v.Tasks {
		byKey[task.Key] = task
	}
	assert.True(t, byKey[one.Key].Done)
	assert.Equal(t, one.End, byKey[one.Key].End)
	assert.True(t, byKey[two.Key].Held)
	assert.False(t, byKey[two.Key].Done)
	assert.Equal(t, two.End+25, byKey[two.Key].End)
}

func TestPlanSaysWhatIsMissing(t *testing.T) {
	p, _ := demo(t)
	for _, tt := range []struct {
		name string
		ask  PlanCall
		want string
	}{
		{"a clock change that is none", PlanCall{Dinner: p.dinner, ClockChanges: []ClockChangeView{{Wall: "soon", By: 60}}}, `a change of the clocks at "soon" by 60 minutes is not possible`},
		{"a dinner nobody opened", PlanCall{Dinner: "x"}, `dinner "x" is not open in the engine: open it first`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, got := try[dinner.Schedule](t, p.e, "plan", tt.ask)
			assert.Equal(t, tt.want, got)
		})
	}
}

// TestPlanOfPutOffStep puts a step off: the steps that depend on it move too,
// and no others.
func TestPlanOfPutOffStep(t *testing.T) {
	p, _ := demo(t)
	ask := PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-40 * 24 * 60)}
	first := call[dinner.Schedule](t, p.e, "plan", ask)
	p.tap(dinner.Event{Kind: dinner.KindPlan, Plan: first.Starts})
	var one, two dinner.Task // the stock's first two steps
	for _, task := range first.Tasks {
		if task.At.Card == "light-chicken-stock" && task.Number == 1 {
			one = task
		} else if task.At.Card == "light-chicken-stock" && task.Number == 2 {
			two = task
		}
	}
	for _, task := range first.Tasks { // the others go as planned
		if task.Start > one.Start+20 || task.Key == one.Key || task.Key == two.Key {
			continue
		}
		p.now = minutesAfter(task.Start)
		p.tap(dinner.Event{Kind: dinner.KindTimer, On: task.Key, Start: minutesAfter(task.Start), End: minutesAfter(task.End)})
		if p.now = minutesAfter(task.End); task.End <= one.Start+20 {
			p.tap(dinner.Event{Kind: dinner.KindTick, On: task.Key, Done: true})
		}
	}
	p.now = minutesAfter(one.Start + 1)
	p.tap(dinner.Event{Kind: dinner.KindTimer, On: one.Key, Start: minutesAfter(one.Start + 1), End: minutesAfter(one.Start + 31)})
	p.tap(dinner.Event{Kind: dinner.KindTick, On: one.Key, Done: true})
	p.now = minutesAfter(one.Start + 20)
	p.tap(dinner.Event{Kind: dinner.KindDelay, On: two.Key, Number: 45, Done: true})
	ask.Now = p.now
	v := call[dinner.Schedule](t, p.e, "plan", ask)
	require.Empty(t, v.Blocked)
	assert.LessOrEqual(t, len(v.Moves), 6, "%v", v.Moves)
	for _, m := range v.Moves { // the stock, and what its cooks are at on the same evening
		assert.Contains(t, m, "starts Thursday", "only what hangs on it moves")
	}
	assert.Contains(t, strings.Join(v.Moves, "\n"), "Light chicken stock, step 2")
	for _, task := range v.Tasks {
		if task.Key == two.Key {
			assert.Equal(t, one.Start+20+45, task.Start)
			assert.NotEmpty(t, task.Overdue, "it waits over heat, and that is told")
		}
	}
}
