package demand

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/quantity"
)

const twice = "---\ncovers: 10\n---\n\n# Supper\n\n## Fish\n\n- [Fish](fish.md)\n\n## Meat\n\n- after: 2 h\n- [Meat](meat.md)\n"

// sauces is a dinner in which two plates take one sauce, and the sauce butter.
func sauces(t testing.TB) Input {
	return dinner(t, twice, map[string]string{
		"fish":   made("makes: 1 plate", "30 g [Sauce](sauce.md)"),
		"meat":   made("makes: 1 plate", "50 g [Sauce](sauce.md)"),
		"sauce":  made("makes: 1 kg\nmargin: 10 %", "400 g [Butter](butter.md)", "600 g cream"),
		"butter": made("makes: 500 g", "500 g butter"),
	})
}

// TestLotsAgainstHandCalculation: 10 × 30 g and 10 × 50 g of sauce, each with a tenth on top,
// are made by themselves: 330 g and 550 g; two fifths of it is butter.
func TestLotsAgainstHandCalculation(t *testing.T) {
	in := sauces(t)
	in.Apart = Apart{"sauce": {{By: "fish", Item: 1}: 1, {By: "meat", Item: 1}: 2},
		"butter": {{By: "sauce", Of: 1, Item: 1}: 1, {By: "sauce", Of: 2, Item: 1}: 2}}
	d, problems := Explode(in)
	require.Empty(t, problems)
	text := func(c *Component) string {
		s := ""
		for _, m := range c.Batches {
			s += fmt.Sprintf("%d:%s ", m.Lot, m.Amount)
		}
		return s
	}
	assert.Equal(t, "1:33/100 2:11/20 ", text(d.ByCard["sauce"]))
	assert.Equal(t, "1:132 2:220 ", text(d.ByCard["butter"]))
	assert.Equal(t, "22/25", d.ByCard["sauce"].Made.String())
	assert.Equal(t, "4/5", d.ByCard["sauce"].Need.String())
	assert.Equal(t, "2/25", d.ByCard["sauce"].Margin.String())
	assert.Equal(t, "0", d.ByCard["sauce"].Left.String())
	one, _ := Explode(sauces(t))
	assert.Equal(t, one.ByCard["sauce"].Made.String(), d.ByCard["sauce"].Made.String(), "no more is made than at once")
	assert.Equal(t, one.Buy, d.Buy)
}

// TestLotNumbering: a lot that needs more batches leaves the numbers of the other
// alone, and an unused number stays empty.
func TestLotNumbering(t *testing.T) {
	in := sauces(t)
	in.Cards["sauce"].Largest = quantity.Amount{Qty: quantity.Int(300), Unit: in.Cards["butter"].Makes.Unit}
	in.Apart = Apart{"sauce": {{By: "meat", Item: 1}: 2}}
	numbers := func(covers int) string {
		in.Covers = covers
		d, _ := Explode(in)
		s := ""
		for i, m := range d.ByCard["sauce"].Batches {
			s += fmt.Sprintf("%d of %d: %s; ", i+1, m.Lot, m.Amount)
		}
		return s
	}
	assert.Equal(t, "1 of 1: 33/250; 2 of 2: 11/50; ", numbers(4))
	assert.Equal(t, "1 of 1: 33/200; 2 of 2: 11/40; ", numbers(5))
	assert.Equal(t, "1 of 1: 33/200; 2 of 2: 11/40; 3 of 1: 33/200; 4 of 2: 11/40; ", numbers(10))
	in.Apart = Apart{"sauce": {{By: "fish", Item: 1}: 2}}
	assert.Equal(t, "1 of 1: 11/50; 2 of 2: 33/125; 3 of 1: 11/50; ", numbers(8), "the fish needs but one of 264 g")
}

// TestSurplusOfOneLotDoesNotServeAnother: one lot has more than it needs, the
// other is short.
func TestSurplusOfOneLotDoesNotServeAnother(t *testing.T) {
	in := sauces(t)
	in.Apart = Apart{"sauce": {{By: "meat", Item: 1}: 2}}
	kg := in.Cards["sauce"].Makes.Unit
	weigh := func(grams int64) quantity.Amount { return quantity.Amount{Qty: quantity.Frac(grams, 1000), Unit: kg} }
	in.Made = map[string][]Made{"sauce": {{Batch: 1, Amount: weigh(700)}, {Batch: 2, Amount: weigh(400)}}}
	d, _ := Explode(in)
	sauce := d.ByCard["sauce"]
	assert.True(t, sauce.Short, "there are 1,100 g for 800, and 400 for the 500 of the meat")
	assert.Equal(t, "3/10", sauce.Left.String())
	means := Consequences(in, d)
	require.Len(t, means, 1)
	assert.Equal(t, "1/10", means[0].Short.String())
	assert.Equal(t, 8, means[0].Covers)
}

// TestBooksOfLotsBalance: however the takers are divided into lots, the books of
// every lot balance, and batch numbers go round the lots.
func TestBooksOfLotsBalance(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		in := sauces(t)
		in.Covers = rapid.IntRange(1, 60).Draw(r, "covers")
		if rapid.Bool().Draw(r, "largest") {
			in.Cards["sauce"].Largest = quantity.Amount{Qty: quantity.Int(rapid.Int64Range(100, 900).Draw(r, "g")), Unit: in.Cards["butter"].Makes.Unit}
		}
		lot := func() int { return rapid.IntRange(-1, 3).Draw(r, "lot") }
		in.Apart = Apart{"sauce": {{By: "fish", Item: 1}: lot(), {By: "meat", Item: 1}: lot()}}
		butter := map[Taker]int{}
		for of := range 4 {
			butter[Taker{By: "sauce", Of: of, Item: 1}] = lot()
		}
		in.Apart["butter"] = butter
		for _, id := range []string{"sauce", "butter"} {
			for n := range 3 {
				if rapid.IntRange(0, 4).Draw(r, "made") == 0 {
					in.Made = map[string][]Made{id: {{Batch: n + 1, Amount: quantity.Amount{Qty: quantity.Frac(rapid.Int64Range(1, 900).Draw(r, "got"), 1000), Unit: in.Cards["sauce"].Makes.Unit}}}}
				}
			}
		}
		d, _ := Explode(in)
		for _, c := range d.Components {
			if got := c.Need.Add(c.Margin).Add(c.Left); got.Cmp(c.Made) != 0 {
				r.Fatalf("%s: need %s + margin %s + left %s is not made %s", c.Card.ID, c.Need, c.Margin, c.Left, c.Made)
			}
			if c.Short != (c.lacks().Sign() > 0) {
				r.Fatalf("%s: short %v, and lacks %s", c.Card.ID, c.Short, c.lacks())
			}
			lots := 0
			for _, m := range c.Batches {
				lots = max(lots, m.Lot)
			}
			var used quantity.Number
			for _, u := range c.Uses {
				used = used.Add(u.Amount)
				if lots == 0 && u.Lot != 0 || lots > 0 && u.Lot < 1 {
					r.Fatalf("%s: a use of lot %d of %d", c.Card.ID, u.Lot, lots)
				}
			}
			if used.Cmp(c.Need) != 0 {
				r.Fatalf("%s: uses add up to %s, need %s", c.Card.ID, used, c.Need)
			}
			if len(in.Made) == 0 && c.Short {
				r.Fatalf("%s: nothing is made yet and it is short", c.Card.ID)
			}
		}
	})
}
