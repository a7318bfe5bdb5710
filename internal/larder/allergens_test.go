package larder

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// corrected are the rows of the compilation that the table knows better, item: codes.
// Codes are those of Regulation (EU) No 1169/2011 Annex II and 21 U.S.C. 321(qq); which
// item carries which, and how surely, is our own compilation (OWN): common practice, no
// source. All of these make an item carry more or an exception exact.
const corrected = `
Thai curry paste: cr~ fi? mu?
Worcestershire-type sauce: fi~ gl~ wh?
aioli: eg~ mu?
black pudding: gl wh
bouillon powder: ce~ gl? wh? mi? so? mu?
bread: gl wh mi? so?
brown table sauce: gl? wh? fi?
burger bun: gl~ wh~ se~ mi? so?
cider vinegar: su?
coconut milk: su?
creme patissiere: mi eg~ gl~ wh~
dried mushroom: su~
demi-glace: gl~ wh~ ce~ su~ mi?
dried pasta: gl wh eg?
frangipane: nu~ eg~ mi~ gl? wh?
frozen prawn: cr su~
gnocchi: gl~ wh~ eg? mi?
halva: se~ nu? tn?
ice cream: mi eg?
leaf gelatine: fi?
marshmallow: eg? fi?
marzipan: nu eg?
miso: so gl? wh?
mustard: mu gl? wh?
oyster sauce: mo gl~ wh~ so~
persipan: nu? tn? so?
puff pastry: gl wh mi~
rye bread: gl wh~
shortcrust pastry: gl wh mi~ eg?
sponge cake: gl wh eg mi?
stock cube: ce~ gl? wh? mi? so? eg? fi? mu?
surimi: fi cr~ gl~ wh~ eg~ so~ mo?
tamari: so gl? wh?
taramasalata: fi gl~ wh~ mi? eg?
tempura batter: gl~ wh~ eg?
textured vegetable protein: so~ gl? wh?
vegetable oil: so?
veloute: gl~ wh~ mi~ ce~ fi?
wasabi paste: mu? so? wh? gl?
dark chocolate: so? mi? nu? tn?
dark couverture: so~ mi~ nu? tn?
milk couverture: mi so nu? tn?
white chocolate: mi so nu? tn?
`

// Every row of the compilation is a food of the table, and every certainty is that of
// the compilation or of the corrections above.
func TestAllergenRowsAreThoseOfTheCompilation(t *testing.T) {
	better := map[string]string{}
	for line := range strings.Lines(strings.TrimSpace(corrected)) {
		item, codes, ok := strings.Cut(strings.TrimSpace(line), ":")
		require.True(t, ok, line)
		better[item] = strings.TrimSpace(codes)
	}
	sign := map[string]string{"always": "", "usually": "~", "may": "?", "none": ""}
	for _, r := range rows(t, "allergens.csv") {
		name := r[0]
		if head, kind, ok := strings.Cut(name, ", "); ok {
			name = kind + " " + head // "noodles, rice" are rice noodles
		}
		f := byName[key(name)]
		if !assert.NotNil(t, f, "%s is no food of the table", name) {
			continue
		}
		var want []string
		for i, list := range [][]string{strings.Split(r[1], ";"), strings.Split(r[2], ";")} {
			for _, code := range list {
				if code = strings.TrimSpace(code); code != "" {
					want = append(want, []string{"EU ", "US "}[i]+code+sign[r[3]])
				}
			}
		}
		if codes, ok := better[name]; ok {
			want = written(t, codes)
			delete(better, name)
		}
		a := Assessment{}
		a.take(f, false)
		assert.ElementsMatch(t, want, carries(a), "%s (%s)", name, f.Name)
	}
	assert.Empty(t, better, "corrections of rows that are not there")
}

// carries writes an assessment: "EU milk", "US wheat~" (usually), "EU fish?" (may).
func carries(a Assessment) []string {
	sign := map[Certainty]string{Usually: "~", May: "?", Probably: " probably"}
	out := []string{}
	for _, c := range a.Carries {
		out = append(out, string(c.List)+" "+c.Code+sign[c.Certainty])
	}
	return out
}

// written writes codes of the table as carries does.
func written(t *testing.T, codes string) []string {
	t.Helper()
	a := Assessment{}
	for token := range strings.FieldsSeq(codes) {
		require.Contains(t, official, strings.TrimRight(token, "?~"), codes)
	}
	a.take(&Food{tokens: codes}, false)
	return carries(a)
}

