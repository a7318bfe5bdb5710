package dinner

import "cmp"

// MaxAhead is how far, in milliseconds, a stamp may lie ahead of the server's
// clock. Phones that set their clocks from the network are within seconds of
// each other; five minutes leaves room for one that doesn't.
const MaxAhead = 5 * 60 * 1000

// maxCount keeps a stamp's counter well inside what JSON numbers can carry.
const maxCount = 1<<31 - 1

// Compare orders stamps: −1 when s is earlier than t, 0 when they are the same,
// +1 when s is later.
func (s Stamp) Compare(t Stamp) int {
	return cmp.Or(cmp.Compare(s.Wall, t.Wall), cmp.Compare(s.Count, t.Count))
}

// Next returns the stamp for a new event, later than last whatever the clock
// says. Now is the device's own clock in Unix milliseconds; last is the latest
// stamp this device has made or seen. It is the send rule of a hybrid logical
// clock (Kulkarni and others, "Logical Physical Clocks", OPODIS 2014, Fig. 5).
func Next(now int64, last Stamp) Stamp {
	if now > last.Wall {
		return Stamp{Wall: now}
	}
	if last.Count >= maxCount {
		return Stamp{Wall: last.Wall + 1} // a forged count must not wrap round
	}
	return Stamp{Wall: last.Wall, Count: last.Count + 1}
}

// Final returns the stamp that the server stores. One more than [MaxAhead] ahead
// of now is replaced by the next stamp after newest, the latest stored so far, so
// a phone whose clock is a year ahead neither wins for ever nor loses what it
// ticked. Any other stamp, however old, stays as it is.
//
// A server whose own clock was set back restamps what now looks ahead of it;
// because the new stamp also lies after newest, later ticks still win over
// earlier ones.
func Final(s Stamp, now int64, newest Stamp) (final Stamp, changed bool) {
	if s.Wall-now <= MaxAhead {
		return s, false
	}
	return Next(now, newest), true
}
