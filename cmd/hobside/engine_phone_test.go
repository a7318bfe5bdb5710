//go:build browser

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestStampsOfThePageFollowTheGoRule runs the page's stamp.js over the vectors
// that internal/dinner is tested with.
func TestStampsOfThePageFollowTheGoRule(t *testing.T) {
	t.Parallel()
	vectors, err := os.ReadFile("../../testdata/stamps.json")
	require.NoError(t, err)
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(r.url)
	assert.Equal(t, "16 tested", p.eval(`import("/app/stamp.js").then(({ next, later }) => {
		const v = `+string(vectors)+`, wrong = [];
		for (const { name, now, last, want } of v.next) {
			const got = next(now, last);
			if (got.wall !== want.wall || got.count !== want.count) wrong.push("next, " + name + ": " + JSON.stringify(got));
		}
		for (const { name, a, b, want } of v.later) if (later(a, b) !== want) wrong.push("later, " + name);
		return wrong.join("; ") || v.next.length + v.later.length + " tested";
	})`))
}

func TestSpansAreNotRoundedAway(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(r.url)
	assert.Equal(t, "", p.eval(`import("/app/words.js").then(({ span }) => {
		const s = 1000, min = 60 * s, h = 60 * min, d = 24 * h, wrong = [];
		for (const [ms, want] of [[0, "0 min"], [20 * s, "under 1 min"], [-20 * s, "under 1 min"], [min, "1 min"], [45 * min, "45 min"],
			[h, "1 h"], [4 * h + 10 * min, "4 h 10 min"], [47 * h + 59 * min, "47 h 59 min"], [48 * h, "2 d"], [60 * h, "2 d 12 h"],
			[71.6 * h, "3 d"], [13 * d + 23 * h, "13 d 23 h"], [196 * d + 2 * h, "196 d"]])
			if (span(ms) !== want) wrong.push(want + " is " + span(ms));
		return wrong.join("; ");
	})`))
}

// TestTicksArriveWithoutTheEngine refuses the engine's file to a phone that has
// been here before: a tick still reaches the server and another phone's tick
// is still shown.
func TestTicksArriveWithoutTheEngine(t *testing.T) {
	t.Parallel()
	addr, data, r, p := visited(t)
	p.see("#done")
	p.kept()
	require.NoError(t, r.stop())
	files := restyled(t).(fstest.MapFS)
	for name := range files {
		if strings.HasPrefix(name, "engine.wasm") {
			delete(files, name)
		}
	}
	stop := released(t, addr, data, files)
	assert.Equal(t, "true", p.eval(`caches.keys().then((all) => caches.open(all[0])).then((cache) => cache.delete("/engine.wasm"))`))
	p.reload()
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/1')`)
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)
	p.until(`(window.loaded ??= import("/app/ask.js").then(({ engine }) => window.engine = engine)) && window.engine?.value.includes('could not be loaded')`)
	p.visit(hash(r, stock))
	p.synced()
	stop()

	r = serveAt(t, addr, data)
	reply := r.pull(t)
	assert.True(t, done(reply, firstStep))
	for _, ev := range reply.Events {
		if ev.On == firstStep {
			assert.Positive(t, ev.Stamp.Wall)
		}
	}
	other := newPhone(t)
	other.cookable(r)
	other.visit(hash(r, stock))
	other.tap(`[data-key="light-chicken-stock#1/mise/2"] label`)
	p.until(fmt.Sprintf(`document.querySelector('input[data-tick=%q]')?.checked`, "light-chicken-stock#1/mise/2"))
}

// TestAClockAheadIsPutRight ticks on a phone whose clock is a year ahead: the
// server's stamp is adopted, and later ticks are stamped after it and not after
// the wrong one.
func TestAClockAheadIsPutRight(t *testing.T) {
	t.Parallel()
	_, p := atTheStove(t)
	p.sent()
	p.eval(`import("/app/db.js").then(({ meta }) => { meta.offset = 365 * 86_400_000; })`)
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)
	p.sent()
	const ahead = `import("/app/db.js").then(async ({ db, meta }) => [meta.last, ...(await (await db()).getAll("events")).map((ev) => ev.stamp)].filter((s) => s.wall > Date.now() + 86_400_000).length)`
	assert.Equal(t, "0", p.eval(ahead))
}

