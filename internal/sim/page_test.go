//go:build browser

package sim

import (
	"bufio"
	"encoding/json"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// pages are phones whose brain is the page's own modules, under Node.
type pages struct {
	in    io.Writer
	out   *bufio.Reader
	count int // phones of this run so far
}

// startNode starts Node with page.mjs.
func startNode(t *testing.T) *pages {
	folder, err := filepath.Abs("../../static")
	require.NoError(t, err)
	database, err := filepath.Abs("../../bin/npm/node_modules/fake-indexeddb")
	require.NoError(t, err)
	cmd := exec.Command("node", "page.mjs", folder, database)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { in.Close(); cmd.Process.Kill(); cmd.Wait() })
	return &pages{in: in, out: bufio.NewReaderSize(out, 1<<20)}
}

// brain begins a new phone.
func (n *pages) brain(w *world, device string) brain {
	p := &pagePhone{n: n, w: w, number: n.count}
	n.count++
	p.ask(map[string]any{"do": "begin", "device": device, "seed": device})
	return p
}

// A pagePhone is a phone of the page's own modules.
type pagePhone struct {
	n      *pages
	w      *world
	number int
}

// An answer is what a phone under Node says.
type answer struct {
	Error, ID, Text, Body, Epoch, After, Chain string
	Over                                       []string
	More, Fetch                                bool
	holding
}

func (p *pagePhone) ask(q map[string]any) (a answer) {
	q["phone"] = p.number
	b, err := json.Marshal(q)
	p.w.must(err, "write a question")
	_, err = p.n.in.Write(append(b, '\n'))
	p.w.must(err, "ask Node")
	line, err := p.n.out.ReadBytes('\n')
	p.w.must(err, "hear from Node")
	p.w.must(json.Unmarshal(line, &a), "read an answer")
	if a.Error != "" {
		p.w.fail("the page: %s", a.Error)
	}
	return a
}

func (p *pagePhone) make(_ string, now int64, ev dinner.Event) string {
	return p.ask(map[string]any{"do": "make", "now": now, "event": ev}).ID
}

func (p *pagePhone) edit(_ string, now int64, name, text string) string {
	return p.ask(map[string]any{"do": "edit", "now": now, "name": name, "text": text}).ID
}

func (p *pagePhone) choose(_ string, now int64, name, text string, over []string) string {
	return p.ask(map[string]any{"do": "edit", "now": now, "name": name, "text": text, "over": over}).ID
}

func (p *pagePhone) newest(name string) (text string, beside []string) {
	a := p.ask(map[string]any{"do": "newest", "name": name})
	return a.Text, a.Over
}

func (p *pagePhone) request(now int64) []byte {
	return []byte(p.ask(map[string]any{"do": "request", "now": now}).Body)
}

func (p *pagePhone) take(now int64, status int, body []byte) (more bool) {
	return p.ask(map[string]any{"do": "take", "now": now, "status": status, "body": string(body)}).More
}

func (p *pagePhone) lost() { p.ask(map[string]any{"do": "lost"}) }

func (p *pagePhone) cursor() (epoch, after, chain string) {
	a := p.ask(map[string]any{"do": "cursor"})
	return a.Epoch, a.After, a.Chain
}

func (p *pagePhone) hear(message []byte) (fetch bool) {
	return p.ask(map[string]any{"do": "hear", "message": string(message)}).Fetch
}

func (p *pagePhone) holds() holding { return p.ask(map[string]any{"do": "holds"}).holding }

// pageFaults are those of the runs with the page's own modules.
var pageFaults = usual

// TestPageInTheSimulation makes 15 runs with the page's own modules under Node, in the
// long run 300.
func TestPageInTheSimulation(t *testing.T) {
	runs := 15
	if os.Getenv("HOBSIDE_LONG") != "" {
		runs = 300
	}
	if *someRuns > 0 {
		runs = *someRuns
	}
	faults := pageFaults
	if *onlySome != "" {
		faults = chosen()
	}
	n := startNode(t)
	for i := range runs {
		seed := rand.Uint64()
		if *oneSeed != 0 {
			seed, runs = *oneSeed, 1
		}
		if i >= runs {
			break
		}
		n.count = 0
		w, why := run(t, seed, faults, n.brain, *oneSeed != 0)
		if *oneSeed != 0 {
			t.Log(strings.Join(w.trace, "\n"))
		}
		require.Empty(t, why, "the same run again: go test -tags browser ./internal/sim -run TestPageInTheSimulation -v -sim.seed %d -sim.faults %s\nthe data files are in %s", seed, faultList(faults), w.dir)
	}
}
