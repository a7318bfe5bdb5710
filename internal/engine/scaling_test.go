package engine

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/quantity"
)

// A pull works a dinner out in the other direction than the program does: for
// each card it adds up what every user of the card needs. It computes with
// math/big only.
type pull struct {
	t     testing.TB
	cards map[string]*card.Card
	plate map[string]int64 // covers by plate
	known map[string]*big.Rat
}

// plates holds the covers of each line of the demo's menu, counted by hand:
// three guests have no fish, two no gluten, and one more is a vegetarian.
func plates(covers int64) map[string]int64 {
	return map[string]int64{
		"bread-board": covers - 2, "crispbread-board": 2, "pea-soup-plate": covers, "trout-plate": covers - 4, "beetroot-plate": 4,
		"lamb-plate": covers - 1, "courgette-plate": 1, "strawberry-plate": covers - 3, "strawberry-plate-no-cake": 2, "strawberry-plate-no-jelly": 1,
	}
}

func newPull(t testing.TB, covers int64) *pull {
	p := &pull{t: t, cards: map[string]*card.Card{}, plate: plates(covers), known: map[string]*big.Rat{}}
	for _, f := range demoFiles(t) {
		c, _ := card.Parse(f.Name, []byte(f.Text))
		p.cards[c.ID] = c
	}
	return p
}

// in is an amount in a card's own unit.
func (p *pull) in(n quantity.Number, from, to *quantity.Unit) *big.Rat {
	require.Equal(p.t, from.Dim, to.Dim, "the demo needs no density between cards")
	out := new(big.Rat).Mul(n.Rat(), from.Factor.Rat())
	return out.Quo(out, to.Factor.Rat())
}

// factor is how many times over a card is made in all.
func (p *pull) factor(id string) *big.Rat {
	if f := p.known[id]; f != nil {
		return f
	}
	c := p.cards[id]
	need, saved := big.NewRat(p.plate[id], 1), new(big.Rat)
	for _, user := range p.cards {
		for _, it := range user.Items {
			if it.Card != id {
				continue
			}
			times := p.factor(user.ID)
			if it.Save == "" {
				need.Add(need, new(big.Rat).Mul(times, p.in(it.Amount.Need(), it.Amount.Unit, c.Makes.Unit)))
				continue
			}
			for _, s := range c.Saves {
				if s.Slug == it.Save {
					n := new(big.Rat).Mul(times, p.in(it.Amount.Qty, it.Amount.Unit, s.Amount.Unit))
					saved.Add(saved, n.Quo(n, s.Amount.Qty.Rat()))
				}
			}
		}
	}
	spares := map[string]int64{"honey-parfait": 2} // by hand, of the cards' words
	made := new(big.Rat).Mul(need, new(big.Rat).Add(big.NewRat(1, 1), c.Margin.Rat()))
	if need.Sign() > 0 {
		made.Add(made, big.NewRat(spares[id], 1))
	}
	if made.Sign() == 0 { // made for what it sets aside alone
		made.Mul(saved, c.Makes.Qty.Rat())
	}
	if made.Sign() > 0 && c.Smallest.Unit != nil {
		if least := p.in(c.Smallest.Qty, c.Smallest.Unit, c.Makes.Unit); made.Cmp(least) < 0 {
			made = least
		}
	}
	if c.Whole.Unit != nil {
		whole := p.in(c.Whole.Qty, c.Whole.Unit, c.Makes.Unit)
		units := new(big.Rat).Quo(made, whole)
		up := new(big.Int).Div(new(big.Int).Add(units.Num(), new(big.Int).Sub(units.Denom(), big.NewInt(1))), units.Denom())
		made = new(big.Rat).Mul(new(big.Rat).SetInt(up), whole)
	}
	f := new(big.Rat).Quo(made, c.Makes.Qty.Rat())
	p.known[id] = f
	return f
}

// TestEveryAmountFollowsTheCovers changes the covers on the phone, again and
// again, and holds every batch of every card, through all levels, to the pull;
// then every shown amount to its batch.
func TestEveryAmountFollowsTheCovers(t *testing.T) {
	p, d := demo(t)
	for _, covers := range []int{18, 24, 36, 5, 60, 18} {
		if covers != d.Covers {
			d = p.covers(covers)
		}
		want := newPull(t, int64(covers))
		require.GreaterOrEqual(t, len(d.Cards), 22)
		for _, c := range d.Cards {
			sum := new(big.Rat)
			for _, m := range c.Batches {
				f, ok := new(big.Rat).SetString(m.Exact)
				require.True(t, ok, m.Exact)
				sum.Add(sum, f)
				amounts(t, want.cards[c.ID], m, f)
			}
			assert.Equal(t, want.factor(c.ID).RatString(), sum.RatString(), "%s for %d covers", c.ID, covers)
		}
	}
	// Three levels by hand, for 26: sauce for 25 plates of lamb, 40 g each, 5 % over: 1.05 kg
	// of a card of 900 g; of that 1.4 kg stock each.
	sauce := cardOf(t, p.covers(26), "lamb-sauce")
	assert.Equal(t, "7/6", sauce.Batches[0].Exact)
	assert.Equal(t, "1.05 kg", sauce.Batches[0].Make)
	assert.Contains(t, cardOf(t, p.covers(26), "light-chicken-stock").GoesInto, "Lamb sauce: 1.63 kg") // 1.4 × 7 ÷ 6
}

// eachGrams is what one weighs where the demo's cards don't say, as the food
// table has it (kitchen practice, no source).
var eachGrams = map[string]float64{"lemon": 108, "lemons": 108}

// amounts compares what a batch shows with the card's figures times the factor,
// within the rounding of the scale.
func amounts(t *testing.T, c *card.Card, m BatchView, factor *big.Rat) {
	t.Helper()
	require.Len(t, m.Mise, len(c.Items))
	times, _ := factor.Float64()
	for i, mise := range m.Mise {
		it := c.Items[i]
		if it.Amount.Unit == nil || !it.Amount.To.IsZero() {
			continue
		}
		times := times
		if it.Fixed {
			times = 1
		}
		want := it.Amount.Qty.Mul(it.Amount.Unit.Factor).Float64() * times
		if strings.HasPrefix(mise.Aside, "crack ") || strings.HasPrefix(mise.Aside, "from ") { // a part of one, by weight
			each := eachGrams[it.Name]
			if it.Each.Unit != nil {
				each = it.Each.Qty.Float64()
			}
			require.Positive(t, each, it.Name)
			want *= each
		}
		slack := 0.5001 // of a scale that weighs grams
		for top := 1000.; want >= top-slack; top *= 10 {
			slack = top/200 + 0.0001 // three figures from a kilogram up
		}
		if it.Amount.Unit.Dim == quantity.Count && mise.Aside == "" {
			slack = 0.9999 // whole bay leaves, rounded up
		}
		assert.InDelta(t, want, base(mise.Amount), slack, "%s: %s %s", m.Key, mise.Amount, mise.Name)
	}
}
