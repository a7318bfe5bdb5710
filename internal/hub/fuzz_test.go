package hub_test

import (
	"encoding/json"
	"log/slog"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// FuzzPush sends bodies to one hub. Every record must be acknowledged or refused,
// what is acknowledged must be in the store, the first event must stay as it was,
// and a repeat must get the same answer.
func FuzzPush(f *testing.F) {
	good := request(f, tick(1, start), hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"})
	body, err := json.Marshal(good)
	require.NoError(f, err)
	f.Add(body)
	f.Add([]byte(`{"device":"phone-a","epoch":"x","after":"7","events":[{"id":"event-000009","dinner":"s","device":"d","stamp":{"wall":1e15,"count":3},"kind":"measure","on":"stock#1","amount":{"qty":"16/10","unit":"kg"}}],"files":[]}`))
	f.Add([]byte(`{"device":"phone-a","after":"0","events":[{"id":"event-000001","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"open","open":{"menu":"m.md","covers":3,"files":{}}}],"files":[{"id":"offer-0002","name":"stock.md","base":"","text":"# Soup\r\n"}]}`))
	f.Add([]byte(`{"device":"phone-a","events":[7,{},null],"files":[[]]}`))

	s := storetest.Open(f, filepath.Join(f.TempDir(), "hobside.db"), store.Options{})
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(f, err)
	_, err = h.Sync(good)
	require.NoError(f, err)

	f.Fuzz(func(t *testing.T, body []byte) {
		req, err := hub.ReadRequest(body)
		if err != nil {
			require.ErrorIs(t, err, hub.ErrRequest)
			return
		}
		reply, err := h.Sync(req)
		require.NoError(t, err)
		if len(reply.Acked)+len(reply.Refused) != len(req.Events)+len(req.Files) {
			t.Fatalf("%d records, %d acknowledged, %d refused", len(req.Events)+len(req.Files), len(reply.Acked), len(reply.Refused))
		}
		_, err = json.Marshal(reply)
		require.NoError(t, err)
		require.NoError(t, s.View(func(tx *store.Tx) error {
			for _, id := range append(reply.Acked, "event-000001", "offer-0001") {
				file, err := tx.FindOffer(id)
				require.NoError(t, err)
				r, err := tx.FindEvent(id)
				require.NoError(t, err)
				require.NotZero(t, r.Seq+file.Seq, "%s was acknowledged and is not there", id)
				if r.Event != nil {
					require.NoError(t, dinner.Validate(*r.Event))
				}
			}
			first, err := tx.FindEvent("event-000001")
			require.NoError(t, err)
			require.Equal(t, tick(1, start), *first.Event)
			return nil
		}))
		again, err := h.Sync(req)
		require.NoError(t, err)
		require.Equal(t, reply.Acked, again.Acked, "a repeat must get the same answer")
		require.Equal(t, reply.Refused, again.Refused)
	})
}