// A name that says what the law lists carries it: no row may call rye flour free
// of gluten or fish stock free of fish. The exceptions are named by the law or are
// other plants and goods that share the word.
func TestItemsNamedAfterAnAllergenCarryIt(t *testing.T) {
	named := map[string]string{
		"wheat": "gl", "rye": "gl", "barley": "gl", "oat": "gl", "spelt": "gl", "fish": "fi", "egg": "eg", "milk": "mi", "cream": "mi", "butter": "mi",
		"cheese": "mi", "yoghurt": "mi", "celery": "ce", "celeriac": "ce", "mustard": "mu", "sesame": "se", "lupin": "lu", "peanut": "pe", "groundnut": "pe", "soy": "so",
		"soya": "so", "soybean": "so", "tofu": "so", "almond": "nu", "hazelnut": "nu", "walnut": "nu", "pistachio": "nu", "cashew": "nu", "pecan": "nu", "macadamia": "nu",
		"prawn": "cr", "shrimp": "cr", "crab": "cr", "lobster": "cr", "squid": "mo", "oyster": "mo", "mussel": "mo", "scallop": "mo", "wine": "su",
		"bread": "gl", "pastry": "gl", "noodle": "gl", "pasta": "gl", "beer": "gl", "salmon": "fi", "tuna": "fi", "anchovy": "fi", "cod": "fi",
	}
	not := wordLists(exceptions)
	met := map[string]bool{}
	for i := range foods {
		f := &foods[i]
		for word := range strings.FieldsSeq(key(f.Name)) {
			code, ok := named[word]
			if !ok || slices.Contains(not[word], f.Name) {
				continue
			}
			met[word] = true
			assert.True(t, slices.ContainsFunc(f.codes(), func(c codeOf) bool { return c.code == code }), "%s has no %s", f.Name, code)
		}
	}
	assert.Len(t, met, len(named), "every word is met in the table")
}

// exceptions are names with the word for an allergen that do not carry it.
const exceptions = `
oyster: oyster mushroom, king oyster mushroom, oyster cracker
lobster: lobster mushroom
fish: fish mint
crab: crab apple
noodle: rice noodle, pad thai noodle, glass noodle
pasta: gluten-free pasta
wheat: wheat dextrose, wheat glucose syrup
cream: cream of tartar, oat cream, soya cream, coconut cream, salad cream, cream sherry, nut cream, cashew cream, macadamia cream, cream soda
butter: cocoa butter, peanut butter, smooth peanut butter, crunchy peanut butter, almond butter, cashew butter, nut butter, hazelnut butter, butter bean, tinned butter bean, apple butter, sunflower butter, pumpkin seed butter, hemp butter, tahini butter, soya nut butter, shea butter
cheese: vegan cheese, soya cheese, soy cheese
milk: oat milk, soya milk, almond milk, rice milk, coconut milk, cashew milk, hazelnut milk, macadamia milk, walnut milk, nut milk, pistachio milk, hemp milk, pea milk, sunflower milk, flax milk
yoghurt: coconut yoghurt, soya yoghurt, soy yoghurt
soybean: fully refined soybean oil
bread: gluten-free bread
wine: shaoxing wine, rice wine, wine gum
beer: ginger beer, root beer
`

// What is made of several things carries what is in them; each of these was wrong once.
func TestAllergensOfWhatIsMade(t *testing.T) {
	for item, want := range map[string]string{
		"gelatine": "fi?", "leaf gelatine": "fi?", "miso": "so gl? wh?", "tamari": "so gl? wh?", "soy sauce": "gl wh so", "english mustard": "mu gl~ wh~",
		"puff pastry": "gl wh mi~", "shortcrust pastry": "gl wh mi~ eg?", "frangipane": "nu~ eg~ mi~ gl? wh?", "taramasalata": "fi gl~ wh~ mi? eg?",
		"stock cubes": "ce~ gl? wh? mi? so? eg? fi? mu?", "frying oil": "so? pe?", "vegetable oil": "so?", "chicken thighs": "", "salt": "", "caster sugar": "", "water": "",
	} {
		a, known := Assess(item)
		assert.True(t, known, item)
		assert.ElementsMatch(t, written(t, want), carries(a), item)
	}
}

// Plain fresh fruit, vegetables, herbs and spices are known to be in neither list. The
// exceptions are on a list, or are treated with what is.
func TestPlainFoodsAreKnownToBeInNeitherList(t *testing.T) {
	for _, item := range []string{"water", "salt", "sea salt", "caster sugar", "granulated sugar", "icing sugar", "onions", "red onions", "garlic cloves", "carrots", "leeks", "fennel", "tomatoes", "cherry tomatoes",
		"courgettes", "lemons", "unwaxed lemons", "apples", "raspberries", "rhubarb", "parsley", "thyme", "bay leaves", "black pepper", "nutmeg", "saffron", "vanilla pod", "large ripe tomatoes",
		"finely chopped shallots", "fresh mint", "runny honey", "olive oil", "beef shin", "chicken thighs", "pork belly", "rack of lamb"} {
		a, known := Assess(item)
		assert.True(t, known, "%s is not assessed", item)
		assert.Empty(t, a.Carries, item)
	}
	for _, item := range []string{"celery", "celeriac", "mustard seed", "sesame seeds", "lupin flour", "dried apricots"} {
		a, known := Assess(item)
		assert.True(t, known, item)
		assert.NotEmpty(t, a.Carries, item)
	}
}

