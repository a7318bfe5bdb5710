package monitor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// The days are counted by hand on the calendar: made on Friday 11 June 2027.
func TestLabels(t *testing.T) {
	text := strings.Replace(written("A", "- 1 kg milk\n- 10 g zzyzx", "Warm the **milk** with the **zzyzx**.|hob: 1 ring"), "makes: 1 kg\n", "makes: 1 kg\nkeeps: 4 d chilled, 60 d frozen\n", 1)
	b := lays(t, uk, text)
	ask := func() []Label { return b.at(0).Labels() }
	l := ask()
	require.Len(t, l, 1)
	assert.Equal(t, "within 5 days, the day it is made among them", l[0].Use)
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
		{"some hours", safety.UK, []card.Keep{keep(0.3, "chilled")}, made, "Fri 11 Jun 2027", "the card's own"},
		{"some hours, not made", safety.UK, []card.Keep{keep(0.3, "chilled")}, 0, "the day it is made", "the card's own"},
		{"some hours at room", safety.UK, []card.Keep{keep(0.2, "room")}, 0, "the same day", "kept at room temperature"},
		{"chilled before frozen", safety.UK, []card.Keep{keep(60, "frozen"), keep(2, "chilled")}, made, "Sun 13 Jun 2027", "the card's own"},
		{"nothing said, US", safety.US, nil, made, "Thu 17 Jun 2027", "US FDA Food Code"},
		{"nothing said, no rules", "", nil, made, "", "not assessed"},
	} {
		use, basis := (&Reader{}).useBy(tt.rules, tt.keeps, tt.made)
		assert.Equal(t, tt.use, use, tt.name)
		assert.Contains(t, basis, tt.basis, tt.name)
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
