//go:build browser

package main

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
	"hobside/static"
)

// tapsAreKept is a promise that every tap, and where the cook is, is on the phone's own disk.
const tapsAreKept = `(async () => {
	const { writing } = await import("/app/events.js"), { db } = await import("/app/db.js");
	await new Promise((told) => requestAnimationFrame(() => setTimeout(() => setTimeout(told)))); // the router's own turn
	while (writing.value || (await (await db()).get("meta", "where")) !== location.hash) await new Promise((again) => setTimeout(again, 20));
})()`

// serverHasAll is true when the server has named everything as on its disk.
const serverHasAll = `document.querySelector('#status')?.dataset.waiting === '0' && document.querySelector('#status').dataset.net === 'on'`

func (p *phone) kept()   { p.t.Helper(); p.eval(tapsAreKept) }
func (p *phone) synced() { p.t.Helper(); p.until(serverHasAll) }

// cookable opens the app for the first time and waits until it would work
// without a network: the service worker has every file and the dinner has been
// worked out.
func (p *phone) cookable(r running) {
	p.t.Helper()
	p.visit(hash(r, "s/boathouse"))
	p.see("#cards-to-make li")
	p.ready()
	// Along one card: what comes next by the plan is tried by TestPlanOnThePhone.
	p.eval(`import("/app/settings.js").then((m) => { m.settings.order.value = "card"; })`)
}

// atTheStove is a server and a phone at the first step of the stock.
func atTheStove(t *testing.T) (running, *phone) {
	t.Helper()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock+"/1/1"))
	p.see("#done")
	return r, p
}

// done reports whether a step is ticked in the server's log.
func done(reply hub.Reply, key string) bool {
	s := dinner.Fold(reply.Events)
	return s.Ticks[key].Done
}

const (
	stock     = "s/boathouse/card/light-chicken-stock"
	soup      = "s/boathouse/card/pea-soup"
	firstStep = "light-chicken-stock#1/step/1"
)

// TestOfflineFromSecondVisit cooks offline: one visit, then no network, the
// browser closed and opened, mise and steps ticked, covers changed. When the
// network returns, the server and a second phone have all of it.
func TestOfflineFromSecondVisit(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newUnusedPhone(t)
	p.cookable(r)

	require.NoError(t, r.stop()) // the network is cut: the server itself is gone
	p.close()
	p.open()

	p.visit(hash(r, soup))
	before := p.see("#make")
	p.visit(hash(r, "s/boathouse"))
	p.see("#cards-to-make li")
	assert.Equal(t, "18", p.eval(`document.querySelector('#covers').dataset.value`))
	p.tap(`#cards-to-make li[data-card="light-chicken-stock"] a`)
	p.see("#mise li")
	p.tap(`#mise li:first-child label`)
	p.until(`document.querySelector('#mise li:first-child').classList.contains('done')`)
	p.tap("#start")
	p.see("#say")
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)
	p.tap("#undo")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/1') && document.querySelector('#done').dataset.done === '0'`)
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)

	p.tap("#to-batch")
	p.tap("#to-dinner")
	for range 12 {
		p.tap("#covers-more")
	}
	p.until(`document.querySelector('#covers').dataset.value === '30'`)
	p.visit(hash(r, stock))
	p.reads("#make", "batch 1 of 2") // begun for 18, it stays as it is; the rest is a batch of its own
	p.visit(hash(r, soup))
	p.until(fmt.Sprintf(`Math.round(18 * parseFloat(document.querySelector('#make').innerText) / parseFloat(%q)) === 30`, before)) // amounts follow the covers
	p.kept()
	assert.NotEqual(t, "0", p.eval(`document.querySelector('#status').dataset.waiting`), "kept here, not sent")

	r = serveAt(t, addr, data) // the network returns
	p.synced()
	reply := r.pull(t)
	state := dinner.Fold(reply.Events)
	assert.True(t, done(reply, firstStep))
	assert.True(t, state.Ticks["light-chicken-stock#1/mise/1"].Done)
	assert.Equal(t, 30, state.Covers)

	other := newPhone(t)
	other.visit(hash(r, stock))
	other.until(fmt.Sprintf(`document.querySelector('input[data-tick=%q]')?.checked`, firstStep))
	p.visit(hash(r, stock))
	assert.Equal(t, p.see("#make"), other.see("#make"), "both phones show the same amount")
}

