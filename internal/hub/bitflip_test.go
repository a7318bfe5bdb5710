package hub_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// flipSample returns a data file with events, revisions of two cards, one of which is
// long, and a device, and what each record is in a reply, by sequence number.
func flipSample(t *testing.T) (whole []byte, want map[uint64]string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sample.db")
	h, s := serve(t, path)
	long := strings.Repeat("- 500 g of something that is bought\n", 60)
	base, soup := "", ""
	for n := range 20 {
		text := strings.Replace(long, "500 g", fmt.Sprint(500+n, " g"), 1)
		sync1(t, h, request(t, tick(2*n, start), tick(2*n+1, start), offer(fmt.Sprintf("offer-%04d", n), base, text),
			hub.Offer{ID: fmt.Sprintf("soup-%05d", n), Name: "soup.md", Base: soup, Text: fmt.Sprintf("# Soup %d\n", n)}))
		base, soup = dinner.Revision(text), dinner.Revision(fmt.Sprintf("# Soup %d\n", n))
	}
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		return tx.AddDevice(store.Device{ID: "one", Name: "tablet", Role: "cook"}, "secret")
	}))
	want, damaged := everything(t, h, sampleEvent)
	require.Empty(t, damaged)
	require.NoError(t, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	return whole, want
}

// sampleEvent reports whether a record of the sample is an event: each request brought two
// cards and then two ticks. The tests add events.
func sampleEvent(seq uint64) bool { return seq%4 == 3 || seq%4 == 0 || seq > 80 }

// everything fetches the log from its beginning, in pages. It returns each record as JSON,
// by sequence number, and the numbers of those that the replies name as damaged. Records
// of a page are told apart by the log: what a page has must be there, in its order.
func everything(t require.TestingT, h *hub.Hub, isEvent func(seq uint64) bool) (records map[uint64]string, damaged map[uint64]bool) {
	records, damaged = map[uint64]string{}, map[uint64]bool{}
	req := hub.Request{Device: "phone-z", After: "0"}
	from := uint64(0)
	for {
		reply := sync1(t, h, req)
		for _, d := range reply.Damaged {
			damaged[d.Seq] = true
		}
		next, err := strconv.ParseUint(reply.Next, 10, 64)
		require.NoError(t, err)
		events, files := reply.Events, reply.Files
		for seq := from + 1; seq <= next; seq++ {
			switch {
			case damaged[seq]:
			case isEvent(seq):
				require.NotEmpty(t, events)
				records[seq], events = string(raw(t, events[0])), events[1:]
			default:
				require.NotEmpty(t, files)
				records[seq], files = string(raw(t, files[0])), files[1:]
			}
		}
		require.Empty(t, events)
		require.Empty(t, files)
		if !reply.More {
			return records, damaged
		}
		from = next
		req.Epoch, req.After, req.Chain = reply.Epoch, reply.Next, &reply.Chain
	}
}

// TestFlippedBitIsNeverServed flips one bit anywhere in the data file. The server refuses
// the file, or every record in its replies is as it was, those that are not in them are
// named, and its health says so.
func TestFlippedBitIsNeverServed(t *testing.T) {
	whole, want := flipSample(t)
	path := filepath.Join(t.TempDir(), "flipped.db")
	var inRecords []int // some in pages that are no longer in use
	for at := range whole {
		if bytes.HasPrefix(whole[at:], []byte(`"boathouse"`)) {
			inRecords = append(inRecords, at)
		}
	}
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		b := append([]byte(nil), whole...)
		at := rapid.IntRange(0, len(b)-1).Draw(t, "byte")
		if rapid.Bool().Draw(t, "in a record") {
			at = rapid.SampledFrom(inRecords).Draw(t, "byte of a record")
		}
		b[at] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		os.Remove(path)
		require.NoError(t, os.WriteFile(path, b, 0o600))
		s, err := store.Open(path, store.Options{})
		if err != nil {
			require.ErrorContains(t, err, path)
			seen["refused"]++
			return
		}
		defer s.Close()
		h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
		require.NoError(t, err)
		have, damaged := everything(t, h, sampleEvent)
		for seq, record := range want {
			if damaged[seq] {
				assert.NotContains(t, have, seq)
				continue
			}
			require.Equal(t, record, have[seq], "record %d", seq)
		}
		require.LessOrEqual(t, len(have)+len(damaged), len(want))
		health := h.Healthy()
		if len(damaged) > 0 {
			seen["missing"]++
			require.ErrorIs(t, health, store.ErrDamaged)
		}
		if s.Check(context.Background()) != nil {
			seen["damaged"]++ // perhaps in a page that no record needs
		} else {
			seen["whole"]++
			require.NoError(t, health)
			require.Empty(t, damaged)
		}
		// What comes now is taken or refused, and what is acknowledged is there.
		reply := sync1(t, h, request(t, tick(900, start)))
		if len(reply.Acked) == 1 {
			now, _ := everything(t, h, sampleEvent)
			require.Contains(t, now[uint64(len(want))+1], tick(900, start).ID)
		}
	})
	t.Log(seen)
	for _, how := range []string{"damaged", "missing", "whole"} {
		assert.NotZero(t, seen[how], "the test needs a file that is %s", how)
	}
}
