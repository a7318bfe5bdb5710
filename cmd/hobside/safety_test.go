//go:build browser

package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

const (
	bakes = "s/boathouse/card/braised-lamb/1/4"        // check: core 75 °C
	cools = "s/boathouse/card/light-chicken-stock/1/4" // cool: 8 °C within 1 h 30 min
)

// enters writes a figure in the entry's window, as a cook types it.
func (p *phone) enters(open, figure, unit string) {
	p.t.Helper()
	p.tap(open)
	p.see("#entry-value")
	p.eval(fmt.Sprintf(`(() => { document.querySelector('#entry-value').value = %q; const u = document.querySelector('#entry-unit'); if (u && %q) u.value = %q; })()`, figure, unit, unit))
	p.tap("#entry-save")
	p.until(`!document.querySelector('dialog#entry')`)
}

// pdf prints the page, keeps it when pictures are kept, and returns its words.
func (p *phone) pdf(name string) string {
	p.t.Helper()
	css := true
	data := run1(p, func(ctx context.Context, tab *chromedp.Target) ([]byte, error) {
		got, err := cdp.Call(ctx, tab, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &css, PaperWidth: 8.27, PaperHeight: 11.69})
		return got.Data, err
	})
	dir := os.Getenv("HOBSIDE_SHOTS")
	if dir == "" {
		dir = p.t.TempDir()
	}
	file := filepath.Join(dir, name+".pdf")
	require.NoError(p.t, os.WriteFile(file, data, 0o644))
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	require.NoError(p.t, err, "pdftotext reads the printed page")
	return strings.Join(strings.Fields(string(text)), " ")
}

// TestReadingOfflineAgainstLimit enters core temperatures without a network.
// They are compared with the limits of the card and of the rules; a reading in
// °F is asked about; a corrected reading stays in the log; the server has all of
// it later.
func TestReadingOfflineAgainstLimit(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "settings"))
	p.see("#who")
	p.eval(`(() => { const f = document.querySelector('#who'); f.value = 'First cook'; f.dispatchEvent(new Event('input', { bubbles: true })); })()`)
	require.NoError(t, r.stop())

	p.visit(hash(r, bakes))
	p.reads("#watch", "Core: the card asks at least 75 °C. Not read yet.")
	p.shot("watch-before")
	p.enters("#probe", "58", "°C")
	p.reads("#watch", "58 °C at ")
	p.reads("#watch", "the card asks at least 75 °C. Take a second reading to see when.")
	p.enters("#probe", "145", "°C")
	p.reads("#watch", "if the probe shows °F that is 62.8 °C")
	p.shot("watch-asked")
	p.tap("[data-fahrenheit]")
	p.until(`document.querySelector('#watch').dataset.state === 'open'`)
	p.enters("#probe", "176", "°F") // 80 °C
	p.until(`document.querySelector('#watch').dataset.state === 'met'`)
	p.reads("#watch", "Reached at ")
	p.tap("#watch-more")
	p.reads("#watch-window", "UK Food Standards Agency cooking advice (read)")
	p.reads("#watch-window", "Local codes and licensed practice come first.")
	p.shot("watch-window")
	p.tap("#watch-window [data-amend]") // the first reading, corrected
	p.see("#entry-value")
	p.eval(`document.querySelector('#entry-value').value = '57,5'`)
	p.tap("#entry-save")
	p.until(`document.querySelector('[data-written]')?.innerText.includes('57.5')`)

	p.visit(hash(r, "s/boathouse/controls"))
	log := `[data-control="braised-lamb#1/step/4"]`
	p.reads(log, "57.5 °C")
	p.reads(log, "58 °C")
	p.reads(log, "taken back")
	p.reads(log, "First cook")
	p.reads(log, "met")
	p.kept()
	r = serveAt(t, addr, data)
	p.synced()
	read := map[string]bool{}
	for _, ev := range r.pull(t).Events {
		if ev.Kind == dinner.KindTemperature {
			read[fmt.Sprint(*ev.TempC, " ", ev.Who)] = true
		}
	}
	assert.Equal(t, map[string]bool{"58 First cook": true, "145 First cook": true, "62.8 First cook": true, "80 First cook": true, "57.5 First cook": true}, read)
}

// TestFaultsAndServiceAreShown reads the faults of a step at the step, ticks the step with its
// limit not met, and writes down the corrective action of the card. The pass shows the service.
func TestFaultsAndServiceAreShown(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	const heats = "s/boathouse/card/pea-soup-plate/1/2" // check: 75 °C
	p.visit(hash(r, heats))
	p.see("#watch-more") // the engine and the plan have answered: nothing moves by itself any more
	p.see("#order-by")
	p.tap("#faults summary")
	p.reads("#faults", "it catches on the bottom")
	p.shot("faults")
	p.enters("#probe", "60", "°C")
	p.reads("#watch", "60 °C at ")
	p.until(`!document.querySelector('#corrective')`)
	p.tap("#done")
	p.until(`document.querySelector('#stove')?.dataset.step.endsWith('/step/3')`)
	p.tap("#back")
	p.reads("#corrective", "stir to the bottom")
	p.eval(`document.querySelector('#what-done').click()`) // wherever it is: the new plan may move it
	p.tap("#entry-suggested")
	p.shot("corrective")
	p.tap("#entry-save")
	p.until(`document.querySelector('[data-written]')?.innerText.includes('stir to the bottom')`)
	p.visit(hash(r, "s/boathouse/pass/2"))
	p.reads("[data-plate=pea-soup-plate]", "ladle, 150 ml")
	p.until(`document.querySelector('[data-plate=pea-soup-plate] img')?.naturalWidth === 160`)
	p.shot("pass-service")
}

