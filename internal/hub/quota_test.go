package hub_test

import (
	"errors"
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store"
)

// TestDeviceThatWritesTooMuchWaits: one device floods the server. It is told to wait, and
// nothing of what it sends then is acknowledged, refused or lost; others go on; a minute
// later the server takes what waited.
func TestDeviceThatWritesTooMuchWaits(t *testing.T) {
	h, s, c := newHub(t)
	device := store.Device{ID: "0123456789abcdef0123", Name: "Nora's phone", Role: string(hub.Helper)}
	send := func(d store.Device, events ...any) hub.Reply {
		req := request(t, events...)
		at, _ := h.Watch()
		req.Epoch, req.After, req.Chain, req.From = at.Epoch, fmt.Sprint(at.Seq), &at.Chain, from(d)
		return sync1(t, h, req)
	}
	n := 0
	page := func() (events []any) {
		for range hub.MaxRecords {
			n++
			events = append(events, tick(n, start))
		}
		return events
	}
	var late []any
	written := 0
	for {
		late = page()
		reply := send(device, late...)
		if reply.Trouble != "" {
			assert.Contains(t, reply.Trouble, "sends it later")
			assert.Empty(t, reply.Acked)
			assert.Empty(t, reply.Refused, "a refused record is parked, and not sent again")
			break
		}
		require.Len(t, reply.Acked, len(late))
		written += len(late)
		require.Less(t, written, 50_000, "there is no bound")
	}
	assert.GreaterOrEqual(t, written, 10_000, "an evening's events and more fit into a minute")
	n++
	other := send(store.Device{ID: "another", Role: string(hub.Cook)}, tick(n, start))
	assert.Len(t, other.Acked, 1, "the bound is for each device")
	n++
	assert.Len(t, send(store.Device{}, tick(n, start)).Acked, 1, "the server's own machine has none")
	assert.Empty(t, send(device).Trouble, "a phone that only fetches is not told to wait")
	c.set(start.Add(time.Minute))
	assert.Len(t, send(device, late...).Acked, len(late))

	require.NoError(t, s.View(func(tx *store.Tx) error {
		volume, err := tx.Volume(device.ID)
		assert.Greater(t, volume, uint64(written*100))
		return err
	}))
}

// TestDeviceHasABoundInAll: when a device has written all that one device may, it is told
// so. The count outlives a restart, because it is in the data file.
func TestDeviceHasABoundInAll(t *testing.T) {
	h, s, _ := newHub(t)
	device := store.Device{ID: "0123456789abcdef0123", Role: string(hub.Cook)}
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.AddVolume(device.ID, 256<<20) }))
	req := request(t, tick(1, start))
	req.From = from(device)
	reply := sync1(t, h, req)
	assert.Empty(t, reply.Acked)
	assert.Contains(t, reply.Trouble, "pair it again")
	require.NoError(t, s.View(func(tx *store.Tx) error { assert.Zero(t, tx.Seq()); return nil }))
}

// TestSavedRecordsAreAcknowledgedWhenNothingCanBeRead: the disk fails after the write.
// The reply acknowledges, says what happened, and leaves the phone's cursor in its place.
func TestSavedRecordsAreAcknowledgedWhenNothingCanBeRead(t *testing.T) {
	h, _, _ := newHub(t)
	calls, broken := 0, errors.New("input/output error")
	req := request(t, tick(1, start))
	chain := "00000000000000aa"
	req.Epoch, req.After, req.Chain = "of another file", "7", &chain
	req.From = func(*store.Tx) (store.Device, error) {
		if calls++; calls > 1 { // the first is inside the write
			return store.Device{}, broken
		}
		return store.Device{ID: "0123456789abcdef0123", Role: string(hub.Cook)}, nil
	}
	reply, err := h.Sync(req)
	require.NoError(t, err)
	assert.Equal(t, []string{tick(1, start).ID}, reply.Acked)
	assert.Contains(t, reply.Trouble, "can't read what is new")
	assert.Equal(t, hub.Cook, reply.Role)
	assert.False(t, reply.More)
	assert.Equal(t, []string{req.Epoch, req.After, chain}, []string{reply.Epoch, reply.Next, reply.Chain})
	_, err = h.Sync(hub.Request{Device: "phone-a", After: "0", From: req.From})
	assert.ErrorIs(t, err, broken, "where nothing was sent, the phone tries again")
}

func TestReplacedDataFileIsUnhealthy(t *testing.T) {
	h, s, _ := newHub(t)
	require.NoError(t, os.Rename(s.Path(), s.Path()+".away"))
	_, err := h.Sync(request(t, tick(1, start)))
	assert.ErrorIs(t, err, store.ErrReplaced)
	assert.ErrorIs(t, h.Healthy(), store.ErrReplaced)
	require.NoError(t, os.Rename(s.Path()+".away", s.Path()))
	sync1(t, h, request(t, tick(1, start)))
	assert.NoError(t, h.Healthy())
}
