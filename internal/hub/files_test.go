package hub_test

import (
	"fmt"
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

// beside returns the texts that wait beside the newest one of stock.md.
func (l library) beside() (texts []string) {
	p := newPhone("phone-z")
	for _, f := range l.records {
		p.files[f.Revision] = f
	}
	p.newest["stock.md"] = l.newest["stock.md"].Revision
	for _, r := range p.waiting("stock.md") {
		texts = append(texts, p.files[r].Text)
	}
	return texts
}

func pulled(t require.TestingT, h *hub.Hub) library {
	l := library{newest: map[string]hub.FileRecord{}}
	reply := sync1(t, h, hub.Request{Device: "phone-z", After: "0"})
	for {
		for _, f := range reply.Files {
			if f.Beside == "" {
				l.newest[f.Name] = f
			}
			l.records = append(l.records, f)
		}
		if !reply.More {
			return l
		}
		reply = sync1(t, h, hub.Request{Device: "phone-z", Epoch: reply.Epoch, After: reply.Next, Chain: &reply.Chain})
	}
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
			if tt.clash {
				assert.Equal(t, []string{"offer-0003"}, reply.Clashed)
				assert.Equal(t, tt.ours, newest.Text, "nothing is written into the text")
				assert.Equal(t, []string{tt.theirs}, l.beside())
			} else {
				assert.Empty(t, reply.Clashed)
				assert.Equal(t, tt.want, newest.Text)
				assert.Empty(t, l.beside())
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

// TestVersionWaitsUntilSomebodyChooses: two versions stay beside each other, whatever
// else is edited, until a text is saved that settles them.
func TestVersionWaitsUntilSomebodyChooses(t *testing.T) {
	base, four, two := dinner.Revision(stock), edited("3 kg", "4 kg"), edited("3 kg", "2 kg")
	clashed := func(t *testing.T) *hub.Hub {
		h, _, _ := newHub(t)
		sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, four), offer("offer-0003", base, two)))
		require.Equal(t, []string{two}, pulled(t, h).beside())
		return h
	}
	choose := func(id, base, text string, settles ...string) hub.Offer {
		o := offer(id, base, text)
		for _, s := range settles {
			o.Settles = append(o.Settles, dinner.Revision(s))
		}
		return o
	}
	t.Run("an edit of the newest settles nothing", func(t *testing.T) {
		h := clashed(t)
		sync1(t, h, request(t, offer("offer-0004", dinner.Revision(four), strings.Replace(four, "500 g", "600 g", 1))))
		assert.Equal(t, []string{two}, pulled(t, h).beside())
	})
	t.Run("an edit of the other takes its place", func(t *testing.T) {
		h := clashed(t)
		edit := strings.Replace(two, "500 g", "600 g", 1)
		reply := sync1(t, h, request(t, offer("offer-0004", dinner.Revision(two), edit)))
		assert.Equal(t, []string{"offer-0004"}, reply.Clashed)
		assert.Equal(t, four, pulled(t, h).newest["stock.md"].Text)
		assert.Equal(t, []string{edit}, pulled(t, h).beside())
	})
	for name, text := range map[string]string{"the newest": four, "the other": two, "a third text": edited("3 kg", "3.5 kg")} {
		t.Run("chosen: "+name, func(t *testing.T) {
			h := clashed(t)
			req := request(t, choose("offer-0004", dinner.Revision(four), text, two))
			for range 2 { // a repeat is harmless
				reply := sync1(t, h, req)
				assert.Equal(t, []string{"offer-0004"}, reply.Acked)
				assert.Empty(t, reply.Clashed)
			}
			l := pulled(t, h)
			assert.Equal(t, text, l.newest["stock.md"].Text)
			assert.Empty(t, l.beside())
		})
	}
}

func TestNewFilesOfOneNameStandBesideEachOther(t *testing.T) {
	h, _, _ := newHub(t)
	sync1(t, h, request(t, offer("offer-0001", "", "# Soup\n\nleeks\n")))
	sync1(t, h, request(t, offer("offer-0002", "", "# Soup\n\npeas\n")))
	sync1(t, h, request(t, offer("offer-0003", strings.Repeat("0", 24), "# Soup\n\nbeans\n"))) // made from a revision that the server does not have
	l := pulled(t, h)
	assert.Equal(t, "# Soup\n\nleeks\n", l.newest["stock.md"].Text)
	assert.ElementsMatch(t, []string{"# Soup\n\npeas\n", "# Soup\n\nbeans\n"}, l.beside())
}

