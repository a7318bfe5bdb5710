//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// fills types into a field, as a thumb on glass does: what was there goes first.
func (p *phone) fills(selector, text string) {
	p.t.Helper()
	p.tap(selector)
	p.eval(fmt.Sprintf("document.querySelector(%q).select()", selector))
	p.do(chromedp.SendKeys(chromedp.CSS(selector), text))
}

// picks chooses one entry of a list.
func (p *phone) picks(selector, value string) {
	p.t.Helper()
	p.see(selector)
	p.eval(fmt.Sprintf("(() => { const s = document.querySelector(%q); s.value = %q; s.dispatchEvent(new Event('change', { bubbles: true })); })()", selector, value))
}

// grams reads an amount from the screen.
func grams(t *testing.T, text string) float64 {
	t.Helper()
	a, _, err := quantity.ParseAmount(strings.TrimSpace(text))
	require.NoError(t, err, "%q", text)
	require.NotNil(t, a.Unit, "%q", text)
	return a.Qty.Mul(a.Unit.Factor).Float64()
}

const (
	soupPlate = "s/boathouse/card/pea-soup-plate"
	// The amount of the soup in the plate's mise.
	soupOnPlate = `document.querySelector('[data-key="pea-soup-plate#1/mise/1"] .amount').innerText`
)

// TestWeighedBatchIsSharedOut weighs a batch that gave too little, without a
// network. The page shows at once what each plate gets; a choice is taken, and
// every later card and step follows it. The server has all of it afterwards.
func TestWeighedBatchIsSharedOut(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	require.NoError(t, r.stop())

	p.visit(hash(r, soupPlate))
	p.see("#mise li")
	planned := grams(t, p.eval(soupOnPlate))
	assert.InDelta(t, 18*150, planned, 0.5, "18 covers of 150 g")

	p.visit(hash(r, soup))
	p.see("#make")
	p.tap("#weigh-batch")
	p.shot("amounts-weigh")
	p.fills("#entry-value", "2,16")
	p.picks("#entry-unit", "kg")
	p.tap("#entry-save")
	p.reads("#got", "2.16 kg")
	p.reads("#short", "540 g short")
	assert.Contains(t, p.see("#means"), "Enough for 14", "2160 g are 14 times 150 g and a bit")
	assert.Contains(t, p.see("#means li"), "2.16 kg of 2.7 kg")
	p.fits(t.Name())
	p.shot("amounts-short")

	p.tap(`#means [data-choice="portion"]`)
	p.until(`!document.querySelector('#short')`)
	p.shot("amounts-chosen")
	p.visit(hash(r, soupPlate))
	p.until(soupOnPlate + ` === '2.16 kg'`)
	p.visit(hash(r, soupPlate+"/1/2")) // the step that heats it
	p.reads("#stove", "2.16 kg")
	p.shot("amounts-step-follows")
	p.visit(hash(r, "s/boathouse")) // the stove shows nothing of the network
	p.kept()

	r = serveAt(t, addr, data)
	p.synced()
	state := dinner.Fold(r.pull(t).Events)
	require.Len(t, state.Measures["pea-soup#1"], 1)
	assert.Equal(t, "2.16", state.Measures["pea-soup#1"][0].Amount.Qty.Decimal(2))
	assert.Equal(t, "4/5", state.Portions["pea-soup"].String(), "four fifths of a portion")
}

