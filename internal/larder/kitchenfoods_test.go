package larder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/quantity"
)

// own returns a pointer to a figure as typed, for a row of a kitchen's foods.
func own(t *testing.T, figure string) *quantity.Number {
	var n quantity.Number
	require.NoError(t, n.UnmarshalText([]byte(figure)))
	return &n
}

// house returns foods of a kitchen: a butter of its own, a flour, a mix that is assessed,
// and two that nobody has assessed.
func house(t *testing.T) *Foods {
	return NewFoods([]OwnFood{
		{Name: "Herd butter", Others: []string{"butter"}, Density: own(t, "0.9"), Keeps: 40},
		{Name: "onion", Others: []string{"brown globe"}, Section: "cellar", Trim: own(t, "25"), Weights: map[string]quantity.Number{"each": *own(t, "200")}},
		{Name: "garlic", Weights: map[string]quantity.Number{"clove": *own(t, "6")}, By: quantity.Each},
		{Name: "oat drink", Allergens: []string{"gl", "wh?"}, Assessed: true},
		{Name: "topping", Others: []string{"seed mix"}, Allergens: []string{"se", "nu?"}, Assessed: true, Section: "dry goods", Pack: quantity.Amount{Qty: *own(t, "500"), Unit: gram}},
		{Name: "lamb mince blend", Others: []string{"house blend"}},
		{Name: "zyzzyva"},
	})
}

func TestKitchensFoodWinsOverTheTable(t *testing.T) {
	fs := house(t)
	figure := func(f Figure) string { return quantity.ShowNumber(f.Value) + ", " + f.Source }

	butter, ok := fs.Find("butter, soft")
	require.True(t, ok)
	assert.Equal(t, "Herd butter", butter.Name)
	assert.Equal(t, "butter", butter.Slug(), "the line of the order list stays where it was")
	assert.Equal(t, 40, butter.Keeps())
	assert.True(t, butter.Is("butter"))
	assert.Equal(t, "dairy and eggs", butter.Section, "what the row does not say is the table's")
	assert.Equal(t, "0.9, the kitchen's foods", figure(fs.Nearest("butter").Density()))
	assert.Equal(t, Always, certainty(fs, "butter", EU, "milk"))

	for _, item := range []string{"onions", "brown globes, peeled"} {
		near := fs.Nearest(item)
		assert.Equal(t, "25", quantity.ShowNumber(near.Trim().Value.Mul(quantity.Int(100))), item)
		assert.Equal(t, "200, the kitchen's foods", figure(near.Each("each")), item)
		assert.Equal(t, "cellar", near.Section, item)
	}
	assert.Equal(t, "onion", fs.Known("brown globes"), "the rules know it by the table's name")
	assert.Equal(t, "200, the kitchen's foods, as for onion", figure(fs.Nearest("pearly onion").Each("each")), "a kind that is not in the table is weighed as the kitchen's")

	table, _ := Find("onion")
	assert.NotEqual(t, figure(Near{table, true}.Each("each")), "200, the kitchen's foods", "the built-in table stays as it is")
	assert.Equal(t, figure(Nearest("onion").Density()), figure(fs.Nearest("onion").Density()), "a figure that the row does not give is the table's, from its source")

	garlic := fs.Nearest("garlic")
	assert.Equal(t, "6, the kitchen's foods", figure(garlic.Each("clove")))
	assert.Equal(t, "each", garlic.By().Name)
	assert.Contains(t, garlic.Units(), "clove")

	n, basis, err := Convert("brown globe", *own(t, "2"), quantity.Each, gram, Own{Foods: fs})
	require.NoError(t, err)
	assert.Equal(t, "400", n.String())
	assert.Equal(t, "one onion 200 g (the kitchen's foods)", basis)
	_, _, err = Convert("brown globe", *own(t, "2"), quantity.Each, gram, Own{})
	assert.Error(t, err)

	topping, _ := fs.Find("Seed mix, toasted")
	assert.Equal(t, "topping", topping.Slug())
	assert.Equal(t, "500 g", quantity.Show(topping.Pack(), quantity.Prefs{}))
	assert.True(t, fs.Names("toasted topping") && fs.Names("brown globes") && !fs.Names("carrots"))
}

// certainty returns how surely an item carries an allergen by a kitchen's foods.
func certainty(fs *Foods, item string, list List, code string) Certainty {
	a, _ := fs.Assess(item)
	return a.Certainty(list, code)
}

