//go:build browser

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// axe returns the script of axe-core, which checks the rules of accessibility.
// `dev test` fetches it; nothing of it is in the app.
func axe(t *testing.T) string {
	t.Helper()
	script, err := os.ReadFile(filepath.Join("..", "..", "bin", "npm", "node_modules", "axe-core", "axe.min.js"))
	require.NoError(t, err, "axe-core is not there: run the browser tests by `go run ./cmd/dev test`, which fetches it")
	return string(script)
}

// rules runs the checker's rules over what is on the screen: WCAG 2.2 at A and
// AA, and what the checker counts as good practice.
func (p *phone) rules(script string) []string {
	p.t.Helper()
	if script == "" {
		return nil
	}
	if p.eval("!window.axe") == "true" {
		_ = run1(p, chromedp.Evaluate[string]("(() => {"+script+"})(); String(!!window.axe)"))
	}
	said := p.eval(`axe.run(document, { resultTypes: ["violations"], rules: { "target-size": { enabled: true } } }).then((r) => JSON.stringify(
		r.violations.flatMap((v) => v.nodes.slice(0, 4).map((n) => v.id + ": " + n.target.join(" ") + ": " + (n.failureSummary || "").split("\n").slice(1, 3).join("; ").trim()))))`)
	var found []string
	require.NoError(p.t, json.Unmarshal([]byte(said), &found), said)
	return found
}

// small lists the controls that are smaller than a thumb: 48 px, 64 px for the
// main one. A link within a line of prose is as large as its words.
const small = `(() => {
	const out = [];
	for (const el of document.querySelectorAll("button, a[href], input, select, textarea, summary, [role=button]")) {
		if (!el.checkVisibility({ visibilityProperty: true }) || el.matches(".unseen") || el.closest("[inert]")) continue;
		if (document.querySelector("dialog[open]") && !el.closest("dialog[open]")) continue;
		const prose = el.parentElement && el.matches("a") && getComputedStyle(el).display === "inline" && el.parentElement.innerText.trim() !== el.innerText.trim() && el.closest("p, .prose");
		if (prose) continue;
		const held = el.matches("[type=checkbox], [type=radio]") ? el.closest("label") ?? el : el;
		const r = held.getBoundingClientRect(), want = el.matches(".main") ? 64 : 48;
		if (r.height < want - 0.5 || r.width < 47.5) out.push((el.id ? "#" + el.id : el.tagName.toLowerCase() + "." + el.className) + " " + el.innerText?.slice(0, 30) + ": " + Math.round(r.width) + " × " + Math.round(r.height));
	}
	return JSON.stringify([...new Set(out)]);
})()`

// cut, given the screen's width (a phone's own innerWidth grows with what sticks
// out), lists what is beyond the side of the screen or of its own box, where that
// does not scroll, and what lies over each other at the stove.
const cut = `(() => {
	const wide = %d, out = [], name = (el) => (el.id ? "#" + el.id : el.tagName.toLowerCase() + "." + el.className);
	if (document.documentElement.scrollWidth > wide) out.push("the page is " + document.documentElement.scrollWidth + " wide");
	for (const el of document.querySelectorAll("#app *")) {
		if (!el.checkVisibility() || el.closest(".unseen, svg, .wall")) continue;
		let scrolls = false;
		for (let up = el; up && up.id !== "app"; up = up.parentElement) if (/auto|scroll/.test(getComputedStyle(up).overflowX) && up.scrollWidth > up.clientWidth + 1 && !up.matches(".panel, dialog")) scrolls = true;
		if (scrolls) continue;
		const r = el.getBoundingClientRect();
		if (r.width && (r.right > wide + 1 || r.left < -1)) out.push(name(el) + " from " + Math.round(r.left) + " to " + Math.round(r.right));
		if (el.matches("button, .button") && el.scrollWidth > el.clientWidth + 1) out.push(name(el) + " is too narrow for its words");
		if (el.matches(".panel, dialog") && el.scrollWidth > el.clientWidth + 1) out.push(name(el) + " holds more than its width");
	}
	const parts = [...document.querySelectorAll("#stove > *, #stove > .bar > *")].filter((el) => !el.matches("dialog, .bar")).map((el) => [name(el), el.getBoundingClientRect()]);
	for (const [i, [a, x]] of parts.entries()) for (const [b, y] of parts.slice(i + 1))
		if (x.right > y.left + 1 && y.right > x.left + 1 && x.bottom > y.top + 1 && y.bottom > x.top + 1) out.push(a + " over " + b);
	const bar = document.querySelector("#stove .bar")?.getBoundingClientRect();
	if (bar && bar.bottom > innerHeight + 1) out.push("the bar ends at " + Math.round(bar.bottom) + " of " + innerHeight);
	const panel = document.querySelector("#stove .panel")?.getBoundingClientRect();
	if (panel && panel.height < innerHeight / 4) out.push("the step has " + Math.round(panel.height) + " of " + innerHeight);
	return JSON.stringify([...new Set(out)].slice(0, 12));
})()`

