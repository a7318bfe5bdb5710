package library

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/larder"
)

const (
	ownFoods = "# Foods\n\n| food | other names | each | trim | allergens | price |\n|--|--|--|--|--|--|\n| onion | brown globe | 200 g | 20 % | | €1 per kg |\n| seed mix | topping | | | sesame | |\n"
	tart     = "---\nmakes: 2 kg\n---\n\n# Tart\n\n## Formula\n\n- 5 brown globes\n- 1 kg topping\n\n## Method\n\n1. Mix **brown globes** and **topping**.\n   - hands: 5 min\n"
	toast    = "---\nmakes: 1 kg\n---\n\n# Toast\n\n## Formula\n\n- 1 kg white bread\n\n## Method\n\n1. Toast the **white bread**.\n   - hands: 5 min\n"
)

func stocked(c *Cache, texts map[string]string) (Set, *larder.Foods) {
	s := Set{}
	for name, text := range texts {
		s[name] = c.Compile(name, text)
	}
	foods := c.Stock(s)
	return s, foods
}

func TestCardsAreReadByTheKitchensFoods(t *testing.T) {
	var c Cache
	texts := map[string]string{"tart.md": tart, "toast.md": toast, "foods.md": ownFoods}
	s, foods := stocked(&c, texts)
	require.NotNil(t, foods)
	assert.Equal(t, "Foods", s["foods.md"].Title())
	assert.Same(t, foods, s.Card("tart").Foods)
	assert.Nil(t, s.Card("toast").Foods, "it names none of them")
	assert.Same(t, c.Compile("toast.md", toast), s["toast.md"])

	again, foods2 := stocked(&c, texts)
	assert.Same(t, s["tart.md"], again["tart.md"], "it is read once for one text of both")
	assert.Same(t, foods, foods2)
	cache2 := c.Stock(again)
	assert.Same(t, s["tart.md"], again["tart.md"], "a set that is stocked already stays as it is")
	assert.Same(t, foods, cache2)

	texts["foods.md"] = ownFoods + "| shallot | | 20 g | | | |\n"
	other, foods3 := stocked(&c, texts)
	assert.NotSame(t, s["tart.md"], other["tart.md"], "the foods have changed")
	assert.Same(t, foods3, other.Card("tart").Foods)
	delete(texts, "foods.md")
	none, nothing := stocked(&c, texts)
	assert.Nil(t, nothing)
	assert.Nil(t, none.Card("tart").Foods)
}

// Without its foods the card has 2 kg of a yield and nothing known of what goes in; with them
// it is known to be too much.
func TestYieldIsCheckedByTheKitchensFoods(t *testing.T) {
	text := "---\nmakes: 2 kg\n---\n\n# Tart\n\n## Formula\n\n- 5 brown globes\n\n## Method\n\n1. Cook the **brown globes**.\n   - hands: 5 min\n"
	var c Cache
	alone, _ := stocked(&c, map[string]string{"tart.md": text})
	assert.Empty(t, alone["tart.md"].Problems)
	with, _ := stocked(&c, map[string]string{"tart.md": text, "foods.md": ownFoods})
	require.Len(t, with["tart.md"].Problems, 1)
	assert.Contains(t, with["tart.md"].Problems[0].Msg, "and 1 kg goes in: a yield of 200 %")
}

func TestDinnerPinsTheKitchensFoods(t *testing.T) {
	menu := "---\ncovers: 2\n---\n# M\n\n## A\n\n- [Tart](tart.md): 100 g\n"
	var c Cache
	s, _ := stocked(&c, map[string]string{"tart.md": tart, "m.md": menu, "foods.md": ownFoods})
	assert.Equal(t, []string{"foods.md", "m.md", "tart.md"}, s.Needs(s["m.md"]))
	assert.Equal(t, []string{"foods.md"}, s.Needs(s["foods.md"]))
}

