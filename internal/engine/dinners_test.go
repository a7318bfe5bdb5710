package engine

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestListOfDinnersIsAsTheyAreNow folds what moved, what was shelved and what was taken
// back, dinner by dinner.
func TestListOfDinnersIsAsTheyAreNow(t *testing.T) {
	n := int64(0)
	ev := func(id, of string, kind dinner.Kind, change func(*dinner.Event)) dinner.Event {
		n++
		e := dinner.Event{ID: id, Dinner: of, Device: "phone", Kind: kind, Stamp: dinner.Stamp{Wall: n}}
		change(&e)
		return e
	}
	open := func(of, name string) dinner.Event {
		return ev("open-"+of, of, dinner.KindOpen, func(e *dinner.Event) {
			e.Text = name
			e.Open = &dinner.Open{Menu: "summer-supper.md", Covers: 18, Serve: "2027-06-12T19:30", Zone: "Europe/London"}
		})
	}
	in, err := json.Marshal(DinnersCall{Events: []dinner.Event{
		open("one", "Crews"), open("two", ""), open("three", "Old"),
		ev("covers-one", "one", dinner.KindCovers, func(e *dinner.Event) { e.Number = 22 }),
		ev("serve-one", "one", dinner.KindServe, func(e *dinner.Event) { e.Text = "2027-06-12T20:00" }),
		ev("covers-two", "two", dinner.KindCovers, func(e *dinner.Event) { e.Number = 5 }),
		ev("undo-two", "two", dinner.KindUndo, func(e *dinner.Event) { e.Undo = "covers-two" }),
		ev("away-one", "one", dinner.KindShelve, func(e *dinner.Event) { e.Number = dinner.PutAway }),
		ev("gone-three", "three", dinner.KindShelve, func(e *dinner.Event) { e.Number = dinner.Deleted }),
		ev("back-one", "one", dinner.KindShelve, func(e *dinner.Event) { e.Number = dinner.Listed }),
		ev("covers-none", "none", dinner.KindCovers, func(e *dinner.Event) { e.Number = 5 }),
	}})
	require.NoError(t, err)
	var view DinnersView
	require.NoError(t, json.Unmarshal(New().Call("dinners", in), &view))
	assert.Equal(t, []DinnerLine{
		{Dinner: "one", Title: "Crews", Covers: 22, Serve: "2027-06-12T20:00", Zone: "Europe/London", Shelf: dinner.Listed},
		{Dinner: "three", Title: "Old", Covers: 18, Serve: "2027-06-12T19:30", Zone: "Europe/London", Shelf: dinner.Deleted},
		{Dinner: "two", Title: "summer supper", Covers: 18, Serve: "2027-06-12T19:30", Zone: "Europe/London", Shelf: dinner.Listed},
	}, view.Dinners)
}
