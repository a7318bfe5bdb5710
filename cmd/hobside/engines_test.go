//go:build browser

package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/browser"
	"hobside/internal/dinner"
)

// mise is a line of the stock's mise en place, by its number.
func mise(n int) string { return "light-chicken-stock#1/mise/" + strconv.Itoa(n) }

const (
	ticked    = `document.querySelector('input[data-tick="' + args[0] + '"]')?.checked`
	unticked  = `document.querySelector('input[data-tick="' + args[0] + '"]')?.checked === false`
	atStep    = `document.querySelector('#stove')?.dataset.step === args[0]`
	oneByOne  = `import("/app/settings.js").then((m) => { m.settings.order.value = "card"; })`
	canGoDark = `navigator.serviceWorker.ready`
)

func (d *device) ticks(key string) { d.t.Helper(); d.tap(`[data-key="` + key + `"] label`) }

// TestEveryEngine is an evening in each browser engine: the same text in Chromium, WebKit and
// Firefox.
func TestEveryEngine(t *testing.T) {
	t.Parallel()
	inEngines(t, evening)
}

func evening(t *testing.T, e browser.Engine) {
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	d := newDevice(t, e)
	run := func(name string, do func(t *testing.T)) { t.Helper(); part(t, name, do, d) }

	run("first visit", func(*testing.T) {
		d.visit(r.url)
		d.see("#dinners a[data-dinner=boathouse]")
		d.fits("home")
		d.shot("home")
		d.tap("#dinners a[data-dinner=boathouse]")
		d.see("#cards-to-make li")
		d.until(`document.querySelector('#status').dataset.engine === 'ready'`)
		d.synced()
		d.eval(canGoDark)
		d.eval(oneByOne)
	})
	run("reload", func(t *testing.T) {
		for range 3 {
			d.eval(`(window.before = true)`)
			d.reload()
			d.see("#cards-to-make li")
			assert.Equal(t, "undefined", d.eval(`window.before`), "the page was loaded anew")
			d.synced() // it is the leading tab again, and talks to the server
		}
	})
	run("plan", func(t *testing.T) {
		d.turns("s/boathouse/plan")
		d.until(`document.querySelectorAll('#plan .task').length > 140`)
		d.fits("plan")
		d.shot("plan")
		d.tap("#take-plan")
		d.until(`!document.querySelector('#moves')`)
		d.synced()
		assert.NotEmpty(t, dinner.Fold(r.pull(t).Events).Plan, "the server has the plan")
	})
	run("ticks reach the server", func(t *testing.T) {
		d.turns(stock)
		d.ticks(mise(1))
		d.until(ticked, mise(1))
		d.synced()
		assert.True(t, done(r.pull(t), mise(1)))
		d.turns(stock + "/1/1")
		d.see("#say")
		d.fits("step")
		d.shot("step")
		d.tap("#done")
		d.until(atStep, "light-chicken-stock#1/step/2")
		d.synced()
		assert.True(t, done(r.pull(t), firstStep))
	})
	run("windows", func(*testing.T) { opensWindows(d) })
	run("pass", func(*testing.T) {
		d.turns("s/boathouse/pass/1")
		d.reads("#pass .pass-when", "18 plates to go")
		d.fits("pass")
		d.shot("pass")
		d.tap("[data-send='1/1']")
		d.reads("#pass .pass-when", "17 plates to go")
	})
	run("order list", func(*testing.T) {
		d.turns("s/boathouse/order")
		d.see("#order .mise li")
		d.fits("order")
		d.shot("order")
		key := d.eval(`document.querySelector('#order .mise li').dataset.key`)
		d.ticks(key)
		d.until(ticked, key)
		d.tap(`[data-key="` + key + `"] summary`)
		d.see(`[data-key="` + key + `"] details[open]`)
	})
	run("timers outlive a reload", func(t *testing.T) { timers(t, d) })
	run("card edited and saved", func(t *testing.T) {
		d.turns("card/herb-oil.md")
		d.see("#prose table")
		d.fits("card")
		d.shot("card")
		d.turns("card/herb-oil.md/edit")
		d.until(`document.querySelector('#card-text')?.value.length > 100 && !document.querySelector('#save-card').disabled`)
		text := d.eval(`document.querySelector('#card-text').value`)
		d.types("#card-text", "# Herb oil, without a formula")
		d.until(`document.querySelector('#edit-page').dataset.errors > 0`) // the engine reads along
		d.shot("edit")
		d.eval(`(() => { const area = document.querySelector('#card-text'); area.value = args[0]; area.dispatchEvent(new Event('input', { bubbles: true })); })()`, text+"\nSaid here.\n")
		d.until(`document.querySelector('#edit-page').dataset.errors === '0'`)
		d.tap("#save-card")
		d.until(`document.querySelector('#saved').dataset.saved === '1'`)
		d.synced()
		assert.Equal(t, text+"\nSaid here.\n", textOn(t, r, "herb-oil.md"))
	})

	other := newDevice(t, e)
	part(t, "two phones", func(*testing.T) {
		other.visit(hash(r, stock))
		other.until(ticked, mise(1)) // what was ticked before this phone came
		d.turns(stock)
		d.ticks(mise(2))
		other.until(ticked, mise(2))
		other.ticks(mise(2))
		d.until(unticked, mise(2))
	}, d, other)
	part(t, "backup out and in", func(t *testing.T) { backups(t, d, other) }, d, other)

	run("cold start offline", func(t *testing.T) {
		d.turns(stock + "/1/2")
		d.until(atStep, "light-chicken-stock#1/step/2")
		d.kept()
		require.NoError(t, r.stop())
		d.reopen()
		d.visit(r.url) // as from the home screen: the address says nothing of a step
		d.until(atStep, "light-chicken-stock#1/step/2")
		d.tap("#done")
		d.until(atStep, "light-chicken-stock#1/step/3")
		d.network("off", 1)
		d.kept()
		d.reload()
		d.until(atStep, "light-chicken-stock#1/step/3")
	})
	run("ticks made offline reach the server", func(t *testing.T) {
		r = serveAt(t, addr, data)
		d.synced()
		assert.True(t, done(r.pull(t), "light-chicken-stock#1/step/2"))
		require.NoError(t, r.stop())
	})
	run("new release", func(t *testing.T) {
		defer released(t, addr, data, restyled(t))()
		d.turns("s/boathouse")
		d.see("#cards-to-make li")
		d.eval(`(window.before = true, navigator.serviceWorker.getRegistration().then((r) => r.update()))`)
		d.tap("#use-new")
		d.until(`getComputedStyle(document.documentElement).getPropertyValue('--release').trim() === 'next'`)
		d.see("#cards-to-make li")
		assert.Equal(t, "undefined", d.eval(`window.before`))
		d.until(`(caches.keys().then((keys) => { window.left = keys.filter((k) => k.startsWith('hobside-')).length; }), window.left === 1)`)
		d.reload()
		d.see("#cards-to-make li")
		d.synced()
	})
}