// TestOpensOnLastStep reloads the page, closes the browser and kills it. Each
// time the app opens on the last step, with its ticks.
func TestOpensOnLastStep(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	require.NoError(t, r.stop())
	p.visit(hash(r, stock+"/1/1"))
	p.see("#say")
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && location.hash.endsWith('/1/2')`)
	p.reload()
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/2')`)

	p.close()
	p.open()
	p.visit(r.url) // as from the home screen: the address says nothing of a step
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/2')`)
	p.tap("#back")
	p.until(`document.querySelector('#done')?.dataset.done === '1'`)

	p.tap("#done") // "Next": it is ticked already
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/2')`)
	p.tap("#done")
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/3')`)
	p.kept()
	p.kill()
	p.open()
	p.visit(r.url)
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/3')`)
}

// TestMissingAppFileIsShown removes a file of the app while there is no network.
// The step can be read, and the page says that it can't be ticked. With the
// network back one tap repairs the app.
func TestMissingAppFileIsShown(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock+"/1/1"))
	p.until(`JSON.parse(localStorage.getItem('hobside-glimpse') ?? '{}').hash === location.hash`)
	p.kept()
	require.NoError(t, r.stop())
	assert.Equal(t, "true", p.eval(`caches.keys().then((all) => caches.open(all[0])).then((cache) => cache.delete("/app/strip.js"))`))
	p.visit(r.url)
	p.reads(".stuck", "did not come up")
	p.reads("#say", "Put the chicken")
	p.fits("stuck")
	p.shot("stuck")
	serveAt(t, addr, data)
	p.do(chromedp.Click(chromedp.CSS(".stuck button")))
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && !document.querySelector('.stuck')`)
}

// TestDoubleTapTicksOnce taps twice: the step on the screen is ticked and the
// one after it is not.
func TestDoubleTapTicksOnce(t *testing.T) {
	t.Parallel()
	r, p := atTheStove(t)
	bounce := func() { p.do(chromedp.Click(chromedp.CSS("#done")), chromedp.DoubleClick(chromedp.CSS("#done"))) } // the browser counts the second
	at := func() string {
		return p.eval(`document.querySelector('#stove').dataset.step + ' ' + document.querySelector('#done').dataset.done`)
	}
	bounce()
	assert.Equal(t, "light-chicken-stock#1/step/2 0", at())
	p.tap("#done")
	p.visit(hash(r, stock+"/1/1"))
	p.until(`document.querySelector('#done').dataset.done === '1'`)
	bounce() // a step that is already ticked can be unticked at once
	assert.Equal(t, "light-chicken-stock#1/step/3 0", at())
}

// TestTickSurvivesReload reloads as soon as the page says that a tick is
// kept, again and again.
func TestTickSurvivesReload(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock))
	items := p.eval(`(document.querySelector('#mise') ?? await new Promise(() => {})).querySelectorAll('input').length`)
	require.NotEqual(t, "0", items)
	for i := 1; i <= 6; i++ {
		box := fmt.Sprintf(`light-chicken-stock#1/mise/%d`, i)
		p.see(fmt.Sprintf(`[data-key=%q]`, box))
		p.tap(fmt.Sprintf(`[data-key=%q] label`, box))
		p.until(fmt.Sprintf(`document.querySelector('input[data-tick=%q]').checked && document.querySelector('#status').dataset.saved === '1'`, box))
		p.reload()
		p.until(fmt.Sprintf(`document.querySelector('input[data-tick=%q]')?.checked`, box))
	}
}

