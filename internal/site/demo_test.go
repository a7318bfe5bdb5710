package site

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/content"
	"hobside/internal/folder"
)

func TestDemoWithoutItsMenuIsAnError(t *testing.T) {
	_, err := openDemo([]folder.File{{Name: "b.md", Text: "b"}}, "", time.Now())
	assert.ErrorContains(t, err, "boathouse-supper.md is not there")
}

// TestDemoIsOnTheComingSaturday opens the demo dinner by a model clock. The weekdays are
// those of the calendar of 2026 and 2027 as `cal` prints it.
func TestDemoIsOnTheComingSaturday(t *testing.T) {
	files, err := folder.Cards(content.Files)
	require.NoError(t, err)
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	for _, tt := range []struct {
		name, on string
		now      time.Time
		want     string
	}{
		{"on a Sunday", "", time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC), "2026-12-05T19:30"},
		{"on the last of Wednesday", "", time.Date(2026, 12, 2, 23, 59, 0, 0, time.UTC), "2026-12-05T19:30"},
		{"as Thursday begins", "", time.Date(2026, 12, 3, 0, 0, 0, 0, time.UTC), "2026-12-05T19:30"},
		{"on a Thursday, when the kitchen may be open", "", time.Date(2026, 12, 3, 0, 1, 0, 0, time.UTC), "2026-12-12T19:30"},
		{"on a Saturday morning", "", time.Date(2026, 12, 5, 8, 0, 0, 0, time.UTC), "2026-12-12T19:30"},
		{"over the end of the year", "", time.Date(2026, 12, 31, 18, 0, 0, 0, time.UTC), "2027-01-09T19:30"},
		{"over the night when the clocks change", "", time.Date(2027, 3, 25, 0, 0, 0, 0, london), "2027-03-27T19:30"},
		{"on a day that is named", "2027-06-12", time.Date(2026, 12, 5, 8, 0, 0, 0, time.UTC), "2027-06-12T19:30"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ev, err := openDemo(files, tt.on, tt.now)
			require.NoError(t, err)
			assert.Equal(t, tt.want, ev.Open.Serve)
		})
	}
}

// TestComingSaturdayIsFarEnough checks for any moment: a Saturday, at least two days ahead, and
// no earlier Saturday would do.
func TestComingSaturdayIsFarEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := time.Unix(rapid.Int64Range(1_700_000_000, 2_500_000_000).Draw(t, "now"), 0).UTC()
		day, err := time.Parse(time.DateOnly, comingSaturday(now))
		require.NoError(t, err)
		assert.Equal(t, time.Saturday, day.Weekday())
		ahead := day.Sub(now)
		assert.GreaterOrEqual(t, ahead, 48*time.Hour)
		assert.Less(t, ahead, 9*24*time.Hour)
	})
}
