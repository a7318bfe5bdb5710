package monitor

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/library"
	"hobside/internal/quantity"
)

const noon = 1_812_715_200_000 // 2027-06-11 12:00 UTC

// bench is a dinner of one card in a kitchen, with readings at minutes from noon.
type bench struct {
	t    *testing.T
	live *dinner.Live
	show quantity.Prefs
	n    int
}

const kitchenOf = "---\ncooks: 1\nRULEShob: 2 rings\noven: 1, 2 shelves\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"

// lays opens a dinner of card "a" in a kitchen of rules.
func lays(t *testing.T, rules, text string) *bench {
	t.Helper()
	return laysAll(t, rules, map[string]string{"a.md": text})
}

// laysAll opens a dinner of card "a" and the cards that go into it.
func laysAll(t *testing.T, rules string, cards map[string]string) *bench {
	t.Helper()
	files := map[string]string{
		"k.md": strings.Replace(kitchenOf, "RULES", rules, 1),
		"m.md": "---\ncovers: 1\nserve: 2027-06-12 19:30\nkitchen: k.md\n---\n\n# Supper\n\n## Main\n\n- [A](a.md): 1 kg per cover\n",
	}
	maps.Copy(files, cards)
	b := &bench{t: t, live: dinner.Follow("s", &library.Cache{}), show: quantity.Prefs{System: quantity.Metric, Scale: quantity.Int(1)}}
	texts, pins := map[string]string{}, map[string]string{}
	for name, text := range files {
		rev := dinner.Revision(text)
		texts[rev], pins[name] = text, rev
	}
	b.live.Take(texts, []dinner.Event{b.event(dinner.Event{Kind: dinner.KindOpen,
		Open: &dinner.Open{Menu: "m.md", Kitchen: "k.md", Covers: 1, Serve: "2027-06-12T19:30", Files: pins}})})
	require.Len(t, b.live.Worked().Demand.Components, len(cards))
	return b
}

func (b *bench) event(ev dinner.Event) dinner.Event {
	b.n++
	ev.ID, ev.Dinner, ev.Device, ev.Stamp = fmt.Sprintf("event-%04d", b.n), "s", "phone-abc123", dinner.Stamp{Wall: noon + int64(b.n)}
	require.NoError(b.t, dinner.Validate(ev))
	return ev
}

func (b *bench) happens(ev dinner.Event) dinner.Event {
	b.t.Helper()
	ev = b.event(ev)
	b.live.Take(nil, []dinner.Event{ev})
	return ev
}

func (b *bench) reads(step int, minute, c float64) dinner.Event {
	return b.happens(dinner.Event{Kind: dinner.KindTemperature, On: dinner.StepKey("a", 1, step), TempC: &c, Start: noon + int64(minute*60000)})
}

func (b *bench) notes(step int, text string) dinner.Event {
	return b.happens(dinner.Event{Kind: dinner.KindNote, On: dinner.StepKey("a", 1, step), Text: text, Start: noon + 50*60000})
}

func (b *bench) weighs(step int, minute float64, amount string) {
	a, _, err := quantity.ParseAmount(amount)
	require.NoError(b.t, err)
	b.happens(dinner.Event{Kind: dinner.KindMeasure, On: dinner.StepKey("a", 1, step), Amount: &a, Start: noon + int64(minute*60000)})
}

func (b *bench) ticks(step int) {
	b.happens(dinner.Event{Kind: dinner.KindTick, On: dinner.StepKey("a", 1, step), Done: true})
}

// ticksAt ticks a step of a card at a day and hour from noon of the first day.
func (b *bench) ticksAt(card string, step int, day, hour float64) {
	b.t.Helper()
	ev := b.event(dinner.Event{Kind: dinner.KindTick, On: dinner.StepKey(card, 1, step), Done: true})
	ev.Stamp.Wall = noon + int64((day*24+hour)*3600_000)
	b.live.Take(nil, []dinner.Event{ev})
}

// at is a cook who reads the dinner at a minute from noon, on a wall clock two
// hours ahead.
func (b *bench) at(minute float64) *Reader {
	return &Reader{Dinner: b.live, Now: noon + int64(minute*60000), Offset: 120, Show: b.show}
}

func (b *bench) watch(step int, minute float64) *Watch {
	b.t.Helper()
	w, err := b.at(minute).Watch(dinner.StepKey("a", 1, step))
	require.NoError(b.t, err)
	return w
}

func (b *bench) log(minute float64) *Log { return b.at(minute).Log() }

func lines(v *Watch) (out []string) {
	for _, l := range v.Lines {
		text := l.Text
		if l.State != "" {
			text = string(l.State) + ": " + text
		}
		if l.Source != "" {
			text += " [" + l.Source + "]"
		}
		out = append(out, text)
	}
	return out
}

const (
	us = "rules: us\n"
	uk = "rules: uk\n"
)