// sent waits on any screen until the server has acknowledged everything.
func (p *phone) sent() {
	p.t.Helper()
	p.eval(`Promise.all([import("/app/events.js"), import("/app/server.js")]).then(async ([{ waiting, writing }, { net }]) => {
		while (waiting.value || writing.value || net.value !== "on") await new Promise((again) => setTimeout(again, 20));
	})`)
}

// stoppingWorker is the app with an engine that stops over the words "stops the
// engine", as a real one does when it runs out of memory.
func stoppingWorker(t *testing.T) fstest.MapFS {
	t.Helper()
	files := restyled(t).(fstest.MapFS)
	worker := files["app/worker.js"]
	require.NotNil(t, worker)
	worker.Data = append(worker.Data, `
const honest = self.onmessage;
self.onmessage = (event) => {
  const { method, json } = event.data;
  if (method !== 'revision' && json.includes('stops the engine')) throw new Error('out of memory');
  honest(event);
};
`...)
	return files
}

// TestAFileThatStopsTheEngineIsLeftOut saves a card that the engine stops over:
// the engine starts again without the card and names it, and everything else
// works. When the card is corrected, it is read again.
func TestAFileThatStopsTheEngineIsLeftOut(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data) // its demo
	require.NoError(t, r.stop())
	defer released(t, addr, data, stoppingWorker(t))()
	p := newUnusedPhone(t)
	p.cookable(r)
	save := func(text string) {
		p.eval(fmt.Sprintf(`import("/app/library.js").then(({ saveFile, newest }) => newest("odd.md").then((was) => saveFile("odd.md", was?.revision ?? "", %q)).catch(() => {}))`, text))
	}
	const left = `import("/app/library.js").then(({ library }) => library.value.problems.filter((f) => f.msg.includes("stopped the engine")).map((f) => f.file).join())`
	stays := func(want string) {
		p.until(fmt.Sprintf(`(%s.then((is) => { window.left = is; }), window.left === %q) && (import("/app/ask.js").then(({ engine }) => { window.state = engine.value; }), window.state === "ready")`, left, want))
	}
	save("# Odd\n\nIt stops the engine.\n")
	stays("odd.md")
	p.visit(hash(r, "s/boathouse"))
	p.tap("#covers-more")
	p.until(`document.querySelector('#covers').dataset.value === '19' && document.querySelector('#dinner').dataset.covers === '19'`)
	p.until(`(import("/app/state.js").then(({ dinner }) => { window.counted = dinner.value?.covers; }), window.counted === 19)`) // by the engine
	p.visit(hash(r, "cards"))
	p.see(`main a[data-file="odd.md"]`)
	p.shot("left-out")

	p.reload()
	stays("odd.md") // and it is not tried again

	save("# Odd\n\nIt is mended.\n")
	stays("")
}

// TestAPageThatEndedOverAFileLeavesItOut opens the app after its page ended
// while the engine read one file alone.
func TestAPageThatEndedOverAFileLeavesItOut(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.eval(`Promise.all([import("/app/library.js"), import("/app/suspects.js")]).then(async ([{ newest }, { reading }]) => {
		const { text } = await newest("herb-oil.md");
		addEventListener("pagehide", () => reading([{ name: "herb-oil.md", text }])); // a page that ends does not remove the mark
	})`)
	p.reload()
	p.until(`(import("/app/library.js").then(({ library }) => { window.left = library.value?.problems.find((f) => f.msg.includes("stopped the engine"))?.file; }), window.left === "herb-oil.md")`)
	p.visit(hash(r, "s/boathouse"))
	p.until(`document.querySelector('#dinner .problems')?.textContent.includes('herb-oil.md')`)
	p.visit(hash(r, "card/herb-oil.md/edit"))
	p.see("textarea")
}
