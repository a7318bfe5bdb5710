package document

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The expected values were computed with the datetime module of Python 3.11:
// a + timedelta(minutes=m), strftime("%A"), and the difference of the dates.
func TestWhenFollowsTheGregorianCalendar(t *testing.T) {
	for _, tt := range []struct {
		from    string
		minutes int
		want    string
		weekday time.Weekday
		days    int
	}{
		{"2027-06-12 19:30", -150, "2027-06-12T17:00", time.Saturday, 0},
		{"2027-12-31 23:45", 30, "2028-01-01T00:15", time.Saturday, 1},
		{"2028-02-28 12:00", 1440, "2028-02-29T12:00", time.Tuesday, 1},
		{"2028-02-29 00:00", -1, "2028-02-28T23:59", time.Monday, -1},
		{"2027-02-28 12:00", 1440, "2027-03-01T12:00", time.Monday, 1},
		{"2100-02-28 23:59", 1, "2100-03-01T00:00", time.Monday, 1},
		{"2000-02-28 23:59", 1, "2000-02-29T00:00", time.Tuesday, 1},
		{"2027-03-01 00:00", -1440, "2027-02-28T00:00", time.Sunday, -1},
		{"2027-06-12 19:30", -3000000, "2021-09-28T11:30", time.Tuesday, -2083},
		{"1900-01-01 00:00", 3000000, "1905-09-15T08:00", time.Friday, 2083},
	} {
		from, what := ParseWhen(tt.from)
		require.Empty(t, what, tt.from)
		got := from.Add(tt.minutes)
		assert.Equal(t, tt.want, got.String(), "%s and %d min", tt.from, tt.minutes)
		assert.Equal(t, tt.weekday, got.Weekday(), tt.want)
		assert.Equal(t, tt.days, got.DaysSince(from), "days from %s to %s", tt.from, tt.want)
		assert.Equal(t, tt.minutes, got.Sub(from))
	}
}

// TestWhenIsReadAsItIsWritten holds String to ParseWhen, and days to the
// calendar: as many midnights lie between two times as DaysSince says.
func TestWhenIsReadAsItIsWritten(t *testing.T) {
	draw := func(t *rapid.T, name string) When {
		return whenOf(rapid.IntRange(2, 9998).Draw(t, name+" year"), 1, rapid.IntRange(1, 366).Draw(t, name+" day"),
			rapid.IntRange(0, 23).Draw(t, name+" hour"), rapid.IntRange(0, 59).Draw(t, name+" minute"))
	}
	rapid.Check(t, func(t *rapid.T) {
		w := draw(t, "w")
		back, what := ParseWhen(w.String())
		require.Empty(t, what, w.String())
		require.Equal(t, w, back)

		v := draw(t, "v")
		days := w.DaysSince(v)
		midnight := v.Add(days*24*60 - v.Minutes())
		require.Equal(t, 0, midnight.Minutes())
		require.GreaterOrEqual(t, w.Sub(midnight), 0)
		require.Less(t, w.Sub(midnight), 24*60, "%s is on the day that begins at %s", w, midnight)
	})
}

func TestTimeWithoutDateGetsNoDate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes, more := rapid.IntRange(0, 1439).Draw(t, "minutes"), rapid.IntRange(-3_000_000, 3_000_000).Draw(t, "more")
		w := NewTimeOfDay(minutes).Add(more)
		require.False(t, w.HasDate())
		require.False(t, w.IsZero())
		require.Equal(t, ((minutes+more)%1440+1440)%1440, w.Minutes())
		require.Equal(t, w.Clock(), w.String())
		require.Zero(t, w.DaysSince(whenOf(2027, 6, 12, 0, 0)))
	})
	midnight, what := ParseWhen("00:00")
	require.Empty(t, what)
	assert.False(t, midnight.IsZero(), "midnight is a time like any other")
	assert.Equal(t, "00:00", midnight.String())
	assert.Equal(t, "", When{}.String())
	assert.False(t, When{}.HasDate())
}

func TestParseWhen(t *testing.T) {
	for in, want := range map[string]string{
		"2027-06-12 19:30":             "2027-06-12T19:30",
		"2027-06-12T19:30":             "2027-06-12T19:30",
		"12 June 2027, 19:30":          "2027-06-12T19:30",
		"19:30 on 12 june 2027":        "2027-06-12T19:30",
		"Saturday 12 June 2027 19:30":  "2027-06-12T19:30",
		"Sat 12 June 2027 at 9:05":     "2027-06-12T09:05",
		"19:30":                        "19:30",
		"29 February 2028 08:00":       "2028-02-29T08:00",
		"12 June 2027":                 "",
		"2027-06-12":                   "",
		"":                             "",
		"2027-02-30 19:30":             "",
		"2027-02-29 19:30":             "",
		"2100-02-29 19:30":             "",
		"31 November 2027 19:30":       "",
		"12 Juno 2027 19:30":           "",
		"12 June 27 19:30":             "",
		"0000-06-12 19:30":             "",
		"tomorrow 19:30":               "",
		"2027-06-12 24:00":             "",
		"2027-06-12 19.30":             "",
		"Thursday 12 June 2027, 19:30": "",
	} {
		w, what := ParseWhen(in)
		assert.Equal(t, want, w.String(), in)
		assert.Equal(t, want == "", what != "", in)
	}
}

func TestParseDate(t *testing.T) {
	for in, ok := range map[string]bool{
		"2027-06-12": true, "2028-02-29": true, "2000-02-29": true, "0001-01-02": true,
		"2027-02-29": false, "2100-02-29": false, "2027-13-01": false, "2027-00-01": false, "2027-06-31": false, "2027-06-00": false,
		"2027-6-12": false, "27-06-12": false, "2027-06-1x": false, "2027/06/12": false, "12027-06-1": false, "": false, "2027-06-12 ": false, "0000-01-01": false,
	} {
		w, got := ParseDate(in)
		if assert.Equal(t, ok, got, "%q", in) && ok {
			assert.Equal(t, in+"T00:00", w.String())
		}
	}
}

func TestParseClock(t *testing.T) {
	for in, want := range map[string]int{
		"00:00": 0, "0:05": 5, "9:05": 545, "09:05": 545, "23:59": 1439, "24:00": 1440, " 19:30 ": 1170,
		"24:01": -1, "25:00": -1, "19:60": -1, "19:3": -1, "19:030": -1, "+9:30": -1, "-1:30": -1, "19": -1, "": -1, ":30": -1, "19:30:00": -1, "1a:30": -1,
	} {
		got, ok := ParseClock(in)
		if assert.Equal(t, want >= 0, ok, "%q", in) && ok {
			assert.Equal(t, want, got, "%q", in)
		}
	}
}

// whenOf returns a date and time; values out of range are normalized.
func whenOf(year int, month time.Month, day, hour, minute int) When {
	return When{time.Date(year, month, day, hour, minute, 0, 0, time.UTC)}
}
