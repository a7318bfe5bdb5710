//go:build browser

package main

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHeatingUpIsTickedOnThePhone: the plan has a line for each time that equipment is
// turned on, before the step that wants it. A tap on the line ticks it, the tick survives
// a reload and reaches the server, and a second tap takes it back.
func TestHeatingUpIsTickedOnThePhone(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		p.turns(hash(r, "s/boathouse/plan"))
		p.reads("#plan .shift .tickrow", "turn the oven to")
		const lines = "#plan .shift .tickrow[data-key*='/heat/']"
		n, err := strconv.Atoi(p.eval("document.querySelectorAll(`" + lines + "`).length"))
		require.NoError(t, err)
		require.Greater(t, n, 3, "oven, fryer and hot cupboard are turned on more than once")
		assert.Empty(t, p.eval("[...document.querySelectorAll(`"+lines+"`)].filter((x) => { const task = document.querySelector(`.shift [data-task='${x.dataset.key.replace('/heat/', '/step/')}']`); return !task || !(x.compareDocumentPosition(task) & Node.DOCUMENT_POSITION_FOLLOWING); }).map((x) => x.dataset.key).join(' ')"),
			"each line stands before the step that it is for")
		key := p.eval("document.querySelector(`" + lines + "`).dataset.key")
		line := fmt.Sprintf("#plan .shift .tickrow[data-key='%s']", key)
		inSight := "document.querySelector(`" + line + "`).scrollIntoView({ block: 'center' })"
		p.eval(inSight)
		check("heating")

		p.tap(line + " .what")
		p.see(line + ".done")
		p.kept()
		p.reload()
		p.see(line + ".done")
		p.synced()
		assert.True(t, done(r.pull(t), key), "on the server")
		p.eval(inSight)
		check("heating-ticked")
		p.sheets("plan", 8.27, 11.69)

		p.tap(line + " .what")
		p.see(line + ":not(.done)")
		p.kept()
		p.synced()
		assert.False(t, done(r.pull(t), key), "taken back on the server")
	})
}
