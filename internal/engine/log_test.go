package engine

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

func (b *bench) controls(minute float64) ControlsView {
	b.t.Helper()
	return call[ControlsView](b.t, b.e, "controls", ClockCall{Dinner: "s", Now: noon + int64(minute*60000), Offset: 120})
}

const roast = "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"

// Amended, never overwritten: what was taken back stays, with when and by whom.
func TestTheLogKeepsEverything(t *testing.T) {
	b := lays(t, us, written("A", "- 1 kg chicken thighs", roast, "Carve it."))
	v := b.controls(0)
	require.Empty(t, v.Points[0].Entries)
	require.Len(t, v.Points, 1, "a step without a limit or a reading is no control point")
	assert.Equal(t, "US FDA Food Code and USDA FSIS guidance", v.Rules)
	assert.Equal(t, "2027-06-11 14:00", v.Made)

	c := 70.0
	wrong := b.event(dinner.Event{Kind: dinner.KindTemperature, On: "a#1/step/1", TempC: &c, Start: noon + 10*60000})
	wrong.Who = "First cook"
	call[Sheet](t, b.e, "apply", ApplyCall{Dinner: "s", Events: []dinner.Event{wrong}})
	undo := b.event(dinner.Event{Kind: dinner.KindUndo, Undo: wrong.ID})
	undo.Who, undo.Stamp.Wall = "Second cook", noon+15*60000
	call[Sheet](t, b.e, "apply", ApplyCall{Dinner: "s", Events: []dinner.Event{undo}})
	b.reads(1, 10, 71)
	b.ticks(1)
	v = b.controls(20)
	p := v.Points[0]
	assert.Equal(t, "failed", p.State)
	assert.Equal(t, "not met: write down what was done", p.Say)
	require.Len(t, p.Entries, 2)
	assert.Equal(t, EntryView{Event: wrong.ID, At: noon + 10*60000, Time: "2027-06-11 14:10", Who: "First cook", Text: "70 °C", Back: "taken back 2027-06-11 14:15, Second cook"}, p.Entries[0])
	assert.Equal(t, "71 °C", p.Entries[1].Text)
	assert.Empty(t, p.Entries[1].Back)
	assert.Equal(t, "phone abc123", p.Entries[1].Who)
	assert.Equal(t, "US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)", p.Limits[1].Source)

	b.notes(1, "back in the oven for ten minutes")
	p = b.controls(60).Points[0]
	assert.Empty(t, p.Say, "it is written down now")
	assert.True(t, p.Entries[2].Note)
	// A note on how it stands is no word on what was done.
	b = lays(t, us, written("A", "- 1 kg chicken thighs", roast))
	b.reads(1, 0, 60)
	b.ticks(1)
	b.notes(1, "cooling: stock, 5 cm deep")
	assert.NotEmpty(t, b.controls(60).Points[0].Say)
	// An odd reading says so in the log.
	b.reads(1, 5, 158)
	assert.Contains(t, b.controls(60).Points[0].Entries[1].Doubt, "if the probe shows °F that is 70 °C")

	// A row of the rules that no probe can judge stands there all the same.
	kept := lays(t, uk, written("A", "- 1 kg fish stock", "Chill the **fish stock**.|fridge|cool: 5 °C within 6 h"))
	limits := kept.controls(0).Points[0].Limits
	require.Len(t, limits, 2)
	assert.Equal(t, WatchLine{Text: "at most 1 h 30 min: cooked food cooled before refrigeration, not judged by a probe", Source: "UK practice guidance (local authority) (read)"}, limits[1])

	// Of a batch that is gone, nothing is lost.
	b.happens(dinner.Event{Kind: dinner.KindTemperature, On: "a#7/step/1", TempC: &c})
	b.happens(dinner.Event{Kind: dinner.KindTemperature, On: "gone#1/step/1", TempC: &c})
	v = b.controls(60)
	require.Len(t, v.Points, 3)
	assert.Equal(t, "not in the dinner any more", v.Points[1].Step)
	assert.Equal(t, "gone", v.Points[2].Title)
	assert.Contains(t, string(b.e.Call("controls", []byte(`{"dinner":"x"}`))), "is not open")
}

