package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/monitor"
)

const noon = 1_812_715_200_000 // 2027-06-11 12:00 UTC

// TestWatchErrors: a call that can't be answered says why, and a step that
// the dinner does not have is nothing to watch.
func TestWatchErrors(t *testing.T) {
	tb, _ := lay(t)
	for _, tt := range []struct{ method, in, want string }{
		{"watch", `{"dinner":"x","key":"soup#1/step/1"}`, `dinner \"x\" is not open`},
		{"watch", `{"dinner":"s","key":"soup#1"}`, `\"soup#1\" is not a step's key`},
		{"watch", `{"dinner":"s","key":"zzz#1/step/1"}`, `"kind":""`},
		{"controls", `{"dinner":"x"}`, "is not open"},
		{"labels", `{"dinner":"x"}`, "is not open"},
	} {
		assert.Contains(t, string(tb.e.Call(tt.method, []byte(tt.in))), tt.want)
	}
}

// TestWatchViewsHaveNoNull: the page reads lists that are empty, never null.
func TestWatchViewsHaveNoNull(t *testing.T) {
	tb, d := lay(t)
	step := d.Cards[0].Batches[0].Steps[0].Key
	for _, in := range []string{`{"dinner":"s","key":"zzz#1/step/1"}`, `{"dinner":"s","key":"` + step + `"}`} {
		for _, method := range []string{"watch", "controls", "labels"} {
			assert.NotContains(t, string(tb.e.Call(method, []byte(in))), "null", method)
		}
	}
	c := 71.5
	tb.happens(dinner.Event{Kind: dinner.KindTemperature, On: step, TempC: &c})
	v := call[WatchView](t, tb.e, "watch", WatchCall{Dinner: "s", Key: step, Now: noon})
	require.Len(t, v.Points, 1)
	assert.Equal(t, "71.5 °C", v.Points[0].Text)
	assert.Equal(t, monitor.Readings, v.Kind)
	assert.NotEmpty(t, v.Defer)
	log := call[ControlsView](t, tb.e, "controls", ClockCall{Dinner: "s", Now: noon})
	require.Len(t, log.Points, 1)
	assert.Equal(t, "71.5 °C", log.Points[0].Entries[0].Text)
	assert.Contains(t, log.CSV, "71.5 °C")
}

// TestLabelsOfTheDemo checks that every component has a label, and that a label
// has no date without a basis.
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
		assert.Contains(t, []monitor.LimitState{monitor.Open, monitor.None, monitor.Met}, p.State, p.Key)
	}
}

// BenchmarkWatchCooling is what a stove asks once a minute, and BenchmarkControls
// what the log of the demo asks.
func BenchmarkWatchCooling(b *testing.B) {
	p, _ := demo(b)
	in := []byte(`{"dinner":"` + p.dinner + `","key":"light-chicken-stock#1/step/4","now":1812715200000}`)
	for b.Loop() {
		p.e.Call("watch", in)
	}
}

func BenchmarkControls(b *testing.B) {
	p, _ := demo(b)
	in := []byte(`{"dinner":"` + p.dinner + `","now":1812715200000}`)
	for b.Loop() {
		p.e.Call("controls", in)
	}
}
