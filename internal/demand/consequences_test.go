package demand

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

func amount(t testing.TB, s string) quantity.Amount {
	t.Helper()
	a, rest, err := quantity.ParseAmount(s)
	require.NoError(t, err)
	require.Empty(t, rest)
	return a
}

// drawMade makes some of the dinner c0 … c(n−1) begun, weighed, shrunk or made
// again.
func drawMade(t *rapid.T, in *Input, n int) {
	gram, _ := quantity.LookupUnit("g")
	in.Made, in.Again, in.Portions = map[string][]Made{}, map[string]bool{}, map[string]quantity.Number{}
	for i := range n {
		id := fmt.Sprintf("c%d", i)
		for k := range rapid.IntRange(0, 2).Draw(t, "begun") {
			m := Made{Batch: k + 1}
			if rapid.Bool().Draw(t, "known factor") {
				m.Factor = quantity.Frac(rapid.Int64Range(1, 40).Draw(t, "factor"), 10)
			}
			if rapid.Bool().Draw(t, "weighed") {
				m.Amount = quantity.Amount{Qty: quantity.Int(rapid.Int64Range(0, 9000).Draw(t, "got")), Unit: gram}
			}
			in.Made[id] = append(in.Made[id], m)
		}
		in.Again[id] = rapid.Bool().Draw(t, "again")
		if rapid.Bool().Draw(t, "smaller") {
			in.Portions[id] = quantity.Frac(rapid.Int64Range(50, 100).Draw(t, "portion"), 100)
		}
	}
}

// TestShortStockAndItsChoices: 1.26 kg of stock were planned, 1.1 kg measured.
//
//	stock   the soup wants 1260 g, of which 1200/2000 × 2100 g; 160 g are missing
//	covers  a cover wants 200 g of soup, 210 g with its margin, 126 g of stock: 1100/126 = 8.73, so 8
//	portion 1100/1260 = 0.873: 87 hundredths
//	again   160 g, but the smallest batch is 1 kg
func TestShortStockAndItsChoices(t *testing.T) {
	in := three(t)
	in.Made = map[string][]Made{"stock": {{Batch: 1, Amount: amount(t, "1.1 kg")}}}
	d, _ := Explode(in)
	means := Consequences(in, d)
	require.Len(t, means, 1)
	m := means[0]
	assert.Equal(t, "stock", m.Card)
	assert.Equal(t, "63/50", m.Planned.String())
	assert.Equal(t, "4/25", m.Short.String())
	assert.Equal(t, "11/10", m.Gets[0].String(), "the soup gets all there is")
	assert.Equal(t, 8, m.Covers)
	assert.Equal(t, "87/100", m.Portion.String())
	assert.Equal(t, "1", m.Again.String())

	in.Covers = m.Covers
	d, _ = Explode(in)
	assert.False(t, d.ByCard["stock"].Short)
	in.Covers = m.Covers + 1
	d, _ = Explode(in)
	assert.True(t, d.ByCard["stock"].Short)

	in.Covers, in.Portions = 0, map[string]quantity.Number{"stock": m.Portion}
	d, _ = Explode(in)
	assert.False(t, d.ByCard["stock"].Short)
	plate := d.ByCard["plate"].Batches[0].Items
	assert.Equal(t, "1740", plate[0].Qty.String(), "10 plates with 174 g of soup")
	assert.Equal(t, "50", plate[1].Qty.String(), "the fat is none of the stock")
	assert.Equal(t, "600/1000", fmt.Sprintf("%s/1000", d.ByCard["soup"].Batches[0].Items[0].Qty.Quo(d.ByCard["soup"].Batches[0].Amount).Mul(quantity.Int(1000))), "the soup is not thinned")

	in.Portions, in.Again = nil, map[string]bool{"stock": true}
	d, _ = Explode(in)
	stock := d.ByCard["stock"]
	assert.False(t, stock.Short)
	require.Len(t, stock.Batches, 2)
	assert.True(t, stock.Batches[0].Fixed)
	assert.Equal(t, "2", stock.Batches[1].Items[0].Qty.String(), "1 kg of stock wants 2 kg of backs")
}

