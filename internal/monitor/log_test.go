package monitor

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/document/filetest"
	"hobside/internal/safety"
)

const roast = "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C"

// Amended, never overwritten: what was taken back stays, with when and by whom.
func TestLogKeepsEverything(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", roast, "Carve it."))
	v := b.log(0)
	require.Empty(t, v.Points[0].Entries)
	require.Len(t, v.Points, 1, "a step without a limit or a reading is no control point")
	assert.Equal(t, safety.US, v.Rules)
	assert.Equal(t, "2027-06-11 14:00", v.Made)

	c := 70.0
	wrong := b.event(dinner.Event{Kind: dinner.KindTemperature, On: "a#1/step/1", TempC: &c, Start: noon + 10*60000})
	wrong.Who = "First cook"
	b.live.Take(nil, []dinner.Event{wrong})
	undo := b.event(dinner.Event{Kind: dinner.KindUndo, Undo: wrong.ID})
	undo.Who, undo.Stamp.Wall = "Second cook", noon+15*60000
	b.live.Take(nil, []dinner.Event{undo})
	b.reads(1, 10, 71)
	b.ticks(1)
	v = b.log(20)
	p := v.Points[0]
	assert.Equal(t, Failed, p.State)
	assert.Equal(t, "not met: write down what was done", p.Say)
	require.Len(t, p.Entries, 2)
	assert.Equal(t, Entry{Event: wrong.ID, At: noon + 10*60000, Time: "2027-06-11 14:10", Who: "First cook", Text: "70 °C", Back: "taken back 2027-06-11 14:15, Second cook"}, p.Entries[0])
	assert.Equal(t, "71 °C", p.Entries[1].Text)
	assert.Empty(t, p.Entries[1].Back)
	assert.Equal(t, "phone abc123", p.Entries[1].Who)
	assert.Equal(t, "US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)", p.Limits[1].Source)

	b.notes(1, "back in the oven for ten minutes")
	p = b.log(60).Points[0]
	assert.Empty(t, p.Say, "it is written down now")
	assert.True(t, p.Entries[2].Note)
	// A note on how the food cools is not a corrective action.
	b = lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", roast))
	b.reads(1, 0, 60)
	b.ticks(1)
	b.notes(1, "cooling: stock, 5 cm deep")
	assert.NotEmpty(t, b.log(60).Points[0].Say)
	// An odd reading says so in the log.
	b.reads(1, 5, 158)
	assert.Contains(t, b.log(60).Points[0].Entries[1].Doubt, "if the probe shows °F that is 70 °C")

	// A limit that no probe can judge is listed as well.
	kept := lays(t, uk, filetest.Steps("A", "- 1 kg fish stock", "Chill the **fish stock**.|fridge|cool: 5 °C within 6 h"))
	limits := kept.log(0).Points[0].Limits
	require.Len(t, limits, 2)
	assert.Equal(t, Line{Text: "at most 1 h 30 min: cooked food cooled before refrigeration, not judged by a probe", Source: "UK practice guidance (local authority) (read)"}, limits[1])

	// The readings of a batch that the dinner no longer has stay in the log.
	b.happens(dinner.Event{Kind: dinner.KindTemperature, On: "a#7/step/1", TempC: &c})
	b.happens(dinner.Event{Kind: dinner.KindTemperature, On: "gone#1/step/1", TempC: &c})
	v = b.log(60)
	require.Len(t, v.Points, 3)
	assert.Equal(t, "not in the dinner any more", v.Points[1].Step)
	assert.Equal(t, "gone", v.Points[2].Title)
}

func TestLogAsCSV(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", roast))
	b.notes(1, "=HYPERLINK(\"x\"), and \"more\",\nof it")
	b.reads(1, 10, 75)
	v := b.log(20)
	rows, err := csv.NewReader(strings.NewReader(v.CSV())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	assert.Equal(t, []string{"time", "who", "card", "batch", "step", "control point", "written", "taken back", "asked about", "limits as they stand", "state", "still to write", "corrective action by the card"}, rows[0])
	assert.Equal(t, "75 °C", rows[1][6])
	assert.Equal(t, "met", rows[1][10])
	assert.Equal(t, "'=HYPERLINK(\"x\"), and \"more\",\nof it", rows[2][6], "a note is words, not a formula")
	assert.Contains(t, rows[1][9], "[US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)]")
	assert.True(t, strings.HasSuffix(v.CSV(), "\r\n"))
	assert.Empty(t, rows[1][12], "the limit is met")
}

// TestCSVHasTheCorrectiveAction: where a limit is not met, each row of it has what the card says.
func TestCSVHasTheCorrectiveAction(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 1 kg carrots", "Boil the **carrots**.|hob: 1 ring|check: core 75 °C")+"\n## Corrective action\n\n- core 75 °C: back over the heat, with a lid\n")
	b.reads(1, 10, 60)
	b.ticks(1)
	v := b.log(20)
	rows, err := csv.NewReader(strings.NewReader(v.CSV())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 2)
	assert.Equal(t, []string{"60 °C", "failed", "back over the heat, with a lid"}, []string{rows[1][6], rows[1][10], rows[1][12]})
}

// TestAnyCellIsReadBack reads any cell back as it was written, except for the
// mark that makes it text.
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

// TestLogLosesNothing: every temperature and note that was ever sent on a
// step of the dinner is in the log once, whatever was taken back.
func TestLogLosesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", roast, "Chill it.|fridge|cool: 5 °C within 6 h"))
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
		for _, p := range b.log(400).Points {
			for _, en := range p.Entries {
				got[en.Event]++
			}
		}
		for id := range sent {
			if got[id] != 1 {
				rt.Fatalf("%s is in the log %d times", id, got[id])
			}
		}
	})
}
