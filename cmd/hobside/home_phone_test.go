//go:build browser

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHomeShowsTheDinnerAsItIsNow changes covers and time on one phone; the first screen of
// another, on which the dinner was never opened, shows both. The date has its year.
func TestHomeShowsTheDinnerAsItIsNow(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	first, second := newPhone(t), newPhone(t)
	first.cookable(r)
	first.reads(".dinner-head .when", "Saturday 12 June 2027")
	first.eval(`import("/app/events.js").then((m) => Promise.all([m.emit("covers", "", { number: 21 }), m.emit("serve", "", { text: "2027-06-12T20:15" })]))`)
	first.synced()
	const line = `[data-dinner=boathouse]`
	second.visit(hash(r, ""))
	second.reads(line, "21 covers")
	second.reads(line, "20:15")
	second.reads(line, "Saturday 12 June 2027")
}

// TestDinnerIsPutAwayDeletedAndBroughtBack does each on one phone and sees it on another. A dinner
// that was deleted keeps all that was ticked.
func TestDinnerIsPutAwayDeletedAndBroughtBack(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	first, second := newPhone(t), newPhone(t)
	first.cookable(r)
	first.eval(`import("/app/events.js").then((m) => m.emit("tick", "light-chicken-stock#1/step/1", { done: true }))`)
	first.see("#shelve")
	first.eval(`document.querySelector('#shelve').click()`)
	first.see("#put-away")
	first.until(`!document.querySelector('#dinners [data-dinner=boathouse]')`)
	first.synced()
	second.visit(hash(r, ""))
	second.see("#put-away")
	second.until(`!document.querySelector('#dinners [data-dinner=boathouse]')`)
	second.tap("#put-away summary")
	second.shot("put-away")
	second.tap("[data-delete=boathouse]")
	second.see("#deleted")
	second.until(`!document.querySelector('#put-away')`)
	second.synced()
	assert.True(t, done(r.pull(t), "light-chicken-stock#1/step/1"), "the server keeps what was acknowledged")
	second.tap("#deleted summary")
	second.reads("#deleted", "the server keeps it")
	second.tap("[data-bring-back=boathouse]")
	second.see("#dinners [data-dinner=boathouse]")
	second.synced()
	first.see("#dinners [data-dinner=boathouse]")
	second.tap("#dinners [data-dinner=boathouse]")
	second.see("#cards-to-make [data-card=light-chicken-stock]")
	second.reads("[data-card=light-chicken-stock] .unseen", "1 of ")
}

// TestCardsToMakeAreInTheOrderOfThePlan compares the list with the plan's own tasks.
func TestCardsToMakeAreInTheOrderOfThePlan(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.eval(`import("/app/plan.js").then((m) => new Promise((tell) => { const look = () => m.plan.value?.tasks.length ? tell() : setTimeout(look, 20); look(); }))`)
	planned := p.eval(`import("/app/plan.js").then((m) => [...new Set(m.plan.value.tasks.filter((t) => t.at).map((t) => t.at.card))].join())`)
	p.until(`[...document.querySelectorAll('#cards-to-make [data-card]')].map((x) => x.dataset.card).join().startsWith('` + planned + `')`)
}
