package monitor

import (
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/safety"
)

const (
	aDay   = 86_400     // seconds
	aDayMs = 86_400_000 // milliseconds
)

// useBy returns the last day of use of what is kept cold, and whose word it is:
// the rules' count of days, or the card's own where that is shorter. Frozen and
// dry food has the card's word only. Made is in Unix milliseconds, 0 while the
// food is not made. The day is "" where there is no number.
func (r *Reader) useBy(rules safety.Rules, keep []card.Keep, made int64) (use, basis string) {
	days, place := 0, ""
	for _, k := range keep {
		if place == "" || k.Place == "chilled" {
			place, days = k.Place, k.Seconds/aDay+1 // the day it was made is day 1
		}
	}
	if place != "" && place != "chilled" {
		return r.cardsUse(days, place, made)
	}
	u, err := safety.UseBy(rules, days)
	if err != nil {
		return "", err.Error()
	}
	if u.Days == 0 {
		return "", u.Words
	}
	_, basis, _ = strings.Cut(u.Words, "among them: ")
	if u.Assumed != "" {
		basis += "; " + u.Assumed
	}
	switch {
	case made > 0:
		return r.day(made + int64(u.After)*aDayMs), basis
	case u.Days == 1:
		return "the day it is made", basis
	}
	return "within " + strconv.Itoa(u.Days) + " days, the day it is made among them", basis
}

// cardsUse returns the last day of use by the card alone.
func (r *Reader) cardsUse(days int, place string, made int64) (use, basis string) {
	if place == "room" {
		place = "at room temperature"
	}
	basis = "kept " + place + ": the card's own; no count of days of the rules is for that"
	switch {
	case made > 0:
		return r.day(made + int64(days-1)*aDayMs), basis
	case days == 1:
		return "the same day", basis
	}
	return "within " + safety.Span(float64(days-1)*1440), basis
}
