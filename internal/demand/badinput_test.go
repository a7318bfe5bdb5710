package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// By hand: 200 g of soup a cover, 5 % on top; a card of 2 kg has 500 g of peas
// and 1.2 kg of stock; 5 g of fat a cover, of which 1.6 kg of stock saves 160 g.
func TestAnyNumberOfCovers(t *testing.T) {
	for _, tt := range []struct {
		covers     int
		soup, peas string // kg and g, exact
		batches    int
	}{
		{-1, "", "", 0}, // no covers: nothing is made and nothing is bought
		{1, "21/100", "105/2", 1},
		{10_000, "2100", "525000", 1},
	} {
		in := three(t)
		in.Covers = tt.covers
		d, problems := Explode(in)
		require.Empty(t, problems, "%d covers", tt.covers)
		if tt.covers < 0 {
			assert.Zero(t, d.Covers)
			for _, c := range d.Components {
				assert.Zero(t, c.Made.Sign(), c.Card.ID)
			}
			assert.Empty(t, Order(d, Shop{}))
			continue
		}
		soup := d.ByCard["soup"]
		assert.Equal(t, tt.soup, soup.Made.String(), "%d covers", tt.covers)
		assert.Len(t, soup.Batches, tt.batches)
		for _, b := range d.Buy {
			if itemName(d, b) == "peas" {
				assert.Equal(t, tt.peas, b.Amount.Qty.String(), "%d covers", tt.covers)
			}
		}
	}
}

// Ten thousand portions of a card that makes little would need too many batches:
// one problem says so, and the sum is still right.
func TestTooManyBatchesIsAProblem(t *testing.T) {
	in := three(t)
	in.Cards["soup"], _ = card.Parse("soup.md", []byte(made("makes: 2 kg\nlargest: 2 kg", "500 g peas", "1.5 kg water")))
	in.Covers = 10_000
	d, problems := Explode(in)
	require.NotEmpty(t, problems)
	assert.Contains(t, problems[0].Error(), "soup.md:")
	assert.Equal(t, "2000", d.ByCard["soup"].Need.String())
}

func TestCardsThatCannotGiveTheAmount(t *testing.T) {
	for _, tt := range []struct{ name, plate, soup, want string }{
		{"cloves of litres", "3 cloves [Soup](soup.md)", made("makes: 2 L", "2 L water"),
			`plate.md:9:12: 3 cloves of "Card" can't be worked out: soup.md makes 2 L; write the amount in litres, or add what one of them weighs to soup.md, like "each: 55 g"`},
		{"litres of pieces", "2 L [Soup](soup.md)", made("makes: 12 pieces", "2 L water"),
			`plate.md:9:7: 2 L of "Card" can't be worked out: soup.md makes 12 pieces; write the amount in pieces, or add what one of them weighs to soup.md, like "each: 55 g"`},
		{"a bare count of pieces", "1 [Soup](soup.md)", made("makes: 12 pieces", "2 L water"),
			`plate.md:9:5: 1 of "Card" can't be worked out: soup.md makes 12 pieces; write the amount in pieces, or add what one of them weighs to soup.md, like "each: 55 g"`},
		{"centimetres", "3 cm [Soup](soup.md)", made("makes: 2 L", "2 L water"), `plate.md:9:8: 3 cm of "Card" can't be worked out: soup.md makes 2 L; write the amount in litres`},
	} {
		in := three(t)
		in.Cards["plate"], _ = card.Parse("plate.md", []byte(made("makes: 1 plate", tt.plate, "5 g salt")))
		in.Cards["soup"], _ = card.Parse("soup.md", []byte(tt.soup))
		d, problems := Explode(in)
		require.Len(t, problems, 1, tt.name)
		assert.Equal(t, tt.want, problems[0].Error(), tt.name)
		names := []string{}
		for _, b := range d.Buy {
			names = append(names, itemName(d, b))
		}
		assert.Contains(t, names, "salt", "%s: the rest of the dinner is there all the same", tt.name)
	}
}

func itemName(d *Demand, b Bought) string { return d.ByCard[b.Card].Card.Items[b.Item-1].Name }

// A card may opt out of the menu's margin.
func TestCardWithoutMargin(t *testing.T) {
	for front, margin := range map[string]string{"makes: 2 kg": "1/5", "makes: 2 kg\nmargin: 0 %": "0", "makes: 2 kg\nmargin: 5 %": "1/10"} {
		in := three(t)
		in.Menu.Margin = quantity.Frac(1, 10)
		var problems []document.Problem
		in.Cards["soup"], problems = card.Parse("soup.md", []byte(made(front, "2 kg peas")))
		require.Len(t, problems, 1, "that no step names the peas")
		d, _ := Explode(in)
		assert.Equal(t, margin, d.ByCard["soup"].Margin.String(), front)
	}
}
