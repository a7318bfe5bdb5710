package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// shopOf returns the shop of a kitchen with foods of its own: the rows of a table of food,
// other names, each, trim, price.
func shopOf(t *testing.T, rows string) Shop {
	f, problems := kitchen.ParseFoods("foods.md", []byte("# F\n\n| food | other names | each | trim | price |\n|--|--|--|--|--|\n"+rows))
	require.Empty(t, problems)
	var own []larder.OwnFood
	s := Shop{}
	for _, r := range f.Rows {
		own = append(own, r.OwnFood)
		if r.Price != nil {
			s.Prices = append(s.Prices, *r.Price)
		}
	}
	s.Foods = larder.NewFoods(own)
	return s
}

// stock makes the cards of a dinner read their items by a kitchen's foods.
func stock(in Input, foods *larder.Foods) Input {
	for id, c := range in.Cards {
		in.Cards[id], _ = card.ParseFor(c.File, c.Source, foods, "")
	}
	return in
}

// The costs by hand: 500 g of butter at 9 € a kilogram are 4.50 €. 1 kg of onions of which a
// fifth is trim are 1.25 kg as bought, at 1 € a kilogram 1.25 €. Five eggs at 0.30 € are 1.50 €.
func TestCostOfABatchAndAPlate(t *testing.T) {
	shop := shopOf(t, "| butter | | | | €9 per kg |\n| onion | brown globe | 200 g | 20 % | €1 per kg |\n| egg | | | | €0.30 each |\n")
	in := stock(dinner(t, supper, map[string]string{
		"plate": made("makes: 4 plates", "100 g [Soup](soup.md)", "80 g saffron", "2 brown globes", "salt, to taste", "20 g dill, optional"),
		"soup":  made("makes: 1000 g", "500 g butter", "1 kg brown globes", "5 eggs", "1 kg water"),
	}), shop.Foods)
	soup := CostOf(in, "soup", shop)
	assert.Equal(t, "€7.25", shop.Money(soup.Sum))
	assert.Equal(t, 3, soup.Priced)
	assert.Empty(t, soup.Missing, "tap water costs nothing")

	plate := CostOf(in, "plate", shop)
	// A tenth of the soup, 0.725 €, and two onions of 200 g, which are bought whole: 0.40 €.
	assert.Equal(t, "9/8", plate.Sum.String())
	assert.Equal(t, []string{"saffron", "dill"}, plate.Missing)
	assert.Equal(t, []string{"salt to taste is not counted"}, plate.Assumed)
	each, of := plate.Each(in.Cards["plate"])
	assert.Equal(t, "9/32 plate", each.Sum.String()+" "+of)
	_, of = soup.Each(in.Cards["soup"])
	assert.Empty(t, of, "it makes a weight")

	in.Leave = map[string]map[int]bool{"plate": {5: true}}
	assert.Equal(t, []string{"saffron"}, CostOf(in, "plate", shop).Missing, "what is left out costs nothing")
	assert.Equal(t, []string{"nothing"}, CostOf(in, "nothing", shop).Missing)
}

// What is set aside costs nothing where it is used, and a yolk costs an egg: common
// practice, no source.
func TestCostOfByProductsAndEggs(t *testing.T) {
	shop := shopOf(t, "| egg | | | | 3.60 per 12 |\n| chicken fat | | | | 5 per kg |\n| thyme | | | | 1.10 per bunch |\n")
	in := stock(dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "20 g [chicken fat](stock.md#chicken-fat)", "30 g [goose fat](stock.md#goose-fat)", "4 egg yolks", "2 egg whites", "1 kg cinnabar", "30 ml zyzzyva"),
		"stock": made("makes: 1 kg", "1 kg water") + "\n## Saves\n\n- chicken fat: 160 g\n",
	}), shop.Foods)
	s := CostOf(in, "plate", shop)
	assert.Equal(t, "1.80", shop.Money(s.Sum), "six eggs at 0.30")
	assert.Equal(t, []string{"an egg is counted for each white", "an egg is counted for each yolk", "chicken fat is set aside by Card, which bears its cost"}, s.Assumed)
	assert.Equal(t, []string{"goose fat", "cinnabar", "zyzzyva"}, s.Missing)

	in = stock(dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "100 ml thyme")}), shop.Foods)
	missing := CostOf(in, "plate", shop).Missing
	require.Len(t, missing, 1)
	assert.Contains(t, missing[0], "thyme: what ", "a price by the bunch needs what a bunch or a litre weighs")
}

func TestLoopOfCardsHasACost(t *testing.T) {
	shop := shopOf(t, "| butter | | | | 9 per kg |\n")
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "1 kg butter", "100 g [Soup](soup.md)"), "soup": made("makes: 1 kg", "10 g [Plate](plate.md)")})
	assert.NotEmpty(t, CostOf(in, "plate", shop).Missing)
}

