//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestErrorInOneScreenKeepsThePage lets the drawing of each kind of screen and of a
// window throw. The page says what went wrong and offers the way home, the other
// screens work, and the engine's next answer or "Try again" draws the screen anew.
func TestErrorInOneScreenKeepsThePage(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	// spoil puts a value in a signal of the page that throws wherever it is looked into.
	spoil := func(module, signal string) {
		p.eval(fmt.Sprintf(`import(%q).then((m) => {
			window.good = m[%q].peek();
			window.heal = () => { m[%[2]q].value = window.good; };
			try { m[%[2]q].value = new Proxy({}, { get() { throw new Error('spoiled on purpose'); } }); } catch {}
		})`, "/app/"+module, signal))
	}
	for _, tt := range []struct{ path, whole, module, signal string }{
		{"s/boathouse", "#cards-to-make li", "state.js", "dinner"},
		{"s/boathouse/plan", "#plan .task", "state.js", "dinner"},
		{"s/boathouse/guests", "main li", "state.js", "dinner"},
		{"s/boathouse/pass/1", "#pass .mark", "state.js", "dinner"},
		{stock, "#mise li", "state.js", "dinner"},
		{stock + "/1/1", "#say", "state.js", "dinner"},
		{"new/boathouse-supper.md", "#make-dinner", "library.js", "library"},
		{"house", "#backup", "keep.js", "room"},
	} {
		p.visit(hash(r, tt.path))
		p.see(tt.whole)
		spoil(tt.module, tt.signal)
		p.reads("#broken", "spoiled on purpose")
		p.fits("broken")
		p.eval(`heal()`)
		p.tap("#draw-again")
		p.see(tt.whole)
		spoil(tt.module, tt.signal)
		p.see("#broken")
		if tt.signal == "library" {
			p.eval(`heal()`) // the first screen shows the menus of it, too
		}
		p.tap("#way-home")
		p.see("#home #dinners")
		assert.Equal(t, "null", p.eval(`document.querySelector('#broken')`), tt.path)
		p.eval(`heal()`)
	}
	p.shot("state-broken")

	p.visit(hash(r, stock+"/1/1"))
	p.see("#say")
	p.eval(`import('/app/entries.js').then((m) => { m.entry.value = { get what() { throw new Error('spoiled on purpose'); } }; })`)
	p.reads(".stuck", "A window can’t be shown: spoiled on purpose")
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`) // the screen under it works
}

// TestWrongAddressIsNotFound opens addresses that lead nowhere, and a dinner, a card
// and a step that are not there. Each says so and has a way on.
func TestWrongAddressIsNotFound(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	for _, tt := range []struct{ path, says, leads string }{
		{"nowhere", "Not found", "#/"},
		{"s", "Not found", "#/"},
		{"s/boathouse/nowhere", "Not found", "#/"},
		{"s/boathouse/plan/nowhere", "Not found", "#/"},
		{"s/boathouse/pass/soup", "Not found", "#/"},
		{"s/boathouse/card", "Not found", "#/"},
		{stock + "/first", "Not found", "#/"},
		{stock + "/1/last", "Not found", "#/"},
		{"card", "Not found", "#/"},
		{"card/herb-oil.md/burn", "Not found", "#/"},
		{"cards/old", "Not found", "#/"},
		{"new", "Not found", "#/"},
		{"settings/more", "Not found", "#/"},
		{"s/nobody", "This dinner is not on this phone", "#/"},
		{"s/nobody/order", "This dinner is not on this phone", "#/"},
		{"s/nobody/card/herb-oil/1/1", "This dinner is not on this phone", "#/"},
		{"s/boathouse/card/no-such-card", "This card is not in the dinner", "#/s/boathouse"},
		{stock + "/1/99", "This step is not in the dinner", "#/s/boathouse"},
		{"card/no-such-card.md", "This card is not on this phone", "#/cards"},
		{"card/no-such-card.md/edit", "This card is not on this phone", "#/cards"},
		{"new/no-such-menu.md", "This menu is not on this phone", "#/"},
	} {
		p.turns(hash(r, tt.path))
		p.reads("#not-found", tt.says)
		assert.Equal(t, tt.leads, p.eval(`document.querySelector('#way-home').getAttribute('href')`), tt.path)
		p.fits(tt.path)
	}
	p.shot("state-not-found")
	p.tap("#way-home")
	p.see("#home #dinners")
	for _, path := range []string{"s/boathouse/", stock + "/1/end", "cards/new", "card/herb-oil.md/edit/"} {
		p.turns(hash(r, path))
		p.until(`document.querySelector('main') && !document.querySelector('#lost')`)
		assert.Equal(t, "null", p.eval(`document.querySelector('#not-found')`), path)
	}
}
