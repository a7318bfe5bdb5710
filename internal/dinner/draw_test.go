package dinner

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// The worlds drawn here are small on purpose: few IDs, stamps, devices and keys,
// so that copies, ties, undos of undos and rings of undos turn up all the time.

var (
	drawnKeys = []string{
		"stock", "stock#1", "stock#1/step/3", "stock#2/step/1", "chips#1/step/2",
		"stock#1/mise/2", "chips/item/4", "order/onions", "pass/2/1/14", "course/1",
	}
	drawnFiles = []string{"stock.md", "chips.md", "boathouse.md"}
	kinds      = slices.Sorted(maps.Keys(checks)) // every kind there is
)

// drawEvent draws any event that a server could hold.
func drawEvent(t *rapid.T, ids int) Event {
	id := func(name string) string { return fmt.Sprintf("event-%02d", rapid.IntRange(1, ids).Draw(t, name)) }
	ev := Event{
		ID:     id("id"),
		Dinner: "boathouse",
		Device: rapid.SampledFrom([]string{"phone", "tablet", "wall"}).Draw(t, "device"),
		Stamp:  drawStamp(t, "stamp"),
		Kind:   rapid.SampledFrom(kinds).Draw(t, "kind"),
		On:     rapid.SampledFrom(drawnKeys).Draw(t, "on"),
		Done:   rapid.Bool().Draw(t, "done"),
		Number: rapid.IntRange(0, 5).Draw(t, "number"),
		Start:  rapid.Int64Range(0, 3).Draw(t, "start"),
		End:    rapid.Int64Range(0, 3).Draw(t, "end"),
		Text:   rapid.SampledFrom([]string{"", "skim again", "2026-05-09T19:30"}).Draw(t, "text"),
	}
	if ev.Kind == KindUndo {
		ev.Undo = id("undo")
	}
	if ev.Kind == KindChange {
		ev.Do = []plan.Deed{drawDeed(t)}
	}
	if rapid.Bool().Draw(t, "with figures") {
		c := float64(rapid.IntRange(-2, 90).Draw(t, "°C"))
		ev.Amount, ev.TempC = grams(rapid.Int64Range(1, 3).Draw(t, "g")), &c
		ev.Open = &Open{Menu: "boathouse.md", Covers: ev.Number, Files: map[string]string{
			rapid.SampledFrom(drawnFiles).Draw(t, "file"): Revision(ev.Text),
		}}
	}
	return ev
}

// drawDeed draws something that is other than the kitchen and the menu say.
func drawDeed(t *rapid.T) plan.Deed {
	day := []plan.Span{{Date: "2026-05-09", From: 1020, To: rapid.SampledFrom([]int{0, 1080}).Draw(t, "to")}}
	return rapid.SampledFrom([]plan.Deed{
		{Do: plan.DoAway, Cook: "first cook", Times: day}, {Do: plan.DoThere, Cook: "first cook", Times: day},
		{Do: plan.DoOut, Equipment: "oven", Count: 1, Times: day}, {Do: plan.DoEquipment, Equipment: "hob", Count: 1},
		{Do: plan.DoCourse, Course: 1, Minutes: 15}, {Do: plan.DoStrike, Course: 1, Count: 1}, {Do: plan.DoStrike, Course: 1},
	}).Draw(t, "deed")
}

func drawStamp(t *rapid.T, name string) Stamp {
	return Stamp{Wall: rapid.Int64Range(1, 6).Draw(t, name), Count: rapid.IntRange(0, 2).Draw(t, name+" count")}
}

func drawEvents(t *rapid.T, name string) []Event {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Event { return drawEvent(t, 12) }), 0, 24).Draw(t, name)
}

// grams is an amount for tests.
func grams(n int64) *quantity.Amount {
	g, ok := quantity.LookupUnit("g")
	if !ok {
		panic("no gram")
	}
	return &quantity.Amount{Qty: quantity.Int(n), Unit: g}
}

// at is an event for tables: one device, one wall, all the rest for the case to say.
func at(wall int64, ev Event) Event {
	ev.Dinner, ev.Stamp = "boathouse", Stamp{Wall: wall}
	if ev.Device == "" {
		ev.Device = "phone"
	}
	if ev.ID == "" {
		ev.ID = fmt.Sprintf("%s-at-%d", ev.Kind, wall)
	}
	return ev
}

// foldAll folds the events in every order, each order with one event twice, and
// returns the one state that all of them must give.
func foldAll(t *testing.T, events ...Event) *State {
	t.Helper()
	require.LessOrEqual(t, len(events), 6, "every order of so many events takes too long")
	want := Fold(events)
	var try func(done, rest []Event)
	try = func(done, rest []Event) {
		if len(rest) == 0 {
			require.Equal(t, want, Fold(append(slices.Clip(done), done[len(done)/2])), "order %v", ids(done))
			return
		}
		for i := range rest {
			try(append(slices.Clip(done), rest[i]), slices.Delete(slices.Clone(rest), i, i+1))
		}
	}
	if len(events) > 0 {
		try(nil, events)
	}
	return want
}

func ids(events []Event) []string {
	out := make([]string, len(events))
	for i, ev := range events {
		out[i] = ev.ID
	}
	return out
}
