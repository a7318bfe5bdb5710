package kitchen

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/larder"
)

// foodsFile returns a file of foods with some rows, from line 5 on.
func foodsFile(rows ...string) string {
	return "# Foods\n\n| food | other names | section | each | density | trim | allergens | pack | price | keeps |\n|--|--|--|--|--|--|--|--|--|--|\n" + strings.Join(rows, "\n") + "\n"
}

func TestRowOfFoodsSaysAllOfAFood(t *testing.T) {
	f, problems := ParseFoods("foods.md", []byte(foodsFile(
		"| rye flour T170 | dark rye | Dry goods | | 0.56 | 0 % | wheat, may contain soybeans | 5 kg | €1.40 per kg | 90 d |",
		"| garlic | | | 60 g, clove 6 g | | 12 % | none | each | €0.80 each | – |",
		"| chard | | vegetables | | | | | bunch | | 3 d |",
		"| | | | | | | | | | |",
		"| butter | | | | | | | loose | 3,60 EUR per 500 g | |")))
	require.Len(t, problems, 1, "only the second currency")
	assert.Equal(t, `foods.md:9:32: "3,60 EUR per 500 g" is in another currency than "rye flour T170"; give all prices in one currency`, problems[0].Error())
	require.Len(t, f.Rows, 4)
	rye, garlic, chard, butter := f.Rows[0], f.Rows[1], f.Rows[2], f.Rows[3]
	assert.Equal(t, []string{"dark rye"}, rye.Others)
	assert.Equal(t, "dry goods", rye.Section)
	assert.Equal(t, "14/25", rye.Density.String())
	assert.True(t, rye.Trim.IsZero())
	assert.Equal(t, []string{"gl", "wh", "so?"}, rye.Allergens, "wheat is gluten on the other list")
	assert.Equal(t, "5 kilogram", rye.Pack.Qty.String()+" "+rye.Pack.Unit.Name)
	assert.Equal(t, "7/5 € 1 kilogram", rye.Price.Cost.String()+" "+rye.Price.Currency+" "+rye.Price.Per.Qty.String()+" "+rye.Price.Per.Unit.Name)
	assert.Equal(t, 90, rye.Keeps)
	assert.Equal(t, "60 6", garlic.Weights["each"].String()+" "+garlic.Weights["clove"].String())
	assert.True(t, garlic.Assessed && len(garlic.Allergens) == 0)
	assert.Equal(t, "each", garlic.By.Name)
	assert.False(t, chard.Assessed)
	assert.Equal(t, "bunch", chard.By.Name)
	assert.True(t, butter.Loose)
}