func TestTheLogAsATable(t *testing.T) {
	b := lays(t, us, written("A", "- 1 kg chicken thighs", roast))
	b.notes(1, "=HYPERLINK(\"x\"), and \"more\",\nof it")
	b.reads(1, 10, 75)
	v := b.controls(20)
	rows, err := csv.NewReader(strings.NewReader(v.CSV)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	assert.Equal(t, []string{"time", "who", "card", "batch", "step", "control point", "written", "taken back", "asked about", "limits as they stand", "state", "still to write"}, rows[0])
	assert.Equal(t, "75 °C", rows[1][6])
	assert.Equal(t, "met", rows[1][10])
	assert.Equal(t, "'=HYPERLINK(\"x\"), and \"more\",\nof it", rows[2][6], "a note is words, not a formula")
	assert.Contains(t, rows[1][9], "[US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)]")
	assert.True(t, strings.HasSuffix(v.CSV, "\r\n"))
}

// TestAnyCellIsReadBack: whatever is written comes back from the table as it was, but
// for the mark that keeps it words.
func TestAnyCellIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.String().Draw(t, "a"), rapid.String().Draw(t, "b")
		rows, err := csv.NewReader(strings.NewReader(cell(a) + "," + cell(b) + ",end\r\n")).ReadAll()
		if err != nil || len(rows) != 1 || len(rows[0]) != 3 {
			t.Fatalf("%q, %q: %v %v", a, b, rows, err)
		}
		// The reader itself turns \r\n within quotes into \n.
		want := strings.ReplaceAll(a, "\r\n", "\n")
		if got := rows[0][0]; got != want && got != "'"+want {
			t.Fatalf("%q became %q", a, got)
		}
		if got := rows[0][0]; got != "" && strings.ContainsRune("=+-@", rune(got[0])) {
			t.Fatalf("%q is a formula still", got)
		}
	})
}

// TestNothingLeavesTheLog: every temperature and note that was ever sent on a
// step of the dinner stands in the log once, whatever was taken back.
func TestNothingLeavesTheLog(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := lays(t, us, written("A", "- 1 kg chicken thighs", roast, "Chill it.|fridge|cool: 5 °C within 6 h"))
		sent := map[string]bool{}
		var ids []string
		for range rapid.IntRange(1, 12).Draw(rt, "events") {
			step := rapid.IntRange(1, 2).Draw(rt, "step")
			var ev dinner.Event
			switch rapid.IntRange(0, 3).Draw(rt, "kind") {
			case 0:
				ev = b.reads(step, rapid.Float64Range(0, 300).Draw(rt, "minute"), rapid.Float64Range(-40, 300).Draw(rt, "c"))
			case 1:
				ev = b.notes(step, "said")
			default:
				if len(ids) > 0 {
					b.happens(dinner.Event{Kind: dinner.KindUndo, Undo: rapid.SampledFrom(ids).Draw(rt, "undo")})
				}
				continue
			}
			sent[ev.ID] = true
			ids = append(ids, ev.ID)
		}
		got := map[string]int{}
		for _, p := range b.controls(400).Points {
			for _, en := range p.Entries {
				got[en.Event]++
			}
		}
		for id := range sent {
			if got[id] != 1 {
				rt.Fatalf("%s stands %d times in the log", id, got[id])
			}
		}
	})
}

// The days are counted by hand on the calendar: made on Friday 11 June 2027.
func TestLabels(t *testing.T) {
	text := strings.Replace(written("A", "- 1 kg milk\n- 10 g zzyzx", "Warm the **milk** with the **zzyzx**.|hob: 1 ring"), "makes: 1 kg\n", "makes: 1 kg\nkeeps: 4 d chilled, 60 d frozen\n", 1)
	b := lays(t, uk, text)
	ask := func() LabelsView {
		return call[LabelsView](t, b.e, "labels", ClockCall{Dinner: "s", Now: noon, Offset: 120})
	}
	l := ask().Labels
	require.Len(t, l, 1)
	assert.Equal(t, "within 5 days, the day it is made among them", l[0].Use)
	assert.False(t, l[0].Done)
	assert.Empty(t, l[0].Made)
	b.ticks(1)
	v := ask()
	l = v.Labels
	assert.Equal(t, "Fri 11 Jun 2027, 14:00", l[0].Made)
	assert.Equal(t, "Tue 15 Jun 2027", l[0].Use, "four days after")
	assert.Contains(t, l[0].Basis, "the card's own")
	assert.Equal(t, []string{"4 d chilled", "60 d frozen"}, l[0].Keeps)
	assert.Equal(t, "phone abc123", l[0].By)
	require.Len(t, l[0].Carries, 1)
	assert.Contains(t, strings.ToLower(l[0].Carries[0]), "milk")
	assert.Equal(t, []string{"zzyzx"}, l[0].NotAssessed)
	assert.Contains(t, v.Defer, "were not checked")
	assert.NotContains(t, strings.ToLower(v.Defer), "safe")
	assert.NotContains(t, strings.ToLower(v.Defer), "free of")

	// The US rules count 7 days, day 1 among them: US FDA Food Code 3-501.17, read in the safety room.
	b = lays(t, us, strings.Replace(text, "keeps: 4 d chilled", "keeps: 30 d chilled", 1))
	b.ticks(1)
	l = ask().Labels
	assert.Equal(t, "Thu 17 Jun 2027", l[0].Use)
	assert.Contains(t, l[0].Basis, "the card's own 31 days are longer and do not count")
	assert.Equal(t, "of the nine of the US", l[0].List)
	// Without a word on the card the UK's rules give no number.
	b = lays(t, uk, strings.Replace(text, "keeps: 4 d chilled, 60 d frozen\n", "", 1))
	b.ticks(1)
	l = ask().Labels
	assert.Empty(t, l[0].Use)
	assert.Contains(t, l[0].Basis, "not assessed")
	assert.Contains(t, string(b.e.Call("labels", []byte(`{"dinner":"x"}`))), "is not open")
}

