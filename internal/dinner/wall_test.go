package dinner

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The rows that are no days are by the Gregorian calendar: a leap year is
// divisible by 4, and by 400 when it is by 100.
func TestWallTimes(t *testing.T) {
	for s, want := range map[string]bool{
		"2026-03-14T19:30": true, "2028-02-29T00:00": true, "2000-02-29T23:59": true, "9999-12-31T23:59": true, "0001-01-01T00:00": true,
		"2027-02-29T19:30": false, "2100-02-29T19:30": false, "2026-04-31T19:30": false, "2026-13-01T19:30": false, "2026-00-01T19:30": false,
		"2026-03-00T19:30": false, "2026-03-14T24:00": false, "2026-03-14T19:60": false, "0000-03-14T19:30": false,
		"2026-03-14T9:30": false, "2026-3-14T19:30": false, "2026-03-14 19:30": false, "2026-03-14T19:30Z": false, "2026-03-14T19:30:00": false,
		"2026-03-14": false, "19:30": false, "": false, "12026-03-14T19:30": false, "-026-03-14T19:30": false, "2026-03-14T1é:30": false,
	} {
		assert.Equal(t, want, isWall(s), "%q", s)
	}
}

// TestWallTimesAreReadInOneForm: of sixteen characters that differ from a wall
// time by one, none is taken unless it is a wall time itself.
func TestWallTimesAreReadInOneForm(t *testing.T) {
	days := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, most int) int { return rapid.IntRange(0, most).Draw(t, name) }
		year, month, day, hour, minute := draw("year", 9999), draw("month", 13), draw("day", 32), draw("hour", 25), draw("minute", 61)
		leap := year%4 == 0 && (year%100 != 0 || year%400 == 0)
		exists := year > 0 && month >= 1 && month <= 12 && day >= 1 && hour <= 23 && minute <= 59 &&
			(day <= days[max(month, 1)-1] || month == 2 && leap && day == 29)
		s := fmt.Sprintf("%04d-%02d-%02dT%02d:%02d", year, month, day, hour, minute)
		assert.Equal(t, exists, isWall(s), "%q", s)
		at := draw("at", len(s)-1)
		slip := s[:at] + rapid.SampledFrom([]string{"", "00", "/", "x", " "}).Draw(t, "slip") + s[at+1:]
		assert.False(t, isWall(slip), "%q", slip)
	})
}
