package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
)

// A supper is a generated menu with its cards and kitchen, by file name.
type supper map[string]string

// drawSupper draws a menu of two courses with slips of every kind that only a menu shows:
// units that a card does not make, weighed courses without an amount a cover, guests who
// clash, prices for nothing, missing limits and links.
func drawSupper(t *rapid.T) supper {
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	return supper{
		"menu.md": "---\ncovers: " + pick("covers", "1", "8", "24") + "\nserve: 2027-06-12 19:30\nkitchen: kitchen.md\n---\n\n# Supper\n\n## Main\n\n- [Roast](" +
			pick("main", "roast.md", "roast.md", "rost.md") + ")" + pick("a cover of the main", "", ": 1 kg per cover", ": 2 pieces per cover") + "\n\n## Sweet\n\n- after: 30 min\n- [Sweet](sweet.md)" +
			pick("a cover of the sweet", "", ": 1 piece per cover", ": 80 g per cover", ": 2 cloves per cover") + "\n\n## Guests\n\n- 1 cover: no " + pick("guests", "egg", "fish", "milk", "nuts") + "\n",
		"kitchen.md": "---\ncooks: 2\nrules: " + pick("rules", "us", "uk") + "\nhob: 4 rings\noven: 1, 2 shelves\nfridge\n---\n\n# Kitchen\n\n## Hours\n\n- Friday 09:00–22:00\n- Saturday 08:00–23:00\n\n## Prices\n\n- " +
			pick("price", "butter: €9 per kg", "buttr: €9 per kg", "eggs: €4 per kg", "quinces: €3 per kg") + "\n",
		"roast.md": "---\nmakes: " + pick("roast makes", "1 plate", "2 kg", "2 kg\nportion: 200 g") + "\n---\n\n# Roast\n\n## Formula\n\n- 300 g chicken thighs\n- 20 g " +
			pick("with", "butter", "zzyzx", "mayonnaise") + "\n\n## Method\n\n1. Roast the **chicken thighs** with the rest.\n   - oven: 200 °C\n   - hands: 5 min\n   - wait: 30 min\n" +
			pick("limit", "", "   - check: core 74 °C\n", "   - check: core 40 °C\n"),
		"sweet.md": "---\nmakes: " + pick("sweet makes", "1 plate", "12 pieces", "1 kg") + "\n---\n\n# Sweet\n\n## Formula\n\n- " + pick("link", "1 ", "2 pieces ", "100 g ", "3 cloves ") + "[Meringue](meringue.md" +
			pick("save", "", "", "#yolks") + ")\n- 50 g cream\n\n## Method\n\n1. Lay the **meringue** on the **cream**.\n   - hands: 5 min\n",
		"meringue.md": "---\nmakes: 24 pieces\n" + pick("each", "", "each: 30 g\n") + "keeps: 5 d room\n---\n\n# Meringue\n\n## Formula\n\n- 120 g egg whites\n- 240 g caster sugar\n\n## Method\n\n1. Whisk the **egg whites** with the **caster sugar** and bake.\n   - oven: 100 °C\n   - hands: 20 min\n   - wait: 1 h 30 min\n",
	}
}

// problemsIn reads the problems of an answer in JSON, without the folder in their names.
func problemsIn(t require.TestingT, answer []byte, dir string) []string {
	var problems []document.Problem
	if bytes.HasPrefix(bytes.TrimSpace(answer), []byte("[")) {
		require.NoError(t, json.Unmarshal(answer, &problems), "%s", answer)
	} else {
		var view struct{ Problems []document.Problem }
		require.NoError(t, json.Unmarshal(answer, &view), "%s", answer)
		problems = view.Problems
	}
	out := []string{}
	for _, p := range problems {
		p.File = strings.TrimPrefix(p.File, filepath.ToSlash(dir)+"/")
		out = append(out, strings.ReplaceAll(p.Error(), filepath.ToSlash(dir)+"/", ""))
	}
	return out
}