// holds runs a script that returns a list and expects an empty one.
func (p *phone) holds(js, where, what string) {
	p.t.Helper()
	var found []string
	said := p.eval(js)
	require.NoError(p.t, json.Unmarshal([]byte(said), &found), said)
	assert.Empty(p.t, found, "%s: %s", where, what)
}

// fits checks that nothing is cut off at the side and nothing at the stove is
// covered. It measures against the phone's own width: innerWidth grows with what
// sticks out.
func (p *phone) fits(what string) {
	p.t.Helper()
	p.holds(fmt.Sprintf(cut, p.size[0]), what, "cut off or covered")
}

// turns goes to a screen and waits until the page shows it.
func (p *phone) turns(url string) {
	p.t.Helper()
	p.visit(url)
	p.eval(`(async () => {
		const { route, parse } = await import("/app/router.js");
		while (JSON.stringify(route.value) !== JSON.stringify(parse(location.hash))) await new Promise((again) => setTimeout(again));
		await new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn)));
	})()`)
}

// marks checks the landmarks: one main, one first heading, and a header or a way
// to the next screen.
const marks = `(() => { const out = [], n = (s) => document.querySelectorAll(s).length;
	if (n("main") !== 1) out.push(n("main") + " main parts");
	if (n("main h1") !== 1 && !document.querySelector("#page")) out.push(n("main h1") + " first headings");
	if (!n("header")) out.push("no header");
	return JSON.stringify(out); })()`

// windows opens each window that lies over a step, and closes it again.
var windows = []struct{ name, path, open, sees string }{
	{"put-off", stock + "/1/1", "#not-now", "#put-off[open]"},
	{"note", stock + "/1/1", "#note", "#entry[open]"},
	{"probe", stock + "/1/1", "#probe", "#entry[open]"},
	{"timer", stock + "/1/1", "#timer-on", "#timer-window[open]"},
	{"watch", bakes, "#watch-more", "#watch-window[open]"},
}

// TestAccessibilityRules: over every screen and window, in light and
// dark, on a phone and on a desk: no rule broken, nothing too small to touch.
func TestAccessibilityRules(t *testing.T) {
	t.Parallel()
	script := axe(t)
	for _, look := range []struct {
		name string
		size [2]int64
		dark bool
	}{
		{"phone-light", [2]int64{390, 844}, false},
		{"phone-dark", [2]int64{390, 844}, true},
		{"desk-light", [2]int64{1280, 800}, false},
		{"desk-dark", [2]int64{1280, 800}, true},
	} {
		t.Run(look.name, func(t *testing.T) {
			t.Parallel()
			r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
			p := started(&phone{t: t, size: look.size, dark: look.dark})
			p.cookable(r)
			check := func(name string) {
				p.eval(`document.querySelectorAll("details").forEach((d) => { d.open = true; })`)
				assert.Empty(t, p.rules(script), name)
				p.holds(small, name, "too small to touch")
				p.holds(marks, name, "landmarks")
			}
			for _, s := range screens {
				p.turns(hash(r, s.path))
				p.see(s.wait)
				check(s.name)
			}
			p.turns(hash(r, stock+"/1/1"))
			p.tap("#timer-start")
			p.see("#timer-on")
			check("step with a timer")
			for _, w := range windows {
				p.turns(hash(r, w.path))
				p.tap(w.open)
				p.see(w.sees)
				check(w.name)
				p.shot(look.name + "-window-" + w.name)
				p.tap(w.sees + " [data-close]")
				p.until("!document.querySelector('dialog[open]')")
			}
		})
	}
}

// TestLargeTextAndNarrowPhone: at 320 px, and with text at twice its size,
// nothing is cut off at the side and nothing lies over the step.
func TestLargeTextAndNarrowPhone(t *testing.T) {
	t.Parallel()
	for _, look := range []struct {
		name string
		size [2]int64
		text string
	}{
		{"narrow", [2]int64{320, 640}, ""},
		{"twice", [2]int64{390, 844}, "200%"},
		{"narrow-twice", [2]int64{320, 640}, "200%"},
	} {
		t.Run(look.name, func(t *testing.T) {
			t.Parallel()
			r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
			p := started(&phone{t: t, size: look.size})
			p.cookable(r)
			p.eval(fmt.Sprintf(`document.documentElement.style.fontSize = %q`, look.text))
			for _, s := range screens {
				p.turns(hash(r, s.path))
				p.see(s.wait)
				p.fits(s.name)
				p.shot(look.name + "-" + s.name)
			}
			p.turns(hash(r, stock+"/1/1"))
			p.tap("#timer-start")
			p.see("#strip")
			p.fits("step with a timer")
			p.shot(look.name + "-timer")
			for _, w := range windows {
				p.turns(hash(r, w.path))
				p.tap(w.open)
				p.see(w.sees)
				p.fits(w.name)
				p.shot(look.name + "-window-" + w.name)
				p.tap(w.sees + " [data-close]")
				p.until("!document.querySelector('dialog[open]')")
			}
		})
	}
}
