package hub_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// start is the time of the tests' clocks: Saturday 12 June 2027, 19:30 UTC.
var start = time.Date(2027, 6, 12, 19, 30, 0, 0, time.UTC)

// A clock is a clock that a test sets.
type clock struct {
	mu sync.Mutex
	t  time.Time
}

func (c *clock) now() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.t }
func (c *clock) set(t time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.t = t
}

func newHub(t testing.TB) (*hub.Hub, *store.Store, *clock) {
	t.Helper()
	s, c := storetest.New(t), &clock{t: start}
	h, err := hub.New(s, c.now, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	return h, s, c
}

func tick(n int, at time.Time) dinner.Event {
	return dinner.Event{ID: fmt.Sprintf("event-%06d", n), Dinner: "boathouse", Device: "phone-a", Kind: dinner.KindTick,
		Stamp: dinner.Stamp{Wall: at.UnixMilli()}, On: "brown-chicken-stock#1/step/1", Done: true}
}

func raw(t require.TestingT, v any) json.RawMessage {
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}

// request returns a request of a phone that has fetched nothing yet.
func request(t require.TestingT, records ...any) hub.Request {
	req := hub.Request{Device: "phone-a", After: "0"}
	for _, r := range records {
		if o, ok := r.(hub.Offer); ok {
			req.Files = append(req.Files, raw(t, o))
		} else {
			req.Events = append(req.Events, raw(t, r))
		}
	}
	return req
}

func sync1(t require.TestingT, h *hub.Hub, req hub.Request) hub.Reply {
	reply, err := h.Sync(req)
	require.NoError(t, err)
	return reply
}

func TestFirstReplyHasNoNullLists(t *testing.T) {
	h, s, _ := newHub(t)
	reply := sync1(t, h, request(t))
	assert.Equal(t, hub.Reply{Epoch: s.Epoch(), Next: "0", Chain: "0000000000000000", Now: start.UnixMilli(),
		Acked: []string{}, Refused: []hub.Refusal{}, Events: []dinner.Event{}, Files: []hub.FileRecord{}}, reply)
	b, err := json.Marshal(reply)
	require.NoError(t, err)
	assert.NotContains(t, string(b), "null", "the phone loops over the lists")
}

func TestTickReachesOtherPhone(t *testing.T) {
	h, s, _ := newHub(t)
	ev := tick(1, start)
	mine := sync1(t, h, request(t, ev))
	assert.Equal(t, []string{ev.ID}, mine.Acked)
	assert.Equal(t, []dinner.Event{ev}, mine.Events, "the phone gets its own events too")
	assert.Equal(t, "1", mine.Next)

	other := hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: "0"}
	reply := sync1(t, h, other)
	assert.Equal(t, []dinner.Event{ev}, reply.Events)
	other.After = reply.Next
	assert.Empty(t, sync1(t, h, other).Events, "no event comes twice")
}

