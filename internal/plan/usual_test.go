package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// How long a result waits when its card does not say, in minutes. Two hours in the
// room is the time that the US Food Code allows for the first stage of cooling
// (3-501.14(A)(1), read); food ready to eat that is held cold needs no date mark
// up to 24 hours (3-501.17(A), read); five minutes off the heat are common
// practice, no source.
func TestDefaultKeepingTime(t *testing.T) {
	b := &builder{in: &Input{Kitchen: &kitchen.Kitchen{}}}
	step := func(equipment ...string) *card.Card {
		c := &card.Card{Steps: make([]card.Step, 1)}
		for _, name := range equipment {
			c.Steps[0].Equipment = append(c.Steps[0].Equipment, card.Equipment{Name: name})
		}
		return c
	}
	chilled := func(c *card.Card, keeps ...card.Keep) *card.Card { c.Keeps = keeps; return c }
	cooled := func(c *card.Card, toC float64) *card.Card { c.Steps[0].Cool = card.Cool{ToC: toC, Set: true}; return c }
	hours := func(n int, place string) card.Keep { return card.Keep{Seconds: n * 3600, Place: place} }
	for _, tt := range []struct {
		name    string
		c       *card.Card
		last    bool
		minutes int
		place   string
		assumed bool
	}{
		{"at the bench", step("sink"), false, 120, "room", true},
		{"with no equipment", step(), true, 120, "room", true},
		{"off the heat", step("hob"), false, 5, "straight on", true},
		{"in the fridge", step("fridge"), false, 1440, "chilled", true},
		{"in the freezer", step("freezer"), false, 1440, "chilled", true},
		{"in the blast chiller", step("blast chiller"), false, 1440, "chilled", true},
		{"in the ice bath", step("ice bath"), false, 1440, "chilled", true},
		{"in the ice bath, cooled to 21 °C: not cold yet", cooled(step("ice bath"), 21), false, 5, "straight on", true},
		{"in the ice bath, cooled to 5 °C", cooled(step("ice bath"), 5), false, 1440, "chilled", true},
		{"in the fridge, of a card that keeps 3 h chilled", chilled(step("fridge"), hours(3, "chilled"), hours(9, "room")), false, 180, "chilled", true},
		{"in the fridge, of a card that keeps 9 h frozen and 3 h chilled", chilled(step("fridge"), hours(3, "chilled"), hours(9, "frozen")), false, 540, "frozen", true},
		{"the last step of a card that keeps 9 h in the room", chilled(step("fridge"), hours(3, "chilled"), hours(9, "room")), true, 540, "room", false},
		{"a card to be used straight on", chilled(step("fridge"), card.Keep{Place: "straight on"}), true, 5, "straight on", false},
	} {
		minutes, place, assumed := b.keeping(tt.c, 0, tt.last)
		assert.Equal(t, tt.minutes, minutes, tt.name)
		assert.Equal(t, tt.place, place, tt.name)
		assert.Equal(t, tt.assumed, assumed, tt.name)
	}
	assert.Equal(t, 5, plated, "common practice, no source")
}

// How much a time really varies: hands-on work with one figure from a tenth less to
// three tenths more (common practice, no source); a range as the card types it.
func TestSpreadOfDurations(t *testing.T) {
	assert.Equal(t, spread{9, 13, 1}, handSpread(document.Duration{Low: 600, High: 600}))
	assert.Equal(t, spread{10, 30, 2}, handSpread(document.Duration{Low: 600, High: 1800}))
	assert.InDelta(t, 10+1.0/3, handSpread(document.Duration{Low: 600, High: 600}).mean(), 1e-9, "(9 + 4 × 10 + 13) / 6")
	about := document.Duration{Low: 900, High: 1500, Form: document.About}
	assert.Equal(t, spread{15, 25, 2}, waitSpread(about, false), "a wait that is typed as about so long")
	ranged := document.Duration{Low: 900, High: 1500, Form: document.Range}
	assert.Equal(t, spread{}, waitSpread(ranged, false), "a range in the fridge is the cook's to choose")
	assert.Equal(t, spread{15, 25, 2}, waitSpread(ranged, true), "a range over heat ends when it is done")
	assert.Equal(t, spread{}, waitSpread(document.Duration{Low: 900, High: 900}, true), "a timer ends it")
}

