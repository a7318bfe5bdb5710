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
// first painted, and how long each tap took to the frame that shows it.
const watch = `
	new MutationObserver((_, me) => {
		if (!document.querySelector('#say')?.innerText) return;
		me.disconnect();
		requestAnimationFrame(() => setTimeout(() => { window.readable = performance.now(); }));
	}).observe(document, { subtree: true, childList: true });
	window.taps = [];
	addEventListener('click', (e) => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = () => taps.push(performance.now() - e.timeStamp); c.port2.postMessage(0); }), true);
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

// BenchmarkColdOpen: browser closed, no network, from the start of navigation
// to the step's words painted.
func BenchmarkColdOpen(b *testing.B) {
	for _, slow := range []float64{1, 4} {
		b.Run(fmt.Sprintf("slow-%g", slow), func(b *testing.B) {
			r := start(b, "--data", filepath.Join(b.TempDir(), "hobside.db"))
			p := newPhone(b)
			p.cookable(r)
			p.visit(hash(r, stock+"/1/1"))
			p.see("#say")
			require.NoError(b, r.stop())
			p.slow = slow
			var ms []float64
			for b.Loop() {
				p.close()
				p.open()
				p.watch()
				p.visit(hash(r, stock+"/1/1"))
				p.until("window.readable")
				ms = append(ms, p.number("window.readable"))
			}
			median(b, ms)
		})
	}
}

// BenchmarkTap: from the touch to the frame that shows the next step.
func BenchmarkTap(b *testing.B) {
	for _, slow := range []float64{1, 4} {
		b.Run(fmt.Sprintf("slow-%g", slow), func(b *testing.B) {
			r := start(b, "--data", filepath.Join(b.TempDir(), "hobside.db"))
			p := newPhone(b)
			p.cookable(r)
			p.close()
			p.slow = slow
			p.open()
			p.watch()
			p.visit(hash(r, stock+"/1/1"))
			p.see("#say")
			p.until(`document.querySelector('#stove')`)
			var ms []float64
			for b.Loop() {
				p.tap("#done")
				p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && taps.length`)
				ms = append(ms, p.number("taps.at(-1)"))
				p.tap("#undo")
				p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/1') && !document.querySelector('.unsaved')`)
				p.eval("taps.length = 0")
			}
			median(b, ms)
		})
	}
}
