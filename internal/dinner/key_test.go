package dinner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestKeys(t *testing.T) {
	for _, tt := range []struct {
		text string // as it is written
		key  Key
	}{
		{CardKey("stock"), Key{Card: "stock"}},
		{BatchKey("stock", 1), Key{Card: "stock", Batch: 1}},
		{StepKey("stock", 1, 3), Key{Card: "stock", Batch: 1, Step: 3}},
		{MiseKey("stock", 12, 2), Key{Card: "stock", Batch: 12, Mise: 2}},
		{HeatKey("bread", 1, 5), Key{Card: "bread", Batch: 1, Heat: 5}},
		{HoldKey("bread", 1, 5), Key{Card: "bread", Batch: 1, Hold: 5}},
		{PlatesKey("lamb", 2, 1), Key{Card: "lamb", Batch: 2, Plates: 1}},
		{ItemKey("stock", 4), Key{Card: "stock", Item: 4}},
		{OrderKey("onions"), Key{Order: "onions"}},
		{PlateKey(2, 1, 14), Key{Course: 2, Plate: 1, Cover: 14}},
		{CourseKey(2), Key{Course: 2}},
		{CardKey("course"), Key{Card: "course"}},
		{StepKey("fumet à la bière", maxPlace, maxPlace), Key{Card: "fumet à la bière", Batch: maxPlace, Step: maxPlace}},
		{CardKey("order"), Key{Card: "order"}}, // a card may be named like the list
		{ItemKey("pass", 3), Key{Card: "pass", Item: 3}},
		{ItemKey("order", 3), Key{Card: "order", Item: 3}},
	} {
		t.Run(tt.text, func(t *testing.T) {
			k, ok := ParseKey(tt.text)
			require.True(t, ok)
			assert.Equal(t, tt.key, k)
			assert.Equal(t, tt.text, k.String())
		})
	}
}

// The form of keys is fixed, because phones store them.
func TestKeysAsWritten(t *testing.T) {
	assert.Equal(t, []string{"stock", "stock#1", "stock#1/step/3", "stock#1/mise/2", "stock#1/heat/3", "stock#1/hold/3", "stock#1/plates/3", "stock/item/4", "order/onions", "pass/2/1/14", "course/2"}, []string{
		CardKey("stock"), BatchKey("stock", 1), StepKey("stock", 1, 3), MiseKey("stock", 1, 2), HeatKey("stock", 1, 3), HoldKey("stock", 1, 3), PlatesKey("stock", 1, 3), ItemKey("stock", 4), OrderKey("onions"), PlateKey(2, 1, 14), CourseKey(2),
	})
}

func TestParseKeyRefuses(t *testing.T) {
	for _, text := range []string{
		"", "/", "#", "#1", "#1/step/1", "/item/4", "order/", "order/a/b", "order/#1",
		"stock#", "stock#0", "stock#-1", "stock#01", "stock#+1", "stock#1.5", "stock#1000001", "stock#99999999999999999999", "stock#1#2", "stock#one",
		"stock#0/step/3", "stock#1/step/0", "stock#1/step/", "stock#1/step", "stock#1/step/3/4", "stock#1/step/03", "stock/step/3", "stock#1/stir/3",
		"stock#0/mise/2", "stock#1/mise/0", "stock/mise/2", "stock#1/item/4", "stock/item/0", "stock/item/four",
		"pass/1/1", "course/0", "course/x", "course/1/2", "course/02", "pass/1/1/1/1", "pass/0/1/1", "pass/1/0/1", "pass/1/1/0", "pass/1/1/x", "pass#1/1/1/1",
		"st\x00ock", "st\nock#1", "st\\ock", "st\xffock", "order/on\x7fions", strings.Repeat("a", maxKey+1),
	} {
		k, ok := ParseKey(text)
		assert.False(t, ok, "%q was read as %+v", text, k)
		assert.Zero(t, k, "%q", text)
	}
	_, ok := ParseKey(strings.Repeat("a", maxKey))
	assert.True(t, ok, "the longest that fits")
}

// Every key made of valid parts is read back as the same parts.
func TestKeyRoundTrip(t *testing.T) {
	name := rapid.StringMatching(`[a-z0-9é '.,-]{1,30}`)
	place := rapid.IntRange(1, maxPlace)
	rapid.Check(t, func(t *rapid.T) {
		n, a, b, c := name.Draw(t, "name"), place.Draw(t, "a"), place.Draw(t, "b"), place.Draw(t, "c")
		k := rapid.SampledFrom([]Key{
			{Card: n}, {Card: n, Batch: a}, {Card: n, Batch: a, Step: b}, {Card: n, Batch: a, Mise: b}, {Card: n, Batch: a, Heat: b}, {Card: n, Batch: a, Hold: b}, {Card: n, Batch: a, Plates: b},
			{Card: n, Item: a}, {Order: n}, {Course: a, Plate: b, Cover: c},
		}).Draw(t, "key")
		back, ok := ParseKey(k.String())
		require.True(t, ok, k.String())
		require.Equal(t, k, back)
	})
}

// Whatever is read as a key is written back the same, names one thing, and
// counts from 1.
func FuzzParseKey(f *testing.F) {
	for _, s := range append([]string{"", "#", "stock#0/step/3", "pass/1/0/1", "order/", "a/item/1", "\xff", "é#1"}, drawnKeys...) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		k, ok := ParseKey(s)
		if !ok {
			if k != (Key{}) {
				t.Fatalf("%q is not a key, yet gave %+v", s, k)
			}
			return
		}
		if k.String() != s {
			t.Fatalf("%q came back as %q", s, k.String())
		}
		c, o := k.Card, k.Order
		switch k { // one of the nine forms, with no number of 0 in it
		case Key{Card: c}, Key{Card: c, Batch: max(1, k.Batch)}, Key{Card: c, Batch: max(1, k.Batch), Step: max(1, k.Step)},
			Key{Card: c, Batch: max(1, k.Batch), Mise: max(1, k.Mise)}, Key{Card: c, Batch: max(1, k.Batch), Heat: max(1, k.Heat)}, Key{Card: c, Item: max(1, k.Item)}:
			if c == "" {
				t.Fatalf("%q names no card: %+v", s, k)
			}
		case Key{Order: o}:
			if o == "" {
				t.Fatalf("%q names no line: %+v", s, k)
			}
		case Key{Course: max(1, k.Course)}, Key{Course: max(1, k.Course), Plate: max(1, k.Plate), Cover: max(1, k.Cover)}:
		default:
			t.Fatalf("%q has none of the forms: %+v", s, k)
		}
	})
}
