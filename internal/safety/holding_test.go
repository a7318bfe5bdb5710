package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestHolding(t *testing.T) {
	tests := []struct {
		name    string
		rules   Rules
		kind    Kind
		class   Class
		log     []Reading
		states  []State // by row, in the order of For
		minutes float64 // of the first row
		periods int
	}{
		// US FDA Food Code 3-501.16(A)(1): 57 °C
		{"hot, held", US, HoldHot, Stock, []Reading{{0, 65}, {10, 57}}, []State{Met}, 0, 0},
		{"hot, a tenth under", US, HoldHot, Stock, []Reading{{0, 65}, {10, 56.9}}, []State{Failed}, 10 * 0.1 / 8.1, 1},
		{"a roast may be at 54", US, HoldHot, Roast, []Reading{{0, 55}, {10, 55}}, []State{Met, Failed}, 0, 0},
		// US FDA Food Code 3-501.16(A)(2): 5 °C
		{"cold, held", US, HoldCold, Cooked, []Reading{{0, 3}, {10, 5}}, []State{Met}, 0, 0},
		{"cold, over and back", US, HoldCold, Cooked, []Reading{{0, 4}, {10, 6}, {20, 4}}, []State{Failed}, 10, 1},
		{"eggs may be at 7", US, HoldCold, Egg, []Reading{{0, 7}}, []State{Met, Failed}, 0, 0},
		// UK Food Hygiene Regulations 2006 Sch. 4: 8 °C, one period of less than 4 h; advice 5 °C
		{"UK, 3 h on display", UK, HoldCold, Cooked, []Reading{{0, 4}, {1, 12}, {181, 12}, {182, 4}}, []State{Failed, Met, Failed}, 181, 1},
		{"UK, over 4 h", UK, HoldCold, Cooked, []Reading{{0, 4}, {1, 12}, {242, 12}}, []State{Failed, Failed, Failed}, 241.5, 1},
		{"UK, twice", UK, HoldCold, Cooked, []Reading{{0, 4}, {10, 12}, {20, 4}, {30, 12}, {40, 4}}, []State{Failed, Failed, Failed}, 20, 2},
		{"UK, under the law, over the advice", UK, HoldCold, Cooked, []Reading{{0, 7}, {10, 7}}, []State{Met, Met, Failed}, 0, 0},
		// US FDA Food Code 3-501.13(B): running water at 21 °C (70 °F, which is 21.1 °C)
		{"thawing water", US, Thaw, Fish, []Reading{{0, 20}, {10, 22}}, []State{Failed}, (22 - FromF(70)) / 0.2, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Holding(For(tt.rules, tt.kind, tt.class), tt.log)
			require.NoError(t, err)
			var states []State
			for _, h := range got {
				states = append(states, h.State)
			}
			assert.Equal(t, tt.states, states)
			assert.InDelta(t, tt.minutes, got[0].Minutes, 0.01)
			assert.Equal(t, tt.periods, got[0].Periods)
		})
	}
	alone, ok := byID("uk_cold_tol")
	require.True(t, ok)
	got, err := Holding([]Limit{alone}, []Reading{{0, 12}})
	require.NoError(t, err)
	assert.Equal(t, NotJudged, got[0].State, "a time without the temperature it is for")
	_, err = Holding(nil, nil)
	assert.Error(t, err)
	_, err = Holding(nil, []Reading{{0, 135}})
	assert.ErrorContains(t, err, "°F")
	got, _ = Holding(For(US, HoldHot, Stock), []Reading{{0, 60}, {10, 50}, {20, 60}, {30, 50}})
	assert.Equal(t, "at least 57 °C", got[0].Limit.String())
	assert.Equal(t, "US FDA Food Code, 3-501.16(A)(1) (read)", got[0].Limit.Source.String())
	assert.Equal(t, []any{Failed, 2, 57.0, 50.0}, []any{got[0].State, got[0].Periods, got[0].Beyond, got[0].WorstC})
	assert.InDelta(t, 21, got[0].Minutes, 0.5)
	got, _ = Holding(For(US, HoldCold, Stock), []Reading{{0, 2}})
	assert.Equal(t, []any{Met, 0, 5.0, 2.0}, []any{got[0].State, got[0].Periods, got[0].Beyond, got[0].WorstC})
}

// TestBetterHeldFoodIsNeverWorse checks that warmer hot food and colder cold
// food are never on the wrong side for longer.
func TestBetterHeldFoodIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]Kind{HoldHot, HoldCold}).Draw(t, "kind")
		log := drawLog(t)
		better := append([]Reading{}, log...)
		by := rapid.Float64Range(0, 9).Draw(t, "by")
		for i := range better {
			if kind == HoldHot {
				better[i].TempC += by
			} else {
				better[i].TempC -= by
			}
		}
		a, err := Holding(For(US, kind, Cooked), log)
		require.NoError(t, err)
		b, err := Holding(For(US, kind, Cooked), better)
		require.NoError(t, err)
		if b[0].Minutes > a[0].Minutes+1e-9 || b[0].State == Failed && a[0].State == Met {
			t.Fatalf("%+v, and better: %+v", a[0], b[0])
		}
		if whole := log[len(log)-1].Minute - log[0].Minute; a[0].Minutes > whole+1e-9 || math.IsNaN(a[0].Minutes) {
			t.Fatalf("%v min of %v on the wrong side", a[0].Minutes, whole)
		}
	})
}
