package plan

import (
	"math"

	"hobside/internal/card"
	"hobside/internal/document"
)

// Keeping times where the card gives none, in minutes.
const (
	// straightOn is what "use at once" allows: the time to put one thing down and
	// take the next. Common practice, no source.
	straightOn = 5
	// plated is how long a finished plate may wait at the pass. Common practice, no
	// source.
	plated     = 5
	roomKeeps  = 2 * 60
	coldKeeps  = 24 * 60 // of a chilled result whose card says nothing
	forEver    = math.MaxInt32
	anHour     = 60
	aDay       = 24 * 60
	bySeconds  = 60
	heldAtHeat = "straight on"
)

// keeping returns how long the result of a step may wait, in minutes, and where: as
// the step says, else for a last step as the card says, else the default, which is
// marked as assumed.
func (b *builder) keeping(c *card.Card, step int, last bool) (minutes int, place string, assumed bool) {
	s := &c.Steps[step]
	if m, where, ok := longest(s.Keep); ok {
		return m, where, false
	}
	if last {
		if m, where, ok := longest(c.Keeps); ok {
			return m, where, false
		}
	}
	if s.LeftWarm() {
		return straightOn, heldAtHeat, true // not cold yet: the next step goes on with it
	}
	cold := false
	for _, q := range s.Equipment {
		if b.heat(q.Name) {
			return straightOn, heldAtHeat, true
		}
		cold = cold || chills(q.Name)
	}
	switch {
	case !cold && (goesOn(s) != "" || b.perishable(c, step)):
		return straightOn, heldAtHeat, true
	case !cold:
		return roomKeeps, "room", true
	}
	var kept []card.Keep
	for _, k := range c.Keeps {
		if k.Place == "chilled" || k.Place == "frozen" {
			kept = append(kept, k)
		}
	}
	if m, where, ok := longest(kept); ok {
		return m, where, true
	}
	return coldKeeps, "chilled", true
}

// longest returns the longest of several keeping times, in whole minutes; ok is
// false when there is none.
func longest(keeps []card.Keep) (minutes int, place string, ok bool) {
	for _, k := range keeps {
		m := k.Seconds / bySeconds
		if k.Place == heldAtHeat {
			m = straightOn
		}
		if !ok || m > minutes {
			minutes, place, ok = m, k.Place, true
		}
	}
	return minutes, place, ok
}

// chills reports whether equipment is cold.
func chills(equipment string) bool {
	switch equipment {
	case "fridge", "freezer", "blast chiller", "ice bath":
		return true
	}
	return false
}

// planned returns the length to plan for a duration, in seconds. For a range it is
// three quarters of the way up, so that a usual delay costs nothing; where any time
// of the range will do ("4–12 h" in the fridge) it is the lower end, and free is
// how much longer it may take.
func planned(d document.Duration, overHeat bool) (seconds, free int) {
	if !overHeat && (d.Form == document.Range || d.Form == document.Overnight) {
		return d.Low, d.High - d.Low
	}
	return d.Low + (d.High-d.Low)*3/4, 0
}

// minutes converts seconds to minutes, rounded up.
func minutes(seconds int) int { return (seconds + bySeconds - 1) / bySeconds }
