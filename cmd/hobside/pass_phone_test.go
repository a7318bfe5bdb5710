//go:build browser

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestPass sends plates one by one, with what goes on one plate. The mark on
// each stays after a reload without a network.
func TestPass(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "s/boathouse/pass"))
	p.reads("#pass .pass-when", "18 plates to go")
	p.reads("[data-plate=bread-board] .build", "65 g")
	p.see("[data-plate=crispbread-board] .mark")
	assert.Equal(t, "16", p.eval("document.querySelectorAll('[data-plate=bread-board] .mark').length"))
	p.until("document.querySelectorAll('#pass .task').length > 2")
	p.shot("pass-bread")
	p.ready()
	r.stop()

	p.tap("[data-send='1/1']")
	p.reads("#pass .pass-when", "17 plates to go")
	p.tap("[data-plate-key='pass/1/1/5']")
	p.reads("#pass .pass-when", "16 plates to go")
	p.tap("[data-send='1/1']") // the next that has not gone
	p.until("document.querySelector(\"[data-plate-key='pass/1/1/2']\").getAttribute('aria-pressed') === 'true'")
	p.until("document.querySelector('#status').dataset.saved === '1'")
	p.reload()
	p.reads("#pass .pass-when", "15 plates to go")

	// The guests who eat no fish are marked on the course that has some.
	p.tap("[data-course='3']")
	p.reads("[data-plate=beetroot-plate] h2", "for guests who avoid fish")
	p.shot("pass-trout")
	p.fits("the pass")
}