func TestRepeatedRequestGetsSameReply(t *testing.T) {
	h, s, c := newHub(t)
	late := tick(2, start.Add(time.Hour)) // the clock is an hour ahead, so the event is restamped
	req := request(t, tick(1, start), late, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"})
	first := sync1(t, h, req)
	require.Len(t, first.Acked, 3)
	c.set(start.Add(time.Minute))
	second := sync1(t, h, req)
	second.Now = first.Now
	assert.Equal(t, first, second)
	require.NoError(t, s.View(func(tx *store.Tx) error { assert.EqualValues(t, 3, tx.Seq()); return nil }))
}

func TestOtherRecordWithKnownIDIsRefused(t *testing.T) {
	h, _, _ := newHub(t)
	sync1(t, h, request(t, tick(1, start), hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"}))
	forged := tick(1, start)
	forged.Done = false
	restamped := tick(1, start.Add(-time.Minute))
	reply := sync1(t, h, request(t, forged, restamped, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Soup\n"}))
	assert.Equal(t, []string{"event-000001"}, reply.Acked, "where only the stamp differs, it is a repeat")
	var refused []string
	for _, r := range reply.Refused {
		refused = append(refused, r.ID)
		assert.Contains(t, r.Why, "another record with this id came before")
	}
	assert.Equal(t, []string{"offer-0001", "event-000001"}, refused)
	assert.Equal(t, []dinner.Event{tick(1, start)}, reply.Events, "the first event stays")
}

// TestEventDoesNotTakeTheIDOfAFile: ids of events and of files are apart, so that nobody
// keeps a file out by an event with its id. An event can't have the id by which phones
// send a revision back.
func TestEventDoesNotTakeTheIDOfAFile(t *testing.T) {
	h, _, _ := newHub(t)
	asEvent, asBack := tick(1, start), tick(2, start)
	asEvent.ID, asBack.ID = "offer-0001", "file-"+dinner.Revision("# Soup\n")
	reply := sync1(t, h, request(t, asEvent, asBack))
	assert.Equal(t, []string{"offer-0001"}, reply.Acked)
	require.Len(t, reply.Refused, 1)
	assert.Contains(t, reply.Refused[0].Why, "names a file")
	files := request(t, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"}, hub.Offer{ID: asBack.ID, Name: "soup.md", Text: "# Soup\n"})
	reply = sync1(t, h, files)
	assert.Equal(t, []string{"offer-0001", asBack.ID}, reply.Acked)
	assert.Len(t, reply.Files, 2)
}

// A phone whose cursor is past an event never fetches it again, so the reply
// brings the event as the server has it.
func TestChangedEventComesBackAsStored(t *testing.T) {
	h, s, _ := newHub(t)
	ahead := tick(1, start.Add(time.Hour))
	final := sync1(t, h, request(t, ahead)).Events[0]
	forged := ahead
	forged.Done = false
	for _, ev := range []dinner.Event{ahead, forged} {
		req := request(t, ev)
		req.Epoch, req.After = s.Epoch(), "1"
		assert.Equal(t, []dinner.Event{final}, sync1(t, h, req).Events)
	}
	req := request(t, final)
	req.Epoch, req.After = s.Epoch(), "1"
	assert.Empty(t, sync1(t, h, req).Events, "the phone has the event as it is stored")
}

func TestRefusalNamesRecordAndReason(t *testing.T) {
	h, _, _ := newHub(t)
	for _, tt := range []struct{ name, event, file, id, why string }{
		{"unknown kind", `{"id":"event-000001","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"flambé"}`, "", "event-000001", "newer release"},
		{"unknown field", `{"id":"event-000001","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"note","text":"hot","mood":"good"}`, "", "event-000001", "newer release"},
		{"text for a number", `{"id":"event-000001","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"covers","number":"many"}`, "", "event-000001", "can't be read"},
		{"no step", `{"id":"event-000001","dinner":"s","device":"d","stamp":{"wall":1,"count":0},"kind":"start","on":"stock"}`, "", "event-000001", "should be on a step"},
		{"no id", `7`, "", "", "can't be read"},
		{"file outside the folder", "", `{"id":"offer-0001","name":"../stock.md","base":"","text":""}`, "offer-0001", "not that of a file"},
		{"base that is not a revision", "", `{"id":"offer-0001","name":"stock.md","base":"yesterday","text":""}`, "offer-0001", "not a revision"},
		{"file too large", "", `{"id":"offer-0001","name":"stock.md","base":"","text":"` + strings.Repeat("x", hub.MaxText+1) + `"}`, "offer-0001", "make two of it"},
		{"file of too many lines", "", `{"id":"offer-0001","name":"stock.md","base":"","text":"` + strings.Repeat(`\n`, hub.MaxLines+1) + `"}`, "offer-0001", "make two of it"},
		{"file with too short an id", "", `{"id":"x","name":"stock.md","base":"","text":""}`, "x", "its id"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			req := request(t, tick(2, start)) // a valid record, which must be taken
			if tt.event != "" {
				req.Events = append(req.Events, json.RawMessage(tt.event))
			} else {
				req.Files = append(req.Files, json.RawMessage(tt.file))
			}
			reply := sync1(t, h, req)
			assert.Equal(t, []string{"event-000002"}, reply.Acked)
			require.Len(t, reply.Refused, 1)
			assert.Equal(t, tt.id, reply.Refused[0].ID)
			assert.Contains(t, reply.Refused[0].Why, tt.why)
		})
	}
}

func TestUnreadableRequestIsRefused(t *testing.T) {
	many := `{"device":"phone-a","after":"0","events":[` + strings.TrimSuffix(strings.Repeat("{},", hub.MaxRecords+1), ",") + `]}`
	for name, body := range map[string]string{
		"nothing": "", "half": `{"device":"pho`, "not JSON": "salt", "a list": "[]", "no device": `{"after":"0"}`, "a device with a space": `{"device":"my phone"}`,
		"not UTF-8": "{\"device\":\"phone-a\",\"after\":\"\xff\"}", "too many records": many, "a number for a cursor": `{"device":"phone-a","after":0}`,
	} {
		t.Run(name, func(t *testing.T) {
			_, err := hub.ReadRequest([]byte(body))
			assert.ErrorIs(t, err, hub.ErrRequest)
		})
	}
	req, err := hub.ReadRequest([]byte(`{"device":"phone-a","epoch":"","after":"0","events":[],"files":[]}`))
	require.NoError(t, err)
	assert.Equal(t, "phone-a", req.Device)
}

// A stamp too far ahead is replaced, once; an old stamp is always taken.
func TestStampFarAheadIsReplacedOnce(t *testing.T) {
	h, _, c := newHub(t)
	minute := func(n int) time.Time { return start.Add(time.Duration(n) * time.Minute) }
	year := tick(1, start.AddDate(1, 0, 0))
	reply := sync1(t, h, request(t, year, tick(2, minute(4)), tick(3, start.AddDate(-1, 0, 0))))
	require.Len(t, reply.Events, 3)
	assert.Equal(t, dinner.Stamp{Wall: start.UnixMilli()}, reply.Events[0].Stamp, "a year ahead")
	assert.Equal(t, minute(4).UnixMilli(), reply.Events[1].Stamp.Wall, "four minutes ahead stays")
	assert.Equal(t, start.AddDate(-1, 0, 0).UnixMilli(), reply.Events[2].Stamp.Wall, "a year old")

	// The same event with its first stamp, long after: the server keeps its own.
	c.set(start.AddDate(2, 0, 0))
	again := sync1(t, h, request(t, year))
	assert.Equal(t, []string{year.ID}, again.Acked)
	assert.Equal(t, reply.Events[0], again.Events[0])

	// The server's clock is set back: later events still get later stamps.
	c.set(start.AddDate(0, 0, -1))
	reply = sync1(t, h, request(t, tick(4, minute(6))))
	got := reply.Events[len(reply.Events)-1].Stamp
	assert.Positive(t, got.Compare(dinner.Stamp{Wall: minute(4).UnixMilli()}))
}

func TestInvalidCursorStartsOver(t *testing.T) {
	h, s, _ := newHub(t)
	sync1(t, h, request(t, tick(1, start), tick(2, start)))
	for _, tt := range []struct {
		name, epoch, after string
		reset              bool
		events             int
	}{
		{"valid", s.Epoch(), "1", false, 1},
		{"valid, at the end", s.Epoch(), "2", false, 0},
		{"a new phone", "", "0", false, 2},
		{"a new phone without a cursor", "", "", false, 2},
		{"of another data file", "0123456789abcdef", "1", true, 2},
		{"without an epoch", "", "1", true, 2},
		{"beyond the end: the file was copied back by hand", s.Epoch(), "3", true, 2},
		{"far beyond", s.Epoch(), "18446744073709551615", true, 2},
		{"negative", s.Epoch(), "-1", true, 2},
		{"not a number", s.Epoch(), "here", true, 2},
		{"over 64 bits", s.Epoch(), "99999999999999999999999", true, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			reply := sync1(t, h, hub.Request{Device: "phone-b", Epoch: tt.epoch, After: tt.after})
			assert.Equal(t, tt.reset, reply.Reset)
			assert.Len(t, reply.Events, tt.events)
			assert.Equal(t, "2", reply.Next)
		})
	}
}

func TestLongLogComesInPages(t *testing.T) {
	h, s, _ := newHub(t)
	total := 0
	for page := range 3 {
		var events []any
		for i := range 400 {
			events = append(events, tick(page*400+i, start))
		}
		total += len(sync1(t, h, request(t, events...)).Acked)
	}
	assert.Equal(t, 1200, total)
	other, got := hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: "0"}, 0
	var sizes []int
	for more := true; more; {
		reply := sync1(t, h, other)
		sizes = append(sizes, len(reply.Events))
		got += len(reply.Events)
		more, other.After = reply.More, reply.Next
	}
	assert.Equal(t, []int{500, 500, 200}, sizes)
	assert.Equal(t, 1200, got)
}

// A page from memory is the same as one from disk, wherever it begins.
func TestPageFromMemoryEqualsPageFromDisk(t *testing.T) {
	h, s, c := newHub(t)
	n := 0
	for range 40 {
		var records []any
		for range 37 {
			n++
			records = append(records, tick(n, start))
		}
		records = append(records, hub.Offer{ID: fmt.Sprintf("offer-%06d", n), Name: fmt.Sprintf("card-%d.md", n), Text: strings.Repeat("a line\n", n)})
		sync1(t, h, request(t, records...))
	}
	anew, err := hub.New(s, c.now, slog.New(slog.DiscardHandler)) // this one has nothing in memory
	require.NoError(t, err)
	end, _ := h.Watch()
	for after := uint64(0); after <= end.Seq; after += 31 {
		req := hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: fmt.Sprint(after)}
		assert.Equal(t, sync1(t, anew, req), sync1(t, h, req), "after %d", after)
	}
}

func TestWatcherGetsOneNotificationForManyChanges(t *testing.T) {
	h, s, _ := newHub(t)
	at, moved := h.Watch()
	assert.Equal(t, hub.Position{Epoch: s.Epoch(), Chain: "0000000000000000"}, at)
	sync1(t, h, request(t, tick(1, start), tick(2, start)))
	sync1(t, h, request(t, tick(3, start)))
	<-moved // one notification for both
	at, moved = h.Watch()
	assert.EqualValues(t, 3, at.Seq)
	sync1(t, h, request(t, tick(3, start)))
	sync1(t, h, request(t))
	select {
	case <-moved:
		t.Error("a repeat must not notify")
	default:
	}
	b, err := json.Marshal(at)
	require.NoError(t, err)
	assert.JSONEq(t, `{"epoch":"`+s.Epoch()+`","seq":"3","chain":"`+at.Chain+`"}`, string(b))
}

// A record that did not come through this hub is noticed too.
func TestRecordWrittenToStoreIsNoticed(t *testing.T) {
	h, s, _ := newHub(t)
	_, moved := h.Watch()
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.AppendEvent(tick(1, start)) }))
	<-moved
	assert.Equal(t, []dinner.Event{tick(1, start)}, sync1(t, h, hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: "0"}).Events)
}

