package dinner

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// sound returns a valid event of a kind. The case then makes one thing wrong.
func sound(kind Kind) Event {
	c := 63.5
	ev := Event{ID: "01J0000000000000000000TEST", Dinner: "s", Device: "d", Stamp: Stamp{Wall: 1_778_000_000_000}, Kind: kind}
	ev.On = map[Kind]string{
		KindTick: "stock#1/mise/2", KindStart: "stock#1/step/3", KindFinish: "stock#1/step/3", KindMeasure: "stock#1",
		KindTemperature: "stock#1/step/3", KindTimer: "stock#1/step/3", KindWay: "stock", KindLeave: "stock/item/4", KindPlate: "course/2",
		KindPortion: "stock", "again": "stock", "have": "order/onions", KindDelay: "stock#1/step/3",
	}[kind]
	switch kind {
	case KindOpen:
		ev.Open = &Open{Menu: "boathouse.md", Kitchen: "boathouse-kitchen.md", Covers: 40, Serve: "2026-05-09T19:30",
			Zone: "Europe/London", Files: map[string]string{"stock.md": Revision("stock")}}
	case KindPin:
		ev.Open = &Open{Files: map[string]string{"stock.md": Revision("stock, salted")}}
	case KindMeasure, KindPortion, "have":
		ev.Amount = grams(900)
	case KindTemperature:
		ev.TempC = &c
	case KindTimer:
		ev.Start, ev.End = 1_778_000_000_000, 1_778_000_600_000
	case KindGuests:
		ev.Text = "2 covers: no fish"
	case KindServe:
		ev.Text = "2026-05-09T19:30"
	case KindNote:
		ev.Text = "skim again"
	case KindPlan:
		ev.Plan = map[string]int{"stock#1/step/3": -600}
	case KindChange:
		ev.Do = []plan.Deed{{Do: plan.DoAway, Cook: "first cook", Times: []plan.Span{{Date: "2026-05-09", From: 1020}}}}
	case KindUndo:
		ev.Undo = "01J0000000000000000000THAT"
	}
	return ev
}

func TestValidateTakesEveryKind(t *testing.T) {
	for _, kind := range kinds {
		assert.NoError(t, Validate(sound(kind)), kind)
	}
}

func TestValidateTakes(t *testing.T) {
	for _, tt := range []struct {
		name   string
		kind   Kind
		change func(*Event)
	}{
		{"the shortest id", KindNote, func(e *Event) { e.ID = "abcDEF-_" }},
		{"the longest id", KindNote, func(e *Event) { e.ID = strings.Repeat("9", 64) }},
		{"the first millisecond", KindNote, func(e *Event) { e.Stamp.Wall = -maxWall }},
		{"the last millisecond", KindNote, func(e *Event) { e.Stamp = Stamp{maxWall, maxCount}; e.Start = maxWall }},
		{"a long note", KindNote, func(e *Event) { e.Text = strings.Repeat("é", MaxText/2) }},
		{"a name", KindTick, func(e *Event) { e.Who = strings.Repeat("é", maxWho/2) }},
		{"a note on anything", KindNote, func(e *Event) { e.On = "pass/2/1/14" }},
		{"an order line ticked", KindTick, func(e *Event) { e.On = "order/onions" }},
		{"a plate ticked", KindTick, func(e *Event) { e.On = "pass/2/1/14" }},
		{"a step weighed", KindMeasure, func(e *Event) { e.On = "stock#1/step/3" }},
		{"a weight of 0", KindMeasure, func(e *Event) { e.Amount = grams(0) }},
		{"a range", KindMeasure, func(e *Event) { e.Amount.To = quantity.Int(950) }},
		{"absolute zero", KindTemperature, func(e *Event) { *e.TempC = -273.15 }},
		{"a kiln", KindTemperature, func(e *Event) { *e.TempC = 2000 }},
		{"a timer stopped", KindTimer, func(e *Event) { e.End = 0 }},
		{"a timer of no time", KindTimer, func(e *Event) { e.End = e.Start }},
		{"no covers", KindCovers, func(e *Event) { e.Number = 0 }},
		{"guests who can have all", KindGuests, func(e *Event) { e.Text = "" }},
		{"a million covers", KindCovers, func(e *Event) { e.Number = maxPlace }},
		{"the card's own way", KindWay, func(e *Event) { e.Number = 0 }},
		{"way 100", KindWay, func(e *Event) { e.Number = 100 }},
		{"the largest portion", KindPortion, func(e *Event) { e.Amount.Qty = quantity.Int(1000) }},
		{"a portion of no unit", KindPortion, func(e *Event) { *e.Amount = quantity.Amount{Qty: quantity.Frac(3, 4)} }},
		{"a week's delay", KindDelay, func(e *Event) { e.Number = 7 * 24 * 60 }},
		{"a week gained", KindDelay, func(e *Event) { e.Number = -7 * 24 * 60 }},
		{"an opening of a menu alone", KindOpen, func(e *Event) { e.Open = &Open{Menu: "m.md"} }},
		{"as many files as fit", KindPin, func(e *Event) { e.Open.Files = files(MaxFiles) }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ev := sound(tt.kind)
			tt.change(&ev)
			assert.NoError(t, Validate(ev))
		})
	}
}

