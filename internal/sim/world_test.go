package sim

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/cryptotest"
	"time"
)

// A world is one run: everything in it follows from its seed.
type world struct {
	chance  *rand.Rand
	now     time.Time // the right time
	dir     string
	faults  map[fault]bool // that may happen in this run
	heavy   bool           // cards are long in this run, so that the log does not fit into a reply
	servers []*server
	phones  []*phone
	made    int      // ids so far
	traced  bool     // the trace is wanted
	trace   []string // what happened, in words
	counts  map[string]int
	brains  func(w *world, name string) brain // of the phones
	events  map[string]bool                   // ids of all events that were made
}

// A red is how a run ends that breaks a property.
type red struct{ why string }

// fail ends the run.
func (w *world) fail(format string, args ...any) {
	why := fmt.Sprintf(format, args...)
	if len(why) > 1000 {
		why = why[:1000] + "…"
	}
	panic(red{why})
}

// must ends the run when there is an error.
func (w *world) must(err error, what string) {
	if err != nil {
		w.fail("%s: %v", what, err)
	}
}

// equal ends the run when a value is not the one wanted.
func (w *world) equal(want, have any, format string, args ...any) {
	if want != have {
		w.fail("want %v, have %v: %s", want, have, fmt.Sprintf(format, args...))
	}
}

// note adds a line to the trace.
func (w *world) note(format string, args ...any) {
	if w.traced {
		w.trace = append(w.trace, fmt.Sprintf(format, args...))
	}
}

// count counts something that happened, for the summary.
func (w *world) count(what string) { w.counts[what]++ }

// odds reports true once in n times.
func (w *world) odds(n int) bool { return w.chance.IntN(n) == 0 }

// split returns a source of chance for something that may draw more or less often, so that
// all that comes after it stays the same.
func (w *world) split() *rand.Rand { return rand.New(rand.NewPCG(w.chance.Uint64(), 12)) }

// pick returns one of some values.
func pick[T any](w *world, from []T) T { return from[w.chance.IntN(len(from))] }

// id returns a new id of 26 letters, as the page makes them.
func (w *world) id(kind string) string {
	w.made++
	return fmt.Sprintf("%s%0*d", strings.ToUpper(kind), 26-len(kind), w.made)
}

// run makes the run of a seed. It returns what happened, and why the run is red, "" when
// it is green. The folder of a red run stays, with its data files. What the seed does not
// decide is on which free page of its file bbolt writes: it asks a Go map.
func run(t *testing.T, seed uint64, faults map[fault]bool, brains func(*world, string) brain, traced bool) (w *world, why string) {
	w = &world{chance: rand.New(rand.NewPCG(seed, 12)), faults: map[fault]bool{}, counts: map[string]int{}, events: map[string]bool{}, brains: brains, traced: traced,
		now: time.Date(2027, 6, 12, 9, 0, 0, 0, time.UTC)}
	cryptotest.SetGlobalRandom(t, seed) // epochs, codes and secrets
	for _, f := range allFaults {       // not all in every run, so that some run long without the worst
		if faults[f] && w.chance.IntN(3) > 0 {
			w.faults[f] = true
		}
	}
	w.heavy = w.odds(100)
	var err error
	if w.dir, err = os.MkdirTemp(fastFolder(), "hobside-sim-*"); err != nil {
		return w, err.Error()
	}
	defer func() {
		if why == "" {
			os.RemoveAll(w.dir)
		}
	}()
	defer func() {
		if r := recover(); r != nil {
			broken, ok := r.(red)
			if !ok {
				panic(r)
			}
			why = broken.why
		}
		for _, s := range w.servers {
			if s.store != nil {
				s.store.Close()
			}
		}
	}()
	w.begin()
	for range 20 + w.chance.IntN(60) {
		w.now = w.now.Add(time.Duration(w.chance.IntN(30_000)) * time.Millisecond)
		w.step()
	}
	w.settle()
	return w, ""
}

// fastFolder returns a folder in memory where the system has one: the runs sync
// thousands of files.
func fastFolder() string {
	if info, err := os.Stat("/dev/shm"); err == nil && info.IsDir() {
		return "/dev/shm"
	}
	return ""
}

// begin makes the servers and the phones.
func (w *world) begin() {
	n := 1
	if w.faults[twoServers] {
		n = 2
	}
	for i := range n {
		s := &server{w: w, path: filepath.Join(w.dir, fmt.Sprintf("server-%d.db", i)), roles: map[string]string{}, acked: map[string]bool{}}
		s.forget()
		w.servers = append(w.servers, s)
		w.must(s.open(), "start a server")
	}
	for i := range 3 + w.chance.IntN(3) {
		p := &phone{name: fmt.Sprintf("phone-%d", i), role: pick(w, []string{"cook", "cook", "helper"}), cookies: map[*server]string{}, ids: map[*server]string{}}
		if i == 0 {
			p.role = "cook"
		}
		if w.faults[clocks] {
			p.skew = pick(w, []time.Duration{0, time.Second, -time.Hour, 7 * time.Minute, 365 * 24 * time.Hour})
		}
		p.brain = w.brains(w, p.name)
		w.phones = append(w.phones, p)
		for _, s := range w.servers {
			w.pair(p, s)
		}
	}
}

// A phone is a phone: who holds it, where it is, and what is on its way to it.
type phone struct {
	name    string
	brain   brain
	skew    time.Duration
	role    string // of its pairings
	at      int    // the server that its network leads to
	gone    bool   // revoked for good
	cookies map[*server]string
	ids     map[*server]string // its device's id
	stale   [][]byte           // requests sent earlier
	news    [][]byte           // messages of the stream on their way
}

// clock returns the time that the phone's clock shows, Unix milliseconds.
func (w *world) clock(p *phone) int64 { return w.now.Add(p.skew).UnixMilli() }

// server returns the server that a phone's network leads to.
func (w *world) server(p *phone) *server { return w.servers[p.at] }
