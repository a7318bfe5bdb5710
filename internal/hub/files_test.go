package hub_test

import (
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

const stock = "# Stock\n\n- 3 kg bones\n- 500 g onions\n- 5 L water\n\n1. Roast.\n2. Simmer.\n"

func edited(old, new string) string { return strings.Replace(stock, old, new, 1) }

// A library is the files of a phone that has fetched everything.
type library struct {
	newest  map[string]hub.FileRecord
	records []hub.FileRecord
}

func pulled(t require.TestingT, h *hub.Hub) library {
	l := library{newest: map[string]hub.FileRecord{}}
	reply := sync1(t, h, hub.Request{Device: "phone-z", After: "0"})
	require.False(t, reply.More)
	for _, f := range reply.Files {
		l.newest[f.Name] = f
		l.records = append(l.records, f)
	}
	return l
}

func offer(id, base, text string) hub.Offer {
	return hub.Offer{ID: id, Name: "stock.md", Base: base, Text: text}
}

func TestEditOfNewestRevisionReplacesIt(t *testing.T) {
	h, _, _ := newHub(t)
	reply := sync1(t, h, request(t, offer("offer-0001", "", stock)))
	require.Len(t, reply.Files, 1)
	first := reply.Files[0]
	assert.Equal(t, hub.FileRecord{Name: "stock.md", Revision: dinner.Revision(stock), Text: stock, Device: "phone-a", At: start.UnixMilli()}, first)
	sync1(t, h, request(t, offer("offer-0002", first.Revision, edited("3 kg", "4 kg"))))
	sync1(t, h, request(t, offer("offer-0003", dinner.Revision(edited("3 kg", "4 kg")), stock))) // and back to the first text
	l := pulled(t, h)
	assert.Len(t, l.records, 3)
	assert.Equal(t, stock, l.newest["stock.md"].Text)
}

func TestFilesComeBackByteForByte(t *testing.T) {
	h, _, _ := newHub(t)
	for _, text := range []string{"", "\n", "no end", "\ufeff# Stock\r\n\r\n- salt\r\n", "a\x00b", "  \t", "<script>&amp;\u2028"} {
		name := dinner.Revision(text) + ".md"
		sync1(t, h, request(t, hub.Offer{ID: "offer-" + dinner.Revision(text), Name: name, Text: text}))
		assert.Equal(t, text, pulled(t, h).newest[name].Text)
	}
}

func TestSeparateEditsAreMerged(t *testing.T) {
	base := dinner.Revision(stock)
	for _, tt := range []struct {
		name         string
		ours, theirs string
		want         string
		clash        bool
	}{
		{"different lines", edited("3 kg", "4 kg"), edited("Simmer.", "Simmer for 5 h."), strings.Replace(edited("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), false},
		{"the same line the same way", edited("3 kg", "4 kg"), edited("3 kg", "4 kg"), edited("3 kg", "4 kg"), false},
		{"less than what is there", strings.Replace(edited("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), edited("3 kg", "4 kg"), strings.Replace(edited("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), false},
		{"more than what is there", edited("3 kg", "4 kg"), strings.Replace(edited("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), strings.Replace(edited("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), false},
		{"the same line two ways", edited("3 kg", "4 kg"), edited("3 kg", "2 kg"), "", true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h, _, _ := newHub(t)
			sync1(t, h, request(t, offer("offer-0001", "", stock)))
			sync1(t, h, request(t, offer("offer-0002", base, tt.ours)))
			mine := request(t, offer("offer-0003", base, tt.theirs))
			reply := sync1(t, h, mine)
			assert.Equal(t, []string{"offer-0003"}, reply.Acked)
			l := pulled(t, h)
			newest := l.newest["stock.md"]
			assert.Equal(t, tt.clash, newest.Clash)
			if tt.clash {
				for _, line := range []string{"- 4 kg bones\n", "- 2 kg bones\n"} {
					assert.Contains(t, newest.Text, line, "both versions are kept")
				}
			} else {
				assert.Equal(t, tt.want, newest.Text)
			}
			have := map[string]bool{}
			for i, f := range l.records {
				assert.Equal(t, dinner.Revision(f.Text), f.Revision)
				assert.NotEqual(t, f.Revision, f.Base, "a revision must not be made from itself")
				if i > 0 {
					assert.Greater(t, f.At, l.records[i-1].At, "times must increase")
				}
				have[f.Revision] = true
			}
			assert.True(t, have[dinner.Revision(tt.theirs)], "the edit itself stays, because a dinner may have pinned it")
			sync1(t, h, mine)
			assert.Equal(t, l, pulled(t, h), "the same offer again changes nothing")
		})
	}
}

func TestClashLastsUntilItIsEdited(t *testing.T) {
	h, _, _ := newHub(t)
	base := dinner.Revision(stock)
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, edited("3 kg", "4 kg")), offer("offer-0003", base, edited("3 kg", "2 kg"))))
	clash := pulled(t, h).newest["stock.md"]
	require.True(t, clash.Clash)
	other := strings.Replace(clash.Text, "500 g onions", "600 g onions", 1)
	sync1(t, h, request(t, offer("offer-0004", clash.Revision, other)))
	assert.True(t, pulled(t, h).newest["stock.md"].Clash, "an edit of other lines does not end it")
	sync1(t, h, request(t, offer("offer-0005", dinner.Revision(other), edited("3 kg", "4 kg"))))
	assert.False(t, pulled(t, h).newest["stock.md"].Clash)
}

func TestNewFilesOfOneNameAreMerged(t *testing.T) {
	h, _, _ := newHub(t)
	sync1(t, h, request(t, offer("offer-0001", "", "# Soup\n\nleeks\n")))
	sync1(t, h, request(t, offer("offer-0002", "", "# Soup\n\npeas\n")))
	sync1(t, h, request(t, offer("offer-0003", strings.Repeat("0", 24), "# Soup\n\nbeans\n"))) // made from a revision that the server does not have
	newest := pulled(t, h).newest["stock.md"]
	assert.True(t, newest.Clash)
	for _, line := range []string{"leeks\n", "peas\n", "beans\n"} {
		assert.Contains(t, newest.Text, line)
	}
}

func TestMergeOverSizeLimitIsRefused(t *testing.T) {
	h, s, _ := newHub(t)
	large := func(word string) string { return strings.Repeat(word+strings.Repeat("x", 100)+"\n", hub.MaxText/120) }
	sync1(t, h, request(t, offer("offer-0001", "", large("a"))))
	reply := sync1(t, h, request(t, offer("offer-0002", "", large("b"))))
	require.Len(t, reply.Refused, 1)
	assert.Contains(t, reply.Refused[0].Why, "copy your lines")
	require.NoError(t, s.View(func(tx *store.Tx) error { assert.EqualValues(t, 1, tx.Seq()); return nil }))
}

// The data file was restored from a backup, or is new. Phones send back every
// revision they have, and every text is there again.
func TestPhonesSendBackWhatARestoredFileLacks(t *testing.T) {
	h, s, _ := newHub(t)
	base := dinner.Revision(stock)
	sync1(t, h, request(t, tick(1, start), offer("offer-0001", "", stock)))
	path := filepath.Join(t.TempDir(), "backup.db")
	out, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, s.Backup(out))
	require.NoError(t, out.Close())
	sync1(t, h, request(t, tick(2, start), offer("offer-0002", base, edited("3 kg", "4 kg")), offer("offer-0003", base, edited("3 kg", "2 kg"))))
	before := pulled(t, h)
	require.True(t, before.newest["stock.md"].Clash)

	for name, path := range map[string]string{"a backup": path, "an empty one": filepath.Join(t.TempDir(), "empty.db")} {
		t.Run(name, func(t *testing.T) {
			restored, err := hub.New(storetest.Open(t, path, store.Options{}), func() time.Time { return start }, slog.New(slog.DiscardHandler))
			require.NoError(t, err)
			req := hub.Request{Device: "phone-a", Epoch: s.Epoch(), After: "2"}
			reply := sync1(t, restored, req)
			require.True(t, reply.Reset)
			req = request(t, tick(1, start), tick(2, start))
			for _, f := range before.records { // in the order of their time, as a phone does
				req.Files = append(req.Files, raw(t, offer("file-"+f.Revision, f.Base, f.Text)))
			}
			req.Epoch = reply.Epoch
			reply = sync1(t, restored, req)
			assert.Empty(t, reply.Refused)
			after := pulled(t, restored)
			assert.Equal(t, before.newest["stock.md"].Text, after.newest["stock.md"].Text)
			have := map[string]bool{}
			for _, f := range after.records {
				have[f.Revision] = true
			}
			for _, f := range before.records {
				assert.True(t, have[f.Revision])
			}
			sync1(t, restored, req) // as another phone does
			assert.Equal(t, after, pulled(t, restored))
		})
	}
}

// A phone's cursor may be past the newest text while its own edit waits. When the
// edit brings nothing new, the reply brings the newest text.
func TestReplyHasNewestRevisionOfOfferedFile(t *testing.T) {
	h, s, _ := newHub(t)
	base, newer := dinner.Revision(stock), edited("3 kg", "4 kg")
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, newer)))
	req := request(t, offer("file-"+base, "", stock))
	req.Epoch, req.After = s.Epoch(), "2"
	reply := sync1(t, h, req)
	assert.Equal(t, []string{"file-" + base}, reply.Acked)
	require.Len(t, reply.Files, 1)
	assert.Equal(t, newer, reply.Files[0].Text)
	req.After = "0"
	assert.Len(t, sync1(t, h, req).Files, 2, "the newest must not come twice")
}

