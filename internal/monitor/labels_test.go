package monitor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/document/filetest"
	"hobside/internal/larder"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// TestLabelHasContainerAndWords: the card's container and words are on its label, not on
// that of what it sets aside.
func TestLabelHasContainerAndWords(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 1 kg milk", "Skim the **milk**.|hands: 5 min|saves: skin")+
		"\n## Saves\n\n- skin: 20 g, 1 d chilled\n\n## Service\n\n- container: tub, 1 L\n- label: heat once\n")
	l := b.at(0).Labels()
	require.Len(t, l, 2)
	assert.Equal(t, [2]string{"tub, 1 L", "heat once"}, [2]string{l[0].Container, l[0].Words})
	assert.Equal(t, [2]string{}, [2]string{l[1].Container, l[1].Words})
}

// The days are counted by hand on the calendar: made on Friday 11 June 2027.
func TestLabels(t *testing.T) {
	text := strings.Replace(filetest.Steps("A", "- 1 kg milk\n- 10 g zzyzx", "Warm the **milk** with the **zzyzx**.|hob: 1 ring"), "makes: 1 kg\n", "makes: 1 kg\nkeeps: 4 d chilled, 60 d frozen\n", 1)
	b := lays(t, uk, text)
	ask := func() []Label { return b.at(0).Labels() }
	l := ask()
	require.Len(t, l, 1)
	assert.Equal(t, "by day 5 (the day it is made is day 1)", l[0].Use)
	assert.Empty(t, l[0].Made)
	b.ticks(1)
	l = ask()
	assert.Equal(t, "Fri 11 Jun 2027, 14:00", l[0].Made)
	assert.Equal(t, "Tue 15 Jun 2027", l[0].Use, "four days after")
	assert.Contains(t, l[0].Basis, "the card's own")
	require.Len(t, l[0].Keeps, 2)
	assert.Equal(t, "4 d chilled", l[0].Keeps[0])
	assert.Equal(t, "60 d frozen", l[0].Keeps[1])
	assert.Equal(t, "phone abc123", l[0].By)
	require.Len(t, l[0].Carries, 1)
	assert.Contains(t, strings.ToLower(l[0].Carries[0]), "milk")
	assert.Equal(t, []string{"zzyzx"}, l[0].NotAssessed)
	assert.Contains(t, LabelDeferral, "were not checked")
	assert.NotContains(t, strings.ToLower(LabelDeferral), "safe")
	assert.NotContains(t, strings.ToLower(LabelDeferral), "free of")

	// The US rules count 7 days, day 1 among them: US FDA Food Code 3-501.17, read in the safety room.
	b = lays(t, us, strings.Replace(text, "keeps: 4 d chilled", "keeps: 30 d chilled", 1))
	b.ticks(1)
	l = ask()
	assert.Equal(t, "Thu 17 Jun 2027", l[0].Use)
	assert.Contains(t, l[0].Basis, "the card's own 31 days are longer and do not count")
	assert.Equal(t, larder.US.Whose(), l[0].List)
	// Without a word on the card the UK's rules give no number.
	b = lays(t, uk, strings.Replace(text, "keeps: 4 d chilled, 60 d frozen\n", "", 1))
	b.ticks(1)
	l = ask()
	assert.Empty(t, l[0].Use)
	assert.Contains(t, l[0].Basis, "not assessed")
}

func TestUseBy(t *testing.T) {
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
		{"some hours", safety.UK, []card.Keep{keep(0.3, "chilled")}, made, "Fri 11 Jun 2027, 19:12", "the card's own"},
		{"some hours, not made", safety.UK, []card.Keep{keep(0.3, "chilled")}, 0, "within 7 h 12 min", "the card's own"},
		{"some hours at room", safety.UK, []card.Keep{keep(0.2, "room")}, 0, "within 4 h 48 min", "kept at room temperature"},
		{"a day", safety.UK, []card.Keep{keep(1, "chilled")}, 0, "by day 2 (the day it is made is day 1)", "the card's own"},
		{"straight on", safety.UK, []card.Keep{{Place: "straight on"}}, 0, "at once", "it goes straight on"},
		{"chilled before frozen", safety.UK, []card.Keep{keep(60, "frozen"), keep(2, "chilled")}, made, "Sun 13 Jun 2027", "the card's own"},
		{"nothing said, US", safety.US, nil, made, "Thu 17 Jun 2027", "US FDA Food Code"},
		{"nothing said, no rules", "", nil, made, "", "not assessed"},
	} {
		l := life{made: tt.made, cooked: tt.made}
		l.keep, l.said = coldest(tt.keeps)
		d := (&Reader{}).dateBy(tt.rules, l)
		assert.Equal(t, tt.use, d.use, tt.name)
		assert.Contains(t, d.basis, tt.basis, tt.name)
	}
	// Past midnight by the wall clock it is the next day.
	assert.Equal(t, "Sat 12 Jun 2027", (&Reader{Offset: 60}).day(noon+11*3600_000+1800_000))
	assert.Equal(t, "Fri 11 Jun 2027", (&Reader{}).day(noon+11*3600_000+1800_000))
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

// labelOf returns the label of a card's batch.
func labelOf(t *testing.T, b *bench, card string) Label {
	t.Helper()
	for _, l := range b.at(0).Labels() {
		if l.Key == dinner.BatchKey(card, 1) {
			return l
		}
	}
	t.Fatalf("no label of %s", card)
	return Label{}
}

