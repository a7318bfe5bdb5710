package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/engine"
)

// hobside runs a command line and returns its exit code and what it printed.
func hobside(t *testing.T, args ...string) (code int, out, problems string) {
	t.Helper()
	var o, p bytes.Buffer
	code = run(t.Context(), args, &o, &p)
	return code, o.String(), p.String()
}

func filesIn(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	return dir
}

const usCard = `---
makes: 1 qt
---

# Pickling brine

## Formula

- 3 cups water
- 1 cup cider vinegar
- 3 tbsp salt
- 1/3 tsp mustard seeds
- 10 oz onions, sliced
- 2 bay leaves

## Method

1. Boil **2 cups water** with the **salt**, **mustard seeds** and **bay leaves**; add the **rest of the water**.
   - hob: 1 ring
   - hands: 10 min
2. Pour on the **vinegar** and **onions**.
   - hands: 2 min
   - until: 1 qt
`

// A US card is shown in every unit of its ladder. By hand, times 13: 39 cups are
// 2 gal 1 qt 1 pt 1 cup (32 + 4 + 2 + 1); 39 tbsp are 2 cups 7 tbsp, a pint and
// 7 tbsp; 13/3 tsp are 1 tbsp 1 ⅓ tsp, to the quarter 1 ¼; 130 oz are 8 lb 2 oz;
// 26 leaves.
func TestCardInUSMeasures(t *testing.T) {
	dir := filesIn(t, map[string]string{"brine.md": usCard})
	code, out, problems := hobside(t, "card", filepath.Join(dir, "brine.md"), "--make", "13 qt")
	require.Zero(t, code, problems)
	for _, want := range []string{
		"Makes 3 gal 1 qt\n", "2 gal 1 qt 1 pt 1 cup  water", "3 qt 1 cup             cider vinegar", "1 pt 7 tbsp            salt",
		"1 tbsp 1 ¼ tsp         mustard seeds", "8 lb 2 oz              onions, sliced", "26                     bay leaves",
		"until: 3 gal 1 qt\n",
		"Boil 1 gal 2 qt 1 pt water with the 1 pt 7 tbsp salt", // 26 cups
		"add the 3 qt 1 cup water",                             // 13
	} {
		assert.Contains(t, out, want)
	}
	_, out, _ = hobside(t, "card", "--make", "x13", "--units", "metric", "--scale", "5g", filepath.Join(dir, "brine.md"))
	assert.Contains(t, out, "Makes 12.3 L")
	assert.Contains(t, out, "3.69 kg")
}

func TestCardScaledByOneItem(t *testing.T) {
	file := "../../content/cards/overnight-crust-bread.md"
	code, out, problems := hobside(t, "card", file, "--make", "1.35 kg", "--of", "bread flour")
	require.Zero(t, code, problems)
	for _, want := range []string{"1.35 kg  bread flour      85 % *", "286 g    water, cold      18 %", "32 g     salt, fine       2 %"} {
		assert.Contains(t, out, want) // 1350 ÷ 0.85 = 1588.2; 18 and 2 % of it
	}
	_, out, _ = hobside(t, "card", file, "--hundred", "whey, water")
	assert.Contains(t, out, "74.3 % *", "52 of 70")

	code, out, _ = hobside(t, "card", file, "--make", "2 kg", "--format", "json")
	require.Zero(t, code)
	var page engine.PageView
	require.NoError(t, json.Unmarshal([]byte(out), &page))
	assert.Equal(t, "2 kg", page.Makes)
	assert.Equal(t, "85 %", page.Card.Items[0].Percent)
	code, out, _ = hobside(t, "card", file, "--format", "html")
	require.Zero(t, code)
	assert.Contains(t, out, "<h1>Overnight crust bread</h1>")
}

