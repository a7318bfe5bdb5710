//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestThreeTimersLeaveTheStepLargest runs three timers: each is shown with its
// name and time, and the step is still the largest text on the screen.
func TestThreeTimersLeaveTheStepLargest(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	for _, at := range []string{stock + "/1/2", "s/boathouse/card/overnight-crust-bread/1/4", "s/boathouse/card/rhubarb-juice/1/1"} {
		p.turns(hash(r, at))
		p.tap("#timer-start")
		p.see("#timer-on")
	}
	p.turns(hash(r, stock+"/1/1"))
	p.until(`document.querySelectorAll('#strip .chip').length === 3`)
	p.reads("#strip", "Light chicken stock")
	p.fits("busy")
	p.shot("state-busy")

	// The next step is shown from its top, wherever this one was scrolled to.
	p.eval(`import("/app/settings.js").then((m) => { m.settings.text.value = "huge"; })`)
	p.eval(`new Promise((shown) => { document.querySelector('#panel').addEventListener('scroll', shown, { once: true }); document.querySelector('#panel').scrollTo(0, 300); })`)
	assert.NotEqual(t, "0", p.eval(`document.querySelector('#panel').scrollTop`))
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && document.querySelector('#panel').scrollTop === 0`)
}

// TestLateStepsAreShown opens the dinner some minutes after its first step should
// have begun and before the second, with nothing ticked: the dinner and the step show what is late and
// what is first. An hour before service they show that it can't be done any
// more, and why.
func TestLateStepsAreShown(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "s/boathouse/plan"))
	p.see("#take-plan")
	first := p.eval("document.querySelector('#plan .task').dataset.task")
	of := strings.Fields(p.eval(`import("/app/plan.js").then(({ plan }) => { const t = plan.value.tasks.find((t) => t.key === ` + strconv.Quote(first) + `); return t.from + " " + (t.latest - t.start); })`))
	require.Len(t, of, 2)
	from, err := time.Parse("2006-01-02T15:04", of[0])
	require.NoError(t, err)
	slack, err := strconv.Atoi(of[1])
	require.NoError(t, err)
	after := func(minutes int) string {
		return from.Add(time.Duration(minutes) * time.Minute).Format("2006-01-02T15:04")
	}
	p.tap("#take-plan")
	p.until("!document.querySelector('#moves') && document.querySelector('#status').dataset.waiting === '0'")
	p.ready()
	require.NoError(t, r.stop()) // it would correct the phone's clock
	p.until("document.querySelector('#status').dataset.net === 'off'")
	p.setClock(after(0))
	p.visit(hash(r, "s/boathouse"))
	p.reads("#continue", "Now: ")
	p.setClock(after(slack + 2))
	p.see(".late")
	p.fits("late")
	p.shot("state-late")
	card, _, _ := strings.Cut(first, "#")
	p.visit(hash(r, "s/boathouse/card/"+card+"/1/1"))
	p.reads(".number", "late")
	p.shot("state-late-step")
	p.tap("#not-now")
	p.tap("#skip")
	p.until(fmt.Sprintf("document.querySelector('#stove').dataset.step !== %q", first))
	assert.NotContains(t, p.eval("document.querySelector('.number').innerText"), "late", "the next one is not")
	p.setClock("2027-06-12T18:30")
	p.visit(hash(r, "s/boathouse/plan"))
	p.reads("#moves", "min late") // there is a plan still
	p.fits("too late")
	p.shot("state-too-late")
}

// TestOfflineIsShown also checks how much waits on the phone.
func TestOfflineIsShown(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, stock))
	p.see("#mise li")
	require.NoError(t, r.stop())
	p.tap("#mise li:first-child label")
	p.until(`document.querySelector('#status').dataset.net === 'off' && document.querySelector('#status').dataset.saved === '1'`)
	p.reads("#status", "1 kept here")
	p.shot("state-offline")
}

// TestFullPhoneShowsNothingAsDone fills the phone's storage: a tick that can't
// be written is not shown as done, and the page says what to do. With room again
// the same tap works.
func TestFullPhoneShowsNothingAsDone(t *testing.T) {
	t.Parallel()
	r, p := atTheStove(t)
	p.eval(`(() => { const put = IDBObjectStore.prototype.put; window.room = () => { IDBObjectStore.prototype.put = put; };
		IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); }; })()`)
	p.tap("#done")
	p.reads(".unsaved", "no room left")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/1') && document.querySelector('#done').dataset.done === '0'`)
	p.fits("no room")
	p.shot("state-no-room")
	p.eval(`window.room()`)
	p.tap("#done")
	p.until(`document.querySelector('#stove').dataset.step.endsWith('/step/2') && !document.querySelector('.unsaved')`)
	p.eval(`import("/app/events.js").then(async (m) => { while (m.waiting.value) await new Promise((again) => setTimeout(again, 20)); })`)
	assert.True(t, done(r.pull(t), firstStep), "the server has it")
}
