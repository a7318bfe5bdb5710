package demand

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// dinner compiles a menu and cards that must be without problems.
func dinner(t testing.TB, menuText string, cards map[string]string) Input {
	t.Helper()
	m, problems := menu.Parse("menu.md", []byte(menuText))
	require.Empty(t, problems)
	in := Input{Menu: m, Cards: map[string]*card.Card{}}
	for name, text := range cards {
		c, problems := card.Parse(name+".md", []byte(text))
		for _, f := range problems {
			require.NotEqual(t, document.Error, f.Severity, f.Error())
		}
		in.Cards[c.ID] = c
	}
	return in
}

// made writes a card's front matter, formula and one step that uses all of it.
func made(front string, items ...string) string {
	var b strings.Builder
	b.WriteString("---\n" + front + "\n---\n\n# Card\n\n## Formula\n\n")
	for _, it := range items {
		b.WriteString("- " + it + "\n")
	}
	return b.String() + "\n## Method\n\n1. Put it together.\n   - hands: 5 min\n"
}

const supper = "---\ncovers: 10\n---\n\n# Supper\n\n## Soup\n\n- [Soup](plate.md)\n"

// three is a dinner of three levels, small enough to be worked out by hand.
func three(t testing.TB) Input {
	return dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "200 g [Soup](soup.md)", "5 g [chicken fat](stock.md#chicken-fat)"),
		"soup":  made("makes: 2 kg\nmargin: 5 %", "1.2 kg [Stock](stock.md)", "500 g peas", "1 egg"),
		"stock": made("makes: 1.6 kg\nsmallest: 1 kg", "3.2 kg chicken backs", "2 L water") + "\n## Saves\n\n- chicken fat: 160 g\n",
	})
}

// TestExplodeAgainstHandCalculation compares with a dinner worked out with pencil and paper:
//
//	soup   10 × 200 g = 2000 g, 5 % on top: 2100 g, 2100/2000 = 21/20 of the card
//	stock  1200 g × 21/20 = 1260 g, above the smallest, 1260/1600 = 63/80
//	peas   500 g × 21/20 = 525 g; eggs 21/20
//	backs  3200 g × 63/80 = 2520 g; fat 160 g × 63/80 = 126 g, 50 g used
func TestExplodeAgainstHandCalculation(t *testing.T) {
	d, problems := Explode(three(t))
	require.Empty(t, problems)
	var order []string
	for _, c := range d.Components {
		order = append(order, c.Card.ID)
	}
	assert.Equal(t, []string{"plate", "soup", "stock"}, order, "users come before what they use")
	soup, stock := d.ByCard["soup"], d.ByCard["stock"]
	grams := func(n quantity.Number) string { return n.String() }
	assert.Equal(t, "2", grams(soup.Need)) // in the card's own unit, kilograms
	assert.Equal(t, "1/10", grams(soup.Margin))
	assert.Equal(t, "21/10", grams(soup.Made))
	assert.Equal(t, "21/20", soup.Batches[0].Factor.String())
	assert.Equal(t, "63/50", grams(stock.Need))
	assert.Equal(t, "63/80", stock.Batches[0].Factor.String())
	assert.Equal(t, "63/25", stock.Batches[0].Items[0].Qty.String(), "2.52 kg of backs")
	assert.Equal(t, "126", stock.Saves[0].Have.String())
	assert.Equal(t, "50", stock.Saves[0].Used.String())
	buy := map[string]string{}
	for _, b := range d.Buy {
		it := d.ByCard[b.Card].Card.Items[b.Item-1]
		buy[it.Name] = b.Amount.Qty.String()
	}
	assert.Equal(t, map[string]string{"peas": "525", "egg": "21/20", "chicken backs": "63/25", "water": "63/40"}, buy)
}

func TestCoversFollowThroughAllLevels(t *testing.T) {
	in := three(t)
	in.Covers = 20
	d, _ := Explode(in)
	assert.Equal(t, "126/25", d.ByCard["stock"].Batches[0].Items[0].Qty.String(), "5.04 kg of backs")
}

func TestSmallestBatchLeavesSome(t *testing.T) {
	in := three(t)
	in.Covers = 2
	d, _ := Explode(in)
	stock := d.ByCard["stock"]
	assert.Equal(t, "1", stock.Made.String())
	assert.Equal(t, "63/250", stock.Need.String())
	assert.Equal(t, "187/250", stock.Left.String())
}

func TestByProductTooSmall(t *testing.T) {
	in := three(t)
	in.Cards["plate"], _ = card.Parse("plate.md", []byte(made("makes: 1 plate", "200 g [Soup](soup.md)", "50 g [chicken fat](stock.md#chicken-fat)")))
	_, problems := Explode(in)
	require.Len(t, problems, 1)
	assert.Equal(t, "stock.md:20:3: warning: the dinner uses 500 g of the chicken fat, this saves 126 g: buy or make the rest", problems[0].Error())
}