// Every slip in a file of foods is told with its place and what to do.
func TestProblemsOfFoods(t *testing.T) {
	row := func(cells string) string { return foodsFile(cells) }
	for _, tt := range []struct{ name, text, want string }{
		{"clean", row("| house butter | | | | | | milk | | €9 per kg | |"), ""},
		{"a name twice", row("| butter | | | | | | | | | |\n| Butters | | | | | | | | | |"), `foods.md:6:3: "Butters" is here twice: line 5 has it already; put both on one row`},
		{"another name twice", row("| onion | brown globe | | | | | | | | |\n| shallot | brown globe | | | | | | | | |"), `foods.md:6:13: "brown globe" is here twice: line 5 has it already; a name is one food's: take one out`},
		{"a name that is another row's", row("| onion | big shallot | | | | | | | | |\n| big shallot | | | | | | none | | | |"), `foods.md:5:11: "big shallot" is another food here: line 6 has it; take it out, or put both on one row`},
		{"a loop of two", row("| zed | wye | | | | | none | | | |\n| wye | zed | | | | | none | | | |"),
			"foods.md:5:9: these names go in a loop: zed → wye → zed; keep one row, with the other names beside it\nfoods.md:6:9: \"zed\" is another food here: line 5 has it; take it out, or put both on one row"},
		{"a loop of three", row("| ex | wye | | | | | none | | | |\n| wye | zed | | | | | none | | | |\n| zed | ex | | | | | none | | | |"),
			"foods.md:5:8: these names go in a loop: ex → wye → zed → ex; keep one row, with the other names beside it\n" +
				"foods.md:6:9: \"zed\" is another food here: line 7 has it; take it out, or put both on one row\nfoods.md:7:9: \"ex\" is another food here: line 5 has it; take it out, or put both on one row"},
		{"the same name again", row("| butter | Butters | | | | | | | | |"), `foods.md:5:12: warning: "Butters" is the same name again: case, hyphens and plurals make no difference; take it out`},
		{"a food of the table as another name", row("| onion | milk | | | | | | | | |"), `foods.md:5:11: the food table has "milk" apart from "onion"; give it a row of its own`},
		{"a food called nuts", row("| nuts | | | | | | nuts | | | |"), `foods.md:5:3: "nuts" is a word for what guests can't have, and can't be one food; name the one that you buy`},
		{"another name that is an allergen", row("| walnuts | tree nuts | | | | | | | | |"), `foods.md:5:13: "tree nuts" is a word for what guests can't have, and can't be one food; take it out`},
		{"a diet", row("| vegan | | | | | | none | | | |"), `foods.md:5:3: "vegan" is a word for what guests can't have, and can't be one food; name the one that you buy`},
		{"a word for many foods", row("| steak | | | | | | | | | |"), `foods.md:5:3: "steak" is a word for many foods, and can't be one food; name the one that you buy`},
		{"negative trim", row("| onion | | | | | -5 % | | | | |"), `foods.md:5:19: "-5 %" is not a share that trimming takes off; write it like "12 %", from 0 % to less than 100 %`},
		{"all is trim", row("| onion | | | | | 100 % | | | | |"), `foods.md:5:19: "100 %" is not a share that trimming takes off; write it like "12 %", from 0 % to less than 100 %`},
		{"a trim above all of it", row("| onion | | | | | 120 % | | | | |"), `foods.md:5:19: "120 %" is not a share that trimming takes off; write it like "12 %", from 0 % to less than 100 %`},
		{"a trim as a fraction", row("| onion | | | | | 1/4 | | | | |"), `foods.md:5:19: "1/4" may be a share or a percentage; write "25 %", or "0.25 %"`},
		{"a trim as a decimal", row("| onion | | | | | 0.15 | | | | |"), `foods.md:5:19: "0.15" may be a share or a percentage; write "15 %", or "0.15 %"`},
		{"a trim as a range", row("| onion | | | | | 10–15 % | | | | |"), `foods.md:5:19: "10–15 %" is not a share that trimming takes off; write it like "12 %", from 0 % to less than 100 %`},
		{"a trim below a percent", row("| onion | | | | | 0.5 % | | | | |"), ""},
		{"an allergen that is not official", row("| house mix | | | | | | dairy | | | |"),
			"foods.md:5:3: warning: nothing is known of the allergens of \"house mix\"; read its label and write them in the column \"allergens\", or \"none\"\n" +
				`foods.md:5:25: "dairy" is not an official allergen; did you mean "milk"?; write one of the fourteen or the nine, like "milk", "nuts" or "may contain celery", or "none"`},
		{"no allergen at all", row("| butter | | | | | | sunshine | | | |"), `foods.md:5:22: "sunshine" is not an official allergen; write one of the fourteen or the nine, like "milk", "nuts" or "may contain celery", or "none"`},
		{"none and more", row("| butter | | | | | | none, milk | | | |"), `foods.md:5:28: an allergen beside "none"; take one of the two out`},
		{"more and none", row("| butter | | | | | | milk, none | | | |"), `foods.md:5:28: "none" beside other allergens; take one of the two out`},
		{"an allergen of the table taken back", row("| butter | | | | | | none | | | |"), `foods.md:5:3: warning: the food table has milk in "butter", and this row does not; read its label: what the row says counts for every guest`},
		{"not assessed", row("| zyzzyva | | | | | | | | | |"), `foods.md:5:3: warning: nothing is known of the allergens of "zyzzyva"; read its label and write them in the column "allergens", or "none"`},
		{"a price without a unit", row("| onion | | | | | | | | 9.20 | |"), `foods.md:5:25: "9.20" is not a price: it does not say how much that buys; write it like "9.20 per kg" or "0.30 each"`},
		{"pence without what they buy", row("| onion | | | | | | | | 90p | |"), `foods.md:5:25: "90p" is not a price: it does not say how much that buys; write it like "9.20 per kg" or "0.30 each"`},
		{"a price as the shop writes it", row("| onion | | | | | | | | £1.50/kg | |"), ""},
		{"no price", row("| onion | | | | | | | | dear | |"), `foods.md:5:25: "dear" is not a price; write it like "9.20 per kg" or "0.30 each"`},
		{"two prices", row("| onion | | | | | | | | 9.20 per kg, 4.80 per 500 g | |"), `foods.md:5:38: two prices for one food; take one of the two out`},
		{"no weight", row("| onion | | | big | | | | | | |"), `foods.md:5:15: "big" is not what one weighs; write it like "150 g", or "clove 5 g, head 60 g"`},
		{"two weights", row("| onion | | | 100 g, 120 g | | | | | | |"), `foods.md:5:22: two weights of one each; take one of the two out`},
		{"no density", row("| onion | | | | heavy | | | | | |"), `foods.md:5:17: "heavy" is not a density of food; write grams per millilitre, like "1.03"`},
		{"a weight of two readings", row("| onion | | | 1,500 g | | | | | | |"), `foods.md:5:15: "1,500 g" can be read as 1500 g or as 1.5 g; type the one that is meant`},
		{"no pack", row("| onion | | | | | | | a lot | | |"), `foods.md:5:23: "a lot" is not a pack; write what one pack holds, like "500 g", or "each", "bunch" or "loose"`},
		{"no days", row("| onion | | | | | | | | | long |"), `foods.md:5:27: "long" is not how long it keeps as bought; write it in days, like "5 d"`},
		{"hours", row("| onion | | | | | | | | | 3 h |"), `foods.md:5:27: "3 h" is not how long it keeps as bought; write it in days, like "5 d"`},
		{"a section misspelt", row("| onion | | vegetabels | | | | | | | |"), `foods.md:5:13: warning: "vegetabels" becomes a section of its own on the order list; did you mean "vegetables"?`},
		{"a row without a food", row("| | shallot | | | | | | | | |"), `foods.md:5:1: a row without a food; write the food's name in its first cell, or take the row out`},
		{"a row that is too wide", row("| onion | | | | | | | | | | more |"), `foods.md:5:1: a row with 11 cells in a table of 10 columns; take a "|" out, or write a "|" that belongs to the words as "\|"`},
		{"a column misspelt", "# F\n\n| food | alergens |\n|--|--|\n| onion | |\n", `foods.md:3:10: unknown column "alergens"; did you mean "allergens"?`},
		{"a column of its own", "# F\n\n| food | supplier |\n|--|--|\n| onion | Ann |\n", `foods.md:3:10: warning: the column "supplier" is not read; the columns are food, other names, section, each, density, trim, allergens, pack, price, keeps`},
		{"a column twice", "# F\n\n| food | price | price |\n|--|--|--|\n| onion | 1 each | 2 each |\n", `foods.md:3:18: a second column "price"; put both in one column`},
		{"a second table without foods", foodsFile("| onion | | | | | | | | | |") + "\n| price |\n|--|\n| 3 |\n", `foods.md:7:1: a table without a column "food" is not read; head the column of names "food"`},
		{"a row behind an empty line", foodsFile("| onion | | | | | | | | | |", "", "| shallot | | | | | | | | | |"), `foods.md:7:1: "| shallot | | | | | | | | | |" is no row of the table; put it right below the table's last row, with no empty line and no spaces before it`},
		{"a row set too far in", foodsFile("| onion | | | | | | | | | |", "", "     | shallot |"), `foods.md:7:6: "| shallot |" is no row of the table; put it right below the table's last row, with no empty line and no spaces before it`},
		{"a list", foodsFile("| onion | | | | | | | | | |") + "\n- butter: 3 per kg\n", `foods.md:7:1: a list is not read as foods; give each food a row of the table`},
		{"no title", "| food | price |\n|--|--|\n| onion | 1 each |\n", `foods.md:1:1: warning: the kitchen's foods have no title; begin the file with "# " and its name`},
		{"a word of front matter", "---\ncolour: red\n---\n\n" + foodsFile("| onion | | | | | | | | | |"), `foods.md:2:1: warning: unknown word "colour"; move it below the front matter if it is for the reader`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.True(t, IsFoods([]byte(tt.text)))
			_, problems := ParseFoods("foods.md", []byte(tt.text))
			var got []string
			lines := strings.Split(tt.text, "\n")
			for _, p := range problems {
				got = append(got, p.Error())
				if quoted, _, ok := strings.Cut(strings.TrimPrefix(p.Msg, `"`), `"`); ok && strings.HasPrefix(p.Msg, `"`) {
					assert.True(t, strings.HasPrefix(string([]rune(lines[p.Line-1])[p.Col-1:]), quoted), "%s does not point to its words", p.Error())
				}
			}
			assert.Equal(t, tt.want, strings.Join(got, "\n"))
		})
	}
}