func files(n int) map[string]string {
	out := map[string]string{}
	for i := range n {
		out[fmt.Sprintf("card-%d.md", i)] = Revision("")
	}
	return out
}

// Every refusal word for word, because a cook reads it beside the parked event.
func TestValidateRefuses(t *testing.T) {
	long := strings.Repeat("x", 81)
	clipped := strings.Repeat("x", 80) + "…"
	const weight = "a weight or measure needs a figure, 0 or more, and a unit"
	const heat = "a temperature needs a figure between −273.15 and 2000 °C"
	const portion = "a portion needs a factor above 0 and at most 1000"
	const calendar = "its stamp is outside the calendar"
	for _, tt := range []struct {
		name   string
		kind   Kind
		change func(*Event)
		want   string
	}{
		{"no id", KindNote, func(e *Event) { e.ID = "" }, `its id "" is not 8 to 64 letters, digits, - or _`},
		{"a short id", KindNote, func(e *Event) { e.ID = "seven77" }, `its id "seven77" is not 8 to 64 letters, digits, - or _`},
		{"a long id", KindNote, func(e *Event) { e.ID = long }, `its id "` + clipped + `" is not 8 to 64 letters, digits, - or _`},
		{"an id one too long", KindNote, func(e *Event) { e.ID = long[:65] }, `its id "` + long[:65] + `" is not 8 to 64 letters, digits, - or _`},
		{"an id cut within a letter", KindNote, func(e *Event) { e.ID = "x" + strings.Repeat("é", 40) }, `its id "x` + strings.Repeat("é", 39) + `…" is not 8 to 64 letters, digits, - or _`},
		{"an id of other signs", KindNote, func(e *Event) { e.ID = "eight/88" }, `its id "eight/88" is not 8 to 64 letters, digits, - or _`},
		{"an id with a line break", KindNote, func(e *Event) { e.ID = "eight\n88" }, `its id "eight\n88" is not 8 to 64 letters, digits, - or _`},
		{"no dinner", KindNote, func(e *Event) { e.Dinner = "" }, `its dinner "" is not 1 to 64 letters, digits, - or _`},
		{"no device", KindNote, func(e *Event) { e.Device = "" }, `its device "" is not 1 to 64 letters, digits, - or _`},
		{"a device with an accent", KindNote, func(e *Event) { e.Device = "téléphone" }, `its device "téléphone" is not 1 to 64 letters, digits, - or _`},
		{"no stamp", KindNote, func(e *Event) { e.Stamp.Wall = 0 }, "its stamp is missing"},
		{"a stamp after the calendar", KindNote, func(e *Event) { e.Stamp.Wall = maxWall + 1 }, calendar},
		{"a stamp before the calendar", KindNote, func(e *Event) { e.Stamp.Wall = -maxWall - 1 }, calendar},
		{"a stamp of the least number", KindNote, func(e *Event) { e.Stamp.Wall = math.MinInt64 }, calendar},
		{"a count below 0", KindNote, func(e *Event) { e.Stamp.Count = -1 }, calendar},
		{"a count too large", KindNote, func(e *Event) { e.Stamp.Count = maxCount + 1 }, calendar},
		{"a start after the calendar", KindStart, func(e *Event) { e.Start = maxWall + 1 }, "its time is outside the calendar"},
		{"an end after the calendar", KindTimer, func(e *Event) { e.End = maxWall + 1 }, "its time is outside the calendar"},
		{"a very long note", KindNote, func(e *Event) { e.Text = strings.Repeat("x", 4001) }, "its text has 4001 bytes, over the 4000 that fit: make two of it"},
		{"a long name", KindTick, func(e *Event) { e.Who = long }, `its name "` + clipped + `" is over 80 bytes, or not UTF-8`},
		{"a name that is not UTF-8", KindTick, func(e *Event) { e.Who = "\xff" }, `its name "\xff" is over 80 bytes, or not UTF-8`},
		{"a note that is not UTF-8", KindNote, func(e *Event) { e.Text = "\xff" }, "its text is not UTF-8"},
		{"no kind", "", func(e *Event) {}, `its kind "" is not known here: the phone may be of a newer release than the server`},
		{"an unknown kind", "taste", func(e *Event) {}, `its kind "taste" is not known here: the phone may be of a newer release than the server`},

		{"a tick on nothing", KindTick, func(e *Event) { e.On = "" }, `tick on "": it should be on a mise item, a step, an order line or a plate`},
		{"a tick on no key", KindTick, func(e *Event) { e.On = "stock#0/step/1" }, `tick on "stock#0/step/1": it should be on a mise item, a step, an order line or a plate`},
		{"a start of a card", KindStart, func(e *Event) { e.On = "stock" }, `start on "stock": it should be on a step`},
		{"a finish of a mise item", KindFinish, func(e *Event) { e.On = "stock#1/mise/2" }, `finish on "stock#1/mise/2": it should be on a step`},
		{"a card weighed", KindMeasure, func(e *Event) { e.On = "stock" }, `measure on "stock": it should be on a batch or a step`},
		{"a mise item weighed", KindMeasure, func(e *Event) { e.On = "stock#1/mise/2" }, `measure on "stock#1/mise/2": it should be on a batch or a step`},
		{"a batch probed", KindTemperature, func(e *Event) { e.On = "stock#1" }, `temperature on "stock#1": it should be on a step`},
		{"a timer on a plate", KindTimer, func(e *Event) { e.On = "pass/1/1/1" }, `timer on "pass/1/1/1": it should be on a step`},
		{"a way of a batch", KindWay, func(e *Event) { e.On = "stock#1" }, `way on "stock#1": it should be on a card`},
		{"a way of an order line", KindWay, func(e *Event) { e.On = "order/onions" }, `way on "order/onions": it should be on a card`},
		{"a mise item left out", KindLeave, func(e *Event) { e.On = "stock#1/mise/2" }, `leave on "stock#1/mise/2": it should be on an item of a card`},
		{"a portion of a batch", KindPortion, func(e *Event) { e.On = "stock#1" }, `portion on "stock#1": it should be on a card`},
		{"a delay of a batch", KindDelay, func(e *Event) { e.On = "stock#1" }, `delay on "stock#1": it should be on a step`},
		{"a note on no key", KindNote, func(e *Event) { e.On = "a/b" }, `note on "a/b": it should be on a key of the dinner, or nothing`},
		{"covers on no key", KindCovers, func(e *Event) { e.On = "/" }, `covers on "/": it should be on nothing`},
		{"a key too long", KindTick, func(e *Event) { e.On = strings.Repeat("x", 257) }, `tick on "` + clipped + `": it should be on a mise item, a step, an order line or a plate`},

		{"an opening of nothing", KindOpen, func(e *Event) { e.Open = nil }, "it opens a dinner but names no menu"},
		{"an opening without a menu", KindOpen, func(e *Event) { e.Open.Menu = "" }, `it opens a dinner of "", which is not a file name`},
		{"a menu elsewhere", KindOpen, func(e *Event) { e.Open.Menu = "../boathouse.md" }, `it opens a dinner of "../boathouse.md", which is not a file name`},
		{"a kitchen of another form", KindOpen, func(e *Event) { e.Open.Kitchen = "kitchen.txt" }, `its kitchen "kitchen.txt" is not a file name`},
		{"fewer than no covers", KindOpen, func(e *Event) { e.Open.Covers = -1 }, "-1 covers: give a number from 0 to 1000000"},
		{"a long time zone", KindOpen, func(e *Event) { e.Open.Zone = strings.Repeat("x", 65) }, "its time zone's name is too long"},
		{"served at no time", KindOpen, func(e *Event) { e.Open.Serve = "half past seven" }, `the time "half past seven" is not written as 2026-03-14T19:30`},
		{"a file elsewhere", KindOpen, func(e *Event) { e.Open.Files = map[string]string{"a/b.md": Revision("")} }, `it pins "a/b.md", which is not a file name`},
		{"a revision that is none", KindOpen, func(e *Event) { e.Open.Files = map[string]string{"b.md": "latest"} }, `it pins b.md to "latest", which is not a revision`},
		{"a pin of nothing", KindPin, func(e *Event) { e.Open = nil }, "it takes a newer file but names none"},
		{"a pin of no file", KindPin, func(e *Event) { e.Open.Files = nil }, "it takes a newer file but names none"},
		{"a pin of too many files", KindPin, func(e *Event) { e.Open.Files = files(MaxFiles + 1) }, "it pins 501 files, over the 500 that fit"},
		{"a pin to no revision", KindPin, func(e *Event) { e.Open.Files["stock.md"] = "" }, `it pins stock.md to "", which is not a revision`},

		{"no weight", KindMeasure, func(e *Event) { e.Amount = nil }, weight},
		{"a weight without a unit", KindMeasure, func(e *Event) { e.Amount.Unit = nil }, weight},
		{"a weight to taste", KindMeasure, func(e *Event) { e.Amount.ToTaste = true }, weight},
		{"a weight below 0", KindMeasure, func(e *Event) { e.Amount = grams(-1) }, weight},
		{"a range below 0", KindMeasure, func(e *Event) { e.Amount.To = quantity.Int(-1) }, weight},
		{"no temperature", KindTemperature, func(e *Event) { e.TempC = nil }, heat},
		{"no number", KindTemperature, func(e *Event) { *e.TempC = math.NaN() }, heat},
		{"colder than can be", KindTemperature, func(e *Event) { *e.TempC = -273.16 }, heat},
		{"hotter than a kiln", KindTemperature, func(e *Event) { *e.TempC = 2000.1 }, heat},
		{"without end", KindTemperature, func(e *Event) { *e.TempC = math.Inf(1) }, heat},
		{"a timer backwards", KindTimer, func(e *Event) { e.End = e.Start - 1 }, "a timer ends before it starts"},
		{"covers below 0", KindCovers, func(e *Event) { e.Number = -1 }, "-1 covers: give a number from 0 to 1000000"},
		{"covers over a million", KindCovers, func(e *Event) { e.Number = 1_000_001 }, "1000001 covers: give a number from 0 to 1000000"},
		{"guests of a card", KindGuests, func(e *Event) { e.On = "stock" }, `guests on "stock": it should be on nothing`},
		{"serving at no time", KindServe, func(e *Event) { e.Text = "" }, `the time "" is not written as 2026-03-14T19:30`},
		{"serving on the 30th of February", KindServe, func(e *Event) { e.Text = "2026-02-30T19:30" }, `the time "2026-02-30T19:30" is not written as 2026-03-14T19:30`},
		{"serving with seconds", KindServe, func(e *Event) { e.Text = "2026-05-09T19:30:00" }, `the time "2026-05-09T19:30:00" is not written as 2026-03-14T19:30`},
		{"serving at a short time", KindServe, func(e *Event) { e.Text = "2026-05-09T9:30" }, `the time "2026-05-09T9:30" is not written as 2026-03-14T19:30`},
		{"a way below 0", KindWay, func(e *Event) { e.Number = -1 }, "way -1: no card has it"},
		{"a way over 100", KindWay, func(e *Event) { e.Number = 101 }, "way 101: no card has it"},
		{"no portion", KindPortion, func(e *Event) { e.Amount = nil }, portion},
		{"a portion of 0", KindPortion, func(e *Event) { e.Amount = grams(0) }, portion},
		{"a portion over a thousand", KindPortion, func(e *Event) { e.Amount.Qty = quantity.Frac(1001, 1) }, portion},
		{"put on a third shelf", KindShelve, func(e *Event) { e.Number = 3 }, "a dinner can't be put at 3: 0 lists it, 1 puts it away, 2 deletes it"},
		{"a delay over a week", KindDelay, func(e *Event) { e.Number = 10081 }, "a delay of 10081 minutes: give a week at most"},
		{"a week and more gained", KindDelay, func(e *Event) { e.Number = -10081 }, "a delay of -10081 minutes: give a week at most"},
		{"a card ticked", KindTick, func(e *Event) { e.On = "stock" }, `tick on "stock": it should be on a mise item, a step, an order line or a plate`},
		{"a batch ticked", KindTick, func(e *Event) { e.On = "stock#1" }, `tick on "stock#1": it should be on a mise item, a step, an order line or a plate`},
		{"an item of a card ticked", KindTick, func(e *Event) { e.On = "stock/item/4" }, `tick on "stock/item/4": it should be on a mise item, a step, an order line or a plate`},
		{"covers of a card", KindCovers, func(e *Event) { e.On = "stock" }, `covers on "stock": it should be on nothing`},
		{"a plate of a plate", KindPlate, func(e *Event) { e.On = "pass/2/1/14" }, `plate on "pass/2/1/14": it should be on a course`},
		{"a plate below 0", KindPlate, func(e *Event) { e.Number = -1 }, "plate -1: no course has it"},
		{"a way of nothing", KindWay, func(e *Event) { e.On = "" }, `way on "": it should be on a card`},
		{"a tick that weighs", KindTick, func(e *Event) { e.Amount = grams(1) }, `tick with "amount": that says nothing there`},
		{"a start that ends", KindStart, func(e *Event) { e.End = 9 }, `start with "end": that says nothing there`},
		{"an order line with words", KindHave, func(e *Event) { e.Text = "in the larder" }, `have with "text": that says nothing there`},
		{"covers that are done", KindCovers, func(e *Event) { e.Done = true }, `covers with "done": that says nothing there`},
		{"a note that opens", KindNote, func(e *Event) { e.Open = &Open{Menu: "m.md"} }, `note with "open": that says nothing there`},
		{"an undo of two things", KindUndo, func(e *Event) { e.Number = 2 }, `undo with "number": that says nothing there`},
		{"a probe that takes back", KindTemperature, func(e *Event) { e.Undo = "01J0000000000000000000THAT" }, `temperature with "undo": that says nothing there`},
		{"a pin that plans", KindPin, func(e *Event) { e.Plan = map[string]int{} }, `pin with "plan": that says nothing there`},
		{"a weighing with a probe", KindMeasure, func(e *Event) { c := 4.0; e.TempC = &c }, `measure with "tempC": that says nothing there`},
		{"a plan that starts", KindPlan, func(e *Event) { e.Start = 1 }, `plan with "start": that says nothing there`},
		{"an empty note", KindNote, func(e *Event) { e.Text = " \n" }, "a note without words"},
		{"an undo of nothing", KindUndo, func(e *Event) { e.Undo = "" }, `it takes back "", which is not an event's id`},
		{"an undo of itself", KindUndo, func(e *Event) { e.ID, e.Undo = "itself-88", "itself-88" }, `it takes back "itself-88", which is not an event's id`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ev := sound(tt.kind)
			tt.change(&ev)
			err := Validate(ev)
			require.EqualError(t, err, tt.want)
			assertWords(t, err)
		})
	}
}

