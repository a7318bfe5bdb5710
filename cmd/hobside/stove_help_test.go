//go:build browser

package main

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// before runs a script in every page opened from now on, ahead of the page's own:
// it stands for what a phone has and this machine has not.
func (p *phone) before(script string) {
	p.t.Helper()
	p.do(chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	}))
}

// TestScreenStaysAwake holds the wake lock at the stove and on no other screen.
// A lock that the browser released is taken again when the page comes back.
func TestScreenStaysAwake(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.before(`window.locks = 0; navigator.wakeLock.request = async () => {
		const lock = new EventTarget(); window.locks++;
		lock.release = async () => { window.locks--; lock.dispatchEvent(new Event("release")); };
		return (window.lock = lock); }`)
	p.cookable(r)
	assert.Equal(t, "0", p.eval("window.locks"))
	p.visit(hash(r, stock+"/1/1"))
	p.until("window.locks === 1")
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && window.locks === 1`)
	p.eval("window.lock.release()") // as a browser does when another app is in front
	p.until("window.locks === 0")
	p.eval(`document.dispatchEvent(new Event("visibilitychange"))`)
	p.until("window.locks === 1")
	p.visit(hash(r, "s/boathouse"))
	p.until("window.locks === 0")
}

// TestScreenStaysAwakeWithoutWakeLock plays a small video while cooking.
func TestScreenStaysAwakeWithoutWakeLock(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.before("delete Navigator.prototype.wakeLock")
	p.cookable(r)
	p.visit(hash(r, stock+"/1/1"))
	p.tap("#done")
	p.until(`document.querySelector('video.awake')?.paused === false`)
	p.until(`document.querySelector('video.awake').currentTime > 0`)
	p.fits("awake")
	p.visit(hash(r, "s/boathouse"))
	p.until(`document.querySelector('video.awake').paused`)
	p.visit(hash(r, "settings"))
	p.reads("#stand", "no lock")
}

// TestReadAloud reads with a voice that is on the phone, never with one from the
// network.
func TestReadAloud(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.before(`window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
		window.here = [{ localService: false, lang: "en-GB", name: "of the network" }];
		speechSynthesis.getVoices = () => window.here;
		speechSynthesis.speak = (u) => { window.voiced = u; };
		speechSynthesis.cancel = () => { window.voiced = null; };`)
	p.cookable(r)
	p.visit(hash(r, stock+"/1/1"))
	p.tap("#aloud")
	p.reads("#mute", "no voice of its own")
	assert.Equal(t, "true", p.eval("window.voiced === undefined"))

	p.eval(`(window.here = [...window.here, { localService: true, lang: "fr-FR", name: "un" }, { localService: true, lang: "en-US", name: "one" }], "")`)
	p.tap("#aloud")
	p.until("window.voiced")
	assert.Equal(t, "one", p.eval("window.voiced.voice.name"))
	said := p.eval("window.voiced.text")
	assert.Contains(t, said, "Put the chicken backs in the tall pot")
	assert.Contains(t, said, "5 kg water")
	p.until(`document.querySelector('#aloud').getAttribute('aria-pressed') === 'true' && !document.querySelector('#mute')`)
	p.tap("#aloud") // a second tap stops it
	p.until("window.voiced === null")
}

// TestTapInLowerHalf turns the setting on: a tap in the lower half means "done,
// next", and one in the upper half does nothing.
func TestTapInLowerHalf(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "settings"))
	p.tap("label:has(#tap-on)")
	p.visit(hash(r, stock+"/1/1"))
	p.see("#done")
	at := func() string { return p.eval("document.querySelector('#stove').dataset.step") }
	const edge = 19 // the edge of the step, where no button ever is
	p.do(chromedp.MouseClickXY(edge, 200))
	assert.Equal(t, firstStep, at(), "the words are there to be read")
	p.do(chromedp.MouseClickXY(edge, 600))
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2')`)
	p.tap("#back")
	p.until(`document.querySelector('#done').dataset.done === '1'`)
}
