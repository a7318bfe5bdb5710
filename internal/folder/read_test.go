package folder

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// FuzzReadLines reads any bytes as an exported dinner: either an error names the
// line, or every event is valid.
func FuzzReadLines(f *testing.F) {
	b, err := json.Marshal(dinner.Event{ID: "event-000001", Dinner: "s", Device: "d", Kind: dinner.KindCovers, Number: 3})
	require.NoError(f, err)
	f.Add(append(b, '\n'))
	f.Add([]byte("{}\n\n[]"))
	f.Fuzz(func(t *testing.T, b []byte) {
		events, err := readLines("s.jsonl", b)
		if err != nil {
			assert.Regexp(t, `^s\.jsonl:\d+: `, err.Error())
			return
		}
		for _, ev := range events {
			require.NoError(t, dinner.Validate(ev))
		}
	})
}

// FuzzParseRevisionLine: a line that is taken is written back by Export the same.
func FuzzParseRevisionLine(f *testing.F) {
	f.Add([]byte(`{"name":"stock.md","revision":"0123456789abcdef01234567","base":""}`))
	f.Add([]byte(`{"name":"../stock.md","revision":"0123456789abcdef01234567","base":""}`))
	f.Fuzz(func(t *testing.T, line []byte) {
		r, ok := parseRevisionLine(line)
		if !ok {
			return
		}
		assert.True(t, dinner.IsFileName(r.Name))
		out, err := json.Marshal(r)
		require.NoError(t, err)
		again, ok := parseRevisionLine(out)
		assert.True(t, ok)
		assert.Equal(t, r, again)
	})
}