// TestTickReachesOtherPhone ticks on one phone: the other shows it without a
// reload.
func TestTickReachesOtherPhone(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	a, b := newPhone(t), newPhone(t)
	a.cookable(r)
	b.cookable(r)
	a.visit(hash(r, stock))
	b.visit(hash(r, stock))
	box := fmt.Sprintf(`document.querySelector('input[data-tick=%q]')?.checked`, "light-chicken-stock#1/mise/2")
	b.see("#mise li")
	a.tap(`[data-key="light-chicken-stock#1/mise/2"] label`)
	b.until(box)
	b.tap(`[data-key="light-chicken-stock#1/mise/2"] label`)
	a.until("!(" + box + ")")
}

// released serves another release of the page from the same data file at the
// same address.
func released(t *testing.T, addr, data string, files fs.FS) (stop func()) {
	t.Helper()
	st, err := store.Open(data, store.Options{})
	require.NoError(t, err)
	log := slog.New(slog.NewTextHandler(io.Discard, nil))
	h, err := hub.New(st, time.Now, log)
	require.NoError(t, err)
	w, err := web.New(web.Config{Hub: h, Static: files, Log: log})
	require.NoError(t, err)
	require.NoError(t, w.Listen(addr))
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- w.Serve(ctx) }()
	return func() {
		cancel()
		assert.NoError(t, <-served)
		assert.NoError(t, st.Close())
	}
}

// restyled is the app with one line more in its style sheet: another release.
func restyled(t *testing.T) fs.FS {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(static.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(static.Files, name)
		if name == "style/preferences.css" {
			b = append(b, "\n:root { --release: next; }\n"...)
		}
		files[name] = &fstest.MapFile{Data: b}
		return err
	}))
	return files
}

// visited starts a server whose address and data file a later one can have, and
// returns a phone that works without a network, at the first step of the stock.
func visited(t *testing.T) (addr, data string, r running, p *phone) {
	t.Helper()
	addr, data = address(t), filepath.Join(t.TempDir(), "hobside.db")
	r = serveAt(t, addr, data)
	p = newUnusedPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock+"/1/1"))
	p.see("#say")
	return addr, data, r, p
}

// TestNewReleaseWaitsForTheCook serves a new release. It is fetched while the
// cook goes on, changes nothing on the screen, and is used when the cook agrees.
func TestNewReleaseWaitsForTheCook(t *testing.T) {
	t.Parallel()
	addr, data, r, p := visited(t)
	p.eval(`window.before = 'the page that was there'`)
	require.NoError(t, r.stop())
	stop := released(t, addr, data, restyled(t))
	defer stop()

	const release = `getComputedStyle(document.documentElement).getPropertyValue('--release').trim()`
	p.until(`(window.looking ??= navigator.serviceWorker.getRegistration().then((r) => r.update()).then(() => window.looked = true)) && window.looked`)
	p.until(`(navigator.serviceWorker.getRegistration().then((r) => { window.waits = !!r.waiting; }), window.waits)`)
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)
	assert.Equal(t, "the page that was there", p.eval("window.before"), "no reload under the cook")
	assert.Equal(t, "", p.eval(release))
	assert.Equal(t, "null", p.eval("document.querySelector('#update')"), "no offer at the stove")

	p.tap("#to-batch")
	p.tap("#use-new")
	p.until(release + ` === 'next'`)
	p.until(fmt.Sprintf(`document.querySelector('input[data-tick=%q]')?.checked`, firstStep))
	// The old release's files go once the new worker has taken over.
	p.until(`(caches.keys().then((keys) => { window.kept = keys.filter((k) => k.startsWith('hobside-')).length; }), window.kept === 1)`)
}