func TestCardRefuses(t *testing.T) {
	dir := filesIn(t, map[string]string{"brine.md": usCard, "broken.md": "# Broken\n\n## Formula\n\n- 0 g salt\n", "menu.md": "---\ncovers: 2\n---\n# M\n"})
	brine := filepath.Join(dir, "brine.md")
	for _, tt := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"card"}, exitUsage, "name one card"},
		{[]string{"card", brine, brine}, exitUsage, "name one card"},
		{[]string{"card", brine, "--make", "3 cloves"}, exitFailed, "the card makes 945 ml"},
		{[]string{"card", brine, "--make", "0"}, exitFailed, "an amount of 0"},
		{[]string{"card", brine, "--make", "-2 qt"}, exitFailed, "can't be negative"},
		{[]string{"card", brine, "--make", "900000 L"}, exitFailed, "more than any kitchen holds"},
		{[]string{"card", brine, "--make", "soup"}, exitFailed, "is not an amount"},
		{[]string{"card", brine, "--make", "2,500 g"}, exitFailed, `"2,500 g" can be read as 2500 g or as 2.5 g; type the one that is meant`},
		{[]string{"card", brine, "--make", "x1,500"}, exitFailed, `"x1,500" can be read as 1500 or as 1.5; type the one that is meant`},
		{[]string{"card", brine, "--make", "1,500 g", "--of", "salt"}, exitFailed, `"1,500 g" can be read as 1500 g or as 1.5 g; type the one that is meant`},
		{[]string{"card", brine, "--make", "1 kg", "--of", "saffron"}, exitFailed, `the formula has no "saffron"`},
		{[]string{"card", brine, "--of", "salt"}, exitUsage, "--of needs --make"},
		{[]string{"card", brine, "--format", "pdf"}, exitUsage, `unknown format "pdf"`},
		{[]string{"card", brine, "--units", "metrical"}, exitFailed, "unknown system"},
		{[]string{"card", brine, "--scale", "3 g"}, exitFailed, "unknown scale"},
		{[]string{"card", brine, "--bake"}, exitUsage, "flag provided but not defined"},
		{[]string{"card", filepath.Join(dir, "none.md")}, exitFailed, "cannot read"},
		{[]string{"card", filepath.Join(dir, "menu.md")}, exitFailed, "is a menu, not a card"},
		{[]string{"order"}, exitUsage, "name a menu"},
		{[]string{"order", "--menu", brine}, exitFailed, "is a card, not a menu"},
		{[]string{"order", "--menu", filepath.Join(dir, "menu.md"), "--covers", "0"}, exitUsage, "0 covers"},
		{[]string{"order", "--menu", filepath.Join(dir, "menu.md"), "--covers", "-1"}, exitUsage, "-1 covers"},
		{[]string{"order", "--menu", filepath.Join(dir, "menu.md"), "--covers", "1,200"}, exitUsage, `--covers: "1,200" can be read as 1200 or as 1.2; type the one that is meant`},
		{[]string{"order", "--menu", filepath.Join(dir, "menu.md"), "extra"}, exitUsage, `unexpected argument "extra"`},
		{[]string{"order", "--menu", "../../content/boathouse-supper.md", "--format", "xml"}, exitUsage, `unknown format "xml"`},
	} {
		code, _, problems := hobside(t, tt.args...)
		assert.Equal(t, tt.code, code, "%v: %s", tt.args, problems)
		assert.Contains(t, problems, tt.want, "%v", tt.args)
	}
	code, out, _ := hobside(t, "card", filepath.Join(dir, "broken.md"))
	assert.Equal(t, exitFailed, code, "what could be read is shown all the same")
	assert.Contains(t, out, "broken.md:5:3: ")
	assert.Contains(t, out, "an amount of 0")
}

