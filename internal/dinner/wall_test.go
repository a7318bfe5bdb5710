package dinner

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The oracle is package time, which the phone does without.
func TestWallTimesAreThoseOfPackageTime(t *testing.T) {
	figures := func(t *rapid.T, name string, most int) string {
		n := rapid.IntRange(0, most).Draw(t, name)
		return string([]byte{byte('0' + n/10), byte('0' + n%10)})
	}
	rapid.Check(t, func(t *rapid.T) {
		s := figures(t, "century", 99) + figures(t, "year", 99) + "-" + figures(t, "month", 13) + "-" + figures(t, "day", 32) +
			"T" + figures(t, "hour", 25) + ":" + figures(t, "minute", 61)
		if rapid.Bool().Draw(t, "a slip") {
			at := rapid.IntRange(0, len(s)).Draw(t, "at")
			s = s[:at] + rapid.SampledFrom([]string{"", "0", "-", "T", ":", "x", "é"}).Draw(t, "slip") + s[min(at+1, len(s)):]
		}
		_, err := time.Parse(WallForm, s)
		require.Equal(t, err == nil && len(s) == len(WallForm), isWall(s), "%q", s)
	})
}