// opensWindows opens two windows, closes one by its button and writes in the other.
func opensWindows(d *device) {
	d.turns(stock + "/1/2")
	d.until(atStep, "light-chicken-stock#1/step/2")
	d.tap("#not-now")
	d.see("#put-off[open]")
	d.until(`(() => { const b = document.querySelector('#put-off').getBoundingClientRect(); return b.left >= 0 && b.right <= innerWidth && b.top >= 0 && b.bottom <= innerHeight; })()`)
	d.shot("window")
	d.tap("#put-off [data-close]")
	d.until(`!document.querySelector('dialog')`)
	d.tap("#note")
	d.until(`document.activeElement.id === 'entry-value'`)
	d.types("#entry-value", "kept at a bare simmer")
	d.tap("#entry-save")
	d.reads("[data-written]", "kept at a bare simmer")
	d.until(`!document.querySelector('dialog')`)
}

// timers starts a timer, reloads, and lets its time pass.
func timers(t *testing.T, d *device) {
	d.turns(stock + "/1/2")
	d.until(atStep, "light-chicken-stock#1/step/2")
	d.tap("#timer-start")
	d.see("#timer-on")
	d.kept()
	end := d.eval(`document.querySelector('#timer-on').dataset.end`)
	d.reload()
	d.see("#timer-on")
	assert.Equal(t, end, d.eval(`document.querySelector('#timer-on').dataset.end`))
	d.until(`/\d/.test(document.querySelector('#timer-on .left')?.innerText)`)
	d.synced()
	d.eval(`(() => { const real = Date.now.bind(Date), shift = args[0] - real(); Date.now = () => real() + shift;
		document.dispatchEvent(new Event('visibilitychange')); })()`, mustNumber(t, end)+1000)
	d.until(`document.querySelector('#app > [role=alert]')?.innerText.includes('Light chicken stock, step 2')`)
	d.reload() // the clock is right again
	d.see("#timer-on")
}