// Phones may send revisions back in any order. A merged clash must not clash again.
func TestRevisionsSentBackInAnyOrderDoNotClashAgain(t *testing.T) {
	h, _, _ := newHub(t)
	base := dinner.Revision(stock)
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, edited("3 kg", "4 kg")), offer("offer-0003", base, edited("3 kg", "2 kg"))))
	before := pulled(t, h)
	require.True(t, before.newest["stock.md"].Clash)
	for turn := range before.records {
		anew, _, _ := newHub(t)
		for i := range before.records {
			f := before.records[(turn+i)%len(before.records)]
			sync1(t, anew, request(t, offer("file-"+f.Revision, f.Base, f.Text)))
		}
		was, is := before.newest["stock.md"].Text, pulled(t, anew).newest["stock.md"].Text
		if before.records[turn].Clash { // the server does not know yet that all were made from the first text
			assert.Contains(t, is, "- 3 kg bones\n")
			assert.Equal(t, 2, strings.Count(is, "The second:"), is)
			was = is
		}
		assert.Equal(t, was, is, "starting with revision %d", turn)
	}
}

func TestOldRevisionSentBackStaysOld(t *testing.T) {
	h, _, _ := newHub(t)
	base, newer := dinner.Revision(stock), edited("3 kg", "4 kg")
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, newer)))
	reply := sync1(t, h, request(t, offer("file-"+base, dinner.Revision(newer), stock)))
	assert.Equal(t, []string{"file-" + base}, reply.Acked)
	assert.Equal(t, newer, pulled(t, h).newest["stock.md"].Text)
}

func TestSeedRefusesWhatPhonesMayNotSend(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	open := dinner.Event{ID: "demo-0001", Dinner: "boathouse", Device: "hobside", Kind: dinner.KindOpen, Stamp: dinner.Stamp{Wall: 1},
		Open: &dinner.Open{Menu: "supper.md", Covers: 18, Files: map[string]string{"stock.md": dinner.Revision(stock)}}}
	s := storetest.Open(t, path, store.Options{New: func(tx *store.Tx) error {
		return hub.Seed(tx, start, "hobside", []hub.Offer{hub.SeedOffer("stock.md", stock)}, []dinner.Event{open})
	}})
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	reply := sync1(t, h, request(t))
	assert.Equal(t, []dinner.Event{open}, reply.Events)
	assert.Equal(t, stock, reply.Files[0].Text)

	bad := open
	bad.Open = nil
	assert.ErrorContains(t, s.Update(func(tx *store.Tx) error { return hub.Seed(tx, start, "hobside", nil, []dinner.Event{bad}) }), "names no menu")
	other := open
	other.Text = "another"
	assert.Error(t, s.Update(func(tx *store.Tx) error { return hub.Seed(tx, start, "hobside", nil, []dinner.Event{other}) }))
}
