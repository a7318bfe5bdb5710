package engine

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/document/filetest"
	"hobside/internal/library"
)

func said(problems []document.Problem) []string {
	out := []string{}
	for _, f := range problems {
		out = append(out, f.Error())
	}
	return out
}

// check returns the problems of files as "hobside check" does.
func check(files []File) []document.Problem {
	sources := make([]library.Source, len(files))
	for i, f := range files {
		sources[i] = library.Source(f)
	}
	problems, _ := dinner.Check(sources, nil)
	return problems
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

// TestBrokenCardLeavesOthersWhole breaks three of the demo's cards in every way of
// bad input. The problems on the others stay what they were, and
// the dinner still comes with every other card it has.
func TestBrokenCardLeavesOthersWhole(t *testing.T) {
	files := demoFiles(t)
	require.Empty(t, said(check(files)), "the demo is without problems")
	breaks := map[string]string{
		"empty":        "",
		"bytes":        "\x00\xff\xfe",
		"too long":     strings.Repeat("- 1 kg leeks\n", 30_000),
		"no words":     "---\n---\n",
		"a loop":       filetest.Mix("Loop", "999 g [itself](%ID%.md)"),
		"a bad amount": filetest.Mix("Bad", "0 g peas", "-3 g salt", "1e9 g flour"),
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
			var here, elsewhere []document.Problem
			for _, found := range check(broken) {
				if found.File == f.Name {
					here = append(here, found)
				} else {
					elsewhere = append(elsewhere, found)
				}
			}
			assert.NotEmpty(t, here, "%s: %s", f.Name, name)
			for _, found := range elsewhere { // they may name what they lack of the broken card, what the menu serves of it, and nothing else
				served := found.File == "boathouse-supper.md" && (strings.Contains(found.Msg, `"Loop"`) || strings.Contains(found.Msg, "Bad"))
				assert.True(t, served || strings.Contains(found.Msg, "saves no") || strings.Contains(found.Msg, "there is no card \""), "%s: %s: %s", f.Name, name, found.Error())
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

// TestEveryScreenShowsTheSameProblems compares the check, the library and the
// page of a card whose second way has no limit.
func TestEveryScreenShowsTheSameProblems(t *testing.T) {
	ways := "---\nmakes: 1 kg\n---\n\n# Thighs\n\n## Formula\n\n- 1 kg chicken thighs\n\n## Method\n\n### Way: roast\n\n1. Roast the **chicken thighs**.\n   - oven: 200 °C\n   - hands: 5 min\n   - check: core 74 °C\n\n" +
		"### Way: fry\n\n1. Fry the **chicken thighs**.\n   - hob: 1 ring\n   - hands: 5 min\n"
	files := []File{{"a.md", ways}, {"k.md", filetest.USKitchen}}
	want := check(files)
	require.Len(t, want, 1)
	e := New()
	lib := call[LibraryView](t, e, "load", LoadCall{Files: files})
	assert.Equal(t, want, lib.Problems)
	assert.Equal(t, want, call[PageView](t, e, "read", ReadCall{Name: "a.md"}).Problems)
	assert.Empty(t, call[PageView](t, e, "read", ReadCall{Name: "k.md"}).Problems)
}
