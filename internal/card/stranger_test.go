package card

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/quantity"
)

// reading writes what an ingredient line is read as: amount, name, preparation, what one
// weighs.
func reading(it Item) string {
	amount := "no amount"
	switch {
	case it.Amount.ToTaste:
		amount = "to taste"
	case it.Amount.Unit != nil:
		amount = quantity.Written(it.Amount)
	}
	out := amount + " | " + it.Name
	if it.Prep != "" || it.Each.Unit != nil {
		out += " | " + it.Prep
	}
	if it.Each.Unit != nil {
		out += " | each " + quantity.Written(it.Each)
	}
	return out
}

// TestLinesOfManyKitchens reads ingredient lines as cooks of Britain, America, Australia and
// Germany write them. Each is read whole, or has a problem that says what to type. Common
// practice, no source.
func TestLinesOfManyKitchens(t *testing.T) {
	for _, row := range []struct{ line, reads, problem string }{
		{"2 tablepsoons olive oil", "2 | tablepsoons olive oil", `"tablepsoons" is no unit, so its figure counts pieces; did you mean "tablespoons"?`},
		{"1 teaspon salt", "1 | teaspon salt", `"teaspon" is no unit, so its figure counts pieces; did you mean "teaspoon"?`},
		{"3 tsp.sugar", "3 tsp | sugar", ""},
		{"250 gramms butter", "250 | gramms butter", `"gramms" is no unit, so its figure counts pieces; did you mean "grams"?`},
		{"1 heaped tabelspoon sugar", "1 | heaped tabelspoon sugar", `"tabelspoon" is no unit, so its figure counts pieces; did you mean "tablespoon"?`},
		{"juice of 1 lemon", "1 | lemon | juice", ""},
		{"Juice of ½ lemon", "0.5 | lemon | Juice", ""},
		{"grated zest of 2 limes", "2 | limes | grated zest", ""},
		{"juice and zest of one orange", "1 | orange | juice and zest", ""},
		{"2 lemons, juiced", "2 | lemons | juiced", ""},
		{"4 tbsp lemon juice (about 2 lemons)", "4 tbsp | lemon juice | (about 2 lemons)", `"(about 2 lemons)" is read as words, so it stays the same when the amount grows; write one amount, like "5 leaves gelatine, each 2 g", or take the figure out`},
		{"6 oz wt pasta", "6 oz | pasta", ""},
		{"3 cm ginger", "3 cm | ginger", `"3 cm ginger" is a length, and what it weighs is not known; write its weight, or "1 piece ginger, each 20 g"`},
		{"1-inch piece of ginger", "1 in | piece of ginger", `"piece" is part of the item's name, and a length has no weight; write it like "1 piece ginger, each 20 g"`},
		{"20 g butter, plus extra for the tin", "20 g | butter | plus extra for the tin", ""},
		{"20 g for the tin", "20 g | for the tin", `"for the tin" does not say what the item is; write its name behind the amount, like "20 g butter, for the tin"`},
		{"200 g plain flour + extra for dusting", "200 g | plain flour | + extra for dusting", ""},
		{"200 g plain flour, plus 2 tbsp for dusting", "200 g | plain flour | plus 2 tbsp for dusting", `"plus 2 tbsp for dusting" is read as words, so it is not counted; write all of it in front of the name, like "200 g plus 2 tbsp plain flour"`},
		{"1 cup (240ml) whole milk", "1 cup | whole milk", ""},
		{"1 stick (113 g) unsalted butter", "1 stick | unsalted butter |  | each 113 g", ""},
		{"2 c. all-purpose flour", "2 cup | all-purpose flour", ""},
		{"1 T. Worcestershire sauce", "1 tbsp | Worcestershire sauce", ""},
		{"400g tin chickpeas, drained and rinsed", "400 g | tin chickpeas | drained and rinsed", `"tin" is part of the item's name; write it like "1 tin chickpeas, each 400 g"`},
		{"1 tin (400g) chopped tomatoes", "1 tin | chopped tomatoes |  | each 400 g", ""},
		{"two large eggs", "2 | large eggs", ""},
		{"one onion, finely chopped", "1 | onion | finely chopped", ""},
		{"three cloves of garlic", "3 clove | garlic", ""},
		{"one and a half cups rice", "1.5 cup | rice", ""},
		{"1 cup and a half milk", "1.5 cup | milk", ""},
		{"half kilo mussels", "0.5 kg | mussels", ""},
		{"quarter of a cabbage", "0.25 | cabbage", ""},
		{"three-quarters cup sugar", "0.75 cup | sugar", ""},
		{"one or two chillies", "1–2 | chillies", ""},
		{"a few sprigs of thyme", "no amount | a few sprigs of thyme", `"a few sprigs of thyme" has no amount; write one, or "to taste" if that is meant`},
		{"five spice powder, to taste", "to taste | five spice powder", ""},
		{"1 dessertspoon caster sugar", "1 | dessertspoon caster sugar", `"dessertspoon" is a measure that is not read; write ml, tsp, tbsp, cups or a weight, or a word for what is counted, like "2 bunches"`},
		{"2 EL Öl", "2 | EL Öl", `"EL" is a measure that is not read; write ml, tsp, tbsp, cups or a weight, or a word for what is counted, like "2 bunches"`},
		{"1 Prise salt", "1 | Prise salt", `"Prise" is a measure that is not read; write ml, tsp, tbsp, cups or a weight, or a word for what is counted, like "2 bunches"`},
		{"1 Bund parsley", "1 | Bund parsley", `"Bund" is a measure that is not read; write ml, tsp, tbsp, cups or a weight, or a word for what is counted, like "2 bunches"`},
		{"1 lb. 4 oz. beef chuck, cubed", "20 oz | beef chuck | cubed", ""},
		{"4 boneless, skinless chicken breasts (about 6 ounces each)", "4 | boneless skinless chicken breasts |  | each 6 oz", ""},
		{"1 cup tightly packed basil leaves", "1 cup | basil leaves | tightly, packed", `"tightly" has no fixed size: it is taken for a level measure; write a weight, or level measures`},
		{"1 cup minus 2 tbsp flour", "1 cup | minus 2 tbsp flour", `"minus 2 tbsp flour" is not taken off the amount before it; write how much goes in, like "150 g flour"`},
		{"1 egg + 1 yolk", "1 | egg + 1 yolk", `"1 yolk" is read as part of the name of the item before it; begin a line of its own with it: "- 1 yolk"`},
		{"1.5kg/3lb 5oz lamb shoulder", "1.5 kg | lamb shoulder", ""},
		{"180ml/¾ cup milk", "180 ml | milk", ""},
		{"10 g gelatine (5 leaves)", "10 g | gelatine | (5 leaves)", `"(5 leaves)" is read as words, so it stays the same when the amount grows; write one amount, like "5 leaves gelatine, each 2 g", or take the figure out`},
		{"2 lemons, 1 juiced, 1 cut into wedges", "2 | lemons | 1 juiced, 1 cut into wedges", `"1 juiced" is read as words, so it stays the same when the amount grows; part the line in two, like "- 1 lemons, juiced"`},
		{"1 1/2 lbs. small potatoes (about 12)", "1.5 lb | small potatoes | (about 12)", `"(about 12)" is read as words, so it stays the same when the amount grows`},
		{"1 Würfel fresh yeast (42 g)", "1 | Würfel fresh yeast |  | each 42 g", `"Würfel" is a measure that is not read`},
		{"1 bunch spring onions (6-8)", "1 bunch | spring onions | (6-8)", ""},
		{"2 loaves bread, 2 days old", "2 loaf | bread | 2 days old", ""},
		{"12 g gelatine, soaked in 500 ml cold water", "12 g | gelatine | soaked in 500 ml cold water", `"500 ml cold water" is read as words, so it is not counted and does not grow; begin a line of its own with it: "- 500 ml cold water"`},
		{"500 g beef, cut in 100 g pieces", "500 g | beef | cut in 100 g pieces", ""},
		{"42 g fresh yeast (1 cube)", "42 g | fresh yeast | (1 cube)", `"(1 cube)" is read as words, so it stays the same when the amount grows; write one amount, like "5 leaves gelatine, each 2 g", or take the figure out`},
		{"1 whole chicken (3 to 4 pounds)", "1 | whole chicken |  | each 4 lb", ""},
		{"2 lg eggs", "2 | large eggs", ""},
		{"3 XL eggs", "3 | extra large eggs", ""},
		{"2 medium-size onions", "2 | medium onions", ""},
		{"2 milk", "2 | milk", `"milk" is counted, and what one weighs is not known; write a unit, like "2 g", or what one weighs: "each 60 g"`},
		{"1 lemon juice", "1 | lemon juice", `"lemon juice" is counted, and what one weighs is not known; write a unit, like "1 g", or what one weighs: "each 60 g"`},
		{"500 G flour", "500 g | flour", ""},
		{"1 500 g flour", "1 | 500 g flour", `"500 g flour" is part of the item's name; write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`},
		{"1O g salt", "1 | O g salt", `"g" is part of the item's name, so its figure counts pieces; write the unit right behind its figure, like "1 g salt, O"`},
		{"O.5 tsp salt", "no amount | O.5 tsp salt", `"O.5 tsp salt" is part of the item's name; write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`},
		{"flour 500 g", "no amount | flour 500 g", `"500 g" is part of the item's name; write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`},
		{"flour: 500g", "500 g | flour", ""},
		{"100 ml + 2 tbsp water", "129.57353 ml | water", ""},
		{"2 × 400g tins cannellini beans", "2 tin | cannellini beans |  | each 400 g", ""},
		{"1 tbsp. + 1 tsp. soy sauce", "4 tsp | soy sauce", ""},
		{"~200g breadcrumbs", "200 g | breadcrumbs", ""},
		{"roughly 200 g breadcrumbs", "no amount | roughly 200 g breadcrumbs", `"200 g breadcrumbs" is read as part of the name of the item before it; begin a line of its own with it: "- 200 g breadcrumbs"`},
		{"up to 200 ml water", "no amount | up to 200 ml water", `"200 ml water" is part of the item's name; write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`},
	} {
		it, told := itemOf(t, row.line)
		assert.Equal(t, row.reads, reading(it), row.line)
		if row.problem == "" {
			assert.Empty(t, told, row.line)
		} else if assert.NotEmpty(t, told, row.line) {
			assert.Contains(t, told[0], row.problem, row.line)
		}
	}
}