// TestCoolingLogPrints enters how the food cools and its readings,
// which follow the forecast. A limit that was not met asks for the corrective
// action. The log and the labels print, with sources, and the log can be saved
// as a table.
func TestCoolingLogPrints(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, cools))
	p.until(`document.querySelector('#watch')?.dataset.kind === 'cool'`)
	p.reads("#watch", "Not read yet. Forecast: 21 °C in ")
	p.enters("#probe", "80", "°C")
	p.reads("#watch", "80 °C at ")
	p.tap("#watch-more")
	p.see("#watch-window svg.curve")
	assert.Contains(t, p.see("#watch-window"), "For comparison, from 57 °C to 21 °C in at most 2 h")
	p.eval(`document.querySelector('#vessel-text').value = 'stock, thick, 25 cm deep, in the fridge at 4 °C'`)
	p.tap("#vessel-save")
	p.reads("#watch-window", "What would cool it quicker")
	p.reads("#watch-window", "half the depth (250 mm now)")
	p.shot("cooling-window")
	p.tap("#watch-window [data-close]")
	p.reads("#watch", "That may be too slow.")
	p.shot("cooling-step")

	p.visit(hash(r, "s/boathouse/controls"))
	log := `[data-control="light-chicken-stock#1/step/4"]`
	p.reads(log, "80 °C")
	p.tap(log + " [data-note]")
	p.see("#entry-value")
	p.eval(`document.querySelector('#entry-value').value = 'parted in two trays, in ice'`)
	p.tap("#entry-save")
	p.reads(log, "parted in two trays, in ice")
	words := p.pdf("controls")
	for _, want := range []string{"Light chicken stock", "80 °C", "parted in two trays, in ice", "the card, step 4 (the card's own)", "UK practice guidance (local authority) (read)",
		"Cured and slow-baked trout", "Nothing read.", "Local codes and licensed practice come first."} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "Corrective action", "buttons are for the screen")
	table := p.eval(`new Promise((tell) => { const made = URL.createObjectURL; URL.createObjectURL = (b) => { b.text().then(tell); return made(b); }; document.querySelector('#csv').click(); })`)
	assert.Contains(t, table, "time,who,card,batch,step")
	assert.Contains(t, table, "\"parted in two trays, in ice\"")

	p.visit(hash(r, "s/boathouse/labels"))
	p.see(".label")
	words = p.pdf("labels")
	for _, want := range []string{"Light chicken stock", "Use by day 4 (the day it is made", "Contains", "labels of what was bought", "were not checked"} {
		assert.Contains(t, words, want)
	}
}

// TestLookOfLogAndLabels takes pictures of the log and the labels, and checks
// that nothing is cut off at the side.
func TestLookOfLogAndLabels(t *testing.T) {
	t.Parallel()
	for _, look := range []struct {
		name string
		size [2]int64
		dark bool
	}{{"phone-light", [2]int64{390, 844}, false}, {"phone-dark", [2]int64{390, 844}, true}, {"narrow", [2]int64{320, 640}, false}, {"desk", [2]int64{1280, 800}, false}} {
		t.Run(look.name, func(t *testing.T) {
			t.Parallel()
			r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
			p := started(&phone{t: t, size: look.size, dark: look.dark})
			p.visit(hash(r, cools))
			p.until(`document.querySelector('#watch')`)
			p.enters("#probe", "72", "°C")
			p.reads("#watch", "72 °C at ")
			p.shot(look.name + "-cool")
			p.tap("#watch-more")
			p.see("#watch-window[open] svg.curve")
			p.shot(look.name + "-cool-window")
			assert.Equal(t, "true", p.eval(`document.querySelector('#watch-window[open] .dialog-in').scrollWidth <= document.querySelector('#watch-window').clientWidth`), "the window sticks out at its side, or closed by itself")
			for _, screen := range []struct{ name, path, wait string }{
				{"controls", "s/boathouse/controls", ".control"}, {"labels", "s/boathouse/labels", ".label"}, {"bake", bakes, "#watch"}, {"settings-who", "settings", "#who"},
			} {
				p.visit(hash(r, screen.path))
				p.see(screen.wait)
				p.fits(screen.name)
				p.shot(look.name + "-" + screen.name)
			}
		})
	}
}
