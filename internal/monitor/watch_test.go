package monitor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/document/filetest"
	"hobside/internal/quantity"
)

// The lines of a core that warms by a kelvin a minute: 74 °C from 70 would be 4 minutes by a
// straight line, which the band by conduction holds. The limit is that of the US FDA Food Code 2017, 3-401.11(A)(3), read.
func TestWatchCore(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"))
	v := b.watch(1, 0)
	assert.Equal(t, Heat, v.Kind)
	assert.Equal(t, "Core: the card asks at least 74 °C. Not read yet.", v.Line)
	b.reads(1, 0, 60)
	v = b.watch(1, 1)
	assert.Equal(t, "60 °C at 14:00; the card asks at least 74 °C. Take a second reading to see when.", v.Line)
	b.reads(1, 10, 70)
	v = b.watch(1, 10)
	assert.Equal(t, "70 °C at 14:10; at least 74 °C between 14:13 and 14:16, by conduction.", v.Line)
	assert.Equal(t, Open, v.State)
	assert.Equal(t, []string{
		"open: at least 74 °C: hottest 70 °C [the card, step 1 (the card's own)]",
		"open: at least 74 °C, at once: hottest 70 °C [US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)]",
	}, lines(v))
	assert.Equal(t, "70 °C at 14:10; by now at least 74 °C should be there: read it again.", b.watch(1, 30).Line)
	b.reads(1, 15, 75)
	v = b.watch(1, 15)
	assert.Equal(t, Met, v.State)
	assert.Equal(t, "Reached at 14:14: the card asks at least 74 °C.", v.Line)
	require.Len(t, v.Points, 3)
	assert.Equal(t, Point{Event: "event-0002", At: noon, Text: "60 °C", C: 60, Who: "phone abc123", Counted: true}, v.Points[0])
	assert.NotContains(t, strings.ToLower(Deferral+v.Line), "safe")
}

func TestWatchSaysWhatTheModelCounts(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 70 °C"))
	// A minute at 70 °C is half of 2 min at 70 °C, the 6-log convention of ACMSF 1992 (read).
	b.reads(1, 0, 70)
	b.reads(1, 1, 70)
	v := b.watch(1, 1)
	assert.Contains(t, strings.Join(lines(v), "\n"), "open: By the model (Listeria monocytogenes, 6 log): 50 % of what is asked, in 1 min if it stays as it is")
	assert.Contains(t, v.Line, "The rules' at least 70 °C for 2 min is not reached.")
	assert.Equal(t, Met, v.State, "the card's own limit is; advice is no limit of the card")
	b.reads(1, 2, 70)
	v = b.watch(1, 2)
	assert.Contains(t, strings.Join(lines(v), "\n"), "met: By the model (Listeria monocytogenes, 6 log): 100 % of what is asked")
	assert.Contains(t, strings.Join(lines(v), "\n"), "met: at least 70 °C for 2 min: reached at 14:02; 2 min at or over 70 °C [UK Food Standards Agency cooking advice (read)]")
	// A gap in the log: the colder end counts, and that is said.
	b.reads(1, 40, 72)
	assert.Contains(t, strings.Join(lines(b.watch(1, 40)), "\n"), "Nobody read it in the 38 min before 14:40: the colder end was counted")
}

