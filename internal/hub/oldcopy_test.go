package hub_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"log/slog"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

func newPhone(name string) *phone {
	return &phone{name: name, cursor: "0", events: map[string]dinner.Event{}, files: map[string]hub.FileRecord{}, newest: map[string]string{}}
}

func (p *phone) makes(events ...dinner.Event) {
	for _, ev := range events {
		p.events[ev.ID] = ev
		p.outbox = append(p.outbox, ev.ID)
	}
}

// syncs makes requests until the phone has nothing more to send or fetch.
func (p *phone) syncs(t *testing.T, h *hub.Hub) {
	t.Helper()
	for range 10 {
		reply := sync1(t, h, p.request(t))
		p.take(t, reply)
		if !reply.More && !reply.Reset && len(p.outbox) == 0 {
			return
		}
	}
	t.Fatal("the phone never stops")
}

func serve(t *testing.T, path string) (*hub.Hub, *store.Store) {
	t.Helper()
	s := storetest.Open(t, path, store.Options{})
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	return h, s
}

// setBack puts a data file back by a plain copy.
func setBack(t *testing.T, path string, b []byte) {
	t.Helper()
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.WriteFile(path, b, 0o600))
}

// spoilNewestMeta changes a byte of the newer one of bbolt's two meta pages, so that
// bbolt falls back to the older one, which lacks the last transaction.
func spoilNewestMeta(t *testing.T, b []byte) {
	t.Helper()
	const size, head, txid = 4096, 16, 48
	newer := 0
	if binary.NativeEndian.Uint64(b[size+head+txid:]) > binary.NativeEndian.Uint64(b[head+txid:]) {
		newer = size
	}
	b[newer+head+60] ^= 0x10
}

// TestOldCopyOfTheDataFileIsNoticed: the file goes back in time under the same epoch, and
// another phone writes until the numbers pass the first phone's cursor. Then nothing that
// was acknowledged is lost, and all phones have the same.
func TestOldCopyOfTheDataFileIsNoticed(t *testing.T) {
	for name, goBack := range map[string]func(t *testing.T, path string, before []byte){
		"a plain copy": setBack,
		"a newest meta page that can't be read": func(t *testing.T, path string, _ []byte) {
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			spoilNewestMeta(t, b)
			setBack(t, path, b)
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hobside.db")
			a, b := newPhone("phone-a"), newPhone("phone-b")
			h, s := serve(t, path)
			a.makes(tick(1, start), tick(2, start))
			a.syncs(t, h)
			b.syncs(t, h)
			before, err := os.ReadFile(path)
			require.NoError(t, err)
			a.makes(tick(3, start))
			a.syncs(t, h)
			require.Equal(t, "3", a.cursor)
			require.NoError(t, s.Close())
			epoch := s.Epoch()

			goBack(t, path, before)
			h, s = serve(t, path)
			require.Equal(t, epoch, s.Epoch())
			b.makes(tick(4, start), tick(5, start))
			b.syncs(t, h)
			a.syncs(t, h)
			b.syncs(t, h)
			assert.Len(t, a.events, 5)
			assert.Equal(t, a.events, b.events)
		})
	}
}

// TestMessageOfAnotherHistoryIsNotTaken: the stream's message may come before the first
// reply of a server whose file went back.
func TestMessageOfAnotherHistoryIsNotTaken(t *testing.T) {
	dir := t.TempDir()
	h, s := serve(t, filepath.Join(dir, "a.db"))
	sync1(t, h, request(t, tick(1, start)))
	b, err := os.ReadFile(s.Path())
	require.NoError(t, err)
	setTo := filepath.Join(dir, "b.db")
	require.NoError(t, os.WriteFile(setTo, b, 0o600))
	sync1(t, h, request(t, tick(2, start)))
	phone, _ := h.Watch()

	other, _ := serve(t, setTo)
	sync1(t, other, request(t, tick(3, start)))
	sync1(t, other, request(t, tick(4, start)))
	_, message, _ := other.News(phone)
	var n news
	require.NoError(t, json.Unmarshal(message, &n))
	assert.Nil(t, n.From, "the phone must fetch")
	assert.False(t, bytes.Contains(message, []byte(tick(4, start).ID)))
}

// TestOldCopyIsNoticedBeforeAPhoneHasReadAll: a phone that is still fetching the log sends a
// tick, which is acknowledged. Then the file goes back to a moment that the phone's cursor has
// not passed.
func TestOldCopyIsNoticedBeforeAPhoneHasReadAll(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	h, s := serve(t, path)
	a, b := newPhone("phone-a"), newPhone("phone-b")
	for n := range 2 * hub.MaxRecords {
		a.makes(tick(n, start))
		if len(a.outbox) == hub.MaxRecords {
			a.syncs(t, h)
		}
	}
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	mine := tick(5000, start)
	b.makes(mine)
	reply := sync1(t, h, b.request(t))
	b.take(t, reply)
	require.True(t, reply.More)
	require.Empty(t, b.outbox, "it is acknowledged")
	require.NoError(t, s.Close())

	setBack(t, path, before)
	h, _ = serve(t, path)
	b.syncs(t, h)
	a.syncs(t, h)
	assert.Contains(t, a.events, mine.ID)
	assert.Nil(t, b.sure)
}
