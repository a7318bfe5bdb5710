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

// TestUndoGoesBackAsManyStepsAsWereMade ticks, times and weighs on one phone, takes one of it back
// by the list of what happened, and the rest by the undo of the stove, which names each.
func TestUndoGoesBackAsManyStepsAsWereMade(t *testing.T) {
	t.Parallel()
	r, p := atTheStove(t)
	const step = "light-chicken-stock#1/step/"
	emit := func(kind, on, rest string) {
		p.eval(fmt.Sprintf(`import("/app/events.js").then((m) => m.emit(%q, %q, %s))`, kind, on, rest))
	}
	emit("tick", step+"1", "{ done: true }")
	emit("covers", "", "{ number: 17 }")
	emit("note", step+"1", `{ text: "skimmed twice" }`)
	emit("covers", "", "{ number: 16 }")
	emit("tick", step+"2", "{ done: true }")
	p.reads("#undo", "tick, step 2")

	p.visit(hash(r, "s/boathouse/happened"))
	p.synced()
	p.reads(".happened", "skimmed twice")
	p.shot("happened")
	const note = `[...document.querySelectorAll('[data-happened]')].find((x) => x.innerText.includes('skimmed twice'))`
	p.until(note)
	p.eval(note + `.querySelector('button').click()`)
	p.until(note + `.dataset.back === '1'`)
	p.fits("what happened")

	p.visit(hash(r, stock+"/1/1"))
	for _, names := range []string{"tick, step 2", "covers", "covers", "tick, step 1"} {
		p.reads("#undo", names)
		p.eval(`document.querySelector('#undo').click()`)
	}
	p.until(`document.querySelector('#undo').disabled`)
	p.visit(hash(r, "s/boathouse"))
	p.until(`document.querySelector('#dinner')?.dataset.covers === '18'`)
	p.synced()
	s := dinner.Fold(r.pull(t).Events)
	assert.Equal(t, 18, s.Covers)
	assert.Empty(t, s.Ticks)
	assert.Empty(t, s.Notes)

	p.visit(hash(r, "s/boathouse/happened"))
	p.until(note)
	p.eval(note + `.querySelector('button').click()`) // what was taken back is brought back
	p.until(note + `.dataset.back === '0'`)
	p.visit(hash(r, "s/boathouse"))
	p.synced()
	require.Len(t, dinner.Fold(r.pull(t).Events).Notes, 1)
}

// TestCutToFewerCoversIsAskedAndUndone: what a short batch is enough for is said of the whole dinner
// before it is taken, and its undo stands where it was taken.
func TestCutToFewerCoversIsAskedAndUndone(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, soup))
	p.see("#make")
	p.tap("#weigh-batch")
	p.fills("#entry-value", "2,16")
	p.picks("#entry-unit", "kg")
	p.tap("#entry-save")
	p.reads("#short", "540 g short")
	covers := func() string { return p.eval(`import("/app/state.js").then((m) => m.covers.value)`) }
	ask := func() { p.eval(`document.querySelector('#means [data-choice=covers]').click()`) }
	ask()
	p.reads("#all-covers", "14 covers in place of 18")
	assert.Equal(t, "18", covers())
	p.shot("covers-asked")
	p.tap("#covers-no")
	p.until(`!document.querySelector('#all-covers')`)
	assert.Equal(t, "18", covers())
	ask()
	p.tap("#covers-yes")
	p.reads("#chosen", "14 covers now")
	assert.Equal(t, "14", covers())
	p.fits("covers chosen")
	p.shot("covers-chosen")
	p.eval(`document.querySelector('#chosen-undo').click()`)
	p.until(`!document.querySelector('#chosen')`)
	p.eval(`import("/app/state.js").then((m) => new Promise((tell) => { const look = () => m.covers.value === 18 ? tell() : setTimeout(look, 20); look(); }))`)
	p.reads("#short", "540 g short")
}