// TestCheckOrderAndPlanAgree: over generated menus, check on a menu's folder prints the
// problems that the order list and the plan of its dinner print, neither more nor fewer.
func TestCheckOrderAndPlanAgree(t *testing.T) {
	dir, found := t.TempDir(), map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		files := drawSupper(t)
		if rapid.Bool().Draw(t, "the link is right") {
			files["menu.md"] = strings.ReplaceAll(files["menu.md"], "rost.md", "roast.md")
		}
		for name, text := range files {
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
		}
		if strings.Contains(files["menu.md"], "rost.md") {
			require.NoError(t, os.Remove(filepath.Join(dir, "roast.md"))) // a card that no menu needs is checked, and not in the dinner
		}
		ask := func(args ...string) []string {
			var out, problems bytes.Buffer
			run(t.Context(), args, &out, &problems)
			return problemsIn(t, out.Bytes(), dir)
		}
		checked := ask("check", "--json", dir)
		menu := filepath.Join(dir, "menu.md")
		require.Equal(t, checked, ask("order", "--menu", menu, "--format", "json"))
		require.Equal(t, checked, ask("plan", "--menu", menu, "--format", "json"))
		for _, p := range checked {
			for _, kind := range []string{"can't be worked out", "how much of it a cover gets", "can't have", "its price is for nothing", "no critical limit", "lower than any rule", "there is no card", "saves no"} {
				if strings.Contains(p, kind) {
					found[kind]++
				}
			}
		}
	})
	t.Log(found)
	assert.Len(t, found, 8, "every kind of slip was drawn and found: %v", found)
}

// TestProblemsAreSaidInEveryFormat: the text has them in a section, JSON in a list; where the
// format has no place, they go to the standard error. An error among them is the exit code.
func TestProblemsAreSaidInEveryFormat(t *testing.T) {
	dir := filesIn(t, map[string]string{
		"menu.md":    "---\ncovers: 8\nserve: 2027-06-12 19:30\nkitchen: kitchen.md\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md)\n",
		"kitchen.md": "---\ncooks: 1\nrules: uk\nhob: 2 rings\n---\n\n# Kitchen\n\n## Hours\n\n- on the day: 08:00–22:00\n",
		"soup.md":    "---\nmakes: 2 kg\n---\n\n# Soup\n\n## Formula\n\n- 2 kg peas\n\n## Method\n\n1. Boil the **peas**.\n   - hob: 1 ring\n   - hands: 10 min\n",
	})
	menu := filepath.Join(dir, "menu.md")
	const want = `menu.md:11:4: "Soup" makes 2 kg, and nothing says how much of it a cover gets; write it behind the link, like "120 g per cover", or add "portion: 120 g" to soup.md`
	for _, tt := range []struct {
		args   []string
		apart  bool
		failed string
	}{
		{[]string{"order", "--menu", menu}, false, "hobside order: the list may be wrong: " + want},
		{[]string{"order", "--menu", menu, "--format", "csv"}, true, "hobside order: the list may be wrong: " + want},
		{[]string{"plan", "--menu", menu}, false, "hobside plan: the plan may be wrong: " + want},
		{[]string{"plan", "--menu", menu, "--format", "ics"}, true, "hobside plan: the plan may be wrong: " + want},
	} {
		code, out, problems := hobside(t, tt.args...)
		assert.Equal(t, exitFailed, code, tt.args)
		assert.Contains(t, problems, tt.failed)
		assert.Equal(t, tt.apart, slices.Contains(strings.Split(problems, "\n"), want), problems)
		assert.Equal(t, !tt.apart, strings.Contains(out, "\nProblems\n  "+want), out)
	}
	_, out, _ := hobside(t, "order", "--menu", menu, "--format", "json")
	assert.Contains(t, problemsIn(t, []byte(out), dir), want)
	code, out, _ := hobside(t, "check", dir)
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, out, want)
	// 2 kg for 8 covers: one batch, as the card is typed, and not 8 kg.
	_, out, _ = hobside(t, "order", "--menu", menu)
	assert.Contains(t, out, "Soup: 2 kg")
}
