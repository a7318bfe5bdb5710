package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the food table knows of an item, as JSON: figures of USDA SR28 by their rows.
func TestFoodCommand(t *testing.T) {
	code, out, problems := hobside(t, "food", "onions", "--format", "json")
	require.Equal(t, 0, code, problems)
	var d map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	assert.Equal(t, "onion", d["name"])
	assert.Equal(t, 110.0, d["each_g"], "USDA SR28 WEIGHT 11282: a medium one is 110 g")
	assert.Equal(t, 10.0, d["trim_pct"], "USDA SR28 Refuse 11282")
	assert.Equal(t, "SR28 11282", d["sources"].(map[string]any)["each_g"])
	assert.Equal(t, []any{}, d["eu"])
	assert.Equal(t, "none", d["animal"])
	for _, field := range []string{"same_as", "eu_may", "us", "heat_class", "bought_by", "g_per_ml", "per_100g"} {
		assert.Contains(t, d, field)
	}

	code, out, problems = hobside(t, "food", "T-bone", "steak")
	assert.Equal(t, 0, code, problems)
	assert.Regexp(t, `heat class\s+whole cut`, out)
	code, out, _ = hobside(t, "food", "finely sliced onions")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "as for onion", "a broader food lends its figures and says so")

	code, _, problems = hobside(t, "food", "moonflower")
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, "nothing like")
	code, _, problems = hobside(t, "food", "unions")
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, `did you mean "onion`)
	code, _, _ = hobside(t, "food")
	assert.Equal(t, 2, code)
	code, _, _ = hobside(t, "food", "onion", "--format", "xml")
	assert.Equal(t, 2, code)
}

func TestGuestsCommandReadsWords(t *testing.T) {
	code, out, problems := hobside(t, "guests", "nut allergy", "--format", "json")
	require.Equal(t, 0, code, problems)
	var u understood
	require.NoError(t, json.Unmarshal([]byte(out), &u))
	assert.ElementsMatch(t, []string{"nuts", "peanuts"}, u.EU)
	assert.ElementsMatch(t, []string{"tree_nuts", "peanuts"}, u.US)
	code, out, _ = hobside(t, "guests", "vegetarian")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "meat, poultry, fish, shellfish, gelatine")
	code, _, problems = hobside(t, "guests", "nutz")
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, `not understood: "nutz"; did you mean "nut"?`)
	code, _, _ = hobside(t, "guests")
	assert.Equal(t, 2, code)
	code, _, _ = hobside(t, "guests", "nuts", "--menu", "x.md")
	assert.Equal(t, 2, code)
}

func TestGuestsCommandReadsMenu(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	write("toast.md", "---\nmakes: 4 plates\n---\n\n# Toast\n\n## Formula\n\n- 200 g bread\n- 20 g capers\n\n## Method\n\n1. Toast the **bread**, add the **capers**.\n   - hands: 5 min\n")
	write("menu.md", "---\ncovers: 4\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## First\n\n- [Toast](toast.md)\n\n## Guests\n\n- 1 cover: coeliac\n- 1 cover: no sulphites\n- 1 cover: no nutz\n")
	code, out, _ := hobside(t, "guests", "--menu", filepath.Join(dir, "menu.md"))
	assert.Equal(t, 1, code, "words that are not understood are an error")
	assert.Contains(t, out, "CLASH: First: coeliac: Toast › bread")
	assert.Contains(t, out, "may contain it: First: sulphites: Toast › capers")
	assert.Contains(t, out, `NOT CHECKED: First: no nutz, on Toast; did you mean "nut"?`)
	code, out, _ = hobside(t, "guests", "--menu", filepath.Join(dir, "menu.md"), "--format", "json")
	assert.Equal(t, 1, code)
	var answer struct {
		Guests []struct {
			Covers  int
			Clashes []struct {
				Word             string
				Sure, NotChecked bool
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	require.Len(t, answer.Guests, 3)
	assert.True(t, answer.Guests[0].Clashes[0].Sure)
	assert.True(t, answer.Guests[2].Clashes[0].NotChecked)
}

// A card says what it consists of, and what share of its weight is known.
func TestCardSaysItsNutrition(t *testing.T) {
	code, out, problems := hobside(t, "card", "../../content/cards/almond-praline.md", "--format", "json")
	require.Equal(t, 0, code, problems)
	var page struct {
		Card struct {
			Nutrition struct {
				EU      []struct{ Name, Text string }
				Share   float64
				Missing []string
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &page))
	n := page.Card.Nutrition
	assert.InDelta(t, 1, n.Share, 0.05, "%v", n.Missing)
	require.Len(t, n.EU, 8)
	assert.Equal(t, "energy", n.EU[0].Name)
	code, out, _ = hobside(t, "card", "../../content/cards/light-chicken-stock.md")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "too little is known")
	assert.Contains(t, out, "what is strained off")
}