func TestShortageIsSharedInProportion(t *testing.T) {
	in := dinner(t, "---\ncovers: 10\n---\n# M\n\n## A\n\n- [A](a.md)\n- [B](b.md)\n", map[string]string{
		"a":     made("makes: 1 plate", "60 g [Sauce](sauce.md)"),
		"b":     made("makes: 1 plate", "40 g [Sauce](sauce.md)"),
		"sauce": made("makes: 1 kg", "1 kg cream"),
	})
	in.Made = map[string][]Made{"sauce": {{Batch: 1, Amount: amount(t, "700 g")}}}
	d, _ := Explode(in)
	m := Consequences(in, d)[0]
	assert.Equal(t, []string{"7/25", "21/50"}, []string{m.Gets[0].String(), m.Gets[1].String()}, "280 g and 420 g: 4 to 6")
	assert.Equal(t, 7, m.Covers)
}

func TestMoreThanPlannedIsReported(t *testing.T) {
	in := three(t)
	in.Made = map[string][]Made{"soup": {{Batch: 1, Amount: amount(t, "2.5 kg")}}}
	d, _ := Explode(in)
	m := Consequences(in, d)[0]
	assert.Equal(t, 10, m.Covers)
	assert.True(t, m.Short.IsZero())
	assert.True(t, m.Again.IsZero())
	assert.Equal(t, "2/5", d.ByCard["soup"].Left.String(), "2.5 kg less 2 kg less 0.1 kg of margin")
}

func TestBatchThatGaveNothing(t *testing.T) {
	in := three(t)
	gram, _ := quantity.LookupUnit("g")
	in.Made = map[string][]Made{"soup": {{Batch: 1, Amount: quantity.Amount{Unit: gram}}}}
	d, _ := Explode(in)
	m := Consequences(in, d)[0]
	assert.Equal(t, 0, m.Covers)
	assert.True(t, m.Portion.IsZero(), "no portion is small enough")
	assert.Equal(t, "2", m.Again.String())
	assert.True(t, m.Gets[0].IsZero())
}

// Made batches stay when covers fall; when covers rise, more is made or the
// shortage is reported.
func TestCoversChangedAfterBatchIsDone(t *testing.T) {
	in := three(t)
	in.Made = map[string][]Made{"soup": {{Batch: 1, Factor: quantity.Frac(21, 20)}}}
	in.Covers = 8
	d, _ := Explode(in)
	soup, stock := d.ByCard["soup"], d.ByCard["stock"]
	assert.Equal(t, "21/10", soup.Made.String(), "it is in the pot")
	assert.Equal(t, "8/5", soup.Need.String())
	assert.Equal(t, "63/50", stock.Need.String(), "and its stock is in it")
	assert.Equal(t, "525", d.Buy[0].Amount.Qty.String(), "and its peas")

	in.Covers = 12
	d, _ = Explode(in)
	soup = d.ByCard["soup"]
	assert.True(t, soup.Short)
	m := Consequences(in, d)[0]
	assert.Equal(t, "3/10", m.Short.String(), "2.4 kg wanted, 2.1 kg there")
	assert.Equal(t, 10, m.Covers)
	assert.Equal(t, "3/10", m.Again.String())
}

// Batches that are not started yet make up what one gave too little.
func TestRemainingBatchesMakeUpShortage(t *testing.T) {
	in := dinner(t, "---\ncovers: 10\n---\n# M\n\n## A\n\n- [A](a.md): 300 g per cover\n", map[string]string{
		"a": made("makes: 1 kg\nlargest: 1 kg", "1 kg cream"),
	})
	in.Made = map[string][]Made{"a": {{Batch: 1, Amount: amount(t, "800 g")}}}
	d, _ := Explode(in)
	a := d.ByCard["a"]
	require.Len(t, a.Batches, 4, "3 kg less 0.8 kg is 2.2 kg: three more of at most 1 kg")
	assert.False(t, a.Short)
	assert.Equal(t, "11/15", a.Batches[1].Amount.String())

	in.Made = map[string][]Made{"a": {{Batch: 3, Amount: amount(t, "3 kg")}}}
	d, _ = Explode(in)
	a = d.ByCard["a"]
	require.Len(t, a.Batches, 3, "the third keeps its number")
	assert.True(t, a.Batches[0].Amount.IsZero())
	assert.Equal(t, "3", a.Made.String())
}

