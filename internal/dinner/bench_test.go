package dinner

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// evening is a long dinner of n events: mostly ticks, now and then something
// else, one event in 25 an undo. No chance is in it: every run folds the same.
func evening(n int) []Event {
	files := map[string]string{"boathouse.md": Revision("menu")}
	c := 74.0
	events := []Event{{ID: "event-00000", Dinner: "boathouse", Device: "phone-0", Stamp: Stamp{Wall: 1_778_000_000_000},
		Kind: KindOpen, Open: &Open{Menu: "boathouse.md", Covers: 40, Serve: "2026-05-09T19:30", Files: files}}}
	for i := 1; i < n; i++ {
		ev := Event{ID: fmt.Sprintf("event-%05d", i), Dinner: "boathouse", Device: fmt.Sprintf("phone-%d", i%5),
			Stamp: Stamp{Wall: 1_778_000_000_000 + int64(i*7919%n)*1000, Count: i % 3}, // not in order
			Kind:  KindTick, On: StepKey(fmt.Sprintf("card-%d", i%25), 1+i%2, 1+i%12), Done: i%4 > 0}
		switch i % 25 {
		case 3:
			ev.Kind, ev.Start = KindStart, ev.Stamp.Wall
		case 5:
			ev.Kind, ev.Start = KindFinish, ev.Stamp.Wall
		case 8:
			ev.Kind, ev.Undo, ev.On = KindUndo, fmt.Sprintf("event-%05d", i-1), ""
		case 13:
			ev.Kind, ev.Amount = KindMeasure, grams(int64(i))
		case 15:
			ev.Kind, ev.TempC = KindTemperature, &c
		case 18:
			ev.Kind, ev.Start, ev.End = KindTimer, ev.Stamp.Wall, ev.Stamp.Wall+600_000
		case 21:
			ev.Kind, ev.Text = KindNote, "skim again"
		case 23:
			ev.Kind, ev.Number = KindDelay, 5
		}
		ev.Done = ev.Done && ev.Kind == KindTick
		events = append(events, ev)
	}
	return events
}

// The benchmark's events are such as a server would take.
func TestBenchmarkEveningIsValid(t *testing.T) {
	events := evening(5000)
	for _, ev := range events {
		require.NoError(t, Validate(ev))
	}
	s := Fold(events)
	require.NotEmpty(t, s.Timers)
	require.Len(t, s.Notes, 200)
}

func BenchmarkFold(b *testing.B) {
	for _, n := range []int{500, 5000} {
		b.Run(fmt.Sprint(n, " events"), func(b *testing.B) {
			events := evening(n)
			b.ReportAllocs()
			for b.Loop() {
				Fold(events)
			}
		})
	}
}

// Undos of undos, each of the one before: the longest way round.
func BenchmarkFoldChainOfUndos(b *testing.B) {
	events := []Event{{ID: "chain-0", Kind: KindNote}}
	for i := 1; i < 5000; i++ {
		events = append(events, Event{ID: fmt.Sprint("chain-", i), Kind: KindUndo, Undo: fmt.Sprint("chain-", i-1)})
	}
	b.ReportAllocs()
	for b.Loop() {
		Fold(events)
	}
}