// TestDamagedTextIsNamedAndOtherRecordsGoOn changes a text on the disk. No reply
// serves it, an edit of it is refused with its reason, other records come and go,
// and the server is unhealthy from then on.
func TestDamagedTextIsNamedAndOtherRecordsGoOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{New: func(tx *store.Tx) error {
		return hub.Seed(tx, start, "hobside", []hub.Offer{hub.SeedOffer("stock.md", "# Stock\n\n- 120 g salt\n")}, nil)
	}})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, bytes.ReplaceAll(b, []byte("120 g salt"), []byte("920 g salt")), 0o600))
	s, err = store.Open(path, store.Options{})
	require.NoError(t, err)
	defer s.Close()
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	require.NoError(t, h.Healthy())
	reply := sync1(t, h, request(t, tick(1, start)))
	assert.Empty(t, reply.Files)
	require.Len(t, reply.Damaged, 1)
	assert.EqualValues(t, 1, reply.Damaged[0].Seq)
	assert.Equal(t, []string{tick(1, start).ID}, reply.Acked)
	assert.Equal(t, []dinner.Event{tick(1, start)}, reply.Events)
	assert.Equal(t, "2", reply.Next)
	assert.ErrorIs(t, h.Healthy(), store.ErrDamaged)
	edit := hub.Offer{ID: "offer-0001", Name: "stock.md", Base: dinner.Revision("# Stock\n\n- 120 g salt\n"), Text: "# Stock\n\n- 130 g salt\n"}
	reply = sync1(t, h, request(t, tick(2, start), edit))
	assert.Equal(t, []string{tick(2, start).ID}, reply.Acked)
	require.Len(t, reply.Refused, 1)
	assert.Contains(t, reply.Refused[0].Why, "restore a backup")
	assert.Empty(t, reply.Files)
}

