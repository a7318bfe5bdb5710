package dinner

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Two copies of one event that differ in their stamps, as when the server has
// restamped it: the lower stamp counts, whichever comes first.
func TestRestampedCopy(t *testing.T) {
	own := at(9_000_000, Event{ID: "box-ticked", Kind: KindTick, On: "stock#1/step/3", Done: true}) // by a clock far ahead
	servers := own
	servers.Stamp = Stamp{Wall: 1000, Count: 1}
	later := at(2000, Event{ID: "box-unticked", Device: "tablet", Kind: KindTick, On: "stock#1/step/3"})

	assert.Equal(t, int64(1000), foldAll(t, own, servers).Ticks["stock#1/step/3"].At)
	assert.Equal(t, "box-unticked", foldAll(t, own, servers, later).Ticks["stock#1/step/3"].Event, "a later tick wins over the restamped one")
	assert.Equal(t, "box-ticked", foldAll(t, own, later).Ticks["stock#1/step/3"].Event, "while nobody has restamped it, it does not")

	servers.Stamp = Stamp{Wall: own.Stamp.Wall, Count: 1}
	assert.Len(t, foldAll(t, own, servers, at(1, Event{ID: "note-one", Kind: KindNote, Text: "hot"})).Ticks, 1, "a copy is no second event")
}

func TestRestampedNoteIsKeptOnce(t *testing.T) {
	own := at(9_000_000, Event{ID: "note-one", Kind: KindNote, Text: "oil is low"})
	servers := own
	servers.Stamp = Stamp{Wall: 1000}
	s := foldAll(t, own, servers, servers)
	assert.Equal(t, []Note{{Text: "oil is low", At: 1000, Device: "phone", Event: "note-one"}}, s.Notes)
}

// Of many copies the lowest stamp counts, and of forged copies with equal
// stamps always the same one.
func TestCopiesOfOneID(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		copies := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Event { return drawEvent(t, 1) }), 1, 8).Draw(t, "copies")
		got := distinct(copies)
		require.Len(t, got, 1)
		for i := range copies {
			require.LessOrEqual(t, got[0].Stamp.Compare(copies[i].Stamp), 0)
			require.False(t, copies[i].counts(got[0]), "a copy counts rather than the one that was kept")
		}
		shuffled := rapid.Permutation(copies).Draw(t, "order")
		require.Equal(t, got, distinct(shuffled))
	})
}

// Compare is a total order: without it devices would sort differently.
func TestCompareIsATotalOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawEvent(t, 3), drawEvent(t, 3), drawEvent(t, 3)
		require.Zero(t, a.Compare(&a))
		require.Equal(t, a.Compare(&b), -b.Compare(&a))
		if a.Compare(&b) <= 0 && b.Compare(&c) <= 0 {
			require.LessOrEqual(t, a.Compare(&c), 0)
		}
		if a.Compare(&b) == 0 {
			require.Equal(t, []any{a.ID, a.Device, a.Stamp}, []any{b.ID, b.Device, b.Stamp})
		}
		require.Equal(t, a.Stamp.Compare(b.Stamp), -b.Stamp.Compare(a.Stamp))
	})
}

// Same ignores a difference in the stamp and no other.
func TestSame(t *testing.T) {
	c := 63.0
	base := Event{ID: "box-ticked", Dinner: "boathouse", Device: "phone", Stamp: Stamp{Wall: 5}, Kind: KindTick, On: "stock#1/step/3"}
	for _, tt := range []struct {
		name   string
		change func(*Event)
		same   bool
	}{
		{"nothing", func(*Event) {}, true},
		{"wall", func(e *Event) { e.Stamp.Wall++ }, true},
		{"count", func(e *Event) { e.Stamp.Count++ }, true},
		{"id", func(e *Event) { e.ID += "x" }, false},
		{"dinner", func(e *Event) { e.Dinner += "x" }, false},
		{"device", func(e *Event) { e.Device += "x" }, false},
		{"kind", func(e *Event) { e.Kind = KindStart }, false},
		{"on", func(e *Event) { e.On = "stock#1/step/4" }, false},
		{"done", func(e *Event) { e.Done = true }, false},
		{"amount", func(e *Event) { e.Amount = grams(1) }, false},
		{"temperature", func(e *Event) { e.TempC = &c }, false},
		{"start", func(e *Event) { e.Start = 1 }, false},
		{"end", func(e *Event) { e.End = 1 }, false},
		{"number", func(e *Event) { e.Number = 1 }, false},
		{"text", func(e *Event) { e.Text = "x" }, false},
		{"undo", func(e *Event) { e.Undo = "box-ticked" }, false},
		{"open", func(e *Event) { e.Open = &Open{} }, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			other := base
			tt.change(&other)
			assert.Equal(t, tt.same, base.Same(&other))
			assert.Equal(t, tt.same, other.Same(&base))
			assert.Equal(t, Stamp{Wall: 5}, base.Stamp, "asking changes nothing")
		})
	}
}
