package dinner

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// words holds, for each kind of which the last event counts, two different
// events on the same key, and where the state shows them.
var words = []struct {
	kind Kind
	a, b Event
	read func(*State) any
	want [2]any // what a says, what b says
}{
	{KindTick, Event{Done: true}, Event{}, func(s *State) any { return s.Ticks["k#1/step/1"].Done }, [2]any{true, false}},
	{KindStart, Event{Start: 7}, Event{Start: 8}, func(s *State) any { return s.Starts["k#1/step/1"].At }, [2]any{int64(7), int64(8)}},
	{KindFinish, Event{Start: 7}, Event{Start: 8}, func(s *State) any { return s.Ends["k#1/step/1"].At }, [2]any{int64(7), int64(8)}},
	{KindTimer, Event{Start: 1, End: 9}, Event{Start: 2, End: 8}, func(s *State) any { return s.Timers["k#1/step/1"].End }, [2]any{int64(9), int64(8)}},
	{KindWay, Event{Number: 2}, Event{Number: 0}, func(s *State) any { return s.Ways["k#1/step/1"] }, [2]any{2, 0}},
	{KindLeave, Event{Done: true}, Event{}, func(s *State) any { return s.Leave["k#1/step/1"] }, [2]any{true, false}},
	{KindPlate, Event{Number: 2}, Event{Number: 0}, func(s *State) any { return s.Seats["k#1/step/1 "] }, [2]any{2, 0}},
	{KindPortion, Event{Amount: grams(2)}, Event{Amount: grams(3)}, func(s *State) any { return s.Portions["k#1/step/1"].String() }, [2]any{"2", "3"}},
	{KindCovers, Event{Number: 40}, Event{Number: 36}, func(s *State) any { return s.Covers }, [2]any{40, 36}},
	{KindGuests, Event{Text: "2 covers: no fish"}, Event{}, func(s *State) any { return *s.Guests }, [2]any{"2 covers: no fish", ""}},
	{KindServe, Event{Text: "2026-05-09T19:30"}, Event{Text: "2026-05-09T20:00"}, func(s *State) any { return s.Serve }, [2]any{"2026-05-09T19:30", "2026-05-09T20:00"}},
	{KindPin, Event{Open: &Open{Files: map[string]string{"k.md": "old"}}}, Event{Open: &Open{Files: map[string]string{"k.md": "new"}}},
		func(s *State) any { return s.Open.Files["k.md"] }, [2]any{"old", "new"}},
}

// The last event counts: by the stamp's wall, then its count, then device, then
// ID, and never by the order in which the events arrive.
func TestLastEventCounts(t *testing.T) {
	opening := Event{ID: "opening-1", Dinner: "boathouse", Device: "a", Kind: KindOpen, Open: &Open{Menu: "boathouse.md"}}
	for _, by := range []struct {
		what        string
		early, late Event // Stamp, Device and ID only
	}{
		{"wall", Event{ID: "id-bbbbbb", Device: "b", Stamp: Stamp{1, 9}}, Event{ID: "id-aaaaaa", Device: "a", Stamp: Stamp{2, 0}}},
		{"count", Event{ID: "id-bbbbbb", Device: "b", Stamp: Stamp{1, 0}}, Event{ID: "id-aaaaaa", Device: "a", Stamp: Stamp{1, 1}}},
		{"device", Event{ID: "id-bbbbbb", Device: "a", Stamp: Stamp{1, 1}}, Event{ID: "id-aaaaaa", Device: "b", Stamp: Stamp{1, 1}}},
		{"id", Event{ID: "id-aaaaaa", Device: "a", Stamp: Stamp{1, 1}}, Event{ID: "id-bbbbbb", Device: "a", Stamp: Stamp{1, 1}}},
	} {
		for _, w := range words {
			t.Run(fmt.Sprintf("%s by %s", w.kind, by.what), func(t *testing.T) {
				say := func(who, what Event) Event {
					what.ID, what.Device, what.Stamp, what.Dinner = who.ID, who.Device, who.Stamp, "boathouse"
					what.Kind, what.On = w.kind, "k#1/step/1"
					return what
				}
				assert.Equal(t, w.want[1], w.read(foldAll(t, opening, say(by.early, w.a), say(by.late, w.b))))
				assert.Equal(t, w.want[0], w.read(foldAll(t, opening, say(by.early, w.b), say(by.late, w.a))))
			})
		}
	}
}

// However many cooks tick one box, the box shows the latest tick.
func TestTickOfMany(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ticks := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Event {
			ev := drawEvent(t, 99)
			ev.Kind, ev.On = KindTick, "stock#1/step/3"
			return ev
		}), 1, 30, func(ev Event) string { return ev.ID }).Draw(t, "ticks")
		last := slices.MaxFunc(ticks, func(a, b Event) int {
			return cmp.Or(cmp.Compare(a.Stamp.Wall, b.Stamp.Wall), cmp.Compare(a.Stamp.Count, b.Stamp.Count),
				cmp.Compare(a.Device, b.Device), cmp.Compare(a.ID, b.ID))
		})
		require.Equal(t, map[string]Tick{
			"stock#1/step/3": {Done: last.Done, At: last.Stamp.Wall, Device: last.Device, Event: last.ID},
		}, Fold(ticks).Ticks)
	})
}

