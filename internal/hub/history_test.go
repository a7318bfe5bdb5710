package hub_test

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// A phone does the phone's part of the sync: what it made waits in the outbox
// until the server acknowledges it, and all it has is sent to another data file.
type phone struct {
	name    string
	skew    time.Duration
	last    dinner.Stamp // the latest it made or saw
	epoch   string
	cursor  string
	chain   string
	sure    *hub.Position // see hub.Request
	events  map[string]dinner.Event
	files   map[string]hub.FileRecord // by revision
	newest  map[string]string         // file name -> revision
	outbox  []any                     // ids of events, and offers
	madeLog []string                  // ids of all it ever made
}

// String keeps the log of a failed run short.
func (p *phone) String() string { return p.name }

func (p *phone) request(t require.TestingT) hub.Request {
	chain := p.chain
	req := hub.Request{Device: p.name, Epoch: p.epoch, After: p.cursor, Chain: &chain, Sure: p.sure}
	names := map[string]bool{}
	for _, w := range p.outbox {
		if id, ok := w.(string); ok {
			req.Events = append(req.Events, raw(t, p.events[id]))
		} else if o := w.(hub.Offer); !names[o.Name] {
			names[o.Name] = true
			req.Files = append(req.Files, raw(t, o))
		}
	}
	return req
}

func (p *phone) take(t require.TestingT, reply hub.Reply) {
	require.Empty(t, reply.Refused)
	p.outbox = slices.DeleteFunc(p.outbox, func(w any) bool {
		if o, ok := w.(hub.Offer); ok {
			w = o.ID
		}
		return slices.Contains(reply.Acked, w.(string))
	})
	there := map[string]bool{}
	for _, ev := range reply.Events {
		p.events[ev.ID] = ev
		if ev.Stamp.Compare(p.last) > 0 {
			p.last = ev.Stamp
		}
		there[ev.ID] = true
	}
	for _, f := range reply.Files {
		p.files[f.Revision] = f
		there["file-"+f.Revision] = true
		if f.Beside == "" && !slices.ContainsFunc(p.outbox, func(w any) bool { o, ok := w.(hub.Offer); return ok && o.Name == f.Name }) {
			p.newest[f.Name] = f.Revision
		}
	}
	if reply.Reset {
		files := slices.SortedFunc(maps.Values(p.files), func(a, b hub.FileRecord) int { return int(a.At - b.At) })
		for _, f := range files {
			if !there["file-"+f.Revision] {
				p.outbox = append(p.outbox, hub.Offer{ID: "file-" + f.Revision, Name: f.Name, Base: f.Base, Text: f.Text, Beside: f.Beside + f.Awaits, Settles: f.Settles})
			}
		}
		for _, id := range slices.Sorted(maps.Keys(p.events)) {
			if !there[id] && !slices.Contains(p.outbox, any(id)) {
				p.outbox = append(p.outbox, id)
			}
		}
	}
	p.epoch, p.cursor, p.chain = reply.Epoch, reply.Next, reply.Chain
	if len(reply.Acked) > 0 && reply.End != nil {
		p.sure = reply.End
	} else if reply.Reset || !reply.More {
		p.sure = nil
	}
}

// waiting returns the revisions of a file that are beside the newest.
func (p *phone) waiting(name string) []string {
	waiting := []string{}
	for _, f := range p.files {
		if f.Name != name || f.Beside == "" || p.newest[name] == f.Revision {
			continue
		}
		used := false
		for _, g := range p.files {
			used = used || g.Name == name && g.Revision != f.Revision && (g.Base == f.Revision || slices.Contains(g.Settles, f.Revision))
		}
		if !used {
			waiting = append(waiting, f.Revision)
		}
	}
	slices.Sort(waiting)
	return waiting
}

// texts returns the newest text of a file and those that wait beside it.
func (p *phone) texts(name string) string {
	text := p.files[p.newest[name]].Text
	for _, r := range p.waiting(name) {
		text += p.files[r].Text
	}
	return text
}

