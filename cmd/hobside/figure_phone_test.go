//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestAmbiguousFigureIsAsked types "1,620" where it can be 1620 or 1.62: in the
// window for a weight, on the order list and in the field that scales a card. Both
// readings are shown, and the one that is tapped is taken. Where only one reading is
// possible nothing is asked. Common practice, no source.
func TestAmbiguousFigureIsAsked(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	reading := func(shown string) string { return fmt.Sprintf(`.asked [data-reading=%q]`, shown) }
	weighs := func(text, unit string) {
		p.tap("#weigh-batch")
		p.fills("#entry-value", text)
		p.picks("#entry-unit", unit)
		p.tap("#entry-save")
	}

	p.visit(hash(r, stock))
	weighs("1,620", "g")
	p.reads(".asked", "1620 g")
	assert.Equal(t, "2", p.eval(`document.querySelectorAll('.asked button').length`))
	p.fits("asked")
	p.shot("state-figure-asked")
	p.see(reading("1.62 g"))
	p.fills("#entry-value", "1,6200") // another figure: the question is gone
	p.until(`!document.querySelector('.asked')`)
	p.fills("#entry-value", "1,620")
	p.tap("#entry-save")
	p.tap(reading("1620 g"))
	p.until(`!document.querySelector('dialog')`)
	p.reads("[data-written]", "Weighed 1620 g")
	weighs("1,620", "kg") // a scale shows three decimals of a kilogram
	p.until(`!document.querySelector('dialog')`)
	p.reads("[data-written]", "Weighed 1.62 kg")
	weighs("a lot", "kg")
	p.reads(".asked", "no amount here")
	p.tap("#entry [data-close]")

	p.visit(hash(r, "s/boathouse/order"))
	p.tap(`[data-key="order/baking-powder"] summary`)
	p.fills(`[data-have="order/baking-powder"]`, "1.500")
	p.tap(`[data-key="order/baking-powder"] form button[type=submit]`)
	p.tap(`[data-key="order/baking-powder"] ` + reading("1.5 g"))
	p.reads(`[data-key="order/baking-powder"] summary`, "have 1.5 g")

	p.synced()
	s := dinner.Fold(r.pull(t).Events)
	weighed := s.Measures["light-chicken-stock#1"]
	require.Len(t, weighed, 2)
	assert.Equal(t, "1620 gram", weighed[0].Amount.Qty.String()+" "+weighed[0].Amount.Unit.Name)
	assert.Equal(t, "81/50 kilogram", weighed[1].Amount.Qty.String()+" "+weighed[1].Amount.Unit.Name)
	assert.Equal(t, "3/2", s.Have["order/baking-powder"].Qty.String())

	p.visit(hash(r, "card/overnight-crust-bread.md"))
	p.see("#prose table")
	p.fills("#scale-to", "2,700 g")
	p.tap("#scale")
	p.reads(".asked", "2700 g")
	p.shot("state-scale-asked")
	p.tap(reading("2700 g"))
	p.reads("#prose .makes", "2.7 kg")
	p.until(`!document.querySelector('.asked') && document.querySelector('#scale-to').value === '2700 g'`)
}

// TestRedrawKeepsWhatIsTyped draws a page and a window anew while a cook types.
func TestRedrawKeepsWhatIsTyped(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.turns(hash(r, "card/overnight-crust-bread.md"))
	p.see("#prose table")
	p.fills("#scale-to", "2.7 k")
	p.eval(`import("/app/library.js").then(({ library }) => { library.value = { ...library.value }; })`)
	p.eval("new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn, 50)))")
	assert.Equal(t, "2.7 k", p.eval(`document.querySelector("#scale-to").value`))
}