// Weights, temperatures and notes are all kept, in order; delays add up.
func TestMeasuresReadingsAndNotesAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Event {
			ev := drawEvent(t, 99)
			ev.Kind = rapid.SampledFrom([]Kind{KindMeasure, KindTemperature, KindNote, KindDelay}).Draw(t, "kind")
			return ev
		}), 0, 30, func(ev Event) string { return ev.ID }).Draw(t, "events")
		s := Fold(events)

		slices.SortFunc(events, func(a, b Event) int { return a.Compare(&b) })
		measures, temps, delays, notes := map[string][]string{}, map[string][]string{}, map[string]int{}, []string{}
		for _, ev := range events {
			switch {
			case ev.Kind == KindMeasure && ev.Amount != nil:
				measures[ev.On] = append(measures[ev.On], ev.ID+ev.Amount.Qty.String())
			case ev.Kind == KindTemperature && ev.TempC != nil:
				temps[ev.On] = append(temps[ev.On], fmt.Sprint(ev.ID, *ev.TempC))
			case ev.Kind == KindNote:
				notes = append(notes, ev.ID+ev.On+ev.Text)
			case ev.Kind == KindDelay && !ev.Done:
				delays[ev.On] += ev.Number
			}
		}
		require.Len(t, s.Measures, len(measures))
		for on, want := range measures {
			var got []string
			for _, m := range s.Measures[on] {
				got = append(got, m.Event+m.Amount.Qty.String())
			}
			require.Equal(t, want, got, on)
		}
		require.Len(t, s.Temps, len(temps))
		for on, want := range temps {
			var got []string
			for _, m := range s.Temps[on] {
				got = append(got, fmt.Sprint(m.Event, m.C))
			}
			require.Equal(t, want, got, on)
		}
		got := []string{}
		for _, n := range s.Notes {
			got = append(got, n.Event+n.On+n.Text)
		}
		require.Equal(t, notes, got)
		require.Equal(t, delays, s.Delays)
	})
}

func TestDelaysAddUp(t *testing.T) {
	s := foldAll(t,
		at(1, Event{Device: "phone", Kind: KindDelay, On: "stock#1/step/3", Number: 10}),
		at(2, Event{Device: "tablet", Kind: KindDelay, On: "stock#1/step/3", Number: 10}),
		at(3, Event{Device: "phone", Kind: KindDelay, On: "stock#1/step/3", Number: -5}),
		at(4, Event{Device: "phone", Kind: KindDelay, On: "chips#1/step/2", Number: 3}),
	)
	assert.Equal(t, map[string]int{"stock#1/step/3": 15, "chips#1/step/2": 3}, s.Delays)
}

// A step that is put off comes back at the time of the last such event, and
// takes no longer.
func TestStepPutOff(t *testing.T) {
	first := at(1, Event{Device: "phone", Kind: KindDelay, On: "stock#1/step/3", Number: 30, Done: true})
	last := at(2, Event{Device: "tablet", Kind: KindDelay, On: "stock#1/step/3", Number: 10, Done: true})
	s := foldAll(t, first, last)
	assert.Equal(t, map[string]int64{"stock#1/step/3": last.Stamp.Wall + 10*60_000}, s.Later)
	assert.Empty(t, s.Delays)
}

// A stopped timer is removed from the state; one that was started later runs.
func TestTimerStops(t *testing.T) {
	start := at(1, Event{Kind: KindTimer, On: "stock#1/step/3", Start: 1000, End: 5000})
	stop := at(2, Event{Kind: KindTimer, On: "stock#1/step/3"})
	anew := at(3, Event{Kind: KindTimer, On: "stock#1/step/3", Start: 3000, End: 9000})
	assert.Len(t, foldAll(t, start).Timers, 1)
	assert.Empty(t, foldAll(t, start, stop).Timers)
	assert.Equal(t, int64(9000), foldAll(t, start, stop, anew).Timers["stock#1/step/3"].End)
}

// The cards of a dinner never change under a cook: the first opening counts.
func TestFirstOpeningCounts(t *testing.T) {
	empty := at(1, Event{Kind: KindOpen, Text: "nothing in it"})
	first := at(2, Event{ID: "zz-first", Device: "z", Kind: KindOpen, Text: "boathouse supper",
		Open: &Open{Menu: "boathouse.md", Kitchen: "boathouse-kitchen.md", Covers: 40, Serve: "2026-05-09T19:30", Zone: "Europe/London", Files: map[string]string{"stock.md": "r1"}}})
	second := at(3, Event{ID: "aa-second", Device: "a", Kind: KindOpen, Text: "regatta lunch",
		Open: &Open{Menu: "regatta.md", Covers: 12, Serve: "2026-05-10T13:00", Files: map[string]string{"stock.md": "r2"}}})
	s := foldAll(t, empty, first, second)
	assert.Equal(t, first.Open, s.Open)
	assert.Equal(t, "boathouse supper", s.Name)
	assert.Equal(t, 40, s.Covers)
	assert.Equal(t, "2026-05-09T19:30", s.Serve)

	// Changes win over the opening event, even from a device whose clock was
	// behind.
	s = foldAll(t, first,
		at(1, Event{Kind: KindCovers, Number: 36}), at(1, Event{Kind: KindServe, Text: "2026-05-09T20:00"}))
	assert.Equal(t, 36, s.Covers)
	assert.Equal(t, "2026-05-09T20:00", s.Serve)
	assert.Equal(t, 40, s.Open.Covers, "the opening still says what it said")
	assert.Zero(t, foldAll(t, first, at(9, Event{Kind: KindCovers})).Covers, "no covers is a word too")
}

