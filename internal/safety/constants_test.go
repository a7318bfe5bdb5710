package safety

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Surface heat transfer coefficients in W/(m² K). No publication gives a range for
// a kitchen's fridge or ice bath: rows with the status OWN are working ranges, and
// are held here so that none is changed unseen. The published single values that
// were read are inside the range of the place they were measured in.
func TestFilmsMatchTheirRows(t *testing.T) {
	published := map[string][2]float64{}
	for _, r := range rows(t, "films.csv") {
		low, high, ranged := strings.Cut(strings.Fields(r["h_W_m2K"])[0], "-")
		if !ranged {
			high = low
		}
		published[r["id"]] = [2]float64{num(t, low), num(t, high)}
	}
	for _, tt := range []struct {
		place, row string
		low, high  float64 // where no row has them: common practice, no source
	}{
		{place: "fridge", row: "still_fridge"},
		{place: "bench", row: "still_fridge"}, // still air as well, radiation among it
		{place: "blast", row: "blast"},
		{place: "ice bath", row: "ice_bath_still"},
		{place: "boiling water", row: "egg_boil"},
		{place: "stirred ice bath", low: 300, high: 1000},
		{place: "oven", low: 10, high: 30},
		{place: "water bath", low: 100, high: 1000},
	} {
		s := in(t, tt.place, 20)
		want := [2]float64{tt.low, tt.high}
		if tt.row != "" {
			want = published[tt.row]
		}
		assert.Equal(t, want, [2]float64{s.FilmLow, s.FilmHigh}, tt.place)
		assert.NotEmpty(t, s.Source.Status, tt.place)
	}
	within := func(row, place string) {
		s, p := in(t, place, 20), published[row]
		assert.True(t, p[0] >= s.FilmLow && p[1] <= s.FilmHigh, "%s: %v lies outside %v to %v", row, p, s.FilmLow, s.FilmHigh)
	}
	within("ham_air", "fridge")           // Ryland and others 2006, read
	within("melon_freezer", "blast")      // Cengel, problem, read
	liquid := published["range_free_liq"] // Incropera Table 1.1, from memory
	still := in(t, "ice bath", 0)
	assert.True(t, still.FilmLow >= liquid[0] && still.FilmHigh <= liquid[1])
	assert.Len(t, surroundings, 8)
	assert.Equal(t, 100.0, innerFilm, "own working value, between 50 and 1000 for free convection in liquids (Incropera Table 1.1, from memory)")
	stirs := []string{}
	for _, s := range surroundings {
		if s.Stirs {
			stirs = append(stirs, s.Name)
		}
	}
	assert.Equal(t, []string{"stirred ice bath"}, stirs)
}

// How warm the usual places are when the cook has not measured, and how deep food is
// in a tray: common practice, no source.
func TestUsualPlacesAreAsWrittenDown(t *testing.T) {
	assert.Equal(t, map[string]float64{"fridge": 3, "bench": 20, "blast": -5, "ice bath": 0, "stirred ice bath": 0}, usualC)
	assert.Equal(t, 0.05, usualDepth)
	assert.Equal(t, 15.0, LongGap)
}

// Every class's composition is that of one food of USDA SR28 (read): water,
// protein, fat, carbohydrate without fibre, fibre and ash as shares of the mass.
func TestCompositionsMatchSR28(t *testing.T) {
	byNumber := map[string]map[string]string{}
	for _, r := range rows(t, "foods.csv") {
		byNumber[r["ndb"]] = r
	}
	number := map[Class]string{
		Poultry: "05011", Game: "05011", Offal: "05011", Pork: "10020", Beef: "10020", Roast: "10020", Lamb: "17011", Minced: "17011", Fish: "15015", Shellfish: "15270",
		Egg: "01123", PooledEgg: "01123", Stock: "06172", Rice: "20045", Vegetable: "11124", Cooked: "11352", ReadyToEat: "11352",
	}
	require.Len(t, compositions, len(number))
	for class, ndb := range number {
		r := byNumber[ndb]
		require.NotNil(t, r, ndb)
		x, _, ok := CompositionOf(class)
		require.True(t, ok, class)
		want := [6]float64{num(t, r["water"]), num(t, r["protein"]), num(t, r["fat"]), num(t, r["carbohydrate_total"]) - num(t, r["fibre"]), num(t, r["fibre"]), num(t, r["ash"])}
		for i, got := range [6]float64{x.Water, x.Protein, x.Fat, x.Carbohydrate, x.Fibre, x.Ash} {
			assert.InDelta(t, want[i], got, 1e-9, "%s, share %d; USDA SR28 %s, %s", class, i, ndb, r["food"])
		}
	}
}