func TestWatchBadReadings(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"))
	b.reads(1, 0, 60)
	odd := b.reads(1, 5, 158)
	v := b.watch(1, 6)
	assert.Equal(t, Asked, v.State)
	assert.Equal(t, "The core of food can't be at 158 °C; if the probe shows °F that is 70 °C: enter it as °F.", v.Line)
	assert.Equal(t, []Ask{{Event: odd.ID, At: noon + 5*60000, Text: strings.TrimSuffix(v.Line, "."), TempC: 70, Was: "°F"}}, v.Asks)
	require.Len(t, v.Points, 2)
	assert.False(t, v.Points[1].Counted, "it is kept, and not counted")
	// Settled as the page does: the reading taken back, the right one put in its place.
	b.happens(dinner.Event{Kind: dinner.KindUndo, Undo: odd.ID})
	b.reads(1, 5, 70)
	v = b.watch(1, 6)
	assert.Empty(t, v.Asks)
	assert.Contains(t, v.Line, "70 °C at 14:05; at least 74 °C at about 14:07, by conduction.")
	// A phone's clock of next week.
	b.reads(1, 7*24*60, 71)
	v = b.watch(1, 6)
	require.Len(t, v.Asks, 1)
	assert.Contains(t, v.Asks[0].Text, "a phone's clock was set")
	for key, want := range map[string]string{"a#1": `"a#1" is not a step's key`, "a": `"a" is not a step's key`, "": `"" is not a step's key`} {
		_, err := b.at(0).Watch(key)
		assert.EqualError(t, err, want)
	}
	for _, key := range []string{"zzz#1/step/1", "a#9/step/1", "a#1/step/99"} {
		v, err := b.at(0).Watch(key)
		require.NoError(t, err)
		assert.Equal(t, &Watch{}, v, "%s is not in the dinner", key)
	}
}