func TestUseOf(t *testing.T) {
	keep := func(days float64, place string) card.Keep { return card.Keep{Seconds: int(days * 86400), Place: place} }
	const made = noon
	for _, tt := range []struct {
		name  string
		rules safety.Rules
		keeps []card.Keep
		made  int64
		use   string
		basis string
	}{
		{"frozen has the card's word", safety.US, []card.Keep{keep(30, "frozen")}, made, "Sun 11 Jul 2027", "kept frozen: the card's own"},
		{"dry", safety.US, []card.Keep{keep(5, "room")}, 0, "within 5 days", "kept at room temperature: the card's own"},
		{"some hours", safety.UK, []card.Keep{keep(0.3, "chilled")}, made, "Fri 11 Jun 2027", "the card's own"},
		{"some hours, not made", safety.UK, []card.Keep{keep(0.3, "chilled")}, 0, "the day it is made", "the card's own"},
		{"some hours at room", safety.UK, []card.Keep{keep(0.2, "room")}, 0, "the same day", "kept at room temperature"},
		{"chilled before frozen", safety.UK, []card.Keep{keep(60, "frozen"), keep(2, "chilled")}, made, "Sun 13 Jun 2027", "the card's own"},
		{"nothing said, US", safety.US, nil, made, "Thu 17 Jun 2027", "US FDA Food Code"},
		{"nothing said, no rules", "", nil, made, "", "not assessed"},
	} {
		use, basis := useOf(tt.rules, "x", tt.keeps, tt.made, 0)
		assert.Equal(t, tt.use, use, tt.name)
		assert.Contains(t, basis, tt.basis, tt.name)
	}
	// Past midnight by the wall clock it is the next day.
	assert.Equal(t, "Sat 12 Jun 2027", dayOf(noon+11*3600_000+1800_000, 60))
	assert.Equal(t, "Fri 11 Jun 2027", dayOf(noon+11*3600_000+1800_000, 0))
}

// TestLabelsOfTheDemo: every component has one, and none says more than it knows.
func TestLabelsOfTheDemo(t *testing.T) {
	p, d := demo(t)
	v := call[LabelsView](t, p.e, "labels", ClockCall{Dinner: p.dinner, Now: noon})
	names := map[string]bool{}
	for _, l := range v.Labels {
		names[l.Name] = true
		assert.NotEmpty(t, l.Basis)
		assert.NotEmpty(t, l.Amount)
	}
	for _, c := range d.Cards {
		assert.Equal(t, !c.Plate, names[c.Title], c.Title)
	}
	assert.True(t, names["chicken fat"], "what is set aside has one too")
	log := call[ControlsView](t, p.e, "controls", ClockCall{Dinner: p.dinner, Now: noon})
	assert.Greater(t, len(log.Points), 15)
	for _, p := range log.Points {
		assert.Contains(t, []string{"open", "", "met"}, p.State, p.Key)
	}
}

func TestKilograms(t *testing.T) {
	amount := func(s string) quantity.Amount {
		a, _, err := quantity.ParseAmount(s)
		require.NoError(t, err)
		return a
	}
	piece := amount("3 pieces")
	for _, tt := range []struct {
		a    quantity.Amount
		c    card.Card
		want float64
	}{
		{amount("1500 g"), card.Card{}, 1.5},
		{amount("2 L"), card.Card{}, 2}, // as water
		{amount("2 L"), card.Card{Density: quantity.Frac(103, 100)}, 2.06},
		{piece, card.Card{Makes: piece, Each: amount("120 g")}, 0.36},
		{piece, card.Card{Makes: piece}, 0},
		{quantity.Amount{}, card.Card{}, 0},
	} {
		assert.InDelta(t, tt.want, kilograms(tt.a, &tt.c), 1e-6)
	}
}