// The three formats say the same of the demo, and its amounts grow with the
// covers.
func TestOrderOfTheDemo(t *testing.T) {
	menu := "../../content/boathouse-supper.md"
	code, out, problems := hobside(t, "order", "--menu", menu, "--covers", "18", "--format", "json")
	require.Zero(t, code, problems)
	var list dinner.OrderList
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	lines := map[string]dinner.OrderLine{}
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			lines[l.Name] = l
		}
	}
	require.Greater(t, len(lines), 40)
	assert.Contains(t, lines["butter"].Buy, "× 250 g")

	_, out, _ = hobside(t, "order", "--menu", menu, "--covers", "18", "--format", "csv")
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(lines)+1)
	for _, r := range rows[1:] {
		assert.Equal(t, lines[r[1]].Buy, r[2], r[1])
	}
	_, out, _ = hobside(t, "order", "--menu", menu, "--covers", "18")
	for _, l := range lines {
		assert.Contains(t, out, "[ ] "+l.Buy, l.Name)
	}
	_, out, _ = hobside(t, "order", "--menu", menu, "--covers", "100", "--format", "json")
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			if l.Name == "rhubarb" {
				assert.Equal(t, "5.94 kg", l.Buy, "4.455 kg and a quarter lost: 4.455 ÷ 0.75")
			}
		}
	}
	_, one, _ := hobside(t, "order", "--menu", menu, "--covers", "1")
	assert.NotContains(t, one, "[ ]  ", "every line says how much")
}

func TestOrderWithPrices(t *testing.T) {
	dir := filesIn(t, map[string]string{
		"menu.md":    "---\ncovers: 4\nserve: 19:00\nkitchen: k.md\n---\n\n# Toast\n\n## Toast\n\n- [Toast](toast.md)\n",
		"k.md":       "---\ncooks: 1\ngrill: 1\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n\n## Prices\n\n- butter: €8 per kg\n",
		"toast.md":   "---\nmakes: 1 plate\n---\n\n# Toast\n\n## Formula\n\n- 20 g butter\n- 2 slices bread\n\n## Method\n\n1. Toast the **bread**; **butter** it.\n   - hands: 4 min\n   - grill\n",
		"unused.md":  "---\nmakes: 1 kg\n---\n\n# Unused\n",
		"README.txt": "not a card",
	})
	code, out, problems := hobside(t, "order", "--menu", filepath.Join(dir, "menu.md"))
	require.Zero(t, code, problems)
	assert.Contains(t, out, "1 × 250 g  butter  €2.00")
	assert.Contains(t, out, "8 slices  bread")
	assert.Contains(t, out, "€2.00, €0.50 a cover; 1 lines have no price and are not in it")

	require.NoError(t, os.Remove(filepath.Join(dir, "toast.md")))
	code, _, problems = hobside(t, "order", "--menu", filepath.Join(dir, "menu.md"))
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, problems, "the list may be wrong")
}

// The order list says by delivery what is to come, from the plan's first uses. The lamb
// is cured two days before it is served: it must not come a day later.
func TestOrderIsGroupedByDelivery(t *testing.T) {
	code, out, problems := hobside(t, "order", "--menu", "../../content/boathouse-supper.md", "--format", "json")
	require.Equal(t, 0, code, problems)
	var list dinner.OrderList
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	assert.True(t, list.Planned)
	assert.Equal(t, []string{"Honey parfait: 2 pieces"}, list.Spares)
	require.NotEmpty(t, list.Deliveries)
	seen := map[string]int{}
	for _, d := range list.Deliveries {
		for _, key := range d.Keys {
			seen[key]++
		}
	}
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			if l.Buy == "enough there" {
				continue
			}
			assert.Equal(t, 1, seen[l.Key], "%s comes once", l.Name)
			assert.NotEmpty(t, l.BuyBy, l.Name)
			if l.Name == "lamb shoulder" {
				assert.Less(t, l.BuyBy, "2027-06-11")
			}
		}
	}
	code, out, _ = hobside(t, "order", "--menu", "../../content/boathouse-supper.md")
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "FOR THURSDAY 10 JUNE 2027")
}