// The names of what is kept are each one food's, whatever was typed, and no row is kept
// that the built-in table has as a word for many goods or for what guests can't have.
func TestEveryNameOfFoodsIsOneFoods(t *testing.T) {
	words := rapid.SampledFrom([]string{"butter", "Butters", "milk", "nuts", "steak", "zed", "wye", "onion", "onions", "vegan", "scallion", "spring onion", "", "–", "é", "tree nuts", "house milk"})
	rapid.Check(t, func(t *rapid.T) {
		var rows []string
		for range rapid.IntRange(1, 6).Draw(t, "rows") {
			rows = append(rows, "| "+words.Draw(t, "food")+" | "+words.Draw(t, "other")+", "+words.Draw(t, "other")+" | | | | | | | | |")
		}
		f, problems := ParseFoods("foods.md", []byte(foodsFile(rows...)))
		seen := map[string]bool{}
		for _, r := range f.Rows {
			for _, name := range append([]string{r.Name}, r.Others...) {
				k := larder.NameKey(name)
				if k == "" || seen[k] || larder.NotAFood(name) != "" {
					t.Fatalf("%q is kept in\n%s", name, strings.Join(rows, "\n"))
				}
				seen[k] = true
			}
		}
		for _, p := range problems {
			if p.Line < 1 || p.Col < 1 || p.Do == "" && p.Hint == "" {
				t.Fatalf("%s says neither where nor what to do", p.Error())
			}
		}
	})
}

