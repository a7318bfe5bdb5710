package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// TestImportOfFilesThatWereEditedOnDisk: a folder is imported, edited and imported again,
// while a server runs. An edit on disk alone is an update. A line that the app changed too
// leaves two versions; the command names the card and ends with 1, until somebody chooses.
func TestImportOfFilesThatWereEditedOnDisk(t *testing.T) {
	dir := t.TempDir()
	data, cards := filepath.Join(dir, "hobside.db"), filepath.Join(dir, "cards")
	require.NoError(t, os.Mkdir(cards, 0o755))
	r := start(t, "--data", data, "--empty")
	write := func(text string) {
		require.NoError(t, os.WriteFile(filepath.Join(cards, "stock.md"), []byte(text), 0o644))
	}
	newest := func() string {
		out := filepath.Join(t.TempDir(), "out")
		good(t, "export", "--data", data, out)
		b, err := os.ReadFile(filepath.Join(out, "stock.md"))
		require.NoError(t, err)
		return string(b)
	}
	first, second, third, fourth := "---\nmakes: 5 L\n---\n# Stock\n\n- 3 kg bones\n", "---\nmakes: 6 L\n---\n# Stock\n\n- 3 kg bones\n",
		"---\nmakes: 7 L\n---\n# Stock\n\n- 3 kg bones\n", "---\nmakes: 8 L\n---\n# Stock\n\n- 3 kg bones\n"
	for _, text := range []string{first, second} {
		write(text)
		good(t, "import", "--data", data, cards)
		assert.Equal(t, text, newest())
	}
	edit := func(o hub.Offer) {
		b, err := json.Marshal(o)
		require.NoError(t, err)
		r.push(t, hub.Request{Device: "phone-a", Files: []json.RawMessage{b}})
	}
	edit(hub.Offer{ID: "offer-0001", Name: "stock.md", Base: dinner.Revision(second), Text: third})
	write(fourth)
	for range 2 {
		out, _, code := callHobside("import", "--data", data, cards)
		assert.Equal(t, exitFailed, code)
		assert.Contains(t, out, "stock.md was changed here and in the app")
		assert.Equal(t, third, newest(), "nothing is written into the text")
	}
	edit(hub.Offer{ID: "offer-0002", Name: "stock.md", Base: dinner.Revision(third), Text: third, Settles: []string{dinner.Revision(fourth)}})
	good(t, "import", "--data", data, cards)
	assert.Equal(t, third, newest())
}