// TestEmptyServerSaysWhatToDo opens a server without dinners and cards.
func TestEmptyServerSaysWhatToDo(t *testing.T) {
	t.Parallel()
	r := start(t, "--empty", "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(r.url)
	p.reads("#home", "No dinner yet")
	p.reads("#home", "There is no menu in the library")
	p.shot("state-empty")
}

// TestNewDinnerFromMenu makes a dinner offline with guests of its own and finds
// it on the server. A guest added later changes the plates.
func TestNewDinnerFromMenu(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	require.NoError(t, r.stop())
	p.visit(hash(r, ""))
	p.tap(`#menus a[data-menu="boathouse-supper.md"]`)
	p.see("#make-dinner")
	p.tap("#new-covers-less")
	assert.Equal(t, "fish", p.eval(`document.querySelector('[data-guest=no0]').value`), "as the menu has them")
	p.fills("[data-guest=covers0]", "4")
	p.tap("[data-remove='1']")
	p.tap("#add-guests")
	p.fills("[data-guest=no2]", "no mustard, egg")
	p.fits("new, with guests")
	p.shot("new-guests")
	p.tap("#make-dinner")
	p.until(`document.querySelector('#covers')?.dataset.value === '17'`)
	p.kept()
	p.visit(hash(r, p.eval(`location.hash.slice(2)`)+"/guests"))
	p.reads("#guests", "4 covers without fish")
	p.reads("#guests", "1 cover without mustard, egg")
	assert.Equal(t, "3", p.eval(`document.querySelectorAll('#guests .guest').length`))
	p.tap("#change-guests")
	p.tap("[data-remove='2']")
	p.fills("[data-guest=covers0]", "5")
	p.fits("guests changed")
	p.shot("guests-change")
	p.tap("#keep-guests")
	p.reads("#guests", "5 covers without fish")
	p.until(`!document.querySelector('#guests').innerText.includes('mustard, egg')`)

	// A line that can't be read has its problem where it was written.
	p.eval(`import("/app/events.js").then((m) => { m.emit("guests", "", { text: "some: no mustard" }); })`)
	p.reads("#guests .problems", "does not begin with a number of guests")
	p.eval(`import("/app/events.js").then((m) => { m.undo(); })`)
	p.reads("#guests", "5 covers without fish")
	p.kept()

	// A dinner whose guests were not changed has those of the menu.
	p.visit(hash(r, "new/boathouse-supper.md"))
	p.tap("#make-dinner")
	p.until(`document.querySelector('#covers')?.dataset.value === '18'`)
	p.kept()
	r = serveAt(t, addr, data)
	p.synced()
	var opened int
	var said []string
	for _, ev := range r.pull(t).Events {
		switch ev.Kind {
		case dinner.KindOpen:
			opened++
		case dinner.KindGuests:
			said = append(said, ev.Text)
		}
	}
	assert.Equal(t, 3, opened)
	assert.ElementsMatch(t, []string{"4 covers: no fish\n1 covers: no fish, no gluten (sits by the door)\n1 covers: no mustard, no egg",
		"5 covers: no fish\n1 covers: no fish, no gluten (sits by the door)", "some: no mustard"}, said)
}

// TestKitchenOfADinner chooses one of several kitchens for a dinner.
func TestKitchenOfADinner(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.eval(`import("/app/library.js").then((m) => m.saveFile("hall.md", "", "---\ncooks: 2\n---\n\n# The hall\n\n## Equipment\n\n- hob: 4 rings\n- oven: 1, 2 shelves\n- fridge\n"))`)
	p.visit(hash(r, "new/boathouse-supper.md"))
	p.until(`document.querySelectorAll('#new-kitchen option').length === 2`)
	assert.Equal(t, "boathouse-kitchen.md", p.eval(`document.querySelector('#new-kitchen').value`), "the menu's own")
	p.fits("new, with kitchens")
	p.picks("#new-kitchen", "hall.md")
	p.tap("#make-dinner")
	p.see("#covers")
	p.synced()
	kitchens := map[string]bool{}
	for _, ev := range r.pull(t).Events {
		if ev.Kind == dinner.KindOpen {
			kitchens[ev.Open.Kitchen] = ev.Open.Files[ev.Open.Kitchen] != ""
		}
	}
	assert.Equal(t, map[string]bool{"boathouse-kitchen.md": true, "hall.md": true}, kitchens)
}

// TestCardWrittenOnPhone writes a card without a network. Problems show while
// typing and lead to their line; the text is kept and reaches the server, and
// the earlier text it is kept too.
func TestCardWrittenOnPhone(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.until(`document.querySelector('#status').dataset.waiting === '0'`)
	require.NoError(t, r.stop())
	p.visit(hash(r, "card/herb-oil.md/edit"))
	p.see("textarea")
	p.until(`document.querySelector('textarea').value.length > 100`)
	p.eval(`(() => { const t = document.querySelector('textarea'); t.value = t.value.replace('hands:', 'hand:'); t.dispatchEvent(new Event('input', { bubbles: true })); })()`)
	p.reads("#problems", "did you mean “hands”?")
	p.reads("#problems", "unknown fact")
	p.tap("#problems .where")
	p.until(`(() => { const t = document.activeElement; return t.id === 'card-text' && t.value.slice(t.selectionStart).startsWith('hand:'); })()`)
	p.shot("state-card-with-an-error")
	p.tap("#save-card")
	p.until(`document.querySelector('#saved').dataset.saved === '1'`)
	p.until(`document.querySelectorAll('[data-revision]').length === 1`) // the text before

	r = serveAt(t, addr, data)
	p.synced()
	texts := map[string]string{}
	for _, f := range r.pull(t).Files {
		texts[f.Name] = f.Text
	}
	assert.Contains(t, texts["herb-oil.md"], "- hand: ")
}

// byThePlan has the page follow the plan, and waits until it has one.
const byThePlan = `import("/app/settings.js").then((m) => { m.settings.order.value = "dinner"; }).then(() => import("/app/plan.js").then(async (m) => { while (!m.plan.value) await new Promise((again) => setTimeout(again, 20)); }))`

// TestOtherPotIsShownBeforeItsTick goes by the plan until it leads to another card. That
// card fills the screen, and the next tap shows its step and ticks nothing.
func TestOtherPotIsShownBeforeItsTick(t *testing.T) {
	t.Parallel()
	_, p := atTheStove(t)
	p.eval(byThePlan)
	for range 12 {
		p.tap("#done")
		if p.eval(`!!document.querySelector("#other-pot")`) == "true" {
			break
		}
	}
	p.see("#other-pot")
	p.shot("other-pot")
	there := p.eval(`document.querySelector("#stove").dataset.step`)
	assert.NotContains(t, there, "light-chicken-stock")
	assert.Equal(t, "Show the step", p.eval(`document.querySelector("#done").innerText`))
	p.tap("#done")
	p.see("#say")
	p.until(`!document.querySelector("#other-pot")`)
	assert.Equal(t, there+" 0", p.eval(`document.querySelector("#stove").dataset.step + " " + document.querySelector("#done").dataset.done`), "shown, not ticked")
	p.tap("#done")
	p.eval(fmt.Sprintf(`import("/app/state.js").then(async (m) => { while (!m.tick(%q).value) await new Promise((again) => setTimeout(again, 20)); })`, there))
}

// TestOpenedCardIsFollowedUntilItWaits opens a card that the plan has later: its next step
// comes after its first, though the plan would lead elsewhere.
func TestOpenedCardIsFollowedUntilItWaits(t *testing.T) {
	t.Parallel()
	r, p := atTheStove(t)
	p.eval(byThePlan)
	card := p.eval(`import("/app/state.js").then((m) => m.dinner.value.cards.find((c) => c.id !== "light-chicken-stock" && c.batches[0].steps.length > 1 && !c.batches[0].steps[0].waitLow).id)`)
	p.visit(hash(r, "s/boathouse/card/"+card+"/1"))
	p.tap("#start")
	p.until(fmt.Sprintf(`document.querySelector("#stove")?.dataset.step === "%s#1/step/1"`, card))
	p.tap("#done")
	p.until(fmt.Sprintf(`document.querySelector("#stove")?.dataset.step === "%s#1/step/2" && !document.querySelector("#other-pot")`, card))

	p.tap("#undo")
	p.visit(hash(r, "s/boathouse/card/"+card+"/1/1")) // by its address: nobody opened the card
	p.reload()
	p.until(fmt.Sprintf(`document.querySelector("#stove")?.dataset.step === "%s#1/step/1"`, card))
	p.eval(byThePlan)
	p.tap("#done")
	p.see("#other-pot")
}
