package dinner

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// A history is a dinner of two to six phones and one server, which are offline
// most of the time. What a phone sends may be lost, or arrive twice, in any
// order, hours late; clocks are wrong by up to a year and jump.
type history struct {
	chance *rand.Rand
	now    int64 // the true time
	skew   int64 // of the server's clock
	newest Stamp
	log    []Event // of the server: final stamps, each event once
	phones []*historyPhone
	made   int
}

type historyPhone struct {
	name   string
	skew   int64
	clock  deviceClock
	known  map[string]Event
	outbox []string
	read   int // of the server's log
	own    []string
}

const aYear = 365 * 24 * 3600 * 1000

// make is one phone doing something: any kind there is, an undo now and then.
func (h *history) make(p *historyPhone) {
	h.made++
	kind := kinds[h.chance.IntN(len(kinds))]
	ev := sound(kind)
	ev.ID, ev.Dinner, ev.Device = fmt.Sprintf("event-%06d", h.made), "boathouse", p.name
	if ev.Kind == KindTick {
		ev.On, ev.Done = StepKey("stock", 1, 1+h.chance.IntN(3)), h.chance.IntN(3) > 0
	}
	if ev.Kind == KindUndo {
		if len(p.own) == 0 {
			return
		}
		ev.Undo = p.own[h.chance.IntN(len(p.own))]
	}
	ev.Stamp = p.clock.next(h.now + p.skew)
	p.known[ev.ID] = ev
	p.outbox = append(p.outbox, ev.ID)
	p.own = append(p.own, ev.ID)
}

// meet is one exchange between a phone and the server. When the reply is lost,
// the phone does not see what the server did.
func (h *history) meet(p *historyPhone, answered bool) {
	sent := slices.Clone(p.outbox)
	h.chance.Shuffle(len(sent), func(i, j int) { sent[i], sent[j] = sent[j], sent[i] })
	sent = sent[:h.chance.IntN(len(sent)+1)] // a page of it
	for _, id := range sent {
		if slices.ContainsFunc(h.log, func(ev Event) bool { return ev.ID == id }) {
			continue // a repeat
		}
		ev := p.known[id]
		ev.Stamp, _ = Final(ev.Stamp, h.now+h.skew, h.newest)
		if ev.Stamp.Compare(h.newest) > 0 {
			h.newest = ev.Stamp
		}
		h.log = append(h.log, ev)
	}
	if !answered {
		return
	}
	p.outbox = slices.DeleteFunc(p.outbox, func(id string) bool { return slices.Contains(sent, id) })
	for _, ev := range h.log[p.read:] {
		p.known[ev.ID] = ev
		p.clock.observe(ev.Stamp)
	}
	p.read = len(h.log)
	for _, id := range sent { // its own, restamped, though it may have read past it
		i := slices.IndexFunc(h.log, func(ev Event) bool { return ev.ID == id })
		p.known[id] = h.log[i]
	}
}

func runHistory(t *testing.T, seed uint64) {
	h := &history{chance: rand.New(rand.NewPCG(seed, 6)), now: 1_778_000_000_000}
	for i := range 2 + h.chance.IntN(5) {
		p := &historyPhone{name: "phone-" + strconv.Itoa(i), known: map[string]Event{}}
		p.skew = []int64{0, 0, 90_000, -3600_000, aYear, -aYear}[h.chance.IntN(6)]
		h.phones = append(h.phones, p)
	}
	for range 10 + h.chance.IntN(30) {
		p := h.phones[h.chance.IntN(len(h.phones))]
		h.now += int64(h.chance.IntN(60_000))
		switch h.chance.IntN(10) {
		case 0:
			h.skew = int64(h.chance.IntN(7_200_000)) - 3_600_000 // the server's clock is set
		case 1:
			p.skew = int64(h.chance.IntN(7_200_000)) - 3_600_000
		case 2, 3:
			h.meet(p, h.chance.IntN(3) > 0)
		default:
			h.make(p)
		}
	}
	for range 2 { // at the end all are online; the second round sends on what the last phone of the first round brought
		for _, p := range h.phones {
			for len(p.outbox) > 0 {
				h.meet(p, true)
			}
			h.meet(p, true)
		}
	}
	made := 0
	want := Fold(h.log)
	for _, p := range h.phones {
		made += len(p.own)
		require.Len(t, p.known, len(h.log), "seed %d: %s lacks something", seed, p.name)
		events := make([]Event, 0, len(p.known))
		for _, ev := range p.known { // in the random order of a map
			events = append(events, ev)
		}
		events = append(events, events[:len(events)/3]...) // and some twice
		require.Equal(t, want, Fold(events), "seed %d: %s folds otherwise", seed, p.name)
	}
	require.Len(t, h.log, made, "seed %d: something that was made is gone", seed)
	h.nothingVanished(t, seed, want)
}

// nothingVanished looks for every weight, temperature and note that nobody took
// back, and that no restamped event is more than five minutes ahead of all clocks.
func (h *history) nothingVanished(t *testing.T, seed uint64, s *State) {
	standing := Standing(h.log)
	count := map[Kind]int{}
	ticked := map[string]string{}
	for _, ev := range standing {
		count[ev.Kind]++
		if ev.Kind == KindTick {
			ticked[ev.On] = ev.ID
		}
		require.LessOrEqual(t, ev.Stamp.Wall, h.now+3_600_000+2*MaxAhead, "seed %d: %s is stamped beyond every server clock", seed, ev.ID)
	}
	weights, temps := 0, 0
	for _, m := range s.Measures {
		weights += len(m)
	}
	for _, m := range s.Temps {
		temps += len(m)
	}
	require.Equal(t, count[KindMeasure], weights, "seed %d: weights", seed)
	require.Equal(t, count[KindTemperature], temps, "seed %d: temperatures", seed)
	require.Len(t, s.Notes, count[KindNote], "seed %d: notes", seed)
	require.Len(t, s.Ticks, len(ticked), "seed %d: ticks", seed)
	for on, id := range ticked {
		require.Equal(t, id, s.Ticks[on].Event, "seed %d: the last word on %s", seed, on)
	}
}

// Phones that have all synced at the end have the same state, and no weight,
// temperature or note is lost, whatever happened between them. The long run has
// a hundred thousand dinners. HOBSIDE_SEED runs one of them again.
func TestHistories(t *testing.T) {
	if word := os.Getenv("HOBSIDE_SEED"); word != "" {
		seed, err := strconv.ParseUint(word, 10, 64)
		require.NoError(t, err)
		runHistory(t, seed)
		return
	}
	runs := 3000
	if os.Getenv("HOBSIDE_LONG") != "" {
		runs = 100_000
	}
	first := rand.Uint64()
	t.Logf("%d histories from seed %d", runs, first)
	for i := range uint64(runs) {
		runHistory(t, first+i)
	}
}