func TestMoney(t *testing.T) {
	for _, tt := range []struct{ currency, n, want string }{
		{"€", "9/2", "€4.50"}, {"EUR", "9/2", "4.50 EUR"}, {"kr", "123/10", "12.30 kr"}, {"", "9/2", "4.50"}, {"£", "1/1000", "less than £0.01"}, {"£", "0", "£0.00"}, {"£", "1/200", "£0.01"},
	} {
		var n quantity.Number
		require.NoError(t, n.UnmarshalText([]byte(tt.n)))
		assert.Equal(t, tt.want, Shop{Prices: []kitchen.Price{{Currency: tt.currency}}}.Money(n))
	}
}

// All that the batches of a dinner take is what its plates take, where nothing is left over,
// and twice the covers cost twice as much.
func TestBillAddsUp(t *testing.T) {
	shop := shopOf(t, "| butter | | | | €9 per kg |\n| onion | | 200 g | 20 % | €1 per kg |\n| potato | | | 10 % | €2 per kg |\n")
	rapid.Check(t, func(r *rapid.T) {
		grams := func(name string) string {
			return quantity.Int(int64(rapid.IntRange(1, 999).Draw(r, name))).String() + " g "
		}
		in := stock(dinner(t, supper, map[string]string{
			"plate": made("makes: 1 plate", grams("soup")+"[Soup](soup.md)", grams("butter")+"butter", grams("saffron")+"saffron"),
			"soup":  made("makes: 1000 g", grams("onions")+"onions", grams("potatoes")+"potatoes"),
		}), shop.Foods)
		of := func(covers int) (*Demand, *Bill) {
			in.Covers = covers
			d, _ := Explode(in)
			return d, BillOf(in, d, shop)
		}
		covers := rapid.IntRange(1, 40).Draw(r, "covers")
		d, bill := of(covers)
		plates := bill.Plate(1, 1)
		if want := plates.Times(quantity.Int(int64(covers))); want.Sum.Cmp(bill.Used.Sum) != 0 {
			r.Fatalf("%d plates cost %s, all batches %s", covers, want.Sum, bill.Used.Sum)
		}
		if cover := bill.Cover(); cover.Sum.Cmp(plates.Sum) != 0 || len(cover.Missing) != 1 {
			r.Fatalf("a cover costs %s, its plate %s", cover.Sum, plates.Sum)
		}
		var batches quantity.Number
		for _, b := range d.ByCard["plate"].Batches {
			batches = batches.Add(bill.Batch(d.ByCard["plate"], b).Sum)
		}
		if batches.Cmp(bill.Used.Sum) != 0 {
			r.Fatalf("the batches of the plate cost %s, all %s", batches, bill.Used.Sum)
		}
		if _, twice := of(2 * covers); twice.Used.Sum.Cmp(bill.Used.Sum.Mul(quantity.Int(2))) != 0 {
			r.Fatalf("twice the covers cost %s, not twice %s", twice.Used.Sum, bill.Used.Sum)
		}
	})
}

func TestBillWithoutPricesOrGuestsIsEmpty(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "20 g butter")})
	d, _ := Explode(in)
	none := BillOf(in, d, Shop{})
	assert.Zero(t, none.Used.Priced+len(none.Used.Missing)+none.Cover().Priced+none.Plate(1, 1).Priced+len(none.Batch(d.Components[0], d.Components[0].Batches[0]).Missing))
	shop := shopOf(t, "| butter | | | | €9 per kg |\n")
	in.Covers = -1
	d, _ = Explode(in)
	assert.Zero(t, BillOf(in, d, shop).Cover().Priced)
	assert.Zero(t, BillOf(in, d, shop).Plate(1, 1).Priced)
}

// The order list reads names, trim, sections, packs and prices of the kitchen's foods.
func TestOrderReadsTheKitchensFoods(t *testing.T) {
	shop := shopOf(t, "| Herd butter | butter | | | €9 per kg |\n| onion | brown globe | 200 g | 20 % | €1 per kg |\n")
	in := stock(dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "100 g butter", "80 g brown globes", "1 onion", "10 g saffron")}), shop.Foods)
	d, problems := Explode(in)
	require.Empty(t, problems)
	lines := map[string]Line{}
	for _, l := range Order(d, shop) {
		lines[l.Slug] = l
	}
	require.Len(t, lines, 3)
	assert.Equal(t, "Herd butter", lines["butter"].Name)
	assert.Equal(t, "€9.00", shop.Money(lines["butter"].Cost), "1 kg in packs of 250 g")
	// Ten covers: 800 g ÷ 0.8 = 1 kg, and ten of 200 g.
	assert.Equal(t, "3 kg", asked(lines["onion"].Buy))
	assert.Contains(t, lines["onion"].Note, "trim 20 % (the kitchen's foods)")
	assert.Equal(t, "€3.00", shop.Money(lines["onion"].Cost))
	sum, unpriced := Cost(Order(d, shop))
	assert.Equal(t, "€12.00", shop.Money(sum))
	assert.Equal(t, 1, unpriced)
}