// TestEveryChoiceEndsShortage: with any choice offered for a shortage, there is
// enough.
func TestEveryChoiceEndsShortage(t *testing.T) {
	gram, _ := quantity.LookupUnit("g")
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "cards")
		cards := map[string]*card.Card{}
		for i := range n {
			items := []string{"100 g flour"}
			if i+1 < n {
				items = append(items, fmt.Sprintf("%d g [C](c%d.md)", rapid.IntRange(1, 900).Draw(t, "g"), i+1))
			}
			front := fmt.Sprintf("makes: %d g", rapid.IntRange(50, 5000).Draw(t, "makes"))
			if rapid.Bool().Draw(t, "smallest?") {
				front += "\nsmallest: 400 g"
			}
			c, _ := card.Parse(fmt.Sprintf("c%d.md", i), []byte(made(front, items...)))
			cards[c.ID] = c
		}
		m, _ := menu.Parse("m.md", []byte("---\ncovers: 20\n---\n# M\n\n## A\n\n- [C0](c0.md): 150 g per cover\n"))
		last := fmt.Sprintf("c%d", n-1)
		in := Input{Menu: m, Cards: cards, Made: map[string][]Made{last: {{Batch: 1, Amount: quantity.Amount{Qty: quantity.Int(rapid.Int64Range(1, 4000).Draw(t, "got")), Unit: gram}}}}}
		d, _ := Explode(in)
		for _, m := range Consequences(in, d) {
			if m.Short.IsZero() {
				continue
			}
			fewer := in
			fewer.Covers = m.Covers
			if m.Covers > 0 && !reaches(fewer, m.Card) {
				t.Fatalf("%d covers are not whole", m.Covers)
			}
			fewer.Covers = m.Covers + 1
			if reaches(fewer, m.Card) {
				t.Fatalf("%d covers would be whole", m.Covers+1)
			}
			smaller := in
			smaller.Portions = map[string]quantity.Number{m.Card: m.Portion}
			if m.Portion.Sign() > 0 && !reaches(smaller, m.Card) {
				t.Fatalf("%s of a portion does not reach", m.Portion)
			}
			again := in
			again.Again = map[string]bool{m.Card: true}
			if !reaches(again, m.Card) {
				t.Fatal("made again it does not reach")
			}
			var sum quantity.Number
			for _, g := range m.Gets {
				sum = sum.Add(g)
			}
			if sum.Cmp(m.Made) != 0 {
				t.Fatalf("%s is shared out of %s", sum, m.Made)
			}
		}
	})
}

func TestNoCovers(t *testing.T) {
	in := three(t)
	in.Covers = -1
	d, problems := Explode(in)
	require.Empty(t, problems)
	assert.Zero(t, d.Covers)
	assert.Empty(t, d.Buy)
	in.Covers = 10_000
	d, problems = Explode(in)
	require.Empty(t, problems)
	assert.Equal(t, "2100", d.ByCard["soup"].Made.String())
}

func TestByProductsAreUsedBeforeBuying(t *testing.T) {
	in := three(t)
	in.Cards["plate"], _ = card.Parse("plate.md", []byte(made("makes: 1 plate", "200 g [Soup](soup.md)", "50 g [chicken fat](stock.md#chicken-fat)", "1 g [feathers](stock.md#feathers)")))
	d, _ := Explode(in)
	rest := map[string]string{}
	for _, b := range d.Buy {
		if b.Rest {
			rest[d.ByCard[b.Card].Card.Items[b.Item-1].Name] = b.Amount.Qty.String()
		}
	}
	assert.Equal(t, map[string]string{"chicken fat": "374", "feathers": "10"}, rest, "500 g less the 126 g set aside; feathers nobody saves")
}

func TestTopUp(t *testing.T) {
	for _, tt := range []struct{ front, got, want, why string }{
		{"makes: 2 kg\ntop up: water, up to 10 %", "1.9 kg", "1/10", "all that is missing"},
		{"makes: 2 kg\ntop up: water, up to 10 %", "1.7 kg", "17/100", "a tenth of what there is"},
		{"makes: 2 kg\ntop up: cream", "1.7 kg", "17/100", "a tenth when not said"},
		{"makes: 2 kg", "1.7 kg", "0", "the card does not allow it"},
	} {
		in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "200 g [Soup](soup.md)"), "soup": made(tt.front, "500 g peas")})
		in.Made = map[string][]Made{"soup": {{Batch: 1, Amount: amount(t, tt.got)}}}
		d, _ := Explode(in)
		assert.Equal(t, tt.want, Consequences(in, d)[0].TopUp.String(), tt.why)
	}
}
