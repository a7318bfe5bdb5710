package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestSparesAreInAllAmounts works a dinner out by hand: 10 plates and 2 spare are 12; of
// the sauce 12 × 50 g = 600 g, a tenth more is 660 g; of the slices 12 and a tenth of
// those, rounded up to whole ones: 14.
func TestSparesAreInAllAmounts(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate\nspares: 2", "50 g [Sauce](sauce.md)", "1 piece [Slices](slices.md)"),
		"sauce": made("makes: 1 kg\nspare: 10 %", "1 kg cream"), "slices": made("makes: 10 pieces\neach: 50 g\nspares: 10 %", "500 g cake"),
	})
	d, problems := Explode(in)
	require.Empty(t, problems)
	for id, want := range map[string][3]string{"plate": {"10", "2", "12"}, "sauce": {"3/5", "3/50", "33/50"}, "slices": {"12", "2", "14"}} {
		c := d.ByCard[id]
		assert.Equal(t, want, [3]string{c.Need.String(), c.Spare.String(), c.Made.String()}, id)
		assert.Equal(t, "0", c.Left.String(), id)
	}
	a, _, err := quantity.ParseAmount("13 pieces")
	require.NoError(t, err)
	in.Made = map[string][]Made{"slices": {{Batch: 1, Amount: a}}}
	d, _ = Explode(in)
	assert.Equal(t, "1", d.ByCard["slices"].Spare.String(), "one broke")
}

// TestSparesAreMadeOnceInLots: where two courses have their own lots, the first has the
// spares, and they are whole.
func TestSparesAreMadeOnceInLots(t *testing.T) {
	in := dinner(t, twice, map[string]string{
		"fish": made("makes: 1 plate", "1 piece [Toast](toast.md)"), "meat": made("makes: 1 plate", "1 piece [Toast](toast.md)"),
		"toast": made("makes: 10 pieces\nspares: 3", "500 g bread"),
	})
	in.Apart = Apart{"toast": {{By: "fish", Item: 1}: 1, {By: "meat", Item: 1}: 2}}
	d, problems := Explode(in)
	require.Empty(t, problems)
	toast := d.ByCard["toast"]
	require.Len(t, toast.Batches, 2)
	assert.Equal(t, "13", toast.Batches[0].Amount.String())
	assert.Equal(t, "10", toast.Batches[1].Amount.String())
}