// Pins move one file each and leave the others.
func TestPins(t *testing.T) {
	pin := func(wall int64, files map[string]string) Event {
		return at(wall, Event{Kind: KindPin, Open: &Open{Menu: "ignored.md", Files: files}})
	}
	open := at(3, Event{Kind: KindOpen, Open: &Open{Menu: "boathouse.md", Files: map[string]string{"stock.md": "s1", "chips.md": "c1"}}})
	for _, tt := range []struct {
		name   string
		events []Event
		want   map[string]string
	}{
		{"none", nil, map[string]string{"stock.md": "s1", "chips.md": "c1"}},
		{"one file", []Event{pin(4, map[string]string{"stock.md": "s2"})}, map[string]string{"stock.md": "s2", "chips.md": "c1"}},
		{"a file that was not there", []Event{pin(4, map[string]string{"sauce.md": "a1"})}, map[string]string{"stock.md": "s1", "chips.md": "c1", "sauce.md": "a1"}},
		{"twice", []Event{pin(4, map[string]string{"stock.md": "s2"}), pin(5, map[string]string{"stock.md": "s3"})}, map[string]string{"stock.md": "s3", "chips.md": "c1"}},
		{"two files", []Event{pin(4, map[string]string{"stock.md": "s2"}), pin(5, map[string]string{"chips.md": "c2"})}, map[string]string{"stock.md": "s2", "chips.md": "c2"}},
		{"stamped before the opening", []Event{pin(1, map[string]string{"stock.md": "s2"})}, map[string]string{"stock.md": "s2", "chips.md": "c1"}},
		{"of nothing", []Event{at(4, Event{Kind: KindPin})}, map[string]string{"stock.md": "s1", "chips.md": "c1"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := foldAll(t, append(tt.events, open)...)
			assert.Equal(t, tt.want, s.Open.Files)
			assert.Equal(t, "boathouse.md", s.Open.Menu)
		})
	}
	assert.Nil(t, foldAll(t, pin(1, map[string]string{"stock.md": "s2"})).Open, "a pin opens nothing")
}

// Last is the step where the cook was: what is got ready, bought or plated
// meanwhile does not move it.
func TestLastIsTheNewestStep(t *testing.T) {
	for _, tt := range []struct {
		name string
		next Event
		want string
	}{
		{"a step ticked", Event{Kind: KindTick, On: "chips#1/step/2", Done: true}, "chips#1/step/2"},
		{"a step unticked", Event{Kind: KindTick, On: "chips#1/step/2"}, "chips#1/step/2"},
		{"a step begun", Event{Kind: KindStart, On: "chips#1/step/2"}, "chips#1/step/2"},
		{"a step ended", Event{Kind: KindFinish, On: "chips#1/step/2"}, "chips#1/step/2"},
		{"a mise item", Event{Kind: KindTick, On: "chips#1/mise/2", Done: true}, "stock#1/step/3"},
		{"an order line", Event{Kind: KindTick, On: "order/onions", Done: true}, "stock#1/step/3"},
		{"a plate", Event{Kind: KindTick, On: "pass/1/1/1", Done: true}, "stock#1/step/3"},
		{"a timer", Event{Kind: KindTimer, On: "chips#1/step/2", Start: 1, End: 2}, "stock#1/step/3"},
		{"a note", Event{Kind: KindNote, On: "chips#1/step/2", Text: "hot"}, "stock#1/step/3"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := foldAll(t, at(1, Event{Kind: KindTick, On: "stock#1/step/3", Done: true}), at(2, tt.next))
			assert.Equal(t, tt.want, s.Last)
		})
	}
}

// An event without the figure that its kind needs changes nothing; it is not
// read as a figure of 0.
func TestEventsWithoutTheirFieldChangeNothing(t *testing.T) {
	s := foldAll(t, at(1, Event{Kind: KindMeasure, On: "stock#1"}), at(2, Event{Kind: KindTemperature, On: "stock#1/step/1"}),
		at(3, Event{Kind: KindPortion, On: "stock"}), at(4, Event{Kind: "of a newer release", On: "stock"}))
	assert.Equal(t, &State{Dinner: "boathouse"}, &State{Dinner: s.Dinner, Last: s.Last, Covers: s.Covers})
	assert.Empty(t, s.Measures)
	assert.Empty(t, s.Temps)
	assert.Empty(t, s.Portions)
}
