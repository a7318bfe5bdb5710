package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
)

// flipped returns a text with one bit changed.
func flipped(text string, bit int) string {
	b := []byte(text)
	b[bit/8%len(b)] ^= 1 << (bit % 8)
	return string(b)
}

// TestDamagedTextIsLeftOut flips one bit of one text. The engine names the revision
// and shows nothing of that text, in the library and in a dinner that pins it; with the
// whole text all is as before.
func TestDamagedTextIsLeftOut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		soup, stock, menu := dinner.Revision(fuzzSoup), dinner.Revision(fuzzStock), dinner.Revision(fuzzMenu)
		bad := flipped(fuzzStock, rapid.IntRange(0, 8*len(fuzzStock)-1).Draw(rt, "bit"))
		e := New()
		load := func(text string) LibraryView {
			return call[LibraryView](t, e, "load", LoadCall{Files: []File{{"soup.md", fuzzSoup}, {"stock.md", text}}, Revisions: map[string]string{"soup.md": soup, "stock.md": stock}})
		}
		v := load(bad)
		require.Equal(rt, []string{stock}, v.Damaged)
		require.Len(rt, v.Files, 1)
		v = load(fuzzStock)
		require.Empty(rt, v.Damaged)
		require.Len(rt, v.Files, 2)

		open := func(text string) Sheet {
			return call[Sheet](t, e, "open", OpenCall{Dinner: "s", Texts: map[string]string{soup: fuzzSoup, stock: text, menu: fuzzMenu}, Events: []dinner.Event{{
				ID: "event-open", Dinner: "s", Device: "d", Kind: dinner.KindOpen,
				Open: &dinner.Open{Menu: "menu.md", Covers: 4, Serve: "2027-06-12T19:30", Files: map[string]string{"soup.md": soup, "stock.md": stock, "menu.md": menu}}}}})
		}
		sheet := open(bad)
		require.Equal(rt, []string{stock}, sheet.Damaged)
		require.Len(rt, sheet.Dinner.Cards, 1)
		sheet = open(fuzzStock)
		require.Empty(rt, sheet.Damaged)
		require.Len(rt, sheet.Dinner.Cards, 2)
	})
}

func TestTextWithoutARevisionIsTaken(t *testing.T) {
	v := call[LibraryView](t, New(), "load", LoadCall{Files: []File{{"soup.md", fuzzSoup}}})
	assert.Len(t, v.Files, 1)
	assert.Empty(t, v.Damaged)
}
