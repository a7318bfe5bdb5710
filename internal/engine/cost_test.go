package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/larder"
)

// housePrices is a kitchen's own foods for supperFiles.
const housePrices = "# Foods\n\n| food | trim | price |\n|--|--|--|\n| peas | 0 % | €3 per kg |\n| chicken backs | 0 % | €2 per kg |\n"

// pricedSupper opens the supper in a kitchen with foods of its own.
func pricedSupper(t *testing.T, foods string) (*phone, *DinnerView) {
	files := []File{{Name: "foods.md", Text: foods}}
	for name, text := range supperFiles {
		files = append(files, File{Name: name, Text: text})
	}
	return openMenu(t, files, "supper.md")
}

// The costs by hand: ten covers of 200 g are 2 kg of soup. It takes 800 g of peas, 2.40 €, and
// 1.2 kg of the 1.6 kg of stock that 3.2 kg of backs make: 2.4 kg of backs are 4.80 €.
func TestCostOfADinner(t *testing.T) {
	p, d := pricedSupper(t, housePrices)
	require.NotNil(t, d.Cost)
	assert.Equal(t, CostView{Sum: "€7.20", Each: "€0.72", Of: "cover", Missing: []string{}, Assumed: []string{}}, *d.Cost)
	assert.Equal(t, "€0.72", d.Courses[0].Plates[0].Cost.Sum)
	assert.Equal(t, "€7.20", cardOf(t, d, "soup").Batches[0].Cost.Sum)
	assert.Equal(t, "€4.80", cardOf(t, d, "stock").Batches[0].Cost.Sum)
	assert.Equal(t, "€14.40", p.covers(20).Cost.Sum)

	page := call[PageView](t, p.e, "read", ReadCall{Name: "soup.md", Make: "4 kg"})
	assert.Equal(t, CostView{Sum: "€14.40", Missing: []string{}, Assumed: []string{}}, *page.Card.Cost)
	page = call[PageView](t, p.e, "read", ReadCall{Name: "plate.md", Make: "3 plates"})
	assert.Equal(t, CostView{Sum: "€2.16", Each: "€0.72", Of: "plate", Missing: []string{}, Assumed: []string{}}, *page.Card.Cost)

	foods := call[PageView](t, p.e, "read", ReadCall{Name: "foods.md"})
	assert.Equal(t, "foods Foods", foods.Kind+" "+foods.Title)
	assert.Contains(t, foods.HTML, "<td>chicken backs</td>")

	order := call[dinner.OrderList](t, p.e, "order", DinnerCall{Dinner: p.dinner})
	assert.Equal(t, "€14.40", order.Cost)
}

func TestEachPlateHasItsOwnCost(t *testing.T) {
	plate := func(grams string) string {
		return "---\nmakes: 1 plate\n---\n\n# P\n\n## Formula\n\n- " + grams + " g peas\n\n## Method\n\n1. Boil the **peas**.\n   - hands: 1 min\n"
	}
	_, d := openMenu(t, []File{{Name: "foods.md", Text: housePrices}, {Name: "one.md", Text: plate("100")}, {Name: "two.md", Text: plate("200")}, {Name: "three.md", Text: plate("300")},
		{Name: "supper.md", Text: "---\ncovers: 10\n---\n\n# S\n\n## A\n\n- [One](one.md)\n- [Two](two.md): for no fish\n\n## B\n\n- [Three](three.md)\n\n## Guests\n\n- 2 covers: no fish\n"}}, "supper.md")
	assert.Equal(t, []string{"€0.30", "€0.60", "€0.90"}, []string{d.Courses[0].Plates[0].Cost.Sum, d.Courses[0].Plates[1].Cost.Sum, d.Courses[1].Plates[0].Cost.Sum})
	assert.Equal(t, "€12.60", d.Cost.Sum, "8 of 0.30, 2 of 0.60, 10 of 0.90")
}

func TestWhatHasNoPriceIsNamed(t *testing.T) {
	_, d := pricedSupper(t, "# Foods\n\n| food | price |\n|--|--|\n| peas | €3 per kg |\n")
	assert.Equal(t, []string{"chicken backs"}, d.Cost.Missing)
	assert.Equal(t, []string{"chicken backs"}, d.Courses[0].Plates[0].Cost.Missing)
	stock := cardOf(t, d, "stock").Batches[0].Cost
	assert.Equal(t, "", stock.Sum, "nothing in it has a price")
	assert.Equal(t, []string{"chicken backs"}, stock.Missing)

	_, d = pricedSupper(t, "# Foods\n\n| food | trim |\n|--|--|\n| peas | 0 % |\n")
	assert.Nil(t, d.Cost, "the kitchen has no prices at all")
	assert.Nil(t, d.Courses[0].Plates[0].Cost)
}

// An edit of the foods changes an open dinner once the dinner pins it, and not before.
func TestFoodsAreReadOnThePhone(t *testing.T) {
	p, d := pricedSupper(t, housePrices)
	assert.Empty(t, d.Problems)
	view := call[LibraryView](t, p.e, "load", LoadCall{Files: []File{{Name: "foods.md", Text: housePrices + "| nuts | | |\n"}, {Name: "soup.md", Text: supperFiles["soup.md"]}}})
	var kinds []string
	for _, f := range view.Files {
		kinds = append(kinds, f.Name+" "+f.Kind)
	}
	assert.Equal(t, []string{"foods.md foods", "soup.md card"}, kinds)
	assert.Contains(t, said(view.Problems), `foods.md:7:3: "nuts" is a word for what guests can't have, and can't be one food; name the one that you buy`)

	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindCovers, Number: 20})
	assert.Equal(t, "€14.40", d.Cost.Sum)
}

// A tap on an ingredient tells what the kitchen itself says of it.
func TestTapTellsTheKitchensFoods(t *testing.T) {
	p, _ := pricedSupper(t, "# Foods\n\n| food | other names | each |\n|--|--|--|\n| onion | brown globe | 210 g |\n")
	for _, in := range []FoodCall{{Name: "brown globes"}, {Name: "brown globes", Dinner: p.dinner, Card: "soup", Item: 2}, {Name: "brown globes", Dinner: p.dinner}} {
		v := call[FoodView](t, p.e, "food", in)
		assert.True(t, v.Known && v.Same && v.Name == "onion", "%+v", in)
		assert.Contains(t, v.Facts, larder.Fact{Word: "one weighs", Value: "210 g", Source: "the kitchen's foods"})
	}
}
