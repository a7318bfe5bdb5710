//go:build browser

package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/control"
	"hobside/internal/dinner"
)

// TestLookOfPairingAndDevices shows the screens of pairing, devices and kept
// data, narrow and wide, light and dark: each is complete, and nothing is cut
// off.
func TestLookOfPairingAndDevices(t *testing.T) {
	t.Parallel()
	l := startLAN(t)
	good(t, "devices", "--data", l.data())
	l.pair(t, l.code)
	for _, look := range []struct {
		name string
		size [2]int64
		dark bool
	}{{"phone-light", [2]int64{390, 844}, false}, {"phone-dark", [2]int64{390, 844}, true}, {"narrow", [2]int64{320, 640}, false}, {"desk", [2]int64{1280, 800}, false}} {
		t.Run(look.name, func(t *testing.T) {
			t.Parallel()
			p := started(&phone{t: t, size: look.size, dark: look.dark})
			for _, page := range []string{"pair.html", "trust.html"} {
				p.visit(l.running.url + page)
				p.see("main h1")
				p.fits(page)
				p.shot(look.name + "-" + strings.TrimSuffix(page, ".html"))
			}
			p.visit(hash(l.running, "house"))
			p.see("#device-list li")
			p.tap("#code-helper")
			p.see("#code-word")
			p.fits("house")
			p.shot(look.name + "-house")
			p.visit(hash(l.running, "settings"))
			p.see("#to-house")
			p.fits("settings")
		})
	}
}

// TestPairing opens a phone that is not paired: it says so and keeps its taps.
// With a code it is paired as a helper, whose change of the covers is refused
// and parked on the screen. As a cook it can send the same change. Once revoked
// it is refused.
func TestPairing(t *testing.T) {
	t.Parallel()
	l := startLAN(t)
	p := newLanPhone(t)
	p.visit(l.url + "/pair.html")
	p.see("#pair")
	p.typed("#code", "0000 0000")
	p.eval(`document.querySelector('#pair button').click()`)
	p.reads("#say", "Not let in")
	code := func(role string) string {
		said := good(t, "devices", "--data", l.data(), "code", role)
		_, rest, _ := strings.Cut(said, " is ")
		word, _, _ := strings.Cut(rest, ",")
		return word
	}
	p.typed("#code", code("helper"))
	p.typed("#name", "Nora's phone")
	p.eval(`document.querySelector('#pair button').click()`)
	p.until(`location.pathname === '/' && document.querySelector('main')`)
	p.visit(l.url + "/#/s/boathouse")
	p.until(`document.querySelector('#status')?.dataset.net === 'on'`)
	p.until(`document.querySelector('#dinner')?.dataset.covers === '18' && !document.querySelector('#covers-more')`) // no control is shown whose change would be refused
	p.eval(`import("/app/events.js").then((m) => m.emit("covers", "", { number: 19 })).then(() => "")`)
	p.until(`document.querySelector('#status').dataset.parked === '1' && document.querySelector('#status').dataset.waiting === '0'`)
	p.until(`document.querySelector('#dinner').dataset.covers === '18'`) // an event that only this phone has does not count
	p.visit(l.url + "/#/settings")
	p.reads("#parked", "helper")
	p.visit(l.url + "/#/house")
	p.see("#leave")

	id := ""
	h, err := control.Open(l.data(), false)
	require.NoError(t, err)
	all, err := h.Devices()
	require.NoError(t, err)
	require.Len(t, all, 1)
	id = all[0].ID
	assert.Equal(t, "Nora's phone", all[0].Name)
	good(t, "devices", "--data", l.data(), "cook", id)
	p.visit(l.url + "/#/settings")
	p.tap("#parked button")
	// A cook's phone also sends what the helper's phone could not: wait for that
	// too.
	p.until(`(import("/app/db.js").then(async (m) => { window.left = (await (await m.db()).count("outbox")) + (m.meta.role === "cook" ? 0 : 1000); }), window.left === 0)`)
	p.until(`document.querySelector('#status').dataset.parked === '0' && document.querySelector('#status').dataset.waiting === '0'`)
	p.visit(l.url + "/#/s/boathouse")
	p.until(`document.querySelector('#covers').dataset.value === '19'`)

	good(t, "devices", "--data", l.data(), "revoke", id)
	p.tap("#covers-more")
	p.until(`document.querySelector('#status').dataset.waiting === '1' && document.querySelector('#status').dataset.net === 'off'`)
	p.visit(l.url + "/#/house")
	p.reads("#barred", "not paired")
}

