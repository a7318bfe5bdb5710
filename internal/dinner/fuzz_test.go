package dinner

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Any bytes are read as an event without a panic. A refusal must be one readable
// line. An accepted event must fold, alone, twice and with its undo, into a
// state that has a JSON form, and must be accepted again after a pass through
// JSON.
func FuzzValidate(f *testing.F) {
	for _, kind := range kinds {
		b, err := json.Marshal(sound(kind))
		require.NoError(f, err)
		f.Add(b)
	}
	for _, s := range []string{
		`{}`, `null`, `[]`, `{"id":1}`, `{"kind":"tick","on":"stock#0/step/1"}`,
		`{"id":"eight888","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"measure","on":"stock#1","amount":{"qty":"1/0","unit":"g"}}`,
		`{"id":"eight888","dinner":"s","device":"d","stamp":{"wall":1e3,"count":2147483648},"kind":"note","text":"\ud800"}`,
		`{"id":"eight888","dinner":"s","device":"d","stamp":{"wall":1},"kind":"portion","on":"stock","amount":{"qty":"1e-400"}}`,
		`{"id":"eight888","dinner":"s","device":"d","stamp":{"wall":1},"kind":"open","open":{"menu":"m.md","files":null}}`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		var ev Event
		if json.Unmarshal(b, &ev) != nil {
			return
		}
		if err := Validate(ev); err != nil {
			assertWords(t, err)
			Fold([]Event{ev}) // an old data file may hold what is refused now
			return
		}
		wire, err := json.Marshal(ev)
		require.NoError(t, err)
		var back Event
		require.NoError(t, json.Unmarshal(wire, &back), "%s", wire)
		require.NoError(t, Validate(back), "%s", wire)
		require.True(t, ev.Same(&back), "%s", wire)

		state := Fold([]Event{ev})
		assert.Equal(t, state, Fold([]Event{ev, ev}))
		assert.Equal(t, ev.Dinner, state.Dinner)
		_, err = json.Marshal(state)
		require.NoError(t, err, "%s", wire)
		if ev.Kind != KindUndo {
			u := Event{ID: ev.ID + "u", Dinner: ev.Dinner, Kind: KindUndo, Undo: ev.ID}
			assert.Equal(t, Fold([]Event{u}), Fold([]Event{u, ev}))
		}
	})
}