// TestMergeOverSizeLimitIsLeftToPeople: both texts are within the limit, their merge is
// not.
func TestMergeOverSizeLimitIsLeftToPeople(t *testing.T) {
	h, _, _ := newHub(t)
	large := func(word string) string { return strings.Repeat(word+strings.Repeat("x", 100)+"\n", hub.MaxText/120) }
	base := "a\nb\n"
	sync1(t, h, request(t, offer("offer-0001", "", base)))
	sync1(t, h, request(t, offer("offer-0002", dinner.Revision(base), large("y")+base)))
	reply := sync1(t, h, request(t, offer("offer-0003", dinner.Revision(base), base+large("z"))))
	assert.Equal(t, []string{"offer-0003"}, reply.Clashed)
	assert.Equal(t, large("y")+base, pulled(t, h).newest["stock.md"].Text)
}

// TestFileDoesNotGrowByCopies: many edits of one large card, clean or clashing, add
// little more than what was written.
func TestFileDoesNotGrowByCopies(t *testing.T) {
	h, s, _ := newHub(t)
	var card strings.Builder
	for i := range 6000 {
		fmt.Fprintf(&card, "- %d g of item number %d, in a long line of the formula\n", i, i)
	}
	text := card.String()
	sync1(t, h, request(t, offer("offer-0001", "", text)))
	before, err := os.Stat(s.Path())
	require.NoError(t, err)
	base := dinner.Revision(text)
	for n := range 60 { // every second one clashes with the first
		line := fmt.Sprintf("- %d g of item", n/2*2*40)
		req := request(t, offer(fmt.Sprintf("edit-%05d", n), base, strings.Replace(text, line, fmt.Sprint(line, " ", n, ":"), 1)))
		end, _ := h.Watch()
		req.Epoch, req.After, req.Chain = end.Epoch, fmt.Sprint(end.Seq), &end.Chain
		sync1(t, h, req)
	}
	after, err := os.Stat(s.Path())
	require.NoError(t, err)
	assert.Less(t, after.Size()-before.Size(), int64(5*len(text)), "60 edits of a card of %d bytes", len(text))
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
	require.Len(t, before.beside(), 1)

	for name, path := range map[string]string{"a backup": path, "an empty one": filepath.Join(t.TempDir(), "empty.db")} {
		t.Run(name, func(t *testing.T) {
			restored, err := hub.New(storetest.Open(t, path, store.Options{}), func() time.Time { return start }, slog.New(slog.DiscardHandler))
			require.NoError(t, err)
			req := hub.Request{Device: "phone-a", Epoch: s.Epoch(), After: "2"}
			reply := sync1(t, restored, req)
			require.True(t, reply.Reset)
			req = request(t, tick(1, start), tick(2, start))
			for _, f := range before.records { // in the order of their time, as a phone does
				req.Files = append(req.Files, raw(t, sentBack(f)))
			}
			req.Epoch = reply.Epoch
			reply = sync1(t, restored, req)
			assert.Empty(t, reply.Refused)
			after := pulled(t, restored)
			assert.Equal(t, before.newest["stock.md"].Text, after.newest["stock.md"].Text)
			assert.Equal(t, before.beside(), after.beside())
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

// sentBack returns a revision as a phone sends it back to another data file.
func sentBack(f hub.FileRecord) hub.Offer {
	return hub.Offer{ID: "file-" + f.Revision, Name: f.Name, Base: f.Base, Text: f.Text, Beside: f.Beside + f.Awaits, Settles: f.Settles}
}

// TestRevisionsSentBackInAnyOrderStandAsBefore: the newest text stays the newest, what
// waited beside it waits, and what was settled does not wait again.
func TestRevisionsSentBackInAnyOrderStandAsBefore(t *testing.T) {
	base, four, two := dinner.Revision(stock), edited("3 kg", "4 kg"), edited("3 kg", "2 kg")
	for name, more := range map[string][]any{
		"waiting":                nil,
		"settled by the newest":  {hub.Offer{ID: "offer-0004", Name: "stock.md", Base: dinner.Revision(four), Text: four, Settles: []string{dinner.Revision(two)}}},
		"settled by the other":   {hub.Offer{ID: "offer-0004", Name: "stock.md", Base: dinner.Revision(four), Text: two, Settles: []string{dinner.Revision(two)}}},
		"settled by a third one": {hub.Offer{ID: "offer-0004", Name: "stock.md", Base: dinner.Revision(four), Text: edited("3 kg", "5 kg"), Settles: []string{dinner.Revision(two)}}},
	} {
		t.Run(name, func(t *testing.T) {
			h, _, _ := newHub(t)
			sync1(t, h, request(t, append([]any{offer("offer-0001", "", stock), offer("offer-0002", base, four), offer("offer-0003", base, two)}, more...)...))
			before := pulled(t, h)
			latest := map[string]hub.FileRecord{} // a phone keeps one of each revision
			var order []string
			for _, f := range before.records {
				if _, known := latest[f.Revision]; !known {
					order = append(order, f.Revision)
				}
				latest[f.Revision] = f
			}
			for turn := range order {
				anew, _, _ := newHub(t)
				for i := range order {
					sync1(t, anew, request(t, sentBack(latest[order[(turn+i)%len(order)]])))
				}
				after := pulled(t, anew)
				assert.Equal(t, before.newest["stock.md"].Text, after.newest["stock.md"].Text, "starting with revision %d", turn)
				assert.Equal(t, before.beside(), after.beside(), "starting with revision %d", turn)
			}
		})
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

// TestVersionWhoseNewestIsGoneIsTheNewest: after an older file came back, a phone has only
// the version that was beside another one, which is on no server any more.
func TestVersionWhoseNewestIsGoneIsTheNewest(t *testing.T) {
	h, _, _ := newHub(t)
	two, gone := edited("3 kg", "2 kg"), dinner.Revision("gone")
	back := hub.Offer{ID: "file-" + dinner.Revision(two), Name: "stock.md", Base: dinner.Revision(stock), Text: two, Beside: gone}
	sync1(t, h, request(t, back))
	sync1(t, h, request(t, offer("file-"+dinner.Revision(stock), "", stock)))
	l := pulled(t, h)
	assert.Equal(t, two, l.newest["stock.md"].Text)
	assert.Equal(t, gone, l.newest["stock.md"].Awaits)
	assert.Empty(t, l.beside())
	sync1(t, h, request(t, offer("offer-0001", dinner.Revision(two), edited("3 kg", "1 kg"))))
	l = pulled(t, h)
	assert.Equal(t, edited("3 kg", "1 kg"), l.newest["stock.md"].Text)
	assert.Empty(t, l.beside())
}

// A cook chose the version beside the newest as it was, so the phone's record of it
// settles itself. The server lost that choice with its data file.
func TestVersionDoesNotSettleItself(t *testing.T) {
	h, _, _ := newHub(t)
	four, two := edited("3 kg", "4 kg"), edited("3 kg", "2 kg")
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", dinner.Revision(stock), four)))
	back := hub.Offer{ID: "file-" + dinner.Revision(two), Name: "stock.md", Base: dinner.Revision(stock), Text: two,
		Beside: dinner.Revision(four), Settles: []string{dinner.Revision(two)}}
	for range 2 { // also when the reply was lost
		assert.Equal(t, []string{back.ID}, sync1(t, h, request(t, back)).Clashed)
	}
	assert.Equal(t, []string{two}, pulled(t, h).beside())
}

// A phone wrote a text and then chose it as it was, all while another changed the same
// lines: the text waits beside the newest, and is not made from itself.
func TestVersionIsNotMadeFromItself(t *testing.T) {
	h, _, _ := newHub(t)
	base, four, two := dinner.Revision(stock), edited("3 kg", "4 kg"), edited("3 kg", "2 kg")
	sync1(t, h, request(t, offer("offer-0001", "", stock), offer("offer-0002", base, four)))
	chosen := offer("offer-0004", dinner.Revision(two), two)
	chosen.Settles = []string{dinner.Revision("gone")}
	req := request(t, offer("offer-0003", base, two), chosen)
	for range 2 { // also when the reply was lost
		assert.Equal(t, []string{"offer-0003", "offer-0004"}, sync1(t, h, req).Clashed)
	}
	assert.Equal(t, []string{two}, pulled(t, h).beside())
}