// newLanPhone is a phone whose owner has trusted the authority.
func newLanPhone(t *testing.T) *phone {
	p := started(&phone{t: t, size: [2]int64{390, 844}, trusting: true})
	return p
}

// typed writes into a field in place of what is there.
func (p *phone) typed(selector, text string) {
	p.t.Helper()
	p.see(selector)
	p.eval(`(document.querySelector('` + selector + `').value = '')`)
	p.do(chromedp.SendKeys(chromedp.CSS(selector), text))
}

// TestTooLargeRecordIsParked makes one record that is too large for any request.
// The others are sent, and the screen shows this one with its words.
func TestTooLargeRecordIsParked(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.synced()
	p.eval(`(async () => {
		const { db, save } = await import('/app/db.js');
		const { nudge } = await import('/app/sync.js');
		await save(['outbox'], (tx) => {
			tx.objectStore('outbox').put({ type: 'file', id: 'too-large-0001', name: 'large.md', base: '', text: '\u00e9\n'.repeat(400000), revision: 'x' });
			tx.objectStore('outbox').put({ type: 'file', id: 'just-right-01', name: 'small.md', base: '', text: '# Small\n', revision: '` + dinner.Revision("# Small\n") + `' });
		});
		nudge();
	})()`)
	p.until(`document.querySelector('#status').dataset.parked === '1'`)
	p.until(`document.querySelector('#status').dataset.waiting === '0'`)
	names := map[string]bool{}
	for _, f := range r.pull(t).Files {
		names[f.Name] = true
	}
	assert.True(t, names["small.md"], "what came after it went through")
	assert.False(t, names["large.md"])
	p.visit(hash(r, "settings"))
	p.reads("#parked", "make two of it")
}

// TestPhoneBackupAndRestore takes a backup file of one phone to a second phone
// at another server, and from there everything reaches that server.
func TestPhoneBackupAndRestore(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	require.NoError(t, r.stop()) // what follows never reaches this server
	p.visit(hash(r, stock+"/1/1"))
	p.see("#say")
	p.tap("#done")
	p.kept()
	text := p.eval(`import('/app/backupfile.js').then((m) => m.backupText())`)

	other := start(t, "--empty", "--data", filepath.Join(t.TempDir(), "other.db"))
	q := newPhone(t)
	q.visit(hash(other, "house"))
	q.see("#backup")
	q.until(`document.querySelector('#status').dataset.engine === 'ready'`)
	read := func(js string) string {
		return q.eval(`import('/app/backupfile.js').then((m) => m.readBackup(new Blob([` + js + `]))).then((n) => 'read ' + n.events, (err) => err.message)`)
	}
	quoted, err := json.Marshal(text)
	require.NoError(t, err)
	for _, tt := range [][2]string{
		{`'holiday pictures'`, "not a backup"}, {`'{}'`, "not a backup"}, {`'{"hobside":2}'`, "newer version"},
		{string(quoted) + `.slice(0, -100)`, "cut short"},
		{string(quoted) + `.replace(/"stamp":{"wall":\d+/, '"stamp":{"wall":null')`, "makes no sense"},
		{string(quoted) + `.replace(/"text":"/, '"text":"x')`, "is not what it was"},
	} {
		assert.Contains(t, read(tt[0]), tt[1])
	}
	assert.Equal(t, "0", q.eval(`import('/app/db.js').then(async (m) => (await m.db()).count('events'))`), "nothing was read in")
	assert.Regexp(t, `^read [1-9]`, read(string(quoted)))
	q.visit(hash(other, stock))
	q.until(`document.querySelector('input[data-tick="` + firstStep + `"]')?.checked`)
	q.synced()
	assert.True(t, done(other.pull(t), firstStep), "and on to the server")
	assert.Equal(t, "read 0", read(string(quoted)), "twice is once")
}

