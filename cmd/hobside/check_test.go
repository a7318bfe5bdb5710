package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// oneSupper is a menu with its card, its kitchen and a clash, and a card beside it that
// the menu does not need.
var oneSupper = map[string]string{
	"menu.md":    "---\ncovers: 8\nserve: 2027-06-12 19:30\nkitchen: kitchen.md\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md)\n\n## Guests\n\n- 1 cover: no milk\n",
	"kitchen.md": "---\ncooks: 1\nrules: uk\nhob: 2 rings\n---\n\n# Kitchen\n\n## Hours\n\n- on the day: 08:00–22:00\n",
	"soup.md":    "---\nmakes: 2 kg\nportion: 250 g\nkeeps: 2 d chilled\n---\n\n# Soup\n\n## Formula\n\n- 2 kg milk\n- 100 g [Crumbs](crumbs.md)\n\n## Method\n\n1. Boil the **milk** with the **crumbs**.\n   - hob: 1 ring\n   - hands: 10 min\n",
	"crumbs.md":  "---\nmakes: 1 kg\nkeeps: 2 d chilled\n---\n\n# Crumbs\n\n## Formula\n\n- 1 kg chicken thighs\n\n## Method\n\n1. Fry the **chicken thighs**.\n   - hob: 1 ring\n   - hands: 10 min\n   - wait: ten\n",
	"other.md":   "---\nmakes: a lot\n---\n\n# Other\n",
}

const (
	clash   = `menu.md:11:4: guests (1 cover: no milk) get "Soup", which has what they can't have: Soup → milk`
	noLimit = "crumbs.md:14:4: warning: step 1: chicken thighs, no critical limit: at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read)"
	badWait = "crumbs.md:17:12: wait: "
)

// TestCheckOfOneFileReadsItsNeighbours: a file that is named by itself is checked with the
// files beside it: its links are found, its guests and the kitchen's rules are looked at,
// and a menu's cards are checked with it. The rest of the folder is not.
func TestCheckOfOneFileReadsItsNeighbours(t *testing.T) {
	dir := filesIn(t, oneSupper)
	code, whole, _ := hobside(t, "check", dir)
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, whole, "other.md:")
	assert.True(t, strings.HasSuffix(whole, "5 files, 3 errors, 3 warnings\n"), whole)

	code, out, _ := hobside(t, "check", filepath.Join(dir, "menu.md"))
	assert.Equal(t, exitFailed, code)
	for _, want := range []string{clash, noLimit, badWait} {
		assert.Contains(t, out, want)
		assert.Contains(t, whole, want)
	}
	assert.NotContains(t, out, "there is no card")
	assert.NotContains(t, out, "other.md")
	assert.True(t, strings.HasSuffix(out, "4 files, 2 errors, 1 warnings\n"), out)

	code, out, _ = hobside(t, "check", filepath.Join(dir, "soup.md"))
	assert.Zero(t, code, out)
	assert.Equal(t, "1 files, 0 errors, 0 warnings\n", out)
	_, out, _ = hobside(t, "check", filepath.Join(dir, "crumbs.md"))
	assert.Contains(t, out, noLimit, "the kitchen's rules")
	_, out, _ = hobside(t, "check", filepath.Join(dir, "menu.md"), filepath.Join(dir, "other.md"))
	assert.True(t, strings.HasSuffix(out, "5 files, 3 errors, 3 warnings\n"), out)

	require.NoError(t, os.Remove(filepath.Join(dir, "soup.md")))
	_, out, _ = hobside(t, "check", filepath.Join(dir, "menu.md"))
	assert.Contains(t, out, "menu.md:11:4: there is no card soup.md")
}

// TestCheckOfOneCardFindsTheKitchenAbove: cards in a folder of their own below the
// kitchen's are checked by its rules, and their links by the whole of its folder.
func TestCheckOfOneCardFindsTheKitchenAbove(t *testing.T) {
	dir := t.TempDir()
	for name, text := range oneSupper {
		if name != "menu.md" && name != "kitchen.md" {
			name = filepath.Join(map[bool]string{true: "soups", false: "cards"}[name == "soup.md"], name)
		}
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	_, out, _ := hobside(t, "check", filepath.Join(dir, "cards", "crumbs.md"))
	assert.Contains(t, out, noLimit)
	assert.NotContains(t, out, "names no rules")
	code, out, _ := hobside(t, "check", filepath.Join(dir, "soups", "soup.md"))
	assert.Zero(t, code, out)
	code, _, problems := hobside(t, "card", filepath.Join(dir, "soups", "soup.md"))
	assert.Zero(t, code, problems)

	alone := filesIn(t, map[string]string{"soup.md": oneSupper["soup.md"]})
	_, out, _ = hobside(t, "check", filepath.Join(alone, "soup.md"))
	assert.Contains(t, out, "soup.md:12:9: there is no card crumbs.md")
}
