package dinner

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// undo is an event that takes back another.
func undo(wall int64, id, of string) Event {
	return at(wall, Event{ID: id, Kind: KindUndo, Undo: of})
}

func TestUndo(t *testing.T) {
	const box = "stock#1/step/3"
	on := at(1, Event{ID: "box-ticked", Kind: KindTick, On: box, Done: true})
	off := at(2, Event{ID: "box-unticked", Kind: KindTick, On: box})
	for _, tt := range []struct {
		name   string
		events []Event
		want   string // the event that counts for the box; "" for none
	}{
		{"of the last word, the one before counts", []Event{on, off, undo(3, "undo-one", "box-unticked")}, "box-ticked"},
		{"of the only word, none counts", []Event{on, undo(3, "undo-one", "box-ticked")}, ""},
		{"of an earlier word changes nothing seen", []Event{on, off, undo(3, "undo-one", "box-ticked")}, "box-unticked"},
		{"of an undo, the event counts again", []Event{on, undo(3, "undo-one", "box-ticked"), undo(4, "undo-two", "undo-one")}, "box-ticked"},
		{"of an undo of an undo", []Event{on, undo(3, "undo-one", "box-ticked"), undo(4, "undo-two", "undo-one"), undo(5, "undo-three", "undo-two")}, ""},
		{"by two cooks at once takes it back once", []Event{on, undo(3, "undo-one", "box-ticked"), undo(3, "undo-two", "box-ticked")}, ""},
		{"by two cooks, one of whom thinks better of it", []Event{on, undo(3, "undo-one", "box-ticked"), undo(3, "undo-two", "box-ticked"), undo(4, "undo-three", "undo-one")}, ""},
		{"by two cooks who both think better of it", []Event{on, undo(3, "undo-one", "box-ticked"), undo(3, "undo-two", "box-ticked"), undo(4, "redo-one", "undo-one"), undo(4, "redo-two", "undo-two")}, "box-ticked"},
		{"stamped before its event", []Event{off, undo(1, "undo-one", "box-unticked")}, ""},
		{"of an event that is not known", []Event{on, undo(3, "undo-one", "never-seen")}, "box-ticked"},
		{"in a ring of one", []Event{on, undo(3, "undo-one", "undo-one")}, "box-ticked"},
		{"in a ring of two", []Event{on, undo(3, "undo-one", "undo-two"), undo(4, "undo-two", "undo-one")}, "box-ticked"},
		{"in a ring of three, cut by a fourth", []Event{on, undo(3, "undo-one", "undo-two"), undo(4, "undo-two", "undo-three"), undo(5, "undo-three", "undo-one"), undo(6, "undo-four", "undo-one")}, "box-ticked"},
		{"beside a ring", []Event{on, undo(3, "undo-one", "undo-two"), undo(4, "undo-two", "undo-one"), undo(5, "undo-three", "box-ticked")}, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, foldAll(t, tt.events...).Ticks[box].Event)
		})
	}
}

// An undo that comes first waits for its event.
func TestUndoWaitsForItsEvent(t *testing.T) {
	back := undo(2, "undo-one", "note-one")
	alone := Fold([]Event{back})
	assert.Equal(t, &State{Dinner: "boathouse"}, &State{Dinner: alone.Dinner, Last: alone.Last})
	assert.Empty(t, foldAll(t, back, at(1, Event{ID: "note-one", Kind: KindNote, Text: "oil is low"})).Notes)
}

// Undo takes back any kind of event.
func TestUndoOfEveryKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ev := drawEvent(t, 3)
		other := drawEvent(t, 3)
		other.ID, other.Kind = "another-note", KindNote
		want := Fold([]Event{other})
		require.Equal(t, want, Fold([]Event{ev, other, undo(rapid.Int64Range(0, 9).Draw(t, "wall"), "undo-one", ev.ID)}))
	})
}

// An undone event has no effect on the state, and an undo that is itself undone
// has none either, among any other events, undos and rings of undos.
func TestUndoneEventHasNoEffect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := append(drawEvents(t, "events"), at(1, Event{Kind: KindNote, Text: "so that there always is one"}))
		x := rapid.SampledFrom(events).Draw(t, "event").ID
		without := slices.DeleteFunc(slices.Clone(events), func(ev Event) bool { return ev.ID == x })
		without = append(without, at(1, Event{ID: "stays-known", Kind: "none"})) // keeps the dinner's name known

		undone := append(slices.Clone(events), undo(rapid.Int64Range(0, 9).Draw(t, "wall"), "undo-one", x))
		require.Equal(t, Fold(without), Fold(undone))
		redone := append(undone, undo(rapid.Int64Range(0, 9).Draw(t, "wall again"), "undo-two", "undo-one"))
		require.Equal(t, Fold(events), Fold(redone))
	})
}

// The undone events are those of the definition: an event is undone when an undo
// names it that is not itself undone.
func TestUndoneAgainstTheDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "events")
		var events []*Event
		by := map[string][]string{}
		for i := range n {
			ev := Event{ID: fmt.Sprint("e", i), Kind: KindTick}
			if i > 0 && rapid.IntRange(0, 9).Draw(t, "undo?") > 0 {
				ev.Kind, ev.Undo = KindUndo, fmt.Sprint("e", rapid.IntRange(0, i-1).Draw(t, "of")) // of an earlier one: no rings
				by[ev.Undo] = append(by[ev.Undo], ev.ID)
			}
			events = append(events, &ev)
		}
		var off func(id string) bool
		off = func(id string) bool {
			return slices.ContainsFunc(by[id], func(u string) bool { return !off(u) })
		}
		events = rapid.Permutation(events).Draw(t, "order")
		got := undone(events)
		for _, ev := range events {
			require.Equal(t, off(ev.ID), got[ev.ID], ev.ID)
		}
	})
}

// A long chain of undos is settled, and its last undo decides.
func TestUndoOfALongChain(t *testing.T) {
	for _, n := range []int{999, 1000} {
		events := []Event{at(1, Event{ID: "chain-0", Kind: KindNote, Text: "oil is low"})}
		for i := 1; i <= n; i++ {
			events = append(events, undo(int64(i), fmt.Sprint("chain-", i), fmt.Sprint("chain-", i-1)))
		}
		assert.Len(t, Fold(events).Notes, 1-n%2, "%d undos, each of the one before", n)
	}
}