func FuzzParseFoods(f *testing.F) {
	f.Add(foodsFile("| house butter | butter | dairy and eggs | 250 g | 0.9 | 0 % | milk | 250 g | €2 each | 30 d |"))
	if kitchens, err := os.ReadFile("../../content/boathouse-kitchen.md"); err == nil {
		f.Add(string(kitchens))
	}
	f.Fuzz(func(t *testing.T, text string) {
		foods, problems := ParseFoods("foods.md", []byte(text))
		lines := strings.Count(text, "\n") + 1
		for _, p := range problems {
			if p.Line < 1 || p.Line > lines || p.Col < 1 {
				t.Fatalf("%v points outside the %d lines", p, lines)
			}
		}
		for i := range foods.Rows {
			r := &foods.Rows[i]
			if r.Trim != nil && (r.Trim.Sign() < 0 || r.Trim.Float64() >= 100) || r.Price != nil && (r.Price.Per.Unit == nil || r.Price.Per.Qty.Sign() <= 0) || r.Keeps < 0 {
				t.Fatalf("%q is kept with an impossible figure", r.Name)
			}
		}
	})
}

func TestFoodsAreToldFromCards(t *testing.T) {
	for text, want := range map[string]bool{
		foodsFile("| onion | | | | | | | | | |"):                    true,
		"# F\n\nfood | price\n--|--\nonion | 1 each\n":              true,
		"# F\n\n| Food | Price |\r\n|:--|--:|\r\n| onion | 1 |\r\n": true,
		"# C\n\n| Amount | Item |\n|--|--|\n| 1 kg | food |\n":      false,
		"# C\n\nfood | and | words\n\nno table\n":                   false,
		"": false,
	} {
		assert.Equal(t, want, IsFoods([]byte(text)), text)
	}
}