// TestFactsOfManyKitchens reads facts of a step as cooks write them: each is read whole, or
// has a problem that says what to type. °C of °F and of gas marks are exact by definition.
func TestFactsOfManyKitchens(t *testing.T) {
	for _, row := range []struct {
		fact    string
		celsius float64 // of the oven or the fryer; 0 for none
		problem string
	}{
		{"oven: 180C/350F/gas 4", 180, ""},
		{"oven: gas 4/180C", 180, ""},
		{"oven: 350F (180C)", 176.66666666666666, ""},
		{"oven: 180 °C (160 °C fan), 1 shelf", 180, ""},
		{"oven: gas mark 6", 204.44444444444446, ""},
		{"oven: 200–220 °C", 200, ""},
		{"oven: 220 °C then 180 °C", 220, `"220 °C then 180 °C" has two temperatures, and 220 °C is read; take one out, or part the step in two`},
		{"oven: 220 °C / 180 °C", 220, "has two temperatures"},
		{"oven: 180", 0, `write "180 °C" or "180 °F"`},
		{"oven: 350 degrees", 0, "is neither a temperature nor a number of places"},
		{"oven: 2 shelves at 200 °C", 200, "part it with a comma"},
		{"fryer: 350F", 176.66666666666666, ""},
		{"hands: 10", 0, "a time without a unit"},
		{"hands: ten minutes", 0, "no time"},
		{"hands: 1h30", 0, "a time without a unit"},
		{"hands: 10 min each", 0, `"10 min each" is not a time`},
		{"wait: 1 hour and a half", 0, "is not a time"},
		{"wait: overnight (12 h)", 0, "no time"},
		{"wait: 20 min per 500 g + 20 min", 0, "is not a time"},
		{"until: core 74", 0, "gives no core temperature"},
		{"until: 1.2 kg left", 0, "is read as words, so its amount does not scale"},
		{"check: core 70 °C for 2", 0, "gives no time that it is held"},
		{"check: 74", 0, "gives no temperature"},
		{"cool: 21 °C within 2 h, 5 °C within 4 h", 0, "behind the time is not read"},
		{"cool: 5 within 4 h", 0, "gives no temperature"},
		{"cool: overnight", 0, "gives no temperature"},
		{"keep: 3 days", 0, "does not say where"},
		{"keep: in the fridge for 3 days", 0, "no time"},
		{"keep: 3 m frozen", 0, "a time without a unit"},
		{"load: 2 batches", 0, `unknown unit "batches"`},
		{"load: half", 0, "no amount here"},
	} {
		c, problems := Parse("a.md", []byte(stepWith(row.fact)))
		told := ""
		for _, p := range problems {
			if p.Line == 15 {
				told += p.Error() + "\n"
			}
		}
		var celsius float64
		for _, e := range c.Steps[0].Equipment {
			celsius = e.TempC
		}
		assert.InDelta(t, row.celsius, celsius, 1e-9, row.fact)
		if row.problem == "" {
			assert.Empty(t, told, row.fact)
		} else {
			assert.Contains(t, told, row.problem, row.fact)
		}
	}
}