// A label goes by the shortest of the rules (7 days, US FDA Food Code 3-501.17, read), the
// card and the last step: cakes that are held hot for 20 min are not good for a week.
func TestLabelGoesByTheShortest(t *testing.T) {
	keeps := func(days string) string { return "makes: 1 kg\nkeeps: " + days + "\n" }
	for _, tt := range []struct{ name, front, keep, use, basis string }{
		{"20 min hot", "makes: 1 kg\n", "|keep: 20 min hot", "within 20 min", "kept hot: the card's last step"},
		{"20 min hot, of a card that keeps 3 days", keeps("3 d chilled"), "|keep: 20 min hot", "within 20 min", "kept hot: the card's last step"},
		{"2 days by its last step", keeps("5 d chilled"), "|keep: 1 d chilled", "by day 2 (the day it is made is day 1)", "the card's last step"},
		{"2 days by its card", keeps("1 d chilled"), "|keep: 5 d chilled", "by day 2 (the day it is made is day 1)", "the card's own"},
		{"the rules", keeps("20 d chilled"), "|keep: 30 d chilled", "by day 7 (the day it is made is day 1)", "US FDA Food Code"},
		{"straight on", "makes: 1 kg\n", "|keep: straight on", "at once", "the card's last step"},
	} {
		text := strings.Replace(filetest.Steps("Potato cakes", "- 1 kg potatoes", "Fry the **potatoes**.|hob: 1 ring"+tt.keep), "makes: 1 kg\n", tt.front, 1)
		b := lays(t, us, text)
		l := labelOf(t, b, "a")
		assert.Equal(t, tt.use, l.Use, tt.name)
		assert.Contains(t, l.Basis, tt.basis, tt.name)
	}
	// At the pass a step holds for minutes what the card keeps for days: the label is for what is put away.
	text := strings.Replace(filetest.Steps("Pressed lamb", "- 1 kg cooked lamb", "Press the **cooked lamb**.|fridge|keep: 2 d chilled", "Crisp it.|hob: 1 ring|keep: 15 min hot|serve"), "makes: 1 kg\n", keeps("3 d chilled"), 1)
	assert.Equal(t, "by day 3 (the day it is made is day 1)", labelOf(t, lays(t, us, text), "a").Use)
}

// Freezing pauses the count: cooked on Friday 11 June, frozen that day, taken out on Monday the
// 21st and finished: 7 days from the 11th are the 17th, and ten days in the freezer more the
// 27th. By hand on the calendar; day 1 is the day of preparation (3-501.17, read).
func TestFreezingPausesTheCount(t *testing.T) {
	text := filetest.Steps("Ragout", "- 1 kg cooked beef", "Braise the **cooked beef**.|hob: 1 ring", "Freeze it.|freezer", "Thaw it.|fridge", "Season it.")
	b := lays(t, us, text)
	for step, day := range map[int]float64{1: 0, 2: 0.1, 3: 10.2, 4: 10.3} {
		b.ticksAt("a", step, day, 0)
	}
	l := labelOf(t, b, "a")
	assert.Equal(t, "Sun 27 Jun 2027", l.Use)
	assert.Contains(t, l.Basis, "counted from Fri 11 Jun 2027; the 10 days in the freezer do not count")
	// Without the freezer the same days count, from the day it was cooked.
	b = lays(t, us, strings.ReplaceAll(text, "freezer", "fridge"))
	for step, day := range map[int]float64{1: 0, 2: 0.1, 3: 2.2, 4: 2.3} {
		b.ticksAt("a", step, day, 0)
	}
	assert.Equal(t, "Thu 17 Jun 2027", labelOf(t, b, "a").Use)
}

// What goes into a batch passes its date on: stock of Friday that keeps 4 days chilled gives a
// soup of Sunday that keeps 5 days no later date than Tuesday's.
func TestDatePassesOn(t *testing.T) {
	keeps := func(text, days string) string {
		return strings.Replace(text, "makes: 1 kg\n", "makes: 1 kg\nkeeps: "+days+"\n", 1)
	}
	dinnerOf := func(days string) *bench {
		return laysAll(t, us, map[string]string{
			"a.md": keeps(filetest.Steps("Soup", "- 1 kg [Stock](b.md)", "Boil the **stock**.|hob: 1 ring"), "5 d chilled"),
			"b.md": keeps(filetest.Steps("Stock", "- 1 kg chicken bones", "Simmer the **chicken bones**.|hob: 1 ring"), days),
		})
	}
	b := dinnerOf("4 d chilled")
	b.ticksAt("b", 1, 0, 0)
	assert.Contains(t, labelOf(t, b, "a").Basis, "no later than Tue 15 Jun 2027, the date of Stock that goes into it", "while the soup is not made")
	b.ticksAt("a", 1, 2, 0)
	l := labelOf(t, b, "a")
	assert.Equal(t, "Tue 15 Jun 2027", l.Use)
	assert.Contains(t, l.Basis, "the date of Stock, which went into it: the card's own")
	// A later date of the stock does not lengthen the soup's.
	b = dinnerOf("30 d chilled")
	b.ticksAt("b", 1, 0, 0)
	b.ticksAt("a", 1, 1, 0)
	assert.Equal(t, "Thu 17 Jun 2027", labelOf(t, b, "a").Use, "the stock's 7 days by the rules")
	// Frozen stock hands on its count without the days in the freezer: 7 days from the 11th, and 20 more.
	b = dinnerOf("60 d frozen")
	b.ticksAt("b", 1, 0, 0)
	b.ticksAt("a", 1, 20, 0)
	assert.Equal(t, "Tue 6 Jul 2027", labelOf(t, b, "a").Use, "the soup's own 6 days end sooner than the stock's 7 July")
	// Dry food hands on none.
	b = dinnerOf("2 d room")
	b.ticksAt("b", 1, 0, 0)
	b.ticksAt("a", 1, 1, 0)
	assert.Equal(t, "Thu 17 Jun 2027", labelOf(t, b, "a").Use)
}