// TestTwoTabsAgree taps in one of two tabs: both show it, only one of them talks
// to the server, and nothing arrives twice.
func TestTwoTabsAgree(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock))
	p.see("#mise li")
	tab, stop := chromedp.NewContext(p.ctx)
	defer stop()
	require.NoError(t, chromedp.Do(tab, chromedp.EmulateViewport(390, 844))) // opens it, unbounded in time: a bound's end would close it
	q := &phone{t: t, ctx: tab, door: p.door, close: func() {}}
	q.visit(hash(r, stock))
	q.see("#mise li")
	q.tap(`#mise li:first-child label`)
	q.until(`document.querySelector('#mise li:first-child').classList.contains('done')`)
	p.until(`document.querySelector('#mise li:first-child').classList.contains('done')`)
	p.tap(`#mise li:nth-child(2) label`)
	q.until(`document.querySelector('#mise li:nth-child(2)').classList.contains('done')`)
	p.synced()
	q.synced()
	ids := map[string]int{}
	for _, ev := range r.pull(t).Events {
		ids[ev.ID]++
	}
	assert.Len(t, ids, 3, "the opening and two ticks")
}

// TestClearedDatabaseIsNoticed deletes the database as a browser does: the app
// notices, and what the server has comes back.
func TestClearedDatabaseIsNoticed(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.synced()
	p.visit(r.url + "pair.html") // a page that holds no database open
	p.eval(`new Promise((done) => { const q = indexedDB.deleteDatabase('hobside'); q.onsuccess = done; })`)
	p.visit(hash(r, "house"))
	p.reads("#worry", "cleared what the app kept")
	p.visit(hash(r, "s/boathouse"))
	p.see("#cards-to-make li")
}

// TestOffersAfterAShortBatch tests the page's rules for one request: bytes are
// counted as they are sent, and each text follows the one it was made from.
func TestOffersAfterAShortBatch(t *testing.T) {
	t.Parallel()
	r := start(t, "--empty", "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(r.url + "pair.html")
	run := func(js string) string {
		return p.eval(`import('/app/offers.js').then(async ({ fill, inOrder, weigh, PAGE }) => JSON.stringify(await (` + js + `)))`)
	}
	assert.Equal(t, `[3,5,10,10]`, run(`[weigh(''), weigh('é'), weigh('é\n€'), weigh('"\\"x')]`))
	for _, tt := range []struct{ name, files, want string }{
		{"clocks that differ", `[['c','b',1],['b','a',2],['a','',3]]`, `["a","b","c"]`},
		{"two branches", `[['a','',1],['c','a',3],['b','a',2]]`, `["a","b","c"]`},
		{"a base that is not here", `[['b','x',2],['a','y',1]]`, `["a","b"]`},
		{"a ring", `[['a','b',1],['b','a',2]]`, `["b","a"]`},
	} {
		assert.Equal(t, tt.want, run(`inOrder(`+tt.files+`.map(([revision, base, at]) => ({ name: 'n.md', revision, base, at, text: '' }))).map((f) => f.revision)`), tt.name)
	}
	assert.Equal(t, `10000`, run(`inOrder(Array.from({ length: 10000 }, (_, i) => ({ name: 'n.md', revision: String(i), base: String(i - 1), at: -i, text: '' }))).length`), "a long chain does not overflow")
	page := func(out string) string {
		return run(`fill(` + out + `, async (id) => id === 'gone' ? undefined : ({ id, stamp: { wall: id === 'new' ? 0 : 1, count: 0 }, text: id === 'big' ? 'é'.repeat(700000) : id.startsWith('half') ? '€'.repeat(150000) : '' }), PAGE)
			.then((p) => [p.events.map((e) => e.id), p.files.map((f) => f.id), p.heavy.map((h) => h.id), p.left])`)
	}
	for _, tt := range []struct{ name, out, want string }{
		{"nothing", `[]`, `[[],[],[],false]`},
		{"unstamped and gone wait", `[{type:'event',id:'new'},{type:'event',id:'gone'},{type:'event',id:'a'}]`, `[["a"],[],[],false]`},
		{"one of a name at a time", `[{type:'file',id:'1',name:'a.md',text:''},{type:'file',id:'2',name:'a.md',text:''},{type:'file',id:'3',name:'b.md',text:''}]`, `[[],["1","3"],[],true]`},
		{"too large for any request", `[{type:'event',id:'big'},{type:'event',id:'a'}]`, `[["a"],[],["big"],false]`},
		{"no more than fits", `[{type:'event',id:'half1'},{type:'event',id:'half2'}]`, `[["half1"],[],[],true]`},
	} {
		assert.Equal(t, tt.want, page(tt.out), tt.name)
	}
}
