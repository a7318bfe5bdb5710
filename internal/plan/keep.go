package plan

import (
	"math"

	"hobside/internal/card"
	"hobside/internal/document"
)

// Waiting that no card bounds, in minutes.
const (
	// straightOn is how long a pan may stand before "straight on" is no longer
	// true: the time to put down one thing and take up the next. Common practice,
	// no source.
	straightOn = 5
	// plated is how long a finished plate may wait at the pass.
	plated     = 5
	roomKeeps  = 2 * 60
	coldKeeps  = 24 * 60 // of a chilled thing whose card says nothing at all
	forEver    = math.MaxInt32
	anHour     = 60
	aDay       = 24 * 60
	bySeconds  = 60
	heldAtHeat = "straight on"
)

// keeping is how long the result of a step may wait for the step that takes it
// up: as the step says, else as the card says for its last steps, else the
// usual, which is marked as assumed.
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
	cold := false
	for _, q := range s.Equipment {
		if b.heat(q.Name) {
			return straightOn, heldAtHeat, true
		}
		cold = cold || chills(q.Name)
	}
	if !cold {
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

// longest is the longest of several keeping times, in whole minutes.
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

func chills(equipment string) bool {
	switch equipment {
	case "fridge", "freezer", "blast chiller", "ice bath":
		return true
	}
	return false
}

// planned is the length of a time that varies, for the plan: nearer its longer
// end, so that the usual slip costs nothing. Free is how much longer it may
// go on without harm, for a time that is the cook's to choose.
func planned(d document.Duration, overHeat bool) (seconds, free int) {
	if !overHeat && (d.Form == document.Range || d.Form == document.Overnight) {
		return d.Low, d.High - d.Low // "4–12 h" in the fridge: any of them will do
	}
	return d.Low + (d.High-d.Low)*3/4, 0
}

// minutes rounds a time up to what the plan counts in.
func minutes(seconds int) int { return (seconds + bySeconds - 1) / bySeconds }
