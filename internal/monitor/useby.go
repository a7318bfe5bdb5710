package monitor

import (
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/safety"
)

const (
	aDay   = 86_400     // seconds
	aDayMs = 86_400_000 // milliseconds
)

// A date is until when something may be used.
type date struct {
	end   int64  // in Unix milliseconds, the last day or the last moment; 0: not made yet, or no number
	hours bool   // end is a moment; else its whole day counts
	use   string // for the label: "Tue 15 Jun 2027", "within 5 days, …"; "" where there is no number
	basis string // whose word it is
}

// before reports whether a date is earlier than another. A date without a number is never.
func (d date) before(other date) bool {
	return d.end > 0 && (other.end == 0 || d.end < other.end)
}

// A life is what the date of one thing follows from. Times are in Unix milliseconds, 0
// while it is not made.
type life struct {
	keep   card.Keep // the shortest of its keeping times
	said   bool      // keep counts
	ofStep bool      // keep is the last step's
	made   int64     // when its last step was done
	cooked int64     // when the count of the rules began: when it was cooked
	frozen int       // whole days since then that it lay in a freezer: the count stood still
}

// dateBy returns until when a thing may be used by its own card and the rules. The rules
// count the days of food that is kept cold, from the day it was cooked, without the days
// it was frozen. Frozen and dry food has the card's word only.
func (r *Reader) dateBy(rules safety.Rules, l life) date {
	if l.said && (l.keep.Place != "chilled" || l.keep.Seconds < aDay) {
		return r.dateByCard(l)
	}
	days := 0
	if l.said {
		days = l.keep.Seconds/aDay + 1 // the day it was made is day 1
	}
	u, err := safety.UseBy(rules, days)
	if err != nil {
		return date{basis: err.Error()}
	}
	if u.Days == 0 {
		return date{basis: u.Words}
	}
	basis := u.Basis
	if u.Assumed != "" {
		basis += "; " + u.Assumed
	}
	if u.Card && l.ofStep {
		basis = strings.Replace(basis, "the card's own", "the card's last step", 1)
	}
	switch {
	case l.made == 0 && u.Days == 1:
		return date{use: "the day it is made", basis: basis}
	case l.made == 0:
		return date{use: "by day " + strconv.Itoa(u.Days) + " (the day it is made is day 1)", basis: basis}
	}
	d := r.onDay(l.made+int64(u.After)*aDayMs, basis)
	if rule, err := safety.UseBy(rules, 0); err == nil && rule.Days > 0 {
		words := rule.Basis + ", counted from " + r.day(l.cooked)
		if l.frozen > 0 {
			words += "; the " + strconv.Itoa(l.frozen) + " days in the freezer do not count"
		}
		byRule := r.onDay(l.cooked+int64(rule.After+l.frozen)*aDayMs, words+"; "+rule.Assumed)
		if !u.Card && byRule.end != d.end || byRule.before(d) {
			d = byRule
		}
	}
	return d
}

// dateByCard returns until when a thing may be used by its card alone: what is frozen, dry
// or held hot, and what keeps for less than a day.
func (r *Reader) dateByCard(l life) date {
	place := map[string]string{"room": "at room temperature", "straight on": "for no time: it goes straight on"}[l.keep.Place]
	if place == "" {
		place = l.keep.Place
	}
	whose := "the card's own"
	if l.ofStep {
		whose = "the card's last step"
	}
	basis := "kept " + place + ": " + whose + "; no count of days of the rules is for that"
	if l.keep.Place == "chilled" {
		basis = whose
	}
	switch {
	case l.keep.Place == "straight on":
		return date{end: l.made, hours: true, use: "at once", basis: basis}
	case l.keep.Seconds < aDay && l.made == 0:
		return date{use: "within " + document.FormatSeconds(l.keep.Seconds), basis: basis}
	case l.keep.Seconds < aDay:
		end := l.made + int64(l.keep.Seconds)*1000
		return date{end: end, hours: true, use: r.day(end) + ", " + r.timeOfDay(end), basis: basis}
	case l.made == 0:
		return date{use: "within " + safety.Span(float64(l.keep.Seconds/aDay)*1440), basis: basis}
	}
	return r.onDay(l.made+int64(l.keep.Seconds/aDay)*aDayMs, basis)
}

// onDay returns the date of a last day of use.
func (r *Reader) onDay(at int64, basis string) date {
	return date{end: at, use: r.day(at), basis: basis}
}

// shortest returns the shorter of the keeping times of a card and of its last step that
// is not done at the pass; where nothing else says, that step's counts as well.
func shortest(c *card.Card, way int) (k card.Keep, said, ofStep bool) {
	k, said = coldest(c.Keeps)
	var last, pass *card.Step
	for i := range c.Steps {
		if s := &c.Steps[i]; s.In(way) {
			if s.Serve {
				pass = s
			} else {
				last = s
			}
		}
	}
	for _, s := range []*card.Step{last, pass} {
		if s == nil {
			continue
		}
		of, ok := coldest(s.Keep)
		if ok && (!said || s == last && of.Seconds < k.Seconds) {
			k, said, ofStep = of, true, true
		}
	}
	return k, said, ofStep
}

// coldest returns the keeping time that a label goes by: the chilled one, else the first.
func coldest(keeps []card.Keep) (k card.Keep, ok bool) {
	for _, of := range keeps {
		if !ok || of.Place == "chilled" {
			k, ok = of, true
		}
	}
	return k, ok
}
