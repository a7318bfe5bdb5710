package safety

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestUseBy(t *testing.T) {
	tests := []struct {
		name  string
		rules Rules
		card  int
		days  int
		after int
		own   bool
		words string
	}{
		{"the code's", US, 0, 7, 6, false, "use by day 7 (the day it is made is day 1): US FDA Food Code, 3-501.17(A),(B) (read)"},
		{"the card's, shorter", US, 3, 3, 2, true, "use by day 3 (the day it is made is day 1): the card's own"},
		{"the card's, the same", US, 7, 7, 6, false, "use by day 7 (the day it is made is day 1): US FDA Food Code, 3-501.17(A),(B) (read)"},
		{"the card's, longer", US, 14, 7, 6, false, "use by day 7 (the day it is made is day 1): US FDA Food Code, 3-501.17(A),(B) (read); the card's own 14 days are longer and do not count"},
		{"one day", UK, 1, 1, 0, true, "use by day 1 (the day it is made is day 1): the card's own"},
		{"no basis", UK, 0, 0, 0, false, "not assessed: these rules set no count of days; the kitchen sets one and writes down why"},
		{"no rules", "", 0, 0, 0, false, "not assessed: these rules set no count of days; the kitchen sets one and writes down why"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := UseBy(tt.rules, tt.card)
			require.NoError(t, err)
			assert.Equal(t, tt.days, got.Days)
			assert.Equal(t, tt.after, got.After)
			assert.Equal(t, tt.own, got.Card)
			assert.Equal(t, tt.words, got.Words)
		})
	}
	_, err := UseBy(US, -1)
	assert.Error(t, err)
	// US FDA Food Code 3-501.17, read in a text that quotes it: made 15 October, last day of use 21 October.
	u, err := UseBy(US, 0)
	require.NoError(t, err)
	assert.Equal(t, 21, time.Date(2026, 10, 15, 0, 0, 0, 0, time.UTC).AddDate(0, 0, u.After).Day())
}
