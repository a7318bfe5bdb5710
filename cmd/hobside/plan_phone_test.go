//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// setClock makes the page believe that it is another time, from now on.
func (p *phone) setClock(wall string) {
	p.t.Helper()
	p.eval(`(() => { const real = Date.now.bind(Date), shift = new Date("` + wall + `").getTime() - real(); Date.now = () => real() + shift;
		document.dispatchEvent(new Event("visibilitychange")); })()`)
}

// TestPlanOnThePhone shows the plan, takes it, cooks by it without a network,
// sees it move when a step is put off, and reads why too many covers are not
// possible.
func TestPlanOnThePhone(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "s/boathouse/plan"))
	p.until("document.querySelectorAll('#plan .task').length > 140")
	p.shot("plan-first")
	p.tap("#take-plan")
	p.until("!document.querySelector('#moves')")
	p.tap("#how-sure")
	p.until("document.querySelectorAll('#chances li').length === 5")
	planned := func(k int) string {
		return p.eval(fmt.Sprintf("document.querySelectorAll('#plan .task')[%d].dataset.task", k))
	}
	first, second := planned(0), planned(1)

	// From here there is no network.
	p.ready()
	p.until("document.querySelector('#status').dataset.waiting === '0'")
	r.stop()
	p.until("document.querySelector('#status').dataset.net === 'off'")

	// On the evening, at the first step: the order of the plan changes between
	// cards.
	p.setClock("2027-06-10T17:01")
	p.visit(hash(r, "s/boathouse"))
	p.shot("plan-dinner")
	p.tap("#continue")
	p.until(fmt.Sprintf("document.querySelector('#stove').dataset.step === %q", first))
	p.see("#then")
	p.tap("#timer-start")
	p.tap("#done")
	p.until(fmt.Sprintf("document.querySelector('#stove').dataset.step === %q", second)) // the next thing in the plan
	p.see("#other-pot")
	p.tap("#done")

	// A step is put off: the plan moves, and lists what moved.
	p.tap("#not-now")
	p.shot("plan-put-off")
	p.tap("#later-20")
	p.visit(hash(r, "s/boathouse/plan"))
	p.see("#moves")
	p.reads("#moves", "moved")
	p.shot("plan-moved")
	p.tap("#take-plan")
	p.until("!document.querySelector('#moves')")
	p.tap("#chosen-keep")
	p.until("!document.querySelector('#chosen')")

	// Only one cook's steps.
	p.tap("[data-cook='2']")
	p.until("[...document.querySelectorAll('.prep .task')].length < 110")

	// Too many guests for this kitchen: the reason, and the changes that would
	// help.
	p.visit(hash(r, "s/boathouse"))
	p.eval(`import("/app/events.js").then((m) => m.emit("covers", "", { number: 60 })).then(() => "")`)
	p.visit(hash(r, "s/boathouse/plan"))
	p.until("document.querySelector('#plan')?.dataset.blocked === '1'")
	p.reads("#because", "goes in loads one after the other")
	p.reads("#changes", "covers fewer") // asked for along with the chances
	p.shot("plan-blocked")
	p.fits("a plan that can't be")
	p.tap("#changes button") // carries it out
	p.until("document.querySelector('#plan')?.dataset.blocked === '0'")
}

// TestPlanOnWideScreen opens the plan on a wide screen: cooks and equipment are
// rows of a chart.
func TestPlanOnWideScreen(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := started(&phone{t: t, size: [2]int64{1280, 800}})
	p.visit(hash(r, "s/boathouse/plan"))
	p.until("document.querySelectorAll('#wall .block').length > 200")
	assert.Equal(t, "first cook", p.eval("document.querySelector('#wall .hands b').innerText"))
	assert.Equal(t, "0", p.eval(`(() => { let n = 0; for (const lane of document.querySelectorAll("#wall .lane")) {
		const at = [...lane.querySelectorAll(".block")].map((b) => b.getBoundingClientRect()).sort((a, b) => a.left - b.left);
		for (let i = 1; i < at.length; i++) if (at[i].left < at[i - 1].right - 1.5) n++; } return n; })()`), "two things on one place at one time")
	p.shot("plan-wall")
}
