package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/engine"
)

// ownFoods writes a supper, its cards and a kitchen's own foods to a folder.
func ownFoods(t *testing.T, foods string) string {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"supper.md": "---\ncovers: 10\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## First\n\n- [Soup](soup.md)\n\n## Guests\n\n- 1 cover: no sesame\n",
		"soup.md":   "---\nmakes: 4 plates\n---\n\n# Soup\n\n## Formula\n\n- 5 brown globes\n- 100 g butter\n- 20 g topping, for the top\n- 10 g saffron\n\n## Method\n\n1. Cook the **brown globes** in **butter** with **saffron**; add **topping**.\n   - hands: 20 min\n",
		"foods.md":  foods,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	return dir
}

const ownRows = "# Foods\n\n| food | other names | each | trim | allergens | pack | price | keeps |\n|--|--|--|--|--|--|--|--|\n" +
	"| onion | brown globe | 200 g | 20 % | | loose | €1 per kg | 40 d |\n| topping | | | | sesame | 500 g | €8 per kg | |\n| butter | | | | | | €9 per kg | |\n"

func TestFoodCommandReadsTheKitchensFoods(t *testing.T) {
	dir := ownFoods(t, ownRows)
	foods := filepath.Join(dir, "foods.md")
	code, out, problems := hobside(t, "food", "brown globes", "--foods", foods, "--format", "json")
	require.Equal(t, 0, code, problems)
	var d struct {
		Name    string
		Each    float64 `json:"each_g"`
		Trim    float64 `json:"trim_pct"`
		Keeps   int     `json:"keeps_days"`
		Bought  string  `json:"bought_by"`
		Density float64 `json:"g_per_ml"`
		Sources map[string]string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	assert.Equal(t, []any{"onion", 200.0, 20.0, 40, "weight"}, []any{d.Name, d.Each, d.Trim, d.Keeps, d.Bought})
	for _, field := range []string{"each_g", "trim_pct", "keeps_days", "bought_by"} {
		assert.Equal(t, "the kitchen's foods", d.Sources[field], field)
	}
	assert.NotEqual(t, "the kitchen's foods", d.Sources["eu"], "the row says nothing of allergens")
	code, out, _ = hobside(t, "food", "topping", "--foods", foods)
	assert.Equal(t, 0, code)
	assert.Regexp(t, `allergens\s+EU: sesame; US: sesame\s+the kitchen's foods`, out)
	code, _, _ = hobside(t, "food", "brown globes")
	assert.Equal(t, 1, code, "the built-in table does not have it")

	code, _, problems = hobside(t, "food", "onion", "--foods", filepath.Join(dir, "soup.md"))
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, `soup.md has no table headed "food": it is not a kitchen's own foods`)
	code, _, problems = hobside(t, "food", "onion", "--foods", filepath.Join(ownFoods(t, ownRows+"| nuts | | | | | | | |\n"), "foods.md"))
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, `foods.md:8:3: "nuts" is a word for what guests can't have`)
	code, _, _ = hobside(t, "food", "onion", "--foods", filepath.Join(dir, "none.md"))
	assert.Equal(t, 1, code)
}

// By hand: five onions of 200 g at 1 € a kilogram are 1 €, 100 g of butter 0.90 €, 20 g of
// topping 0.16 €: 2.06 € for four plates.
func TestCardSaysItsCost(t *testing.T) {
	dir := ownFoods(t, ownRows)
	file := filepath.Join(dir, "soup.md")
	code, out, problems := hobside(t, "card", file, "--format", "json")
	require.Equal(t, 0, code, problems)
	var page engine.PageView
	require.NoError(t, json.Unmarshal([]byte(out), &page))
	require.NotNil(t, page.Card.Cost)
	assert.Equal(t, engine.CostView{Sum: "€2.06", Each: "€0.52", Of: "plate", Missing: []string{"saffron"}, Assumed: []string{}}, *page.Card.Cost)
	code, out, _ = hobside(t, "card", file)
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "Cost: €2.06, €0.52 a plate\n  without: saffron\n")
	assert.Contains(t, out, "one onion 200 g (the kitchen's foods)")
	code, out, _ = hobside(t, "card", file, "--format", "html")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "<h2>Cost</h2>\n<p>€2.06, €0.52 a plate</p>\n<p>Without:</p>\n<ul>\n<li>saffron</li>\n</ul>")
	assert.Contains(t, out, "<h2>Nutrition</h2>")

	alone := t.TempDir()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(alone, "soup.md"), text, 0o600))
	code, out, _ = hobside(t, "card", filepath.Join(alone, "soup.md"), "--foods", filepath.Join(dir, "foods.md"))
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "Cost: €2.06")
	code, out, _ = hobside(t, "card", filepath.Join(alone, "soup.md"))
	assert.Equal(t, 0, code)
	assert.NotContains(t, out, "Cost:")
}

// Nutrition in HTML is in the order of the law, and only where enough is known.
func TestCardsFactsInHTML(t *testing.T) {
	code, out, problems := hobside(t, "card", "../../content/cards/almond-praline.md", "--format", "html")
	require.Equal(t, 0, code, problems)
	assert.Regexp(t, `(?s)<h2>Nutrition</h2>.*in 100 g.*energy.*fat.*of which saturates.*carbohydrate.*of which sugars.*fibre.*protein.*salt`, out)
	code, out, _ = hobside(t, "card", "../../content/cards/light-chicken-stock.md", "--format", "html")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "<p>Too little is known for a figure")
}