// A saturated salt solution boils at 108.7 °C (from memory), and nothing in a
// kitchen has a core above that; 230 °F are 110 °C, so that a probe set to °F is
// suspected up to there. The coldest freezers of a laboratory reach −86 °C (from
// memory).
func TestPlausibleEndsAreAsWrittenDown(t *testing.T) {
	for _, c := range []float64{-90, -18, 0, 100, 108.7, 110} {
		assert.NoError(t, Plausible(c), "%v °C", c)
	}
	assert.ErrorContains(t, Plausible(110.01), "if the probe shows °F")
	assert.ErrorContains(t, Plausible(111), "if the probe shows °F that is 43.9 °C")
	assert.ErrorContains(t, Plausible(230), "if the probe shows °F that is 110 °C")
	assert.EqualError(t, Plausible(230.01), "the core of food can't be at 230 °C; read the probe again")
	assert.ErrorContains(t, Plausible(-90.01), "colder than any freezer")
	assert.Equal(t, 110.0, FromF(230))
}

// The three models, each against the row that fixes its D value and the rows that
// fix its z value.
func TestModelsMatchTheirSources(t *testing.T) {
	hold := func(k Kinetics, c float64) float64 {
		minutes, ok := k.holdMinutes(c)
		require.True(t, ok, "%s at %v °C", k.Name, c)
		return minutes
	}
	// US FDA Food Code 3-401.11(B), read: 60.0 °C (140 °F) for 12 min, for 6.5 log.
	for _, r := range rows(t, "roast_table.csv") {
		if r["temp_F"] == "140" {
			assert.InDelta(t, num(t, r["hold_s"]), hold(SalmonellaBeef, 60)*60, 1e-6)
		}
	}
	assert.Equal(t, 6.5, SalmonellaBeef.Logs)
	// z by least squares of log10(time) on temperature over the 6.5-log column of
	// USDA FSIS Appendix A (read): published with 10 °F, worked out here.
	var n, sumT, sumL, sumTT, sumTL float64
	for _, r := range rows(t, "fsis_appendix_a.csv") {
		seconds := num(t, r["t_6p5log_s"])
		if seconds == 0 {
			continue
		}
		f, l := num(t, r["temp_F"]), math.Log10(seconds)
		n, sumT, sumL, sumTT, sumTL = n+1, sumT+f, sumL+l, sumTT+f*f, sumTL+f*l
	}
	z := -(n*sumTT - sumT*sumT) / (n*sumTL - sumT*sumL) * 5 / 9
	assert.InDelta(t, z, SalmonellaBeef.Z, 0.005, "kelvin")
	// ACMSF 1992 as in UK guidance, read: 70 °C for 2 min for 6 log of Listeria.
	assert.InDelta(t, 2, hold(Listeria, 70), 1e-9)
	assert.Equal(t, 7.5, Listeria.Z, "FDA Fish and Fishery Products Hazards guide, Appendix 4, from memory")
	// ACMSF 2007, read in a secondary copy: 60 °C for 93 min and 70 °C for 2 min are ten kelvin apart.
	assert.InDelta(t, 2, hold(STEC, 70), 1e-9)
	assert.InDelta(t, 10/math.Log10(93.0/2), STEC.Z, 0.01)
	for _, k := range []Kinetics{Listeria, STEC} {
		assert.Equal(t, []float64{70, 6}, []float64{k.RefC, k.Logs}, k.Name)
	}
	// Nothing is counted below the coldest row that a source has, nor more above the
	// hottest: 60 and 80 °C in UK advice, 54.4 °C (130 °F) and 70 °C (158 °F) in the table.
	assert.Equal(t, [][2]float64{{60, 90}, {54.4, 70}, {60, 80}},
		[][2]float64{{Listeria.LowC, Listeria.HighC}, {SalmonellaBeef.LowC, SalmonellaBeef.HighC}, {STEC.LowC, STEC.HighC}})
	assert.Equal(t, SalmonellaBeef.Rate(70), SalmonellaBeef.Rate(95), "no more is counted above the hottest row")
}
