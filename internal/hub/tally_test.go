package hub_test

import (
	"bytes"
	"encoding/json"
	"log/slog"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store/storetest"
)

// TestRefusedRecordsAreCountedInTheLog sends wrong requests for two minutes. The log
// gets three lines, and their counts are those of all requests but the last minute's.
func TestRefusedRecordsAreCountedInTheLog(t *testing.T) {
	var log bytes.Buffer
	c := &clock{t: start}
	h, err := hub.New(storetest.New(t), c.now, slog.New(slog.NewTextHandler(&log, nil)))
	require.NoError(t, err)
	for n := range 121 {
		c.set(start.Add(time.Duration(n) * time.Second))
		reply := sync1(t, h, hub.Request{Device: "phone-a", Events: []json.RawMessage{[]byte(`7`), []byte(`8`)}})
		require.Len(t, reply.Refused, 2)
	}
	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	require.Len(t, lines, 3, log.String())
	assert.Contains(t, lines[0], "count=2 ")
	assert.Contains(t, lines[1], "count=120 ")
	assert.Contains(t, lines[2], "count=120 ")
}