// The order list and the guests of a menu read the foods beside it.
func TestMenuReadsTheKitchensFoods(t *testing.T) {
	dir := ownFoods(t, ownRows)
	menu := filepath.Join(dir, "supper.md")
	code, out, problems := hobside(t, "order", "--menu", menu, "--format", "json")
	require.Contains(t, []int{0, 1}, code, problems)
	var list dinner.OrderList
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	buy := map[string]string{}
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			buy[l.Name] = l.Buy + " " + l.Cost
		}
	}
	// 12.5 onions are 13 to buy, of 200 g at 1 € a kilogram; 50 g of topping are a pack of 500 g.
	assert.Equal(t, "1 × 500 g €4.00", buy["topping"])
	assert.Equal(t, "13 €2.60", buy["onion"])
	code, out, _ = hobside(t, "guests", "--menu", menu)
	assert.Contains(t, out, "CLASH: First: sesame: Soup › topping")
	assert.Equal(t, 1, code, "the clash is an error of the menu")

	code, out, _ = hobside(t, "guests", "no topping", "--foods", filepath.Join(dir, "foods.md"))
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "foods, and what is made of them: topping")
	code, _, problems = hobside(t, "guests", "no topping")
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, `not understood: "no topping"`)
	code, _, _ = hobside(t, "guests", "--menu", menu, "--foods", filepath.Join(dir, "foods.md"))
	assert.Equal(t, 2, code, "a menu has the foods beside it")

	code, out, _ = hobside(t, "check", dir)
	assert.Equal(t, 1, code, "a guest gets sesame")
	assert.Contains(t, out, "3 files, 1 errors, ")
}

// The sheet has every plate with its allergens, what one cover gets of it and its cost. By
// hand: a plate of 2.06 € for four is 0.515 €.
func TestSheetOfAMenu(t *testing.T) {
	dir := ownFoods(t, ownRows)
	menu := filepath.Join(dir, "supper.md")
	code, out, problems := hobside(t, "sheet", "--menu", menu, "--format", "json")
	assert.Equal(t, 1, code, "a guest gets sesame")
	assert.Contains(t, problems, "sesame")
	var v engine.SheetView
	require.NoError(t, json.Unmarshal([]byte(out), &v))
	require.Len(t, v.Plates, 1)
	p := v.Plates[0]
	assert.Equal(t, "€0.52", p.Cost.Sum)
	assert.Equal(t, []string{"saffron"}, p.Cost.Missing)
	require.NotNil(t, p.Nutrition)
	assert.Contains(t, p.Nutrition.Missing, "topping", "nobody knows what it consists of")
	var codes []string
	for _, a := range p.Allergens.EU {
		codes = append(codes, a.Code)
	}
	assert.Equal(t, []string{"milk", "sesame"}, codes)

	_, out, _ = hobside(t, "sheet", "--menu", menu)
	assert.Contains(t, out, "It does not mean that a plate is free of it.")
	assert.Contains(t, out, "First: Soup, 10 covers\n  EU and UK: always Milk and products thereof (including lactose) (via butter)\n  EU and UK: always Sesame seeds and products thereof (via topping)")
	assert.Contains(t, out, "Cost: €0.52\n  without: saffron")
	_, out, _ = hobside(t, "sheet", "--menu", menu, "--format", "html")
	assert.Contains(t, out, "<h2>First: Soup, 10 covers</h2>")
	assert.Contains(t, out, "<h3>Cost</h3>\n<p>€0.52</p>")
	code, _, _ = hobside(t, "sheet", "--menu", menu, "--format", "csv")
	assert.Equal(t, 2, code)
	code, _, _ = hobside(t, "sheet")
	assert.Equal(t, 2, code)
	code, _, _ = hobside(t, "sheet", "--menu", filepath.Join(dir, "soup.md"))
	assert.Equal(t, 1, code)
}

// On the demo's sheet a plate whose weight is known has figures for one cover, in the order
// of the law.
func TestSheetOfTheDemoHasFigures(t *testing.T) {
	code, out, problems := hobside(t, "sheet", "--menu", "../../content/boathouse-supper.md", "--format", "json")
	require.Equal(t, 0, code, problems)
	var v engine.SheetView
	require.NoError(t, json.Unmarshal([]byte(out), &v))
	assert.GreaterOrEqual(t, len(v.Plates), 7)
	figures := 0
	for _, p := range v.Plates {
		require.NotNil(t, p.Nutrition, p.Allergens.Plate)
		assert.Nil(t, p.Cost, "the demo has no prices")
		if p.Nutrition.Share >= 0.95 {
			figures++
			require.Len(t, p.Nutrition.EUPortion, 8)
			assert.Equal(t, "1 cover", p.Nutrition.Portion)
		} else {
			assert.Empty(t, p.Nutrition.EUPortion, "%s: too little is known", p.Allergens.Plate)
			assert.NotEmpty(t, p.Nutrition.Missing)
		}
	}
	assert.Positive(t, figures)
}
