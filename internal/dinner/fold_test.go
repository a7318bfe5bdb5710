package dinner

import (
	"encoding/json"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The state is the same in whatever order, and however often, the events come.
func TestFoldIgnoresOrderAndRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t, "events")
		want := Fold(events)
		again := slices.Clone(events)
		if len(events) > 0 {
			again = append(again, rapid.SliceOf(rapid.SampledFrom(events)).Draw(t, "repeats")...)
		}
		again = rapid.Permutation(again).Draw(t, "order")
		require.Equal(t, want, Fold(again))
	})
}

// keep is what a device that holds one copy of each event would hold.
func keep(events ...[]Event) []Event {
	var out []Event
	for _, ev := range distinct(slices.Concat(events...)) {
		out = append(out, *ev)
	}
	return out
}

// Devices meet two by two, in any order, and each keeps only the copies that
// count. That is union: commutative, associative, idempotent, and in the end
// all agree with one who saw everything.
func TestFoldByUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawEvents(t, "a"), drawEvents(t, "b"), drawEvents(t, "c")
		all := Fold(slices.Concat(a, b, c))
		require.Equal(t, Fold(keep(a, b)), Fold(keep(b, a)), "commutative")
		require.Equal(t, all, Fold(keep(keep(a, b), c)), "associative, from the left")
		require.Equal(t, all, Fold(keep(a, keep(b, c))), "associative, from the right")
		require.Equal(t, Fold(a), Fold(keep(keep(a), a)), "idempotent")
	})
}

// A pass through JSON, as every event takes on its way, changes nothing.
func TestFoldOfEventsReadFromJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t, "events")
		wire, err := json.Marshal(events)
		require.NoError(t, err)
		var back []Event
		require.NoError(t, json.Unmarshal(wire, &back))
		want, err := json.Marshal(Fold(events))
		require.NoError(t, err)
		got, err := json.Marshal(Fold(back))
		require.NoError(t, err)
		require.Equal(t, string(want), string(got))
	})
}

// Fold must not change its events, and a change of the state must not change
// them either.
func TestFoldChangesNoEvent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t, "events")
		before, err := json.Marshal(events)
		require.NoError(t, err)
		s := Fold(events)
		if s.Open != nil {
			s.Open.Files["scribble.md"] = "x"
		}
		after, err := json.Marshal(events)
		require.NoError(t, err)
		require.Equal(t, string(before), string(after))
	})
}

// Pages read lists of the state without a check for null.
func TestStateListsAreNeverNull(t *testing.T) {
	s := Fold(nil)
	v := reflect.ValueOf(*s)
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Map || f.Kind() == reflect.Slice {
			assert.False(t, f.IsNil(), v.Type().Field(i).Name)
			assert.Zero(t, f.Len(), v.Type().Field(i).Name)
		}
	}
	assert.Nil(t, s.Open)
	assert.Equal(t, s, Fold([]Event{}))

	opened := Fold([]Event{at(1, Event{Kind: KindOpen, Open: &Open{Menu: "boathouse.md"}})})
	assert.NotNil(t, opened.Open.Files, "an opening without files still has a map of them")
}

func TestStateNamesItsDinner(t *testing.T) {
	assert.Equal(t, "boathouse", Fold([]Event{at(1, Event{Kind: KindNote, Text: "oil is low"})}).Dinner)
}

// The state names the person and the event behind each mark, so that the mark
// can be undone.
func TestStateSaysWhoAndWhich(t *testing.T) {
	c := 63.5
	s := foldAll(t,
		at(100, Event{ID: "ticked-it", Device: "phone", Kind: KindTick, On: "stock#1/mise/2", Done: true}),
		at(200, Event{ID: "began-it", Device: "tablet", Kind: KindStart, On: "stock#1/step/3", Start: 150}),
		at(300, Event{ID: "ended-it", Device: "tablet", Kind: KindFinish, On: "stock#1/step/3"}),
		at(400, Event{ID: "probed-it", Device: "wall", Kind: KindTemperature, On: "stock#1/step/3", TempC: &c}),
		at(500, Event{ID: "timed-it", Device: "phone", Kind: KindTimer, On: "stock#1/step/3", Start: 500, End: 900}),
		at(600, Event{ID: "noted-it", Device: "wall", Kind: KindNote, On: "stock#1/step/3", Text: "skim again"}),
	)
	assert.Equal(t, Tick{Done: true, At: 100, Device: "phone", Event: "ticked-it"}, s.Ticks["stock#1/mise/2"])
	assert.Equal(t, Moment{At: 150, Device: "tablet", Event: "began-it"}, s.Starts["stock#1/step/3"], "the moment it names")
	assert.Equal(t, Moment{At: 300, Device: "tablet", Event: "ended-it"}, s.Ends["stock#1/step/3"], "it names none: when it was made")
	assert.Equal(t, []Temp{{C: 63.5, At: 400, Device: "wall", Event: "probed-it"}}, s.Temps["stock#1/step/3"])
	assert.Equal(t, Timer{Start: 500, End: 900, Device: "phone", Event: "timed-it"}, s.Timers["stock#1/step/3"])
	assert.Equal(t, []Note{{On: "stock#1/step/3", Text: "skim again", At: 600, Device: "wall", Event: "noted-it"}}, s.Notes)
}
