package plan

import (
	"testing"
	"time"
	_ "time/tzdata" // the test asks the standard library, on any machine

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

func when(text string) document.When {
	w, what := document.ParseWhen(text)
	if what != "" {
		panic(what)
	}
	return w
}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

func inZone(w document.When, z *time.Location) time.Time {
	year, month, day := w.Date()
	return time.Date(year, month, day, 0, w.Minutes(), 0, 0, z)
}

// changesOf lists the changes of a zone's clocks in the weeks around a dinner, as
// a caller does: by looking at each minute's offset.
func changesOf(serve document.When, z *time.Location) []ClockChange {
	var out []ClockChange
	at := inZone(serve, z)
	_, before := at.AddDate(0, 0, -21).Zone()
	for t := at.AddDate(0, 0, -21); t.Before(at.AddDate(0, 0, 7)); t = t.Add(time.Minute) {
		_, now := t.Zone()
		if now != before {
			old := t.UTC().Add(time.Duration(before) * time.Second)
			out = append(out, ClockChange{Wall: when(old.Format("2006-01-02 15:04")), By: (now - before) / 60})
		}
		before = now
	}
	return out
}

// TestHoursAcrossClockChanges compares with the standard library's zones.
// The nights are those of the zones' own rules: in the European Union and the
// United Kingdom the last Sundays of March and October at 01:00 UTC, in the
// United States the second Sunday of March and the first of November at 02:00.
func TestHoursAcrossClockChanges(t *testing.T) {
	for _, tt := range []struct {
		name, zone, serve string
		by                []int // of the changes around
	}{
		{"served before it", "Europe/London", "2027-03-27 19:30", []int{60}},
		{"served in the night of it", "Europe/London", "2027-03-28 00:30", []int{60}},
		{"served after it", "Europe/London", "2027-03-28 19:30", []int{60}},
		{"served two days after", "Europe/London", "2027-03-30 12:00", []int{60}},
		{"back, before", "Europe/London", "2027-10-30 19:30", []int{-60}},
		{"back, after", "Europe/London", "2027-10-31 19:30", []int{-60}},
		{"back, the day after", "Europe/London", "2027-11-01 19:30", []int{-60}},
		{"New York, before", "America/New_York", "2027-03-13 18:00", []int{60}},
		{"New York, after", "America/New_York", "2027-03-14 18:00", []int{60}},
		{"New York, back, before", "America/New_York", "2027-11-06 18:00", []int{-60}},
		{"New York, back, after", "America/New_York", "2027-11-07 18:00", []int{-60}},
		{"no change near", "Europe/London", "2027-06-12 19:30", nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			z, serve := zone(t, tt.zone), when(tt.serve)
			a := axis{serve, changesOf(serve, z)}
			var by []int
			for _, s := range a.changes {
				by = append(by, s.By)
			}
			require.Equal(t, tt.by, by)
			for m := -14 * 24 * 60; m < 3*24*60; m += 7 {
				want := inZone(serve, z).Add(time.Duration(m) * time.Minute).Format("2006-01-02 15:04")
				require.Equal(t, when(want), a.reading(m), "%d minutes after", m)
			}
			k := &kitchen.Kitchen{Hours: []kitchen.Shift{
				{Days: -3, From: 9 * 60, To: 13 * 60}, {Days: -2, From: 20 * 60, To: 28 * 60},
				{Days: -1, From: 17 * 60, To: 27*60 + 30}, {Days: 0, From: 5 * 60, To: 24*60 + 30}, {Days: 1, From: 6 * 60, To: 8 * 60},
			}}
			var want []shift
			for _, h := range k.Hours {
				real := func(minute int) int {
					// The wall's clock at that reading, by the calendar's own arithmetic.
					year, month, day := serve.Date()
					return int(time.Date(year, month, day+h.Days, 0, minute, 0, 0, z).Sub(inZone(serve, z)) / time.Minute)
				}
				want = append(want, shift{real(h.From), real(h.To)})
			}
			assert.Equal(t, want, a.open(k))
		})
	}
}

// TestReadingRoundTrip: at and reading undo each other, but for readings that
// a change of the clocks skips or gives twice.
func TestReadingRoundTrip(t *testing.T) {
	zones := []*time.Location{zone(t, "Europe/London"), zone(t, "America/New_York"), zone(t, "Australia/Lord_Howe"), time.UTC}
	type place struct {
		serve document.When
		zone  int
	}
	known := map[place][]ClockChange{}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(zones)-1).Draw(t, "zone")
		z := zones[i]
		day := rapid.SampledFrom([]string{"2027-03-14", "2027-03-28", "2027-04-04", "2027-10-03", "2027-10-31", "2027-11-07", "2027-07-01"}).Draw(t, "change")
		serve := when(day + rapid.SampledFrom([]string{" 00:00", " 04:30", " 12:00", " 19:30", " 23:59"}).Draw(t, "serve")).Add(24 * 60 * rapid.IntRange(-3, 3).Draw(t, "days"))
		key := place{serve, i}
		if _, ok := known[key]; !ok {
			known[key] = changesOf(serve, z)
		}
		a := axis{serve, known[key]}
		w := rapid.IntRange(-10*24*60, 3*24*60).Draw(t, "wall")
		if a.at(w+1) < a.at(w) {
			t.Fatalf("%v, served %v: the clock goes on from wall minute %d and the minutes go back", z, serve, w)
		}
		reading := serve.Add(w)
		at := inZone(reading, z)
		if got := when(at.Format("2006-01-02 15:04")); got != reading {
			return // skipped
		}
		for _, by := range []time.Duration{-time.Hour, -30 * time.Minute, 30 * time.Minute, time.Hour} {
			if at.Add(by).Format("2006-01-02 15:04") == at.Format("2006-01-02 15:04") {
				return // given twice
			}
		}
		if got := a.reading(a.at(w)); got != reading {
			t.Fatalf("%v, served %v: wall minute %d is %v, and reads %v", z, serve, w, reading, got)
		}
	})
}

// TestTouchingShiftsAreMerged: shifts that meet or overlap are one, and the order of
// the list does not matter.
func TestTouchingShiftsAreMerged(t *testing.T) {
	a := axis{serve: when("2027-06-12 19:30")}
	k := &kitchen.Kitchen{Hours: []kitchen.Shift{
		{Days: 0, From: 12 * 60, To: 24 * 60}, {Days: -1, From: 22 * 60, To: 26 * 60}, {Days: 0, From: 60, To: 12 * 60}, {Days: -3, From: 600, To: 600},
	}}
	assert.Equal(t, []shift{{-1290, 270}}, a.open(k))
}

// TestShiftEndingInSkippedHour: the kitchen that closes at half past one in
// the night without a half past one closes when the clocks change.
func TestShiftEndingInSkippedHour(t *testing.T) {
	for _, serve := range []string{"2027-03-27 19:30", "2027-03-28 12:00"} {
		a := axis{when(serve), changesOf(when(serve), zone(t, "Europe/London"))}
		midnight := inZone(when("2027-03-28 00:00"), zone(t, "Europe/London"))
		from := int(midnight.Sub(inZone(a.serve, zone(t, "Europe/London"))) / time.Minute)
		k := &kitchen.Kitchen{Hours: []kitchen.Shift{{Date: when("2027-03-28 00:00"), From: 0, To: 90}}}
		assert.Equal(t, []shift{{from, from + 60}}, a.open(k), serve)
	}
}
