//go:build browser

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestCookSaysWhatHasChanged says on the evening, without a network, that a cook goes: three
// taps, the second of which shows what follows. What makes no sense gets a word. What was
// said is listed, and is taken back there.
func TestCookSaysWhatHasChanged(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "s/boathouse"))
	p.until("document.querySelector('#status').dataset.engine === 'ready'")
	p.ready()
	p.until("document.querySelector('#status').dataset.waiting === '0'")
	r.stop()
	p.until("document.querySelector('#status').dataset.net === 'off'")
	p.setClock("2027-06-12T17:10")

	const followed = "document.querySelector('#follows')?.dataset.ready === '1'"
	p.tap("#say-changed")
	p.tap("[data-of='second cook'] [data-say=goes]")
	p.until(followed)
	p.see("#follow-courses")
	p.shot("changed-goes")
	p.fits("what follows when a cook goes")
	p.tap("#take-change")
	p.until("!document.querySelector('#changed')")

	p.tap("#say-changed")
	p.reads("[data-of='second cook']", "away")
	p.reads("#said", "second cook away from 17:10")
	p.shot("changed-said")
	p.fits("what has changed")

	// An oven that is back without having been out has no button; a course in the past gets a word.
	assert.Equal(t, "0", p.eval("document.querySelectorAll('[data-of=oven] [data-say=back]').length"))
	p.tap("[data-of='All of service'] [data-say=late]:last-child")
	p.until(followed)
	p.tap("[data-minutes='-60']")
	p.until(followed)
	p.tap("#say-other")

	// A guest who can't have nuts.
	p.tap("[data-of='An allergy'] [data-say=guest]")
	p.until(followed)
	p.reads("#follows", "say what they can’t have")
	p.tap("#say-other")

	p.tap("#said [data-unsay]")
	p.until("!document.querySelector('#said')")
	p.until("document.querySelector(\"[data-of='second cook'] [data-say=goes]\") !== null")
	p.until("document.querySelector('#status').dataset.saved === '1'")
}
