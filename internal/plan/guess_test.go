package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"hobside/internal/demand"
)

// TestAmountsDoNotDependOnTheGuess draws guesses of what is made apart: right
// ones, wrong ones, and ones of missing cards. The result is the same as without
// a guess, and a right guess costs one explosion.
func TestAmountsDoNotDependOnTheGuess(t *testing.T) {
	for _, tt := range []struct {
		foam, butter string
		lots         int
	}{{"3 h room", "1 d chilled", 0}, {"30 min room", "1 d chilled", 1}, {"30 min room", "40 min room", 2}} {
		in := foam(t, tt.foam, tt.butter, "120 min")
		explosions := 0
		in.Dinner.OnExplode = func() { explosions++ }
		_, want, _ := Amounts(in, nil)
		apart := apartOf(in)
		assert.Len(t, apart, tt.lots)
		assert.Equal(t, 1+tt.lots+1+tt.lots, explosions, "without a guess: one more for each card that is made apart, and the same for Apart")
		rapid.Check(t, func(t *rapid.T) {
			taker := rapid.Custom(func(t *rapid.T) demand.Taker {
				return demand.Taker{By: rapid.SampledFrom([]string{"fish", "meat", "foam", "gone"}).Draw(t, "by"),
					Of: rapid.IntRange(0, 2).Draw(t, "of"), Item: 1}
			})
			guess := rapid.MapOfN(rapid.SampledFrom([]string{"foam", "butter", "stock", "gone"}),
				rapid.MapOfN(taker, rapid.IntRange(1, 3), 1, 3), 0, 3).Draw(t, "guess")
			dinner, d, _ := Amounts(in, guess)
			assert.Equal(t, apart, dinner.Apart)
			assert.Equal(t, want, d)
		})
		explosions = 0
		Amounts(in, apart)
		assert.Equal(t, 1, explosions, "a right guess")
	}
}
