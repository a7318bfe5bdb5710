package demand

import (
	"slices"
	"sort"
)

// A Fresh is a line of the order list as deliveries see it, in days before (negative) and
// after the day of serving.
type Fresh struct {
	Line  int // index in the order list
	By    int // the last day on which it can come and be there for its first use
	Keeps int // days that it keeps as bought; 0 where that is not known
	Last  int // the day of its last use
}

// earliest returns the first day on which the line can come and still be good at its last
// use. What keeps for longer than anybody plans may come on any day.
func (f Fresh) earliest() int {
	if f.Keeps <= 0 {
		return f.By - longest
	}
	return max(f.Last-f.Keeps, f.By-longest)
}

// longest is for how many days before its first use something is bought at most: our own
// working rule.
const longest = 7

// A Delivery is what comes on one day.
type Delivery struct {
	Day   int // after the day of serving; negative: before it
	Lines []int
	Stale []int // of Lines: those that do not keep until their last use
}

// Deliveries groups lines into as few days as their keeping allows, the latest days that
// do. May reports whether something can be delivered on a day; nil means every day. A
// line that no day suits comes on the last possible day before it is used, and is marked.
func Deliveries(lines []Fresh, may func(day int) bool) []Delivery {
	todo := slices.Clone(lines)
	sort.SliceStable(todo, func(i, j int) bool { return todo[i].By < todo[j].By })
	var out []Delivery
	for len(todo) > 0 {
		day, found := latest(todo[0].By, todo[0].By-4*longest, may)
		if !found {
			day = todo[0].By
		}
		d := Delivery{Day: day}
		var rest []Fresh
		for i, f := range todo {
			good := f.earliest() <= day && day <= f.By
			if !good && i > 0 {
				rest = append(rest, f)
				continue
			}
			d.Lines = append(d.Lines, f.Line)
			if !good || !found {
				d.Stale = append(d.Stale, f.Line)
			}
		}
		slices.Sort(d.Lines)
		slices.Sort(d.Stale)
		out, todo = append(out, d), rest
	}
	return joined(out)
}

// latest returns the last day from to down to from on which something can come.
func latest(to, from int, may func(day int) bool) (day int, ok bool) {
	for day = to; day >= from; day-- {
		if may == nil || may(day) {
			return day, true
		}
	}
	return 0, false
}

// joined puts deliveries of one day together.
func joined(all []Delivery) []Delivery {
	sort.SliceStable(all, func(i, j int) bool { return all[i].Day < all[j].Day })
	var out []Delivery
	for _, d := range all {
		if n := len(out); n > 0 && out[n-1].Day == d.Day {
			out[n-1].Lines = append(out[n-1].Lines, d.Lines...)
			out[n-1].Stale = append(out[n-1].Stale, d.Stale...)
			slices.Sort(out[n-1].Lines)
			slices.Sort(out[n-1].Stale)
			continue
		}
		out = append(out, d)
	}
	return out
}