func TestCardMadeForItsByProduct(t *testing.T) {
	in := three(t)
	in.Cards["plate"], _ = card.Parse("plate.md", []byte(made("makes: 1 plate", "8 g [chicken fat](stock.md#chicken-fat)")))
	d, problems := Explode(in)
	require.Empty(t, problems)
	stock := d.ByCard["stock"]
	assert.Equal(t, "1", stock.Made.String(), "80 g of fat want 0.8 kg of stock; the smallest batch is 1 kg")
	assert.Equal(t, "100", stock.Saves[0].Have.String())
}

func TestMeasured(t *testing.T) {
	for _, tt := range []struct {
		got, made, margin, left string
		short                   bool
	}{
		{"2.3 kg", "23/10", "1/10", "1/5", false},
		{"2050 g", "41/20", "1/20", "0", false}, // the margin is eaten into first
		{"1.4 kg", "7/5", "0", "-3/5", true},
	} {
		in := three(t)
		a, _, err := quantity.ParseAmount(tt.got)
		require.NoError(t, err)
		in.Made = map[string][]Made{"soup": {{Batch: 1, Amount: a}}}
		d, _ := Explode(in)
		soup := d.ByCard["soup"]
		assert.Equal(t, []string{tt.made, tt.margin, tt.left}, []string{soup.Made.String(), soup.Margin.String(), soup.Left.String()}, tt.got)
		assert.Equal(t, tt.short, soup.Short, tt.got)
	}
}

func TestLeftOutItemIsNeitherMadeNorBought(t *testing.T) {
	in := three(t)
	in.Cards["plate"], _ = card.Parse("plate.md", []byte(made("makes: 1 plate", "200 g [Soup](soup.md), optional", "1 g salt, optional", "2 g oil")))
	in.Leave = map[string]map[int]bool{"plate": {1: true, 2: true, 3: true}}
	d, _ := Explode(in)
	assert.Nil(t, d.ByCard["soup"])
	require.Len(t, d.Buy, 1, "oil is not optional")
	assert.Equal(t, 3, d.Buy[0].Item)
}

func TestUnitsThatDoNotConvert(t *testing.T) {
	in := three(t)
	in.Cards["soup"], _ = card.Parse("soup.md", []byte(made("makes: 12 pieces", "500 g peas")))
	_, problems := Explode(in)
	require.Len(t, problems, 1)
	assert.Equal(t, `plate.md:9:9: 200 g of "Card" can't be worked out: soup.md makes 12 pieces; write the amount in pieces, or add what one of them weighs to soup.md, like "each: 55 g"`, problems[0].Error())
}

func TestLoopEnds(t *testing.T) {
	in := three(t)
	in.Cards["stock"], _ = card.Parse("stock.md", []byte(made("makes: 1 kg", "1 kg [Soup](soup.md)")))
	d, _ := Explode(in)
	assert.Len(t, d.Components, 3)
}

func TestDivide(t *testing.T) {
	n := func(s string) quantity.Number {
		var x quantity.Number
		require.NoError(t, x.UnmarshalText([]byte(s)))
		return x
	}
	for _, tt := range []struct{ target, smallest, largest, whole, want string }{
		{"5", "0", "0", "0", "[5]"},
		{"1/2", "2", "0", "0", "[2]"},
		{"9", "0", "8", "0", "[9/2 9/2]"},
		{"25", "0", "8", "0", "[25/4 25/4 25/4 25/4]"},
		{"18", "0", "0", "12", "[24]"},
		{"18", "0", "36", "12", "[24]"},
		{"61", "0", "36", "12", "[36 36]"},
		{"50", "0", "36", "12", "[36 24]"},
		{"5", "0", "4", "12", "[12]"},
		{"9", "6", "8", "0", "[6 6]"}, // 4.5 each would be below the smallest
		{"49", "36", "48", "12", "[36 36]"},
	} {
		assert.Equal(t, tt.want, fmt.Sprint(divide(n(tt.target), n(tt.smallest), n(tt.largest), n(tt.whole))), "%+v", tt)
	}
}

