package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestChangeOfTheDemo says on the day of the demo dinner that a cook goes at 17:10: what
// follows is shown, taken as one event, and listed.
func TestChangeOfTheDemo(t *testing.T) {
	p, _ := demo(t)
	at := PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: minutesAfter(-140)}
	scene := call[dinner.Scene](t, p.e, "scene", at)
	require.Len(t, scene.Cooks, 2)
	assert.Equal(t, []string{"2027-06-12T09:00", "2027-06-13T00:00"}, []string{scene.Opens, scene.Closes})
	assert.True(t, scene.Open)
	assert.Empty(t, scene.Said)
	v := call[dinner.Preview](t, p.e, "change", ChangeCall{PlanCall: at, Wish: dinner.Wish{What: dinner.Goes, Cook: "second cook"}})
	require.Empty(t, v.Trouble)
	require.Len(t, v.Events, 1)
	assert.NotEmpty(t, v.Courses)
	p.tap(dinner.Event{Kind: v.Events[0].Kind, Do: v.Events[0].Do})
	scene = call[dinner.Scene](t, p.e, "scene", at)
	assert.Equal(t, dinner.CookThere{Name: "second cook", Away: true, Words: "away"}, scene.Cooks[1])
	require.Len(t, scene.Said, 1)
	assert.Equal(t, "second cook away from 17:10", scene.Said[0].Text)
	v = call[dinner.Preview](t, p.e, "change", ChangeCall{PlanCall: at, Wish: dinner.Wish{What: dinner.Goes, Cook: "second cook"}})
	assert.Equal(t, "second cook is away from 17:10 on already", v.Trouble)
}