// backups takes the backup of one phone to another one at a server that knows nothing of it.
func backups(t *testing.T, d, other *device) {
	d.turns("house")
	d.see("#backup")
	d.tap("#backup")
	text := d.downloaded("hobside-*.json")
	var backup struct {
		Hobside int
		Events  []json.RawMessage
	}
	require.NoError(t, json.Unmarshal([]byte(text), &backup))
	assert.Equal(t, 1, backup.Hobside)
	file := filepath.Join(t.TempDir(), "backup.json")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))

	elsewhere := start(t, "--empty", "--data", filepath.Join(t.TempDir(), "other.db"))
	other.visit(hash(elsewhere, "house"))
	other.until(`document.querySelector('#status')?.dataset.engine === 'ready'`)
	other.uploads("#backup-file", file)
	other.reads("#backup-said", "Read in: "+strconv.Itoa(len(backup.Events))+" events")
	other.turns(stock)
	other.until(ticked, mise(1))
	other.synced()
	assert.True(t, done(elsewhere.pull(t), firstStep), "and on to the other server")
}

// textOn is the newest text of a file on a server.
func textOn(t *testing.T, r running, name string) string {
	t.Helper()
	text := ""
	for _, f := range r.pull(t).Files {
		if f.Name == name {
			text = f.Text
		}
	}
	return text
}

func mustNumber(t *testing.T, s string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return n
}

// TestRefusalsAreNotRetriedAtOnce: with the lock taken away again and again, no network and no
// stream, a page asks only a few times while it turns its event loop many times. The pauses grow,
// so that this holds on a slow machine too; without a pause each turn would be a request.
func TestRefusalsAreNotRetriedAtOnce(t *testing.T) {
	t.Parallel()
	inEngines(t, func(t *testing.T, e browser.Engine) {
		r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
		d := newDevice(t, e)
		d.visit(hash(r, "s/boathouse"))
		d.see("#cards-to-make li")
		d.synced()
		d.eval(`(() => {
			const no = () => Promise.reject(new DOMException('refused by the test', 'AbortError'));
			const taken = navigator.locks.request.bind(navigator.locks), stamp = 'hobside-stamp';
			window.asked = { lock: 0, fetch: 0, stream: 0 };
			navigator.locks.request = (name, ...rest) => name === stamp ? taken(name, ...rest) : (asked.lock++, no());
			window.fetch = () => { asked.fetch++; return no(); };
			window.EventSource = class extends EventTarget {
				static CLOSED = 2;
				readyState = 2;
				constructor() { super(); asked.stream++; queueMicrotask(() => this.onerror?.(new Event('error'))); }
				close() {}
			};
			window.steal = () => taken('hobside-sync', { steal: true }, () => new Promise(() => {}));
		})()`)
		d.eval(`import('/app/sync.js').then((m) => { m.nudge(); })`) // refused by the network
		d.until(`asked.fetch > 0`)
		d.eval(`(window.steal(), 1)`) // another tab takes the lock
		d.until(`asked.lock > 0`)
		const turns = 300
		got := d.eval(`(async () => {
			for (let i = 0; i < args[0]; i++) await new Promise((next) => { const c = new MessageChannel(); c.port1.onmessage = next; c.port2.postMessage(0); });
			return JSON.stringify(asked);
		})()`, turns)
		var asked struct{ Lock, Fetch, Stream int }
		require.NoError(t, json.Unmarshal([]byte(got), &asked))
		assert.Less(t, asked.Lock, turns/10, "requests for the lock")
		assert.Less(t, asked.Fetch, turns/10, "requests to the server")
		assert.Less(t, asked.Stream, turns/10, "streams opened")

		// A page that is leaving makes no attempt; one that comes back makes it, and asks for the lock. Timers end in
		// the order of their times, so the attempt, due first, would have been made when the other timer ends.
		assert.Equal(t, "0 1", d.eval(`(async () => {
			const { Retry } = await import('/app/retry.js');
			let made = 0, came = () => {};
			const coming = new Promise((resolve) => { came = resolve; });
			const retry = new Retry(() => { made++; came(); }, { first: 1 });
			retry.failed();
			const turn = (name) => dispatchEvent(new PageTransitionEvent(name, { persisted: true }));
			turn('pagehide');
			window.left = asked.lock;
			await new Promise((later) => setTimeout(later, 50));
			const leaving = made;
			turn('pageshow');
			await coming;
			return leaving + ' ' + made;
		})()`))
		d.until(`asked.lock > window.left`)
	})
}