func TestAllergensOfTheKitchensFoods(t *testing.T) {
	fs := house(t)
	for _, tt := range []struct {
		item  string
		known bool
		want  map[string]Certainty // of the EU's list
	}{
		{"topping", true, map[string]Certainty{"sesame": Always, "nuts": May}},
		{"seed mix", true, map[string]Certainty{"sesame": Always, "nuts": May}},
		{"oat drink", true, map[string]Certainty{"gluten": Always}},
		{"toasted topping", true, map[string]Certainty{"sesame": Probably, "nuts": May}},
		{"zyzzyva", false, nil},
		{"zyzzyva with carrots", false, nil},
		{"zyzzyva with butter", true, map[string]Certainty{"milk": Probably}},
		{"carrots", true, nil},
	} {
		a, known := fs.Assess(tt.item)
		assert.Equal(t, tt.known, known, tt.item)
		got := map[string]Certainty{}
		for _, c := range a.Carries {
			if c.List == EU {
				got[c.Code] = c.Certainty
			}
		}
		if tt.want == nil {
			tt.want = map[string]Certainty{}
		}
		assert.Equal(t, tt.want, got, tt.item)
	}
	assert.Equal(t, May, certainty(fs, "oat drink", US, "wheat"), "gluten may be of wheat")
	o := OwnFood{Name: "butter", Assessed: true}
	assert.Equal(t, []string{"milk"}, o.TakesBack())
	o = OwnFood{Name: "almond surprise", Assessed: true}
	assert.Equal(t, []string{"nuts", "tree nuts"}, o.TakesBack(), "its name says almonds")
	o = OwnFood{Name: "butter", Assessed: true, Allergens: []string{"mi"}}
	assert.Empty(t, o.TakesBack())
}

// A food that only its name tells of keeps the class of its name: a wrong class would leave
// a dish undercooked or a guest unwarned.
func TestClassOfTheKitchensFoods(t *testing.T) {
	fs := house(t)
	for _, item := range []string{"lamb mince blend", "house blend"} {
		c, ok := fs.Classify(item)
		require.True(t, ok, item)
		assert.Equal(t, []Animal{Meat}, c.Animals, item)
		assert.NotEqual(t, NoHeat, c.Heat, item)
		assert.True(t, c.Probably, item)
	}
	assert.Equal(t, "lamb mince blend house blend", fs.Known("house blend"))
	c, ok := fs.Classify("butter")
	assert.True(t, ok && c.Animals[0] == Dairy)
	_, ok = fs.Classify("zyzzyva")
	assert.False(t, ok)
	_, ok = fs.Classify("zyzzyva with carrots")
	assert.False(t, ok, "nothing is known of a part of it")
	vegan, _ := Understand("vegan")
	assert.True(t, vegan.Of("house blend", fs).Sure)
	assert.True(t, vegan.Of("zyzzyva", fs).Unknown)
	milk, _ := Understand("no butter")
	assert.True(t, milk.Of("Herd butter", fs).Sure, "it is butter")
}

func TestOfficialAllergen(t *testing.T) {
	for _, c := range Categories {
		tokens, _, ok := OfficialAllergen(c.Code)
		require.True(t, ok, c.Code)
		fs := NewFoods([]OwnFood{{Name: "zyzzyva", Assessed: true, Allergens: tokens}})
		assert.Equal(t, Always, certainty(fs, "zyzzyva", c.List, c.Code), "%s, which is not lost", c.Code)
		tokens, _, ok = OfficialAllergen("May contain " + c.Code)
		require.True(t, ok, c.Code)
		fs = NewFoods([]OwnFood{{Name: "zyzzyva", Assessed: true, Allergens: tokens}})
		assert.Equal(t, May, certainty(fs, "zyzzyva", c.List, c.Code), c.Code)
	}
	for words, meant := range map[string]string{"dairy": "milk", "hazelnuts": "nuts", "sunshine": "", "": "", "shellfish": "crustaceans"} {
		_, got, ok := OfficialAllergen(words)
		assert.False(t, ok, words)
		assert.Equal(t, meant, got, words)
	}
}

// A kitchen's food that says nothing but its name is known as the built-in table knows it.
func TestEmptyRowChangesNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		f := &foods[rapid.IntRange(0, len(foods)-1).Draw(r, "food")]
		if f.Category() {
			return
		}
		fs := NewFoods([]OwnFood{{Name: f.Name}})
		was, known := Assess(f.Name)
		is, isKnown := fs.Assess(f.Name)
		wasClass, _ := Classify(f.Name)
		isClass, _ := fs.Classify(f.Name)
		g, _ := fs.Find(f.Name)
		if known != isKnown || len(was.Carries) != len(is.Carries) || wasClass.Heat != isClass.Heat || len(wasClass.Animals) != len(isClass.Animals) ||
			g.Slug() != f.Slug() || g.Section != f.Section || g.Keeps() != f.Keeps() || g.By() != f.By() || g.Whole() != f.Whole() {
			r.Fatalf("%s: %v, not %v", f.Name, is, was)
		}
		for _, word := range []string{"t", "d", "e", "clove"} {
			if a, b := Nearest(f.Name).figure(word), fs.Nearest(f.Name).figure(word); a.Value.Cmp(b.Value) != 0 || a.Source != b.Source {
				r.Fatalf("%s: %s is %v (%s), not %v (%s)", f.Name, word, b.Value, b.Source, a.Value, a.Source)
			}
		}
	})
}
