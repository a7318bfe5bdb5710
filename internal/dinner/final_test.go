package dinner

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFinal(t *testing.T) {
	const now = 1_000_000_000_000
	const year = 365 * 24 * 3600 * 1000
	for _, tt := range []struct {
		name      string
		s, newest Stamp
		want      Stamp
		changed   bool
	}{
		{"of now", Stamp{now, 3}, Stamp{now - 9, 0}, Stamp{now, 3}, false},
		{"of this morning", Stamp{now - 8*3600*1000, 0}, Stamp{now - 9, 0}, Stamp{now - 8*3600*1000, 0}, false},
		{"of years ago", Stamp{now - 9*year, 1}, Stamp{now - 9, 0}, Stamp{now - 9*year, 1}, false},
		{"of 1970", Stamp{0, 0}, Stamp{now - 9, 0}, Stamp{0, 0}, false},
		{"five minutes ahead", Stamp{now + 300_000, 7}, Stamp{now - 9, 0}, Stamp{now + 300_000, 7}, false},
		{"a millisecond more", Stamp{now + 300_001, 7}, Stamp{now - 9, 0}, Stamp{now, 0}, true},
		{"a year ahead", Stamp{now + year, 7}, Stamp{now - 9, 0}, Stamp{now, 0}, true},
		{"a year ahead, after one of this millisecond", Stamp{now + year, 7}, Stamp{now, 4}, Stamp{now, 5}, true},
		{"a year ahead, after one that is a little ahead", Stamp{now + year, 7}, Stamp{now + 200_000, 4}, Stamp{now + 200_000, 5}, true},
		{"the server's clock was set back a year", Stamp{now + year, 0}, Stamp{now + year, 4}, Stamp{now + year, 5}, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, changed := Final(tt.s, now, tt.newest)
			assert.Equal(t, tt.want, got)
			assert.Equal(t, tt.changed, changed)
		})
	}
}

// One stamp after the other, through any server clock: those that are restamped
// follow all before them, none ends more than five minutes ahead of every
// reading the server has had, and what was final stays so.
func TestFinalKeepsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var newest Stamp
		latest := int64(0)
		for range rapid.IntRange(1, 30).Draw(t, "stamps") {
			now := rapid.Int64Range(1, 4*MaxAhead).Draw(t, "server")
			latest = max(latest, now)
			s := Stamp{Wall: rapid.Int64Range(0, 9*MaxAhead).Draw(t, "wall"), Count: rapid.IntRange(0, 3).Draw(t, "count")}
			got, changed := Final(s, now, newest)
			if s.Wall <= now+MaxAhead {
				require.Equal(t, s, got, "an old stamp is always taken")
				require.False(t, changed)
			} else {
				require.Equal(t, 1, got.Compare(newest), "a new stamp follows what is final")
				require.GreaterOrEqual(t, got.Wall, now)
				require.True(t, changed)
			}
			require.LessOrEqual(t, got.Wall, latest+MaxAhead)
			again, changed := Final(got, latest, newest)
			require.Equal(t, got, again, "final is final")
			require.False(t, changed)
			if got.Compare(newest) > 0 {
				newest = got
			}
		}
	})
}

// The ticks of a phone whose clock is far ahead are pushed in the order in which
// they were made. They keep that order, come after everything before them, and
// before everything after them.
func TestFinalKeepsTheOrderOfAFastPhone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := int64(1_000_000_000_000)
		fast := rapid.Int64Range(MaxAhead+1, 1<<45).Draw(t, "ahead by")
		var phone, other deviceClock
		before := other.next(now)
		newest := before
		last := before
		for range rapid.IntRange(1, 20).Draw(t, "ticks") {
			now += rapid.Int64Range(0, 3).Draw(t, "passes")
			got, changed := Final(phone.next(now+fast), now, newest)
			require.True(t, changed)
			require.Equal(t, 1, got.Compare(last))
			last, newest = got, got
		}
		other.observe(last)
		require.Equal(t, 1, other.next(now).Compare(last), "whoever has seen them comes after them")
	})
}