func TestProblemsOfFoodsInSeveralFiles(t *testing.T) {
	kitchen := func(price string) string {
		return "---\ncooks: 1\n---\n\n# K\n\n## Equipment\n\n- hob: 1 ring\n\n## Hours\n\n- on the day: 08:00–22:00\n\n## Prices\n\n- " + price + "\n"
	}
	for _, tt := range []struct {
		name  string
		files map[string]string
		want  []string
	}{
		{"one file", map[string]string{"foods.md": ownFoods}, []string{}},
		{"a kitchen with prices of other foods", map[string]string{"foods.md": ownFoods, "k.md": kitchen("butter: €9 per kg")}, []string{}},
		{"no file of foods", map[string]string{"k.md": kitchen("butter: €9 per kg")}, []string{}},
		{"a name in two files", map[string]string{"foods.md": ownFoods, "more.md": "# More\n\n| food |\n|--|\n| brown globes |\n"},
			[]string{`more.md:5:3: "brown globes" is in foods.md, line 5, too, which counts; a name is one food's: take one of the two out`}},
		{"a price in both", map[string]string{"foods.md": ownFoods, "k.md": kitchen("brown globes: €9 per kg")},
			[]string{`k.md:17:3: warning: "brown globes" has a price in foods.md too, which counts; take one of the two out`}},
		{"two currencies", map[string]string{"foods.md": ownFoods, "k.md": kitchen("butter: £9 per kg")},
			[]string{`k.md:17:3: the price of "butter" is in another currency than that of "onion" in foods.md; give all prices in one currency`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var c Cache
			s, _ := stocked(&c, tt.files)
			assert.Equal(t, tt.want, said(s.foodProblems()))
			var of []document.Problem
			for _, name := range s.Names() {
				of = append(of, s.CheckFile(s[name])...)
			}
			assert.Equal(t, tt.want, said(of), "the page of each file tells its own")
		})
	}
}

// Two files of one name keep their own problems, and cards of both are read.
func TestGatherStocksItsCards(t *testing.T) {
	set, foods, problems := Gather([]Source{{"a/tart.md", tart}, {"foods.md", ownFoods}, {"b/tart.md", tart}})
	assert.NotNil(t, foods)
	assert.Same(t, foods, set.Card("tart").Foods)
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Msg, "two files of one name")
}

// A menu's guests and a card's "contains" may name the kitchen's own foods. Without them
// the words are an error, and nothing of them is checked.
func TestGuestsAndAuthorsNameTheKitchensFoods(t *testing.T) {
	var c Cache
	party := "---\ncovers: 4\n---\n\n# Party\n\n## First\n\n- [Toast](toast.md)\n- [Tart](tart.md): for no topping\n\n## Guests\n\n- 1 cover: no topping or fish\n"
	topped := strings.Replace(toast, "makes: 1 kg\n", "makes: 1 kg\ncontains: topping\n", 1)
	spread := strings.Replace(toast, "1 kg white bread", "1 kg white bread, spread with topping", 1)
	texts := map[string]string{"party.md": party, "tart.md": tart, "toast.md": topped, "spread.md": spread, "foods.md": ownFoods}
	s, foods := stocked(&c, texts)
	m := s["party.md"].Menu
	assert.Empty(t, s["party.md"].Problems)
	require.Len(t, m.Guests, 1)
	assert.Equal(t, []string{"topping", "fish"}, m.Guests[0].Exclude)
	assert.Equal(t, []string{"topping"}, m.Courses[0].Plates[1].For)
	assert.Same(t, foods, m.Foods)
	assert.Empty(t, s["toast.md"].Problems)
	assert.True(t, s.Card("toast").Contains[0].Known())
	assert.Same(t, foods, s.Card("spread").Foods, "it is named in a preparation")

	delete(texts, "foods.md")
	none, _ := stocked(&c, texts)
	assert.NotEmpty(t, none["party.md"].Problems)
	assert.Empty(t, none["party.md"].Menu.Guests[0].Exclude)
	assert.Equal(t, []string{"no topping or fish"}, none["party.md"].Menu.Guests[0].NotChecked)
	assert.NotEmpty(t, none["toast.md"].Problems)
}
