package dinner

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Days and times by the Gregorian calendar: 2100 is no leap year, 2000 was one.
func TestWallTimesExist(t *testing.T) {
	for _, tt := range []struct {
		in string
		ok bool
	}{
		{"2027-06-12T19:30", true},
		{"2000-02-29T00:00", true},
		{"2028-02-29T23:59", true},
		{"2027-02-29T10:00", false},
		{"2100-02-29T10:00", false},
		{"2027-04-31T10:00", false},
		{"2027-13-01T10:00", false},
		{"2027-00-10T10:00", false},
		{"2027-06-00T10:00", false},
		{"2027-06-12T24:00", false},
		{"2027-06-12T19:60", false},
		{"2027-06-12 19:30", false},
		{"2027-06-12T9:30", false},
		{"2027-6-12T19:30", false},
		{"27-06-12T19:30", false},
		{"2027-06-12T19:30:00", false},
		{"2027-06-12T19:30Z", false},
		{"", false},
	} {
		assert.Equal(t, tt.ok, isWall(tt.in), "%q", tt.in)
	}
}
