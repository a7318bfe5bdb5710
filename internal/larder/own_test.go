package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// ownEach holds the grams of one for every figure that the table marks OWN or
// leaves without a published row: common practice, no source. It keeps a slip in
// the table from going unseen; it is no evidence for a figure.
const ownEach = `
spring onion/bunch 100; shallot/each 25; garlic/head 40; ginger/knob 20; carrot/bunch 400; celery/head 450; celeriac/each 600; parsnip/each 120;
beetroot/each 110; fennel/each 234; asparagus/bunch 250; courgette/each 196; cucumber/each 300; radish/bunch 200; watercress/bunch 100;
lettuce/head 600; tomato/each 123; parsley/bunch 60; dill/bunch 40; dill/sprig 1; chive/bunch 25; chervil/bunch 30; tarragon/bunch 25;
tarragon/sprig 1; mint/bunch 40; mint/sprig 1; basil/bunch 40; basil/leaf 0.5; thyme/bunch 25; thyme/sprig 0.8; rosemary/sprig 3;
bay leaf/each 0.2; bay leaf/leaf 0.2; star anise/each 1.5; lemon/each 108; apple/each 182; strawberry/each 12; rhubarb/stalk 50;
gelatine/leaf 1.6; gelatine/sheet 1.6; gelatine/each 1.6; chicken/each 1800`

func TestEachWeightsFromPracticeAreAsWrittenDown(t *testing.T) {
	want := map[string]quantity.Number{}
	for entry := range strings.SplitSeq(ownEach, ";") {
		at := strings.LastIndexByte(entry, ' ')
		want[strings.TrimSpace(entry[:at])] = number(entry[at+1:])
	}
	found := 0
	for _, f := range foods {
		for unit, grams := range f.Each {
			key := f.Name + "/" + unit
			if eachRows[key] != "" {
				continue // held to USDA SR28 in sources_test.go
			}
			require.Contains(t, want, key, "a figure from practice that is not written down here")
			assert.Zero(t, want[key].Cmp(grams), "%s: %s g, common practice %s g", key, grams, want[key])
			found++
		}
	}
	assert.Len(t, want, found, "every figure written down is in the table")
}

// Weights of whole pieces that USDA SR28 gives for other sizes: the figure from
// practice must lie near them. All rows are read, in SR28's ABBREV file.
func TestEachWeightsLieNearPublishedPieces(t *testing.T) {
	for _, tt := range []struct {
		food, source string
		whole, share float64 // grams of a whole piece, and how far the table may differ
	}{
		{"lemon", "USDA SR28 09150: a fruit of 2 1/8 inches is 58 g without peel and seeds, which are 47 %", 58 / 0.53, 0.015},
		{"fennel", "USDA SR28 11957: 1 bulb is 234 g", 234, 0},
		{"cucumber", "USDA SR28 11205: 1 cucumber of 8 1/4 inches is 301 g", 301, 0.01},
	} {
		f, ok := Find(tt.food)
		require.True(t, ok)
		assert.InDelta(t, tt.whole, f.Each["each"].Float64(), tt.share*tt.whole, tt.source)
	}
	f, ok := Find("rhubarb")
	require.True(t, ok)
	assert.InDelta(t, 51, f.Each["stalk"].Float64(), 1, "USDA SR28 09307: 1 stalk is 51 g")
}

// The density of water from IAPWS-IF97, computed with another program; the food
// table has one figure for all temperatures of a kitchen and says how near it is.
func TestWaterDensityIsThatOfTheSteamTables(t *testing.T) {
	f, ok := Find("water")
	require.True(t, ok)
	seen := 0
	for _, r := range rows(t, "water.csv") {
		if c := number(r[0]).Float64(); c <= 20 {
			seen++
			assert.InDelta(t, number(r[1]).Float64()/1000, f.Density.Float64(), 0.003, "at %s °C; %s, %s", r[0], r[7], r[9])
		}
	}
	assert.Equal(t, 3, seen, "rows at 5, 10 and 20 °C")
	assert.Equal(t, "1 g/ml, within 0.3 % from 4 to 25 °C", f.Source)
}

// Trims that the table marks OWN: common practice, no source.
func TestTrimsFromPracticeAreAsWrittenDown(t *testing.T) {
	want := map[string]string{"tarragon": "20", "gooseberry": "5"}
	for _, f := range foods {
		if f.Trim.Sign() > 0 && !strings.HasPrefix(f.Source, "SR28") {
			assert.Equal(t, want[f.Name], f.Trim.Mul(quantity.Int(100)).String(), f.Name)
			delete(want, f.Name)
		}
	}
	assert.Empty(t, want)
}

// How a food is sold, whether it keeps and whether only whole ones are used is
// common practice, no source.
func TestFlagsOfTheTableAreAsWrittenDown(t *testing.T) {
	var last, whole, packs, by []string
	for _, f := range foods {
		if f.Last {
			last = append(last, f.Name)
		}
		if f.Whole {
			whole = append(whole, f.Name)
		}
		if f.Pack.Unit != nil {
			packs = append(packs, f.Name+" "+quantity.Show(f.Pack, quantity.Prefs{}))
		}
		if f.By != nil {
			by = append(by, f.Name+" by "+f.By.Name)
		}
	}
	assert.Equal(t, "spring onion, asparagus, radish, pea, pea in the pod, broad bean, spinach, watercress, lettuce, parsley, dill, chive, chervil, "+
		"tarragon, mint, basil, strawberry, raspberry, gooseberry, rhubarb, trout, cod", strings.Join(last, ", "))
	assert.Equal(t, "bay leaf, star anise", strings.Join(whole, ", "))
	assert.Equal(t, "butter 250 g, plain flour 1 kg, strong flour 1 kg, wholemeal flour 1 kg, cornflour 500 g, semolina 500 g, polenta 500 g, "+
		"rolled oat 500 g, caster sugar 1 kg, icing sugar 500 g", strings.Join(packs, ", "))
	assert.Equal(t, "spring onion by bunch, garlic by head, celery by head, celeriac by each, fennel by each, asparagus by bunch, cucumber by each, "+
		"radish by bunch, watercress by bunch, lettuce by head, parsley by bunch, dill by bunch, chive by bunch, chervil by bunch, tarragon by bunch, "+
		"mint by bunch, basil by bunch, thyme by bunch, lemon by each, egg by each, chicken by each", strings.Join(by, ", "))
}