// What is known only by a broader food or by parts of its name is probable; a word that
// is no food leaves an item that carries nothing not assessed.
func TestAssessmentByABroaderFoodIsProbable(t *testing.T) {
	for item, want := range map[string][]string{
		"line-caught mackerel with peel": {"EU fish probably", "US fish probably"},
		"hazelnut oil blend":             {"EU nuts probably", "US tree_nuts probably"},
		"cheese and onion filling":       {"EU milk probably", "US milk probably"},
		"aged mountain cheese":           {"EU milk probably", "US milk probably"},
		"brioche crumb":                  {"EU gluten probably", "US wheat probably", "EU eggs probably", "US egg probably", "EU milk probably", "US milk probably"},
	} {
		a, known := Assess(item)
		assert.True(t, known, item)
		assert.ElementsMatch(t, want, carries(a), item)
		assert.NotEmpty(t, a.Foods, "%s says by which food", item)
	}
	for _, item := range []string{"moonflower paste", "moonflower salt", "", "vegan butter", "gluten-free pizza", "egg-free cake", "mock cream", "secret sauce"} {
		a, known := Assess(item)
		assert.False(t, known, item)
		assert.Empty(t, a.Carries, item)
	}
}

// The lists and their official names, read; status and address in the row.
func TestAllergenListsMatchTheLaw(t *testing.T) {
	published := rows(t, "allergen_categories.csv")
	require.Len(t, published, 14+9)
	require.Len(t, Categories, len(published))
	for i, r := range published {
		assert.Equal(t, Category{List(r[0]), r[2], r[3]}, Categories[i], "%s; %s", r[5], r[6])
	}
	assert.Equal(t, "Cereals containing gluten", OfficialName(EU, "gluten")[:25])
	assert.Equal(t, "moonshine", OfficialName(US, "moonshine"))
	for short, names := range official {
		for i, name := range names {
			if name != "" {
				assert.NotEqual(t, name, OfficialName([]List{EU, US}[i], name), "%s: %s is official", short, name)
			}
		}
	}
}

// What a maker mixes is never all known: the sheet asks, also where some of it is known.
// What a kitchen says of its own food is all.
func TestOpenFoodsAreAskedAbout(t *testing.T) {
	for _, item := range []string{"curry powder", "mild curry powder", "garam masala", "spice mix", "ras el hanout", "taco seasoning", "stock cubes", "chicken stock cube", "vegetable bouillon", "gravy granules", "moonflower almond paste"} {
		a, _ := Assess(item)
		assert.True(t, a.Open, item)
		d, ok := (*Foods)(nil).Describe(item, Compositions{})
		assert.True(t, ok && d.Open, item)
	}
	for _, item := range []string{"cumin seeds", "ground turmeric", "chopped onion", "butter", "white wine", "mixed dried herbs"} {
		a, known := Assess(item)
		assert.True(t, known && !a.Open, item)
	}
	own := NewFoods([]OwnFood{{Name: "stock cube", Assessed: true, Allergens: []string{"ce"}}})
	a, _ := own.Assess("stock cube")
	assert.False(t, a.Open)
}

// A label that says gluten-free is believed of soy sauce and bread. Oats are cereals of the EU's list
// whatever their label says: Regulation (EU) No 1169/2011, Annex II, item 1.
func TestGlutenFreeGoods(t *testing.T) {
	for item, want := range map[string]Certainty{"gluten-free soy sauce": "", "gluten free tamari": "", "tamari": May, "soy sauce": Always, "gluten-free oats": Always, "gluten-free bread": ""} {
		a, known := Assess(item)
		assert.True(t, known, item)
		assert.Equal(t, want, a.Certainty(EU, "gluten"), item)
	}
	a, _ := Assess("gluten-free soy sauce")
	assert.Equal(t, Always, a.Certainty(EU, "soybeans"))
}

// Wine, beer and cider may be fined with isinglass or gelatine (common practice, no source), which
// Annex II, item 4(b) of the regulation excepts as an allergen, so that only diets meet it.
func TestFiningAgentsAreAskedAbout(t *testing.T) {
	for guest, want := range map[string]Verdict{"vegan": {May: true}, "vegetarian": {May: true}, "fish allergy": {}, "egg allergy": {}, "milk allergy": {}} {
		a, _ := Understand(guest)
		for _, item := range []string{"white wine", "dry red wine", "port", "champagne", "lager", "cider", "alcohol-free beer"} {
			assert.Equal(t, want, a.Of(item, nil), "%s: %s", guest, item)
		}
		assert.Equal(t, Verdict{}, a.Of("brandy", nil), guest)
	}
}
