package engine

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
)

// made writes a card that makes 1 kg of the items given, all used in one step.
func made(title string, items ...string) string {
	var list, bold strings.Builder
	for _, it := range items {
		list.WriteString("- " + it + "\n")
		name := it[strings.Index(it, " g ")+3:]
		bold.WriteString(" **" + name + "**")
	}
	return "---\nmakes: 1 kg\n---\n\n# " + title + "\n\n## Formula\n\n" + list.String() + "\n## Method\n\n1. Mix" + bold.String() + ".\n   - hands: 5 min\n"
}

func said(problems []card.Problem) []string {
	out := []string{}
	for _, f := range problems {
		out = append(out, f.Error())
	}
	return out
}

// TestCheckBetweenFiles is for what no file shows alone.
func TestCheckBetweenFiles(t *testing.T) {
	for _, row := range []struct {
		name  string
		files []File
		want  []string
	}{
		{"nothing", nil, []string{}},
		{"a chain", []File{{"a.md", made("A", "999 g [B](b.md)")}, {"b.md", made("B", "999 g peas")}}, []string{}},
		{"a loop of three", []File{{"a.md", made("A", "999 g [B](b.md)")}, {"b.md", made("B", "999 g [C](c.md)")}, {"c.md", made("C", "999 g peas", "100 g [A](a.md)")}},
			[]string{"c.md:10:9: these cards need each other in a loop: a → b → c → a; take one of the links out"}},
		{"a card that needs itself", []File{{"a.md", made("A", "999 g [A](a.md)")}},
			[]string{"a.md:9:9: these cards need each other in a loop: a → a; take one of the links out"}},
		{"two loops", []File{{"a.md", made("A", "999 g [B](b.md)")}, {"b.md", made("B", "999 g [A](a.md)", "200 g [C](c.md)")}, {"c.md", made("C", "999 g [B](b.md)")}},
			[]string{"b.md:9:9: these cards need each other in a loop: a → b → a; take one of the links out",
				"c.md:9:9: these cards need each other in a loop: b → c → b; take one of the links out"}},
		{"a missing card", []File{{"a.md", made("A", "999 g [Stock](stok.md)")}, {"stock.md", made("Stock", "999 g bones")}},
			[]string{`a.md:9:9: there is no card stok.md; did you mean "stock.md"?; write that card, or correct the link`}},
		{"a missing card near none", []File{{"a.md", made("A", "999 g [Stock](stock.md)")}},
			[]string{"a.md:9:9: there is no card stock.md; write that card, or correct the link"}},
		{"a by-product nobody saves", []File{{"a.md", made("A", "999 g [fat](stock.md#fat)")}, {"stock.md", made("Stock", "999 g bones")}},
			[]string{`a.md:9:9: "Stock" saves no fat; add it under "## Saves" in stock.md`}},
		{"two cards of one name", []File{{"old/stock.md", made("Old stock", "999 g bones")}, {"new/stock.md", made("New stock", "999 g bones")}},
			[]string{"new/stock.md:1:1: two files of one name: old/stock.md is called stock.md too; rename one; links could mean either"}},
		{"a link goes by name, whatever the folder", []File{{"plates/a.md", made("A", "999 g [B](../base/b.md)")}, {"base/b.md", made("B", "999 g peas")}}, []string{}},
		{"a menu without its cards and kitchen", []File{{"m.md", "---\ncovers: 4\nkitchen: k.md\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md)\n"}},
			[]string{"m.md:10:4: there is no card soup.md; write that card, or correct the link",
				"m.md:1:1: there is no kitchen k.md; write that file, or correct the kitchen line"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, said(Check(row.files)))
		})
	}
}

// without are the cards that the demo's plates lead to when one is not there.
func without(t *testing.T, files []File, name string) map[string]bool {
	t.Helper()
	cards := map[string]*card.Card{}
	for _, f := range files {
		if f.Name != name {
			c, _ := card.Parse(f.Name, []byte(f.Text))
			cards[c.ID] = c
		}
	}
	reached := map[string]bool{}
	var visit func(id string)
	visit = func(id string) {
		c := cards[id]
		if c == nil || reached[id] {
			return
		}
		reached[id] = true
		for _, it := range c.Items {
			if it.Card != "" {
				visit(it.Card)
			}
		}
	}
	for id := range plates(18) {
		visit(id)
	}
	return reached
}

// TestABrokenCardTakesNoOtherDown breaks three of the demo's cards in every way of
// bad input. The problems on the others stay what they were, and
// the dinner still comes with every other card it has.
func TestABrokenCardTakesNoOtherDown(t *testing.T) {
	files := demoFiles(t)
	require.Empty(t, said(Check(files)), "the demo is without problems")
	breaks := map[string]string{
		"empty":        "",
		"bytes":        "\x00\xff\xfe",
		"too long":     strings.Repeat("- 1 kg leeks\n", 30_000),
		"no words":     "---\n---\n",
		"a loop":       made("Loop", "999 g [itself](%ID%.md)"),
		"a bad amount": made("Bad", "0 g peas", "-3 g salt", "1e9 g flour"),
	}
	for i, f := range files {
		if !slices.Contains([]string{"light-chicken-stock.md", "fresh-curd.md", "trout-plate.md"}, f.Name) {
			continue // the base of them all, one that sets something aside, and a plate
		}
		whole := without(t, files, f.Name)
		require.GreaterOrEqual(t, len(whole), 20)
		for name, text := range breaks {
			broken := append([]File(nil), files...)
			broken[i].Text = strings.ReplaceAll(text, "%ID%", strings.TrimSuffix(f.Name, ".md"))
			var here, elsewhere []card.Problem
			for _, found := range Check(broken) {
				if found.File == f.Name {
					here = append(here, found)
				} else {
					elsewhere = append(elsewhere, found)
				}
			}
			assert.NotEmpty(t, here, "%s: %s", f.Name, name)
			for _, found := range elsewhere { // they may say what they miss in it, no more
				assert.Contains(t, found.Msg, "saves no", "%s: %s: %s", f.Name, name, found.Error())
			}
			_, d := openMenu(t, broken, "boathouse-supper.md")
			assert.Equal(t, 18, d.Covers)
			have := map[string]bool{}
			for _, c := range d.Cards {
				have[c.ID] = true
			}
			for id := range whole {
				assert.True(t, have[id], "%s: %s takes %s down", f.Name, name, id)
			}
		}
	}
}
