//go:build browser

package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// watch notes, in every page opened from now on, when the step's words were
// first painted; for each tap, how long the page's own code worked on it, how
// long until its thread had made the frame that shows it, and from the touch to
// the picture, as the browser's Event Timing has it (in steps of 8 ms, none
// below 16); and tasks of over 50 ms.
const watch = `
	new MutationObserver((_, me) => {
		if (!document.querySelector('#say')?.textContent) return;
		me.disconnect();
		requestAnimationFrame(() => setTimeout(() => { window.readable = performance.now(); }));
	}).observe(document, { subtree: true, childList: true });
	window.taps = [], window.shown = [], window.long = [], window.work = [];
	const next = (fn) => { const c = new MessageChannel(); c.port1.onmessage = fn; c.port2.postMessage(0); };
	let from = 0;
	addEventListener('click', () => {
		from = performance.now();
		requestAnimationFrame(() => next(() => taps.push(performance.now() - from)));
	}, true);
	addEventListener('click', () => work.push(performance.now() - from)); // the last task, when the drawing is done
	new PerformanceObserver((list) => { for (const e of list.getEntries()) if (e.name === 'click') shown.push(e.duration); }).observe({ type: 'event', durationThreshold: 16 });
	new PerformanceObserver((list) => { for (const e of list.getEntries()) long.push(Math.round(e.duration)); }).observe({ type: 'longtask' });
`

func (p *phone) watch() {
	p.t.Helper()
	p.do(chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watch})
		return err
	}))
}

func (p *phone) number(js string) float64 {
	p.t.Helper()
	n, err := strconv.ParseFloat(p.eval(js), 64)
	require.NoError(p.t, err, js)
	return n
}

// median reports the middle of what was measured, in milliseconds.
func median(b *testing.B, ms []float64) {
	slices.Sort(ms)
	b.ReportMetric(ms[len(ms)/2], "ms/median")
	b.ReportMetric(ms[len(ms)-1], "ms/worst")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkColdOpen measures, without a network, the time from the start of
// navigation until the step's words are painted, in a browser that was just
// started and in one that runs.
func BenchmarkColdOpen(b *testing.B) {
	for _, c := range []struct {
		name string
		slow float64
		up   bool
	}{{"just-started/slow-1", 1, false}, {"just-started/slow-4", 4, false}, {"up/slow-1", 1, true}, {"up/slow-4", 4, true}} {
		b.Run(c.name, func(b *testing.B) {
			r := start(b, "--data", filepath.Join(b.TempDir(), "hobside.db"))
			p := newUnusedPhone(b)
			p.cookable(r)
			p.visit(hash(r, stock+"/1/1"))
			p.until(`JSON.parse(localStorage.getItem('hobside-glimpse') ?? '{}').hash === location.hash`)
			require.NoError(b, r.stop())
			p.slow = c.slow
			var ms []float64
			for b.Loop() {
				p.close()
				p.open()
				p.watch()
				if c.up {
					p.visit("data:text/html,up")
					p.eval("new Promise((r) => requestIdleCallback(r))")
				}
				p.visit(hash(r, stock+"/1/1"))
				p.until("window.readable")
				ms = append(ms, p.number("window.readable"))
			}
			median(b, ms)
		})
	}
}

// BenchmarkTap measures the time from the touch to the frame that shows the next
// step.
func BenchmarkTap(b *testing.B) {
	for _, slow := range []float64{1, 4} {
		b.Run(fmt.Sprintf("slow-%g", slow), func(b *testing.B) {
			r := start(b, "--data", filepath.Join(b.TempDir(), "hobside.db"))
			p := newUnusedPhone(b)
			p.cookable(r)
			p.close()
			p.slow = slow
			p.open()
			p.watch()
			p.visit(hash(r, stock+"/1/1"))
			p.see("#say")
			p.until(`document.querySelector('#stove')`)
			p.until(`document.querySelector('#app') && !document.querySelector('#app').inert`)
			p.eval(`import("/app/ask.js").then(async (m) => { while (m.engine.value !== "ready") await new Promise((r) => setTimeout(r, 50)); })`)
			next := func() float64 {
				p.tap("#done")
				p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && taps.length`)
				ms := p.number("taps.at(-1)")
				p.tap("#undo")
				p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/1') && !document.querySelector('.unsaved')`)
				p.eval("new Promise((r) => requestIdleCallback(() => { taps.length = 0; r(); }))")
				return ms
			}
			b.ReportMetric(next(), "ms/first") // the first tap starts the sound and runs code for the first time
			p.eval("shown.length = long.length = work.length = 0")
			var ms []float64
			for b.Loop() {
				ms = append(ms, next())
			}
			b.ReportMetric(p.number("shown.sort((a, b) => a - b)[Math.floor(shown.length / 2)] ?? 8"), "ms/event-timing")
			b.ReportMetric(p.number("work.sort((a, b) => a - b)[Math.floor(work.length / 2)]"), "ms/code")
			b.ReportMetric(p.number("long.length"), "long-tasks")
			b.ReportMetric(p.number("Math.max(0, ...long)"), "ms/longest")
			median(b, ms)
		})
	}
}
