package main

import (
	"fmt"
	"time"

	"hobside/internal/engine"
)

const wallForm = "2006-01-02T15:04"

// zoneOf returns the time zone of an IANA name, this machine's for "".
func zoneOf(name string) (*time.Location, error) {
	if name == "" {
		return time.Local, nil
	}
	loc, err := time.LoadLocation(name)
	if err != nil {
		return nil, fmt.Errorf("the kitchen's zone %q is not known here: write it like \"zone: Europe/London\"", name)
	}
	return loc, nil
}

// clockChanges returns when the clocks change, to the minute, from 45 days before
// a time to 4 days after it.
func clockChanges(around time.Time, loc *time.Location) []engine.ClockChangeView {
	offset := func(t time.Time) int {
		_, seconds := t.In(loc).Zone()
		return seconds
	}
	var out []engine.ClockChangeView
	const day = 24 * time.Hour
	for from := around.Add(-45 * day); from.Before(around.Add(4 * day)); from = from.Add(day) {
		before, after := from, from.Add(day)
		was, is := offset(before), offset(after)
		if was == is {
			continue
		}
		for after.Sub(before) > time.Minute {
			middle := before.Add(after.Sub(before) / 2)
			if offset(middle) == was {
				before = middle
			} else {
				after = middle
			}
		}
		change := after.Truncate(time.Minute)
		if offset(change) == was {
			change = change.Add(time.Minute)
		}
		// The reading of the clock before the change.
		wall := change.UTC().Add(time.Duration(was) * time.Second)
		out = append(out, engine.ClockChangeView{Wall: wall.Format(wallForm), By: (is - was) / 60})
	}
	return out
}