// TestRatiosAndScalingByOneItem scales a card to 1.35 kg of flour.
func TestRatiosAndScalingByOneItem(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "card/overnight-crust-bread.md"))
	p.see("#prose table")
	ratio := func(item string) string {
		return p.eval(fmt.Sprintf(`[...document.querySelectorAll('#ratios tbody tr')].find((r) => r.children[1].innerText.startsWith(%q))?.lastElementChild.innerText`, item))
	}
	amount := func(item string) string {
		return p.eval(fmt.Sprintf(`[...document.querySelectorAll('#prose tbody tr')].find((r) => r.children[1].innerText.startsWith(%q)).children[0].innerText`, item))
	}
	p.tap("#ratios summary")
	p.until(`document.querySelector('#ratios').open`)
	assert.Equal(t, []string{"85 %", "15 %", "18 %", "2 %"}, []string{ratio("bread flour"), ratio("wholemeal flour"), ratio("water"), ratio("salt")})
	p.shot("amounts-ratios")

	p.picks("#scale-of", "1")
	p.fills("#scale-to", "1.35 kg")
	p.tap("#scale")
	p.until(`[...document.querySelectorAll('#prose td')].some((c) => c.innerText === '1.35 kg (85 %)')`)
	assert.Equal(t, "1.35 kg (85 %)", amount("bread flour"), "beside the amounts stand the ratios")
	assert.InDelta(t, 1350.0/85*18, grams(t, amount("water")), 1, "in the same ratio")
	assert.InDelta(t, 1350.0/85*2, grams(t, amount("salt")), 1)
	assert.Equal(t, "18 %", ratio("water"), "ratios stay")
	p.shot("amounts-scaled")

	// Percent of another line: all of it beside the bread flour alone.
	p.tap(`#ratios [data-hundred="2"]`)
	p.until(`document.querySelector('#ratios [data-hundred="1"]').checked && !document.querySelector('#ratios [data-hundred="2"]').checked`)
	p.until(`[...document.querySelectorAll('#ratios tbody tr')].find((r) => r.children[1].innerText.startsWith('wholemeal')).lastElementChild.innerText.startsWith('17.6')`)
	assert.Equal(t, "100 %", ratio("bread flour"))
}

// TestOrderListKnowsWhatIsInTheHouse enters what is in the house, without a
// network: it is subtracted from what is bought. A tick in the shop stays.
func TestOrderListKnowsWhatIsInTheHouse(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "s/boathouse/order"))
	p.see("#order .tickrow")
	require.NoError(t, r.stop())
	key := p.eval(`[...document.querySelectorAll('#order .tickrow')].find((l) => l.querySelector('.name').innerText.startsWith('frozen pea'))?.dataset.key`)
	row := fmt.Sprintf("[data-key=%q]", key)
	before := p.see(row + " .amount")
	p.tap(row + " details.why summary")
	p.until(fmt.Sprintf("document.querySelector(%q).open", row+" details.why"))
	assert.Contains(t, p.see(row+" details.why"), "Pea and lettuce soup", "who wants it")
	p.shot("amounts-order-line")
	p.fills(row+" input[name=have]", "1 kg")
	p.tap(row + " form button")
	p.until(fmt.Sprintf("document.querySelector(%q).innerText !== %q", row+" .amount", before))
	p.reads(row+" summary", "have 1 kg")
	assert.InDelta(t, grams(t, before)-1000, grams(t, p.see(row+" .amount")), 100, "what is there is not bought")
	p.tap(row + " label .what")
	p.until(fmt.Sprintf("document.querySelector(%q).classList.contains('done')", row))
	p.kept()
	p.reload()
	p.until(fmt.Sprintf("document.querySelector(%q)?.classList.contains('done')", row))
	p.reads(row+" summary", "have 1 kg")
	p.shot("amounts-order-have")
}

// TestAllergenSheet has both lists by their official names, says what was not
// assessed, and never that anything is free of anything.
func TestAllergenSheet(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "s/boathouse/guests"))
	p.see("#sheet .plate-sheet")
	sheet := p.see(`#sheet [data-plate="Pea soup, chive curd, herb oil"]`)
	assert.Contains(t, sheet, "Milk and products thereof (including lactose)", "Regulation (EU) No 1169/2011 Annex II, as written there")
	assert.Contains(t, sheet, "Fresh curd", "through which card")
	all := strings.ToLower(p.see("main"))
	assert.NotContains(t, all, "free of")
	assert.NotContains(t, all, "safe")
	p.fits(t.Name())
	p.shot("amounts-sheet")
	p.eval(`document.querySelector('#sheet').scrollIntoView()`)
	p.shot("amounts-sheet-plates")
}

// TestAmountsInChosenUnits: metric, US, imperial, or as the card was typed.
func TestAmountsInChosenUnits(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	for _, tt := range []struct{ system, want string }{{"us", "5 lb 15 ¼ oz"}, {"imperial", "5 lb 15 ¼ oz"}, {"typed", "2.7 kg"}, {"metric", "2.7 kg"}} {
		p.visit(hash(r, "settings"))
		p.see("#settings")
		p.tap(fmt.Sprintf("label:has(#system-%s)", tt.system))
		if tt.system == "imperial" {
			p.shot("amounts-settings")
		}
		p.visit(hash(r, soupPlate))
		p.until(fmt.Sprintf("%s === %q", soupOnPlate, tt.want))
	}
}