// TestAllPhonesAgreeAfterAnyHistory has two to four phones tick, write and choose between
// versions, with wrong clocks, lost replies, repeated requests, restored backups, copies
// of the data file put back by hand and new data files. When all have synced at the end, all have the same, and nothing that any
// of them made is missing.
func TestAllPhonesAgreeAfterAnyHistory(t *testing.T) {
	dir := t.TempDir()
	run := 0
	rapid.Check(t, func(t *rapid.T) {
		run++
		var s *store.Store
		var h *hub.Hub
		now := start
		files := 0
		serve := func(path string) {
			s = storetest.Open(t, path, store.Options{})
			var err error
			h, err = hub.New(s, func() time.Time { return now }, slog.New(slog.DiscardHandler))
			require.NoError(t, err)
		}
		path := func() string {
			files++
			p := filepath.Join(dir, fmt.Sprintf("%d-%d.db", run, files))
			t.Cleanup(func() { os.Remove(p) })
			return p
		}
		serve(path())
		backup, copied := "", ""
		var phones []*phone
		for i := range rapid.IntRange(2, 4).Draw(t, "phones") {
			skew := rapid.SampledFrom([]time.Duration{0, 0, time.Second, -time.Hour, 365 * 24 * time.Hour}).Draw(t, "clock is wrong by")
			phones = append(phones, &phone{name: fmt.Sprintf("phone-%d", i), skew: skew, cursor: "0",
				events: map[string]dinner.Event{}, files: map[string]hub.FileRecord{}, newest: map[string]string{}})
		}
		made := 0
		sync := func(t *rapid.T, p *phone) {
			reply, err := h.Sync(p.request(t))
			require.NoError(t, err)
			p.take(t, reply)
		}
		settle := func(t *rapid.T) {
			for round := 0; ; round++ {
				require.Less(t, round, 200, "the phones never stop syncing")
				busy := false
				for _, p := range phones {
					seq, _ := h.Watch()
					sync(t, p)
					busy = busy || len(p.outbox) > 0 || p.epoch != seq.Epoch || p.cursor != fmt.Sprint(seq.Seq)
				}
				if !busy {
					return
				}
			}
		}
		one := rapid.SampledFrom(phones)
		t.Repeat(map[string]func(*rapid.T){
			"tick": func(t *rapid.T) {
				p := one.Draw(t, "phone")
				made++
				now = now.Add(time.Second)
				ev := dinner.Event{ID: fmt.Sprintf("event-%06d", made), Dinner: "boathouse", Device: p.name, Kind: dinner.KindTick,
					On: fmt.Sprintf("stock#1/step/%d", rapid.IntRange(1, 3).Draw(t, "step")), Done: rapid.Bool().Draw(t, "done"),
					Stamp: dinner.Next(now.Add(p.skew).UnixMilli(), p.last)}
				p.last = ev.Stamp
				p.events[ev.ID] = ev
				p.outbox = append(p.outbox, ev.ID)
				p.madeLog = append(p.madeLog, ev.ID)
			},
			"write": func(t *rapid.T) {
				p := one.Draw(t, "phone")
				made++
				now = now.Add(time.Second)
				base := p.newest["stock.md"]
				text := p.files[base].Text + fmt.Sprintf("line %d\n", made)
				if rapid.Bool().Draw(t, "on top") {
					text = fmt.Sprintf("line %d\n", made) + p.files[base].Text
				}
				o := hub.Offer{ID: fmt.Sprintf("offer-%06d", made), Name: "stock.md", Base: base, Text: text}
				p.outbox = append(p.outbox, o)
				rev := dinner.Revision(text)
				p.files[rev] = hub.FileRecord{Name: o.Name, Revision: rev, Base: base, Text: text, At: now.UnixMilli()}
				p.newest["stock.md"] = rev
				p.madeLog = append(p.madeLog, fmt.Sprintf("line %d\n", made))
			},
			"choose": func(t *rapid.T) {
				p := one.Draw(t, "phone")
				waiting := p.waiting("stock.md")
				if len(waiting) == 0 {
					return
				}
				made++
				now = now.Add(time.Second)
				base := p.newest["stock.md"]
				text := p.files[base].Text
				for _, line := range strings.SplitAfter(p.texts("stock.md"), "\n") {
					if !strings.Contains(text, line) {
						text += line // this cook wants all of them
					}
				}
				o := hub.Offer{ID: fmt.Sprintf("offer-%06d", made), Name: "stock.md", Base: base, Text: text, Settles: waiting}
				p.outbox = append(p.outbox, o)
				rev := dinner.Revision(text)
				if rev != base {
					p.files[rev] = hub.FileRecord{Name: o.Name, Revision: rev, Base: base, Text: text, At: now.UnixMilli(), Settles: waiting}
					p.newest["stock.md"] = rev
				}
			},
			"sync": func(t *rapid.T) { sync(t, one.Draw(t, "phone")) },
			"reply lost": func(t *rapid.T) {
				_, err := h.Sync(one.Draw(t, "phone").request(t))
				require.NoError(t, err)
			},
			"request repeated": func(t *rapid.T) {
				p := one.Draw(t, "phone")
				req := p.request(t)
				_, err := h.Sync(req)
				require.NoError(t, err)
				reply, err := h.Sync(req)
				require.NoError(t, err)
				p.take(t, reply)
			},
			"back up": func(t *rapid.T) {
				backup = path()
				out, err := os.Create(backup)
				require.NoError(t, err)
				require.NoError(t, s.Backup(out))
				require.NoError(t, out.Close())
			},
			"restore": func(t *rapid.T) {
				if backup == "" {
					return // there is no backup
				}
				settle(t) // no phone can send back what only the old server has
				serve(backup)
				backup = ""
			},
			"copy aside": func(t *rapid.T) {
				b, err := os.ReadFile(s.Path())
				require.NoError(t, err)
				copied = path()
				require.NoError(t, os.WriteFile(copied, b, 0o600))
			},
			// Not by restore: the epoch stays the same, and the phones are not settled.
			"put the copy back": func(t *rapid.T) {
				if copied == "" {
					return // there is no copy
				}
				serve(copied)
				copied = ""
			},
			"new data file": func(t *rapid.T) {
				settle(t)
				serve(path())
				backup = ""
			},
		})
		settle(t)
		var events [][]byte
		for _, p := range phones {
			b, err := json.Marshal(dinner.Fold(slices.Collect(maps.Values(p.events))))
			require.NoError(t, err)
			events = append(events, b)
			require.Equal(t, phones[0].events, p.events)
			require.Equal(t, string(events[0]), string(b))
			require.Equal(t, phones[0].newest, p.newest)
			require.Equal(t, phones[0].waiting("stock.md"), p.waiting("stock.md"))
			newest := p.texts("stock.md")
			for _, other := range phones {
				for _, id := range other.madeLog {
					if _, ok := p.events[id]; !ok && len(id) == len("event-000000") {
						t.Fatalf("%s is lost", id)
					} else if !ok {
						require.Contains(t, newest, id, "no line was ever deleted")
					}
				}
			}
		}
	})
}