func TestFullDiskAcknowledgesNothing(t *testing.T) {
	s := storetest.Open(t, filepath.Join(t.TempDir(), "hobside.db"), store.Options{MaxSize: 1 << 18})
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	acked := map[string]bool{}
	for n := 0; ; n++ {
		require.Less(t, n, 1000, "never full")
		ev := tick(n, start)
		ev.Kind, ev.Text, ev.Done = dinner.KindNote, strings.Repeat("a long note ", 300), false
		reply, err := h.Sync(request(t, ev))
		if err != nil {
			assert.ErrorIs(t, err, store.ErrFull)
			assert.NotErrorIs(t, err, hub.ErrRequest)
			assert.Zero(t, reply)
			break
		}
		acked[reply.Acked[0]] = true
	}
	for more, after := true, "0"; more; {
		reply := sync1(t, h, hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: after})
		for _, ev := range reply.Events {
			assert.True(t, acked[ev.ID])
			delete(acked, ev.ID)
		}
		more, after = reply.More, reply.Next
	}
	assert.Empty(t, acked, "acknowledged and lost")
	assert.NoError(t, h.Healthy())
}

func TestClosedDataFileIsUnhealthy(t *testing.T) {
	h, s, _ := newHub(t)
	assert.NoError(t, h.Healthy())
	require.NoError(t, s.Close())
	assert.ErrorIs(t, h.Healthy(), store.ErrClosed)
}
