package larder

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// otherNames are guests' words and items that have, or may have, what they avoid under
// another name: common practice, no source. None of them was found once. Behind "-" are items that
// share a word and do not have it.
const otherNames = `
allergic to prawns: shrimp, brown shrimp, langoustines, scampi, shrimp paste, prawn crackers, bisque, XO sauce, surimi - mussels, cod
allergic to shrimp: prawns, king prawns, tiger prawns, shrimp paste
no cheese: parmesan, mozzarella, ricotta, feta, paneer, halloumi, mascarpone, pesto, Caesar dressing, gorgonzola, labneh, cream cheese, goat's curd, burrata, comté - milk, double cream, cream of tartar
no parmesan: grated cheese, pesto, grana padano, caesar dressing - milk, feta
no mushrooms: shiitake, porcini, chanterelles, truffle, ceps, oyster mushrooms, dried wild mushrooms, enoki - aubergine
no egg whites: eggs, meringue, mayonnaise, macarons, marshmallows, quail eggs, brioche - cream
no egg yolks: eggs, mayonnaise, hollandaise, custard
allergic to anchovies: Worcestershire sauce, Caesar dressing, fish sauce, tapenade, nam pla, bloody mary mix - salmon
allergic to barley: beer, malt vinegar, malt extract, ale, pearl barley, whisky, pickled onions - rice
no oats: granola, muesli, oatmeal, oatcakes, porridge oats - barley
no almonds: dukkah, romesco, marzipan, frangipane, amaretti, mixed nuts, pesto - walnuts
no hazelnuts: praline paste, gianduja, dukkah, chocolate hazelnut spread
no onions: shallots, leeks, spring onions, chives, onion powder, mirepoix, chicken stock, sausages - carrots
no peppers: jalapeño, harissa, paprika, red pepper, yellow pepper, cayenne, chorizo - black pepper
no chilli: jalapeños, cayenne, sriracha, harissa, bird's eye chillies, chipotle
no game: quail, venison, pheasant, partridge, game stock, guinea fowl, smoked venison, venison mince - chicken
no garlic: pesto, hummus, aioli, tzatziki, sausages, ketchup, curry powder
no yeast: bread, brioche, beer, panko, breadcrumbs, sourdough bread - soda bread, matzo
raw eggs: mayonnaise, aioli, mousse, egg nog, egg yolks - hard-boiled eggs
raw fish: sushi, caviar
raw meat: cured ham, bresaola, beef mince, salami - cooked chicken
no offal: liver, chicken liver pâté, sweetbreads, haggis, foie gras - beef shin
no tomatoes: passata, ketchup, baked beans, marinara sauce, harissa
no salmon: lox, gravlax, ikura - cod
no cod: white fish, salt cod, fish fingers, fish stock - salmon
no beef: stock, gelatine, suet, gravy, mince - lamb, vegetable stock
no pork: gelatine, marshmallows, stock, liver, beef sausages - beef bacon, turkey bacon, lamb bacon, turkey ham, beef
no lamb: shank, merguez, meat
no alcohol: vanilla extract, dijon mustard, trifle, soy sauce - white wine vinegar, grape juice
no chocolate: ganache, gianduja, brownie, couverture - vanilla pod
no coriander: curry powder, garam masala, guacamole, mixed herbs - parsley
vegan: granola, baklava, nougat - oats
no sweetcorn: polenta, cornflour, popcorn, glucose syrup
no grapes: raisins, white wine, balsamic vinegar
no lemon: lemonade, hummus, hollandaise
no crab: surimi, crab sticks, bisque - crab apples
no oysters: oyster sauce - oyster mushrooms
no beef fillet: beef, fillet of beef
`

func TestFoodsAreFoundUnderOtherNames(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(otherNames)) {
		words, items, _ := strings.Cut(strings.TrimSpace(line), ": ")
		items, others, _ := strings.Cut(items, " - ")
		a, ok := Understand(words)
		require.True(t, ok, words)
		for item := range strings.SplitSeq(items, ", ") {
			v := a.Of(item, nil)
			assert.True(t, v.Sure || v.May, "%s: nothing found in %s", words, item)
		}
		for item := range strings.SplitSeq(others, ", ") {
			if item != "" {
				assert.Equal(t, Verdict{}, a.Of(item, nil), "%s: %s", words, item)
			}
		}
	}
}

// A food that usually is of one animal, behind the name of another, may be of either.
func TestAnimalBeforeAProductDecides(t *testing.T) {
	a, _ := Understand("no pork")
	for item, want := range map[string]Verdict{
		"beef bacon": {}, "venison salami": {May: true}, "goat sausages": {May: true}, "bacon": {Sure: true}, "beef and bacon pie": {Sure: true, May: true}, "pork and beef sausages": {Sure: true}, "smoked bacon": {Sure: true},
	} {
		got := a.Of(item, nil)
		assert.Equal(t, want.Sure, got.Sure, item)
		assert.True(t, got.May || !want.May, item)
	}
}

// Each row of the families names foods of the table, and reaches each by all its names.
func TestFamiliesReachTheirFoods(t *testing.T) {
	rows := 0
	for line := range strings.Lines(familiesText) {
		heads, lists, ok := strings.Cut(strings.TrimSpace(line), ":")
		require.True(t, ok, line)
		has, may, _ := strings.Cut(lists, ";")
		for name := range strings.SplitSeq(has+","+may, ",") {
			if name = strings.TrimSpace(name); name != "" {
				require.NotNil(t, byName[key(name)], "%s: %s is no food of the table", heads, name)
			}
		}
		if word, ok := strings.CutPrefix(heads, "!"); ok {
			_, known := Understand(word)
			require.True(t, known, "nobody avoids %s", word)
			continue
		}
		if strings.HasPrefix(heads, "@") {
			require.True(t, slices.ContainsFunc(slices.Collect(kindsOf()), func(k string) bool { return "@"+k == heads }), "nothing is hidden in %s", heads)
			continue
		}
		for head := range strings.SplitSeq(heads, ", ") {
			rows++
			a, ok := Understand(head)
			require.True(t, ok, head)
			for i, list := range []string{has, may} {
				for _, f := range foodsOf(list) {
					for _, name := range append(f.SameAs(), f.Name) {
						v := a.Of(name, nil)
						assert.True(t, v.Sure || i == 1 && v.May, "no %s: %s: %+v", head, name, v)
					}
				}
			}
		}
	}
	assert.Greater(t, rows, 90)
}

// kindsOf returns the kinds of blends in which foods may be.
func kindsOf() func(func(string) bool) {
	return func(yield func(string) bool) {
		for _, kinds := range hiding {
			for _, k := range kinds {
				if !yield(k) {
					return
				}
			}
		}
	}
}

// A guest who avoids a food of the kitchen's shop is never told that nothing was found in
// a blend that may hold it, nor in a broader food. A blend without milk holds no cheese.
func TestBlendsAreNeverPassed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
		a, ok := Understand(f.Name)
		if !ok || len(a.Foods) == 0 {
			return
		}
		f = byName[key(f.Name)]
		for _, kind := range hiding[f.Section] {
			for _, blend := range blends[kind] {
				if v := a.Of(blend.Name, nil); !v.Sure && !v.May && blend.mayCarry(f) {
					t.Fatalf("no %s: nothing found in %s", f.Name, blend.Name)
				}
			}
		}
		for g := f.parent; g != nil; g = g.parent {
			if v := a.Of(g.Name, nil); !v.Sure && !v.May {
				t.Fatalf("no %s: nothing found in %s", f.Name, g.Name)
			}
		}
	})
}