// assertWords holds a refusal to the form of all: one line that fits a phone,
// lower case, no full stop, fit for any reader.
func assertWords(t *testing.T, err error) {
	t.Helper()
	s := err.Error()
	first, _ := utf8.DecodeRuneInString(s)
	assert.False(t, unicode.IsUpper(first), s)
	assert.False(t, strings.HasSuffix(s, "."), s)
	assert.NotContains(t, s, "\n")
	assert.True(t, utf8.ValidString(s), s)
	assert.Less(t, len(s), 600, s)
}

// The keys that a kind may be on are in the table and in the words of the
// refusal.
func TestEveryKindNamesItsKeys(t *testing.T) {
	assert.NotEmpty(t, kinds)
	for _, kind := range slices.Sorted(maps.Keys(checks)) {
		ev := sound(kind)
		ev.On = "no/key"
		assert.EqualError(t, Validate(ev), fmt.Sprintf("%s on %q: it should be on %s", kind, "no/key", checks[kind].where))
		assert.NotEmpty(t, checks[kind].where, kind)
	}
}

func TestIsFileName(t *testing.T) {
	for name, want := range map[string]bool{
		"stock.md":                       true,
		"fumet à la bière.md":            true,
		"a.md":                           true,
		strings.Repeat("a", 125) + ".md": true,
		strings.Repeat("a", 126) + ".md": false,
		"":                               false,
		".md":                            false,
		"..md":                           false,
		".stock.md":                      false,
		"stock":                          false,
		"stock.MD":                       false,
		"stock.md.txt":                   false,
		"a/stock.md":                     false,
		`a\stock.md`:                     false,
		"stock#1.md":                     false,
		"st\x00ock.md":                   false,
		"st\u0085ock.md":                 false,
		"st\xffock.md":                   false,
		"../../boathouse/stock.md":       false,
	} {
		assert.Equal(t, want, IsFileName(name), "%q", name)
	}
}