// TestPlatesOfGuestsWithExclusions: which plate each group of guests gets.
func TestPlatesOfGuestsWithExclusions(t *testing.T) {
	m, problems := menu.Parse("m.md", []byte(`---
covers: 18
---
# M

## Bread

- [Bread](a.md)
- [Crispbread](b.md): for no gluten
- [Butter](c.md)

## Trout

- [Trout](d.md)
- [Beetroot](e.md): for no fish
- [Plain](f.md): for no fish, no gluten

## Guests

- 2 covers: no fish
- 1 cover: no gluten
- 1 cover: no fish, no gluten
`))
	require.Empty(t, problems)
	s := serve(Input{Menu: m}, 18)
	assert.Equal(t, [][]int{{16, 2, 18}, {14, 2, 2}}, s.covers)
	assert.Equal(t, [][]int{{0, 1}, {2, 3}, {0, 1, 2, 3}}, s.groups[0])
	assert.Equal(t, [][]int{{0}, {1}, {2, 3}}, s.groups[1])
	assert.Equal(t, [][]int{{2, 0, 2}, {0, 2, 0}}, serve(Input{Menu: m}, 2).covers, "fewer covers than guests: nobody is served twice")
}

// TestVegetarianGetsThePlateForNoMeat: a plate for guests who avoid less than somebody does
// is for them as well, and one for guests who avoid something else is not.
func TestVegetarianGetsThePlateForNoMeat(t *testing.T) {
	m, problems := menu.Parse("m.md", []byte(`---
covers: 8
---
# M

## Lamb

- [Lamb](a.md)
- [Courgette](b.md): for no meat

## Strawberries

- [With jelly](c.md)
- [Without](d.md): for no gelatine

## Guests

- 2 covers: no fish
- 1 cover: vegetarian
`))
	require.Empty(t, problems)
	assert.Equal(t, [][]int{{7, 1}, {7, 1}}, serve(Input{Menu: m}, 8).covers)
}

// TestBooksBalance: whatever the cards, for every component made = used +
// margin + left, the uses add up to the need, and every by-product used is one
// that somebody noted. Rapid prints the seed of a run that fails.
func TestBooksBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "cards")
		cards := map[string]*card.Card{}
		for i := range n {
			var items []string
			for j := i + 1; j < n; j++ {
				if rapid.Bool().Draw(t, "links") {
					items = append(items, fmt.Sprintf("%d g [C%d](c%d.md)", rapid.IntRange(1, 900).Draw(t, "g"), j, j))
				}
			}
			items = append(items, fmt.Sprintf("%d g flour", rapid.IntRange(1, 5000).Draw(t, "flour")))
			front := fmt.Sprintf("makes: %d g", rapid.IntRange(50, 5000).Draw(t, "makes"))
			if rapid.Bool().Draw(t, "margin?") {
				front += fmt.Sprintf("\nmargin: %d %%", rapid.IntRange(0, 20).Draw(t, "margin"))
			}
			if rapid.Bool().Draw(t, "largest?") {
				front += "\nlargest: 6 kg"
			}
			if rapid.Bool().Draw(t, "whole?") {
				front += "\nwhole: 700 g"
			}
			c, _ := card.Parse(fmt.Sprintf("c%d.md", i), []byte(made(front, items...)))
			cards[c.ID] = c
		}
		m, _ := menu.Parse("m.md", []byte("---\ncovers: 7\nmargin: 3 %\n---\n# M\n\n## A\n\n- [C0](c0.md): 150 g per cover\n"))
		in := Input{Menu: m, Cards: cards, Covers: rapid.IntRange(1, 60).Draw(t, "covers")}
		drawMade(t, &in, n)
		d, problems := Explode(in)
		for _, f := range problems {
			if !strings.Contains(f.Msg, "500 times over") {
				t.Fatal(problems)
			}
		}
		for _, c := range d.Components {
			var sum quantity.Number
			for _, m := range c.Batches {
				if m.Measured {
					sum = sum.Add(m.Got)
				} else {
					sum = sum.Add(m.Amount)
				}
			}
			if sum.Cmp(c.Made) != 0 {
				t.Fatalf("%s: its batches give %s, made says %s", c.Card.ID, sum, c.Made)
			}
			if got := c.Need.Add(c.Margin).Add(c.Left); got.Cmp(c.Made) != 0 {
				t.Fatalf("%s: need %s + margin %s + left %s is not made %s", c.Card.ID, c.Need, c.Margin, c.Left, c.Made)
			}
			if c.Left.Sign() < 0 != c.Short {
				t.Fatalf("%s: left %s, short %v", c.Card.ID, c.Left, c.Short)
			}
			var used quantity.Number
			for _, u := range c.Uses {
				used = used.Add(u.Amount)
			}
			if used.Cmp(c.Need) != 0 {
				t.Fatalf("%s: uses add up to %s, need %s", c.Card.ID, used, c.Need)
			}
		}
		again, _ := Explode(in)
		if len(again.Buy) != len(d.Buy) {
			t.Fatal("the same dinner twice is not the same")
		}
	})
}
