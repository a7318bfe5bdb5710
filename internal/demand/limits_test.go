package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// A batch is never larger than the card's largest: 10 covers of 200 g are 2000 g,
// so one batch when the largest is 2 kg and two when it is a gram less. By hand.
func TestBatchIsNeverAboveLargest(t *testing.T) {
	for _, tt := range []struct {
		facts string
		want  []string // kg
	}{
		{"largest: 2 kg", []string{"2"}},
		{"largest: 1999 g", []string{"1", "1"}},
		{"largest: 1990 g", []string{"1", "1"}},
		{"largest: 1 kg", []string{"1", "1"}},
		{"largest: 999 g", []string{"2/3", "2/3", "2/3"}},
		{"largest: 2 kg\nwhole: 500 g", []string{"2"}},
		{"largest: 1999 g\nwhole: 500 g", []string{"1", "1"}},
		{"largest: 1499 g\nwhole: 500 g", []string{"1", "1"}},
		{"largest: 1500 g\nwhole: 500 g", []string{"1", "1"}},
		{"largest: 999 g\nwhole: 500 g", []string{"1/2", "1/2", "1/2", "1/2"}},
		{"smallest: 2 kg", []string{"2"}},
		{"smallest: 2001 g", []string{"2001/1000"}},
		{"whole: 1 kg", []string{"2"}},
		{"whole: 999 g", []string{"2997/1000"}},
	} {
		in := dinner(t, supper, map[string]string{
			"plate": made("makes: 1 plate", "200 g [Soup](soup.md)"),
			"soup":  made("makes: 1 kg\n"+tt.facts, "1 kg peas"),
		})
		d, problems := Explode(in)
		require.Empty(t, problems, tt.facts)
		var got []string
		for _, b := range d.ByCard["soup"].Batches {
			got = append(got, b.Amount.String())
		}
		assert.Equal(t, tt.want, got, tt.facts)
	}
}

// A card that is made for its by-product alone is made for just as much as is
// used: 10 × 8 g of fat, of which 1.6 kg of stock gives 160 g, want 0.8 kg.
func TestBatchForByProductIsAsLargeAsItsUse(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "8 g [chicken fat](stock.md#chicken-fat)"),
		"stock": made("makes: 1.6 kg", "3.2 kg chicken backs", "2 L water") + "\n## Saves\n\n- chicken fat: 160 g\n",
	})
	d, problems := Explode(in)
	require.Empty(t, problems)
	stock := d.ByCard["stock"]
	assert.Equal(t, "4/5", stock.Made.String())
	assert.Equal(t, "80", stock.Saves[0].Have.String())
	assert.Equal(t, "80", stock.Saves[0].Used.String())
	assert.Equal(t, "4/5", stock.Left.String(), "nobody uses the stock itself")
}

// What is used of a by-product above what is set aside is bought, and no more: 50
// covers' worth by hand, 500 g less 126 g.
func TestRestOfByProductIsBoughtExactly(t *testing.T) {
	in := three(t)
	in.Cards["plate"] = dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "200 g [Soup](soup.md)", "50 g [chicken fat](stock.md#chicken-fat)")}).Cards["plate"]
	d, _ := Explode(in)
	var rest []quantity.Number
	for _, b := range d.Buy {
		if b.Rest {
			rest = append(rest, b.Amount.Qty)
		}
	}
	require.Len(t, rest, 1)
	assert.Equal(t, "374", rest[0].String())
}
