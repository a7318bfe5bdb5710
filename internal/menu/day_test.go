package menu

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The oracle is package time, which the phone does without.
func TestTheCalendarIsThatOfPackageTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := time.Date(rapid.IntRange(100, 9000).Draw(t, "year"), 1, rapid.IntRange(1, 366).Draw(t, "day"),
			rapid.IntRange(0, 23).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute"), 0, 0, time.UTC)
		w := When{at.Year(), int(at.Month()), at.Day(), at.Hour(), at.Minute()}
		require.Equal(t, at.Weekday(), w.weekday())
		minutes := rapid.IntRange(-3_000_000, 3_000_000).Draw(t, "minutes")
		then := at.Add(time.Duration(minutes) * time.Minute)
		require.Equal(t, then.Format("2006-01-02T15:04"), w.Later(minutes).String())
		begin := time.Date(then.Year(), then.Month(), then.Day(), 0, 0, 0, 0, time.UTC).Sub(time.Date(at.Year(), at.Month(), at.Day(), 0, 0, 0, 0, time.UTC))
		require.Equal(t, int(begin/(24*time.Hour)), w.Later(minutes).day()-w.day())
	})
}

func TestDatesAreThoseOfPackageTime(t *testing.T) {
	for _, in := range []string{"2027-06-12", "2028-02-29", "2027-02-29", "2100-02-29", "2000-02-29", "2027-13-01", "2027-00-01", "2027-06-31", "2027-06-00",
		"2027-6-12", "27-06-12", "2027-06-1x", "2027/06/12", "12027-06-1", "", "2027-06-12 "} {
		want, err := time.Parse("2006-01-02", in)
		got, ok := parseISO(in)
		if assert.Equal(t, err == nil, ok, "%q", in) && ok {
			assert.Equal(t, When{Year: want.Year(), Month: int(want.Month()), Day: want.Day()}, got, "%q", in)
		}
	}
	for _, in := range [][3]string{{"12", "June", "2027"}, {"1", "may", "2027"}, {"31", "November", "2027"}, {"29", "FEBRUARY", "2028"}, {"012", "June", "2027"},
		{"12", "Juno", "2027"}, {"12", "Jun", "2027"}, {"x", "June", "2027"}, {"", "June", "2027"}, {"12", "June", "27"}} {
		want, err := time.Parse("2 January 2006", in[0]+" "+in[1]+" "+in[2])
		got, ok := parseLong(in[0], in[1], in[2])
		if assert.Equal(t, err == nil, ok, "%q", in) && ok {
			assert.Equal(t, When{Year: want.Year(), Month: int(want.Month()), Day: want.Day()}, got, "%q", in)
		}
	}
}

func TestATimeWithoutADateStaysWithoutOne(t *testing.T) {
	assert.Equal(t, "00:15", When{Hour: 23, Minute: 45}.Later(30).String())
	assert.Equal(t, "23:45", When{Minute: 15}.Later(-30).String())
}

// A menu whose date is not set yet has its hours all the same.
func TestNoDateIsNoDay(t *testing.T) {
	for _, w := range []When{{}, {Hour: 19}, {Year: 2027}, {Year: 2027, Month: 13, Day: 1}, {Year: 2027, Month: 2, Day: 30}} {
		assert.Zero(t, w.day(), w)
		assert.NotPanics(t, func() { w.Later(5000); Shift{ByWeekday: true}.Day(w) }, w)
	}
}