func TestWatchFallingCoreAndColdLimit(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"))
	b.reads(1, 0, 60)
	b.reads(1, 5, 58)
	assert.Contains(t, b.watch(1, 5).Line, "58 °C at 14:05; the card asks at least 74 °C. It is not rising.")
	b.ticks(1)
	v := b.watch(1, 6)
	assert.Equal(t, Failed, v.State, "the step is ticked, and its limit was not reached")

	// Without rules only the card's own limit is compared, and a remark says so.
	b = lays(t, "", filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"))
	b.reads(1, 0, 75)
	assert.Contains(t, strings.Join(lines(b.watch(1, 0)), "\n"), "The kitchen names no rules, so nothing is compared with a code")
	// A check that sets a highest temperature.
	b = lays(t, uk, filetest.Steps("A", "- 1 kg peas", "Keep the **peas** cold.|fridge|check: at most 5 °C"))
	assert.Equal(t, "the card asks at most 5 °C. Not read yet.", b.watch(1, 0).Line)
	b.reads(1, 0, 4)
	assert.Equal(t, Met, b.watch(1, 0).State)
	b.reads(1, 10, 7)
	v = b.watch(1, 10)
	assert.Equal(t, Failed, v.State)
	assert.Contains(t, strings.Join(lines(v), "\n"), "failed: at most 5 °C: not met, 7 °C at the worst [the card, step 1 (the card's own)]")
	assert.Contains(t, strings.Join(lines(v), "\n"), "met: at most 8 °C: met [UK Food Hygiene Regulations 2006 Sch. 4 para 2")
	// Readings at a step without a limit are shown, and no more.
	b = lays(t, uk, filetest.Steps("A", "- 1 kg peas", "Boil the **peas**.|hob: 1 ring"))
	assert.Empty(t, b.watch(1, 0).Kind)
	b.reads(1, 0, 90)
	assert.Equal(t, Readings, b.watch(1, 0).Kind)
}

func TestWatchInFahrenheit(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 165 °F"))
	b.show.System = quantity.US
	b.reads(1, 0, 60)
	assert.Equal(t, "140 °F (60 °C) at 14:00; the card asks at least 165 °F (73.9 °C). Take a second reading to see when.", b.watch(1, 0).Line)
}

// The two stages of the US FDA Food Code, 3-501.14(A), read: 57 to 21 °C in 2 h,
// to 5 °C in 6 h from 57.
func TestWatchCooling(t *testing.T) {
	text := filetest.Steps("A", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|fridge|cool: 5 °C within 6 h")
	b := lays(t, us, text)
	v := b.watch(2, 0)
	assert.Equal(t, Cool, v.Kind)
	assert.True(t, strings.HasPrefix(v.Line, "Not read yet. Forecast: 21 °C in "), v.Line)
	assert.Equal(t, "1 kg, cooked food, in the fridge", v.Vessel, "the card is called A: nothing says what it is")
	assert.False(t, v.Said)
	assert.Contains(t, v.Assumed, "its name says nothing of what it is: taken as cooked food")
	assert.Contains(t, v.Assumed, "spread 5 cm deep in wide trays (common practice, no source)")

	b.notes(2, "cooling: 4 kg stock, thin, 10 cm deep, 25 cm across, in an ice bath")
	v = b.watch(2, 0)
	assert.True(t, v.Said)
	assert.Equal(t, "4 kg, stock, thin, 10 cm deep, 25 cm across, in an ice bath", v.Vessel)
	require.NotEmpty(t, v.Curve)
	assert.Len(t, v.Marks, 3)

	b.reads(2, 0, 80)
	b.reads(2, 10, 60)
	b.reads(2, 20, 45)
	b.reads(2, 30, 35)
	v = b.watch(2, 30)
	assert.True(t, strings.HasPrefix(v.Line, "35 °C at 14:30. Forecast: 21 °C at about 14:"), v.Line)
	assert.Equal(t, Open, v.State)
	joined := strings.Join(lines(v), "\n")
	assert.Contains(t, joined, "open: from 57 °C to 21 °C in at most 2 h: 1 h 42 min left; forecast ") // it passed 57 °C at 14:12
	assert.Contains(t, joined, "[US FDA Food Code, 3-501.14(A)(1) (read)]")
	assert.Contains(t, strings.Join(v.Assumed, "\n"), "its clock set by 3 readings")
	b.reads(2, 60, 20)
	b.reads(2, 150, 5)
	v = b.watch(2, 150)
	assert.Equal(t, Met, v.State)
	assert.Equal(t, "5 °C at 16:30. Cooled in time: to 5 °C in at most 6 h.", v.Line)
}

func TestWatchCoolingTooSlow(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|fridge|cool: 5 °C within 6 h"))
	b.notes(2, "cooling: stock, thick, 20 cm deep, in the fridge at 3 °C")
	v := b.watch(2, 0)
	assert.Contains(t, v.Line, "That may be too slow.")
	require.NotEmpty(t, v.Ways)
	meets := map[string]bool{}
	for _, w := range v.Ways {
		meets[w.Text] = w.Meets
	}
	assert.Contains(t, meets, "half the depth (200 mm now)")
	assert.Contains(t, meets, "a third of the depth, in 3 vessels (200 mm now)")
	assert.Contains(t, meets, "in an ice bath")
	// From a reading on, the ways are set against the time that is left.
	b.reads(2, 0, 80)
	b.reads(2, 60, 70)
	b.reads(2, 120, 55)
	v = b.watch(2, 120)
	require.NotEmpty(t, v.Ways)
	assert.Contains(t, v.Ways[0].Lines[0], "to 5 °C in ")
	assert.Contains(t, v.Ways[0].Lines[0], ", 4 h left")
	// The time is over: the limit failed, and the corrective action is asked
	// for.
	v = b.watch(2, 400)
	assert.Equal(t, Failed, v.State)
	assert.Contains(t, v.Line, "Not cooled in time: write down what was done.")
	// Two stages are set beside a rule set that has none.
	b = lays(t, uk, filetest.Steps("A", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|fridge|cool: 5 °C within 6 h"))
	b.reads(2, 0, 80)
	assert.Contains(t, strings.Join(lines(b.watch(2, 1)), "\n"), "For comparison, from 57 °C to 21 °C in at most 2 h: not begun [US FDA Food Code, 3-501.14(A)(1) (read)]")
}

func TestWatchCoolingBadInput(t *testing.T) {
	text := filetest.Steps("A", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|fridge|cool: 5 °C within 6 h")
	for _, tt := range []struct{ note, want string }{
		{"cooling: stock", "spread 5 cm deep"}, // nothing said is assumed, and said
		{"cooling: stock, 0 cm deep", `The note on how it cools: "0 cm deep": nothing is that small`},
		{"cooling: zzyzx", `The note on how it cools: "zzyzx" is not understood`},
		{"cooling: stock, 50 m deep", "No forecast: a depth of 50 m is not plausible for food in a kitchen"},
		{"cooling: bones", "No forecast: what food is it?"},
		{"cooling: stock, in the fridge at 90 °C, 5 cm deep", "never, standing so"},
	} {
		b := lays(t, us, text)
		b.notes(2, tt.note)
		b.reads(2, 0, 80)
		v := b.watch(2, 1)
		assert.Contains(t, strings.Join(append(append(lines(v), v.Assumed...), v.Line), "\n"), tt.want, tt.note)
	}
	b := lays(t, us, text)
	b.reads(2, 0, 60)
	b.reads(2, 30, 69)
	assert.Contains(t, strings.Join(lines(b.watch(2, 31)), "\n"), "The readings don't fit the forecast, which goes on without them: reading 2: 69 °C does not lie between 60 °C at the start and 3 °C around it")
	b = lays(t, us, text)
	b.reads(2, 0, 20)
	b.reads(2, 30, 59)
	v := b.watch(2, 31)
	assert.Equal(t, "59 °C after 20 °C: did the probe show °F? That is 15 °C.", v.Line)
	assert.Equal(t, 15.0, v.Asks[0].TempC)
}

// By hand: from 2 kg to 1.6 kg in 20 min is 1.2 kg/h; 0.6 kg more take 30 min.
func TestWatchReduction(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 3 kg fish stock", "Boil down the **fish stock**.|hob: 1 ring|until: 1 kg"))
	assert.Empty(t, b.watch(1, 0).Kind)
	b.weighs(1, 0, "2 kg")
	v := b.watch(1, 1)
	assert.Equal(t, Reduce, v.Kind)
	assert.Equal(t, "2 kg at 14:00. Weigh it again in ten minutes to see when it is down to 1 kg.", v.Line)
	b.weighs(1, 20, "1600 g")
	v = b.watch(1, 20)
	assert.Equal(t, "1 kg at about 14:50.", v.Line)
	require.Len(t, v.Lines, 1)
	assert.Contains(t, v.Lines[0].Text, "; 1.2 kg boils away in an hour")
	assert.Contains(t, v.Assumed, "the heat stays as it is")
	b.weighs(1, 30, "1.7 kg")
	assert.Contains(t, b.watch(1, 30).Line, "1 kg at about ")
	b.weighs(1, 50, "980 g")
	v = b.watch(1, 50)
	assert.Equal(t, Met, v.State)
	assert.Equal(t, "980 g at 14:50: down to 1 kg.", v.Line)
	// Nothing boils away.
	b = lays(t, uk, filetest.Steps("A", "- 3 kg fish stock", "Boil down the **fish stock**.|hob: 1 ring|until: 1 kg"))
	b.weighs(1, 0, "2 kg")
	b.weighs(1, 20, "2.1 kg")
	assert.Contains(t, b.watch(1, 20).Line, "it has not lost weight")
	// Up a mountain the boil is said.
	b = lays(t, "rules: us\naltitude: 2000 m\n", filetest.Steps("A", "- 3 kg fish stock", "Boil down the **fish stock**.|hob: 1 ring|until: 1 kg"))
	b.weighs(1, 0, "2 kg")
	assert.Contains(t, strings.Join(lines(b.watch(1, 1)), "\n"), "Water boils at 93.3 °C at 2000 m")
}

// A weight on the way down is not what the pot gave.
func TestWeightOnTheWayIsNoYield(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 3 kg fish stock", "Boil down the **fish stock**.|hob: 1 ring|until: 1 kg"))
	got := func() string {
		m := b.live.Worked().Demand.ByCard["a"].Batches[0]
		if !m.Measured {
			return ""
		}
		kg, _ := quantity.LookupUnit("kg")
		return b.at(0).amount(quantity.Amount{Qty: m.Got, Unit: kg})
	}
	b.weighs(1, 0, "2 kg")
	assert.Empty(t, got())
	b.weighs(1, 30, "1.05 kg")
	assert.Equal(t, "1.05 kg", got(), "near enough to be the end of it")
	b.weighs(1, 40, "1.4 kg")
	assert.Empty(t, got())
	b.ticks(1)
	assert.Equal(t, "1.4 kg", got(), "the step is ticked: that is what there is")
}

// A code's own limit counts beside the card's, advice is only said: 74 °C at once,
// US FDA Food Code 2017, 3-401.11(A)(3), read.
func TestRulesCountBesideALowerCardLimit(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 60 °C"))
	b.reads(1, 0, 65)
	v := b.watch(1, 0)
	assert.Equal(t, Open, v.State)
	assert.Equal(t, "Reached at 14:00: the card asks at least 60 °C. The rules' at least 74 °C, at once is not reached.", v.Line)
	b.ticks(1)
	assert.Equal(t, Failed, b.watch(1, 1).State)
}

// TestNewerRevisionIsCheckedAgain: a limit that is taken out of a pinned card is missed.
func TestNewerRevisionIsCheckedAgain(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"))
	assert.Empty(t, b.live.Worked().Problems)
	text := filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C")
	rev := dinner.Revision(text)
	pin := b.event(dinner.Event{Kind: dinner.KindPin, Open: &dinner.Open{Files: map[string]string{"a.md": rev}}})
	b.live.Take(map[string]string{rev: text}, []dinner.Event{pin})
	require.Len(t, b.live.Worked().Problems, 1)
	assert.Contains(t, b.live.Worked().Problems[0].Msg, "no critical limit")
}

// What another card has cooked is re-heated to the rules' figure; what is baked
// here is not. The figures: US FDA Food Code 3-403.11(A), read; Food Hygiene
// (Scotland) Regulations 2006 Sch. 4, read in a text that quotes it.
func TestWatchReheating(t *testing.T) {
	bread := filetest.Steps("A", "- 1 kg flour", "Bake the **flour**.|oven: 220 °C|until: core 96 °C")
	b := lays(t, uk, bread)
	assert.NotContains(t, strings.Join(lines(b.watch(1, 0)), "\n"), "82 °C")
	for rules, want := range map[string]string{
		us: "open: the rules ask at least 74 °C for 15 s: not read yet [US FDA Food Code, 3-403.11(A) (read)]",
		uk: "In Scotland, re-heated food: at least 82 °C [Food Hygiene (Scotland) Regulations 2006 Sch. 4 (read)]",
	} {
		b := lays(t, rules, filetest.Steps("A", "- 1 kg [Sauce](a.md)", "Heat the **sauce**.|hob: 1 ring|check: core 75 °C"))
		got := strings.Join(lines(b.watch(1, 0)), "\n")
		assert.Contains(t, got, want)
		b.reads(1, 0, 76)
		b.reads(1, 1, 76) // longer than the 15 s of the US code
		assert.Equal(t, Met, b.watch(1, 1).State)
	}
}

// TestCorrectiveActionIsOfferedWhenALimitIsNotMet: while a limit may still be met nothing is
// offered; once it is not met the card's words are at the step and in the log, for a core,
// for a cold limit and for a cooling.
func TestCorrectiveActionIsOfferedWhenALimitIsNotMet(t *testing.T) {
	text := filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C", "Chill.|fridge|cool: 5 °C within 6 h", "Keep.|fridge|check: at most 5 °C") +
		"\n## Corrective action\n\n- core 74 °C: back in the oven\n- cool: discard\n- at most 5 °C: use within 2 hours\n"
	b := lays(t, us, text)
	b.reads(1, 0, 60)
	assert.Empty(t, b.watch(1, 5).Corrective)
	b.ticks(1)
	assert.Equal(t, "back in the oven", b.watch(1, 6).Corrective)
	require.Equal(t, Failed, b.at(6).Log().Points[0].State)
	assert.Equal(t, "back in the oven", b.at(6).Log().Points[0].Do)
	b.reads(2, 0, 74)
	assert.Empty(t, b.watch(2, 1).Corrective)
	b.reads(2, 500, 30)
	assert.Equal(t, "discard", b.watch(2, 500).Corrective)
	b.reads(3, 0, 4)
	assert.Empty(t, b.watch(3, 1).Corrective)
	b.reads(3, 10, 9)
	assert.Equal(t, "use within 2 hours", b.watch(3, 11).Corrective)
}
