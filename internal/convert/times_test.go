package convert

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
)

func TestStirringNowAndThenIsUnattended(t *testing.T) {
	for text, attended := range map[string]bool{
		"Simmer for 2 hours, stirring every 20 minutes.": false,
		"Simmer for 2 hours, stirring occasionally.":     false,
		"Simmer for 2 hours, stirring constantly.":       true,
	} {
		assert.Equal(t, attended, timesIn(text)[0].attended, text)
	}
}

// Of two times with "or" between them one will do: they are not added up.
func TestTimesWithOrBetweenAreOneTime(t *testing.T) {
	const hour = 3600
	for _, tt := range []struct {
		text      string
		low, high int
		form      document.Form
	}{
		{"Chill for at least 2 hrs or overnight.", 2 * hour, 2 * hour, document.AtLeast},
		{"Chill overnight or for at least 3 hours.", 3 * hour, 3 * hour, document.AtLeast},
		{"Chill for 2 hours, or even better overnight.", 2 * hour, 2 * hour, document.AtLeast},
		{"2 Stunden oder über Nacht kühlen.", 2 * hour, 2 * hour, document.AtLeast},
		{"Bake for 20 minutes or 25 minutes.", hour / 3, 25 * 60, document.Range},
		{"Über Nacht kühlen.", 8 * hour, 14 * hour, document.Overnight},
	} {
		got := timesIn(tt.text)
		require.Len(t, got, 1, tt.text)
		assert.Equal(t, []int{tt.low, tt.high}, []int{got[0].low, got[0].high}, tt.text)
		assert.Equal(t, tt.form, got[0].form, tt.text)
	}
	assert.Len(t, timesIn("Rest for 10 minutes, then bake for 20 minutes."), 2)
}
