//go:build browser

package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// paste puts a text into the field for recipes.
func (p *phone) paste(text string) {
	p.t.Helper()
	js, err := json.Marshal(text)
	require.NoError(p.t, err)
	p.see("#paste")
	p.eval(`(() => { const t = document.querySelector('#paste'); t.value = ` + string(js) + `; t.dispatchEvent(new Event('input', { bubbles: true })); })()`)
	p.until(`!document.querySelector('#read-paste').disabled`)
}

// A recipe is pasted and read by the server; source and card stand side by side; what is
// proposed is left by a tap; the card is saved and reaches the server. Three taps: read, one
// proposal left, save.
func TestRecipeIsPastedAndSaved(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	text, err := os.ReadFile(recipes + "pork-belly.txt")
	require.NoError(t, err)
	p.visit(hash(r, "cards/bring"))
	p.paste(string(text))
	p.tap("#read-paste")
	p.see("#compare")
	p.reads("#source", "butter the size of an egg")
	p.reads("#card-lines", "2.5 kg pork belly, skin scored")
	p.reads("#card-lines", "wait: overnight")
	p.reads("#not-read", "Nothing: all of it is in the card")
	p.shot("bring-compare")
	p.tap(`#card-lines [data-fact="1"] input`) // the first fact: wait: overnight
	p.until(`document.querySelectorAll('#card-lines .left').length === 1`)
	p.tap("#save-brought")
	p.until(`location.hash === '#/card/slow-roast-belly-of-pork.md'`)
	p.reads("main", "Slow roast belly of pork")
	p.synced()
	texts := map[string]string{}
	for _, f := range r.pull(t).Files {
		texts[f.Name] = f.Text
	}
	saved := texts["slow-roast-belly-of-pork.md"]
	assert.NotContains(t, saved, "wait: overnight", "this proposal was left")
	assert.Contains(t, saved, "   - wait: 3 h\n")
	assert.Contains(t, saved, "## Where it is from")
}

// Without the server a paste is kept on the phone, survives a reload, and is read when the
// server is there again.
func TestPasteIsKeptWithoutTheServer(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.until(`document.querySelector('#status').dataset.waiting === '0'`)
	require.NoError(t, r.stop())
	p.visit(hash(r, "cards/bring"))
	p.paste("Pea soup\n\nServes 4\n\n500 g frozen peas\n1 L water\n\nBoil the peas in the water for 5 minutes and blend.")
	p.tap("#read-paste")
	p.reads("#bring-said", "kept on this phone")
	p.until(`document.querySelector('#bring').dataset.kept === '1'`)
	p.shot("bring-kept")
	p.visit(hash(r, "cards"))
	p.see("#bring-in")
	r = serveAt(t, addr, data)
	p.visit(hash(r, "cards/bring"))
	p.see("#compare")
	p.reads("#card-lines", "500 g frozen peas")
	p.until(`document.querySelector('#bring').dataset.kept === '0'`)
}
