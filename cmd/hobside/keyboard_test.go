//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// press presses a key.
func (p *phone) press(key string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(key))
}

// seen returns which element has the focus, and whether the focus is visible.
const seen = `(() => { const el = document.activeElement, shown = el?.matches("input[type=checkbox], input[type=radio]") ? el.nextElementSibling : el;
	if (!el || el === document.body) return "nowhere";
	const r = el.getBoundingClientRect(), s = getComputedStyle(shown);
	return (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 && r.bottom > 0 && r.top < innerHeight ? "" : "unseen ") + (el.id ? "#" + el.id : el.tagName + "." + el.className); })()`

// reach goes on with Tab until an element has the focus, which must be seen at
// each place it passes.
func (p *phone) reach(selector string) {
	p.t.Helper()
	var way []string
	for range 120 {
		p.press(kb.Tab)
		at := p.eval(seen)
		way = append(way, at)
		if at != "nowhere" { // between the page's end and its beginning is the browser's own
			require.NotContains(p.t, at, "unseen ", "focus that can't be seen")
		}
		if p.eval(fmt.Sprintf("!!document.activeElement?.matches(%q)", selector)) == "true" {
			return
		}
	}
	p.t.Fatalf("Tab does not come to %s: %v\n%s", selector, way, p.screen())
}

func (p *phone) focus() string { p.t.Helper(); return p.eval("'#' + document.activeElement.id") }

// TestKeyboardOnly cooks from the first screen on with the keyboard alone.
func TestKeyboardOnly(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := started(&phone{t: t, size: [2]int64{1280, 800}})
	p.cookable(r)
	p.turns(hash(r, ""))
	p.until("document.querySelector('main')")
	p.eval(`import("/app/settings.js").then((m) => { m.settings.order.value = "dinner"; })`) // as on a new phone
	p.see("#dinners a[data-dinner=boathouse]")

	p.reach("#dinners a[data-dinner=boathouse]")
	p.press(kb.Enter)
	p.see("#cards-to-make li")
	p.until("document.activeElement.matches('main h1')") // the focus moves to the new screen
	p.reach(`#cards-to-make li[data-card="light-chicken-stock"] a`)
	p.press(kb.Enter)
	p.see("#start")
	p.reach("#start")
	p.press(kb.Enter)
	p.see("#say")

	// Follow this card alone, so that the steps come in its order.
	p.reach("#order-by")
	p.press(kb.Enter)
	at := func(step string) { p.until(fmt.Sprintf(`document.querySelector('#stove')?.dataset.step === %q`, step)) }
	at(firstStep)
	p.reach("#done")
	p.press(" ")
	at("light-chicken-stock#1/step/2")
	assert.Equal(t, "#done", p.focus(), "the thumb's place keeps the focus from step to step")
	p.press(kb.PageDown)
	at("light-chicken-stock#1/step/3")
	p.reach("#undo")
	p.press(kb.Enter)
	at("light-chicken-stock#1/step/2")

	// Windows: closed by Escape and by their own button, the focus goes back.
	p.reach("#not-now")
	p.press(kb.Enter)
	p.until("document.querySelector('#put-off[open]')?.contains(document.activeElement)")
	p.press(kb.Escape)
	p.until("!document.querySelector('dialog')")
	p.until("document.activeElement.id === 'not-now'")
	p.press(kb.Enter)
	p.until("document.querySelector('#put-off[open]')?.contains(document.activeElement)")
	p.reach("#put-off [data-close]")
	p.press(kb.Enter)
	p.until("!document.querySelector('dialog')")
	p.until("document.activeElement.id === 'not-now'")

	p.reach("#timer-start")
	p.press(kb.Enter)
	p.see("#timer-on")
	p.until("document.activeElement.id === 'timer-on'")
	p.see("#strip")
	assert.Equal(t, "1", p.eval("document.querySelectorAll('#app > [role=alert]').length"), "a place to say aloud that a timer has ended")
	p.press(kb.Enter)
	p.see("#timer-window[open]")
	p.press(kb.Escape)
	p.until("!document.querySelector('dialog')")
	p.until("document.activeElement.id === 'timer-on'")

	p.reach("#note")
	p.press(" ")
	p.until("document.activeElement.id === 'entry-value'")
	p.press("kept at a bare simmer")
	p.reach("#entry-save")
	p.press(kb.Enter)
	p.reads("[data-written]", "kept at a bare simmer")
	p.until("document.activeElement.id === 'note'")
}

// TestTimerEndIsAnnounced ends a timer: a screen reader is told its name.
func TestTimerEndIsAnnounced(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.turns(hash(r, stock+"/1/1"))
	p.see("#timer-start")
	p.eval(`import("/app/timers.js").then((m) => m.startTimer("` + firstStep + `", 1))`)
	p.until(`document.querySelector('#app > [role=alert]')?.innerText.includes('Light chicken stock, step 1: time is up')`)
}
