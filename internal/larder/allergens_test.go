package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Codes are those of Regulation (EU) No 1169/2011 Annex II and 21 U.S.C. 321(qq);
// which item carries which of them, and how surely, is our own compilation (OWN).
// Every row is held to the file it came from, so that no row is changed unseen.
func TestAllergenRowsAreThoseOfTheCompilation(t *testing.T) {
	compiled := map[string]Allergens{}
	split := func(s string) []string { return codes(strings.ReplaceAll(s, ";", ",")) }
	for _, r := range rows(t, "allergens.csv") {
		name := r[0]
		if head, kind, ok := strings.Cut(name, ", "); ok {
			name = kind + " " + head // "noodles, rice" are rice noodles
		}
		compiled[singular(name)] = Allergens{EU: split(r[1]), US: split(r[2]), Certainty: Certainty(r[3])}
	}
	for item, want := range compiled {
		assert.Equal(t, want, allergens[item], item)
	}
	for item, got := range allergens {
		if _, ok := compiled[item]; ok {
			continue
		}
		assert.Equal(t, added[item], got, "%s is in neither the compilation nor the list below", item)
	}
}

// added are the rows beyond the compilation that carry something, each with the
// words of the law that name it; [inNeitherList] are the others.
var added = func() map[string]Allergens {
	m := map[string]Allergens{
		"trout":              {[]string{"fish"}, []string{"fish"}, Always},
		"hake":               {[]string{"fish"}, []string{"fish"}, Always}, // Merluccius merluccius: "European hake" on the US FDA Seafood List (from memory)
		"haddock":            {[]string{"fish"}, []string{"fish"}, Always},
		"sea bass":           {[]string{"fish"}, []string{"fish"}, Always},
		"mackerel":           {[]string{"fish"}, []string{"fish"}, Always},
		"rolled oat":         {[]string{"gluten"}, nil, Always}, // Annex II(1): "wheat …, rye, barley, oats"
		"rye flour":          {[]string{"gluten"}, nil, Always}, // Annex II(1), and no wheat
		"baking powder":      {[]string{"gluten"}, []string{"wheat"}, May},
		"gelatine":           {[]string{"fish"}, []string{"fish"}, May}, // of fish, unless the packet says otherwise
		"white wine vinegar": {[]string{"sulphites"}, nil, May},
		"caper":              {[]string{"sulphites"}, nil, May},
	}
	for item := range strings.SplitSeq(inNeitherList, ",") {
		m[singular(item)] = Allergens{Certainty: None}
	}
	return m
}()

const inNeitherList = `onion, spring onion, shallot, leek, garlic, ginger, carrot, parsnip, beetroot, potato, fennel, asparagus, courgette,
	cucumber, radish, pea, pea in the pod, broad bean, spinach, watercress, lettuce, tomato, button mushroom, red pepper, parsley, dill, chive, chervil,
	tarragon, mint, basil, thyme, rosemary, bay leaf, star anise, lemon, lemon juice, orange juice, apple, strawberry, raspberry, gooseberry, rhubarb,
	caster sugar, icing sugar, brown sugar, sugar, granulated sugar, salt, sea salt, black pepper, white pepper, coriander seed, fennel seed,
	bicarbonate of soda, dried yeast, fresh yeast, olive oil, sunflower oil, tomato paste, water, chicken, chicken back, chicken thigh, lamb shoulder,
	pork belly, beef`

// A name that says what the law lists carries it: no row may call rye flour free
// of gluten or fish stock free of fish. The exceptions are named by the law or are
// other plants that share the word.
func TestItemsNamedAfterAnAllergenCarryIt(t *testing.T) {
	named := map[string]string{
		"wheat": "gluten", "rye": "gluten", "barley": "gluten", "oat": "gluten", "spelt": "gluten", "fish": "fish", "egg": "eggs", "milk": "milk", "cream": "milk",
		"butter": "milk", "cheese": "milk", "celery": "celery", "mustard": "mustard", "sesame": "sesame", "lupin": "lupin", "peanut": "peanuts", "soy": "soybeans",
		"soya": "soybeans", "soybean": "soybeans", "almond": "nuts", "hazelnut": "nuts", "walnut": "nuts", "prawn": "crustaceans", "shrimp": "crustaceans",
		"crab": "crustaceans", "squid": "molluscs", "oyster": "molluscs", "wine": "sulphites",
	}
	not := map[string]string{
		"wheat glucose syrup":       "Annex II(1)(a): glucose syrups based on wheat are exempt",
		"wheat dextrose":            "Annex II(1)(a): dextrose based on wheat is exempt",
		"fully refined soybean oil": "Annex II(6)(a): fully refined soybean oil is exempt",
		"coconut milk":              "of a palm",
		"cocoa butter":              "of a seed",
		"almond milk/milk":          "of almonds",
		"oat milk/milk":             "of oats",
		"soya milk/milk":            "of soya beans",
		"peanut butter/milk":        "of peanuts",
		"vegan cheese/milk":         "without milk by its name",
	}
	met := map[string]bool{}
	for item, a := range allergens {
		for word := range strings.FieldsSeq(item) {
			code := named[word]
			if code == "" || not[item] != "" || not[item+"/"+code] != "" {
				continue
			}
			met[word] = true
			assert.Contains(t, a.EU, code, item)
		}
	}
	require.GreaterOrEqual(t, len(met), 20, "the words are met in the table: %v", met)
}

func TestAssessFindsAFoodByItsOtherNames(t *testing.T) {
	for item, eu := range map[string]string{"unsalted butter": "milk", "egg yolks": "eggs", "strong white bread flour": "gluten", "river trout": "fish"} {
		a, ok := Assess(item)
		if assert.True(t, ok, item) {
			assert.Contains(t, a.EU, eu, item)
		}
	}
	for _, item := range []string{"quince paste", "butternut squash", ""} {
		_, ok := Assess(item)
		assert.False(t, ok, "%q must be not assessed", item)
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
	codes := map[string]bool{}
	for _, c := range Categories {
		codes[string(c.List)+c.Code] = true
	}
	for item, a := range allergens {
		for _, code := range a.EU {
			assert.True(t, codes["EU"+code], "%s: %s", item, code)
		}
		for _, code := range a.US {
			assert.True(t, codes["US"+code], "%s: %s", item, code)
		}
	}
}