// A time that varies is planned at three quarters of the way to its longer end, but
// at its shorter end where the cook may choose: common practice, no source.
func TestPlannedLengthOfRange(t *testing.T) {
	for _, tt := range []struct {
		d             document.Duration
		overHeat      bool
		seconds, free int
	}{
		{document.Duration{Low: 600, High: 1000}, false, 900, 0},
		{document.Duration{Low: 600, High: 1000, Form: document.About}, true, 900, 0},
		{document.Duration{Low: 600, High: 1000, Form: document.Range}, true, 900, 0},
		{document.Duration{Low: 600, High: 1000, Form: document.Range}, false, 600, 400},
		{document.Duration{Low: 600, High: 1000, Form: document.Overnight}, false, 600, 400},
		{document.Duration{Low: 600, High: 600}, false, 600, 0},
	} {
		seconds, free := planned(tt.d, tt.overHeat)
		assert.Equal(t, []int{tt.seconds, tt.free}, []int{seconds, free}, "%+v over heat %v", tt.d, tt.overHeat)
	}
	assert.Equal(t, []int{0, 1, 1, 2}, []int{minutes(0), minutes(1), minutes(60), minutes(61)}, "rounded up")
}

// A cooling step without a wait is planned at the slow end of the forecast. By
// hand: 10 kg of clear stock stand in one pot as deep as it is wide, in a fridge at
// 3 °C, from 90 °C. Density 1018 kg/m³ and cp 3944 J/(kg K) are those of chicken
// stock (USDA SR28 06172, after Choi and Okos); the film of 5 W/(m² K) and the 100
// inside are working ranges. One temperature within (Newton's law of cooling):
//
//	tau = m cp / (U A), U = 1/(1/5 + 1/100), A = 3/2 π d², t = tau ln((90 − 3)/(5 − 3))
func TestCoolingUsesSlowEndOfForecast(t *testing.T) {
	kg, ok := quantity.LookupUnit("kg")
	require.True(t, ok)
	c := &card.Card{ID: "stock", Title: "Chicken stock", Makes: quantity.Amount{Qty: quantity.Int(10), Unit: kg},
		Steps: []card.Step{{Equipment: []card.Equipment{{Name: "fridge"}}, Cool: card.Cool{Set: true, ToC: 5}}}}
	comp := &demand.Component{Card: c, Unit: kg, Batches: []demand.Batch{{Amount: quantity.Int(10)}}}
	b := &builder{project: &project{demand: &demand.Demand{ByCard: map[string]*demand.Component{"stock": comp}}}, in: &Input{Kitchen: &kitchen.Kitchen{}}, told: map[string]bool{}}
	got := b.cools(comp, Step{"stock", 1, 1}, &c.Steps[0])
	require.Equal(t, got.Low, got.High)

	d := math.Cbrt(4 * 10 / 1018.0 / math.Pi)
	byHand := 10 * 3944 / (1 / (1.0/5 + 1.0/100) * 1.5 * math.Pi * d * d) * math.Log((90.0-3)/(5-3))
	assert.InEpsilon(t, byHand, float64(got.Low), 0.01)

	v := safety.Vessel{Class: safety.Stock, Kg: 10, Place: "fridge", Thin: true}
	wait, ok := safety.CoolingWait(v, 5)
	require.True(t, ok)
	assert.Equal(t, int(math.Ceil(wait.Minutes.Slow))*60, got.Low, "in whole minutes, rounded up")
	assert.Equal(t, 10.0, kilograms(comp, 1))
}

// What the chances of a plan are measured with: common practice, no source.
func TestMeasuresOfTheChances(t *testing.T) {
	assert.Equal(t, []int{2, 10, 5}, []int{grace, slack, tested}, "minutes nobody notices, minutes more for a step, steps they are tried for")
	// One course whose single step is planned at its shortest, 10 of 10 to 30 minutes:
	// the 95th of 100 sorted runs is the published lateness, and a run is on time
	// up to two minutes late.
	pl := chain(t, 1, 0)
	const runs = 200
	g := newGame(pl)
	late := make([][]float64, 1)
	for run := range runs {
		g.play(9, run, -1)
		g.lateness(late)
	}
	slices.Sort(late[0])
	onTime := 0
	for _, v := range late[0] {
		if v <= 2 {
			onTime++
		}
	}
	got := pl.Chances(runs, 9).Courses[0]
	assert.Equal(t, int(late[0][runs*95/100]+0.5), got.Late)
	assert.InDelta(t, float64(onTime)/runs, got.OnTime, 1e-12)
}
