//go:build browser

package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// TestTwoVersionsAreOffered changes one line of a card in two places. The phone says so in
// the list of cards, shows the lines of both on the card, and takes the one that is chosen.
func TestTwoVersionsAreOffered(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	text := ""
	for _, f := range r.pull(t).Files {
		if f.Name == "light-chicken-stock.md" {
			text = f.Text
		}
	}
	require.NotEmpty(t, text)
	title, _, _ := strings.Cut(text[strings.Index(text, "# "):], "\n")
	edit := func(id, to string) {
		b, err := json.Marshal(hub.Offer{ID: id, Name: "light-chicken-stock.md", Base: dinner.Revision(text), Text: strings.Replace(text, title, to, 1)})
		require.NoError(t, err)
		r.push(t, hub.Request{Device: "phone-b", Files: []json.RawMessage{b}})
	}
	edit("offer-0001", "# The stock of one cook")
	edit("offer-0002", "# The stock of the other")

	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "cards"))
	p.reads(`a[data-file="light-chicken-stock.md"]`, "two versions: choose")
	p.tap(`a[data-file="light-chicken-stock.md"]`)
	p.reads("#versions", "The stock of one cook")
	p.reads("#versions", "The stock of the other")
	p.reads("#prose", "The stock of one cook")
	p.fits("two versions")
	p.shot("two-versions")
	p.tap("[data-version=other]")
	p.reads("#prose", "The stock of the other")
	p.until("!document.querySelector('#versions')")
	p.until("document.querySelector('#status').dataset.waiting === '0'")
	p.reload()
	p.reads("#prose", "The stock of the other")
	p.until("!document.querySelector('#versions')")
}
