package library

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/document/filetest"
)

func TestCompileTellsKindsApart(t *testing.T) {
	for _, tt := range []struct{ name, text, title string }{
		{"dough.md", dough, "Dough, overnight"},
		{"no-title.md", "- 1 kg peas\n", "no-title"},
		{"supper.md", "---\ncovers: 4\n---\n\n# Supper\n", "Supper"},
		{"k.md", filetest.UKKitchen, "K"},
	} {
		f := Compile(tt.name, tt.text)
		assert.Equal(t, tt.title, f.Title(), tt.name)
		set := 0
		for _, is := range []bool{f.Card != nil, f.Menu != nil, f.Kitchen != nil} {
			if is {
				set++
			}
		}
		assert.Equal(t, 1, set, "%s is one of card, menu and kitchen", tt.name)
	}
}

func TestCacheCompilesEachTextOnce(t *testing.T) {
	var c Cache
	first := c.Compile("dough.md", dough)
	assert.Same(t, first, c.Compile("dough.md", dough))
	other := c.Compile("dough.md", dough+"\n")
	assert.NotSame(t, first, other, "another text")
	assert.NotSame(t, first, c.Compile("sponge.md", dough), "another name: problems carry it")
	assert.Same(t, first, c.Compile("dough.md", dough), "going back to the text before")
	for i := range 2 * mostTexts {
		c.Compile("dough.md", dough+string(rune('a'+i)))
	}
	assert.Len(t, c.byName["dough.md"], mostTexts, "old texts are dropped")
}

func TestNeedsListsWhatADinnerPins(t *testing.T) {
	item := func(title, link string) string {
		return "---\nmakes: 1 kg\n---\n\n# " + title + "\n\n## Formula\n\n- 1 kg " + link + "\n"
	}
	s := sources(
		Source{"supper.md", "---\ncovers: 4\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md)\n- [Gone](gone.md)\n"},
		Source{"soup.md", item("Soup", "[Stock](stock.md)")},
		Source{"stock.md", item("Stock", "bones")},
		Source{"cake.md", item("Cake", "flour")},
		Source{"k.md", filetest.UKKitchen},
	)
	assert.Equal(t, []string{"k.md", "soup.md", "stock.md", "supper.md"}, s.Needs(s["supper.md"]), "the only kitchen, and no card that the menu does not use")
	assert.Equal(t, []string{"cake.md"}, s.Needs(s["cake.md"]))
	s["l.md"] = Compile("l.md", filetest.UKKitchen)
	assert.Empty(t, s.KitchenOf(s["supper.md"].Menu), "two kitchens, and the menu names neither")
	s["supper.md"].Menu.Kitchen = "l"
	assert.Equal(t, []string{"l.md", "soup.md", "stock.md", "supper.md"}, s.Needs(s["supper.md"]))
}
