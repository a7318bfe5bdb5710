package dinner

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadEvent(t *testing.T) {
	const tick = `{"id":"tick0001","dinner":"d1","device":"phone","stamp":{"wall":5,"count":0},"kind":"tick","on":"stock#1/step/1","done":true}`
	want := Event{ID: "tick0001", Dinner: "d1", Device: "phone", Stamp: Stamp{Wall: 5}, Kind: KindTick, On: "stock#1/step/1", Done: true}
	for _, tt := range []struct{ name, in, err string }{
		{"as written today", tick, ""},
		{"as the first release wrote it", `{"id":"tick0001","sitting":"d1","device":"phone","stamp":{"wall":5,"count":0},"kind":"tick","on":"stock#1/step/1","done":true}`, ""},
		{"both names: today's counts", `{"sitting":"old",` + tick[1:], ""},
		{"a field of a newer release", `{"mood":"good",` + tick[1:], `json: unknown field "mood"`},
		{"two events", tick + tick, "there is something after the event"},
		{"cut short", tick[:40], "unexpected EOF"},
		{"a list", "[" + tick + "]", "json: cannot unmarshal array"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := ReadEvent([]byte(tt.in))
			if tt.err != "" {
				assert.ErrorContains(t, err, tt.err)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, want, got)
		})
	}
}

// FuzzReadEvent: what is read is written back and read again the same.
func FuzzReadEvent(f *testing.F) {
	f.Add([]byte(`{"id":"tick0001","dinner":"d1","device":"phone","stamp":{"wall":5,"count":0},"kind":"tick","on":"stock#1/step/1","done":true}`))
	f.Add([]byte(`{"id":"weigh001","sitting":"d1","device":"phone","stamp":{"wall":5,"count":0},"kind":"measure","on":"stock#1","amount":{"qty":"3/2","unit":"kg"}}`))
	f.Fuzz(func(t *testing.T, in []byte) {
		ev, err := ReadEvent(in)
		if err != nil || Validate(ev) != nil {
			return
		}
		out, err := json.Marshal(ev)
		require.NoError(t, err)
		again, err := ReadEvent(out)
		require.NoError(t, err)
		assert.Equal(t, ev, again)
	})
}
