package plan

import (
	"sort"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// An axis converts wall-clock times to minutes after the serving time and back. It
// counts real minutes: a night in which the clocks change is an hour longer or
// shorter.
type axis struct {
	serve   document.When
	changes []ClockChange
}

// wall returns the minutes on the wall's clock from the serving time to w, as if
// the clocks never changed.
func (a axis) wall(w document.When) int { return w.Sub(a.serve) }

// at returns the real minutes from the serving time to the moment at which the
// wall's clock shows a reading, given as wall minutes from the serving time. A
// reading that the clock skips means the moment of the change; a reading that it
// shows twice means the first.
func (a axis) at(wall int) int {
	t := wall
	for _, s := range a.changes {
		change := a.wall(s.Wall)
		if wall >= change && wall < change+s.By {
			skipped := change + s.By - wall
			wall, t = wall+skipped, t+skipped
		}
		switch {
		case change <= 0 && wall < change:
			t += s.By // the serving time is by the clock after the change
		case change > 0 && wall >= change:
			t -= s.By
		}
	}
	return t
}

// reading returns what the wall's clock shows t real minutes after the serving
// time.
func (a axis) reading(t int) document.When {
	wall := t
	for _, s := range a.changes {
		change := a.wall(s.Wall)
		switch {
		case change <= 0 && t < change+s.By: // in real minutes the change is at change + By before the serving time's clock
			wall -= s.By
		case change > 0 && t >= change:
			wall += s.By
		}
	}
	return a.serve.Add(wall)
}

// Reading returns what the wall's clock shows t minutes after the serving time.
func (p *Plan) Reading(t int) document.When { return axis{p.Serve, p.ClockChanges}.reading(t) }

// A shift is a part of the kitchen's hours, in minutes after the serving time.
type shift struct{ from, to int }

// open returns the shifts of a kitchen in order, touching ones merged.
func (a axis) open(k *kitchen.Kitchen) []shift {
	midnight := -a.serve.Minutes()
	var all []shift
	for _, h := range k.Hours {
		day := midnight + h.Day(a.serve)*24*60
		all = append(all, shift{a.at(day + h.From), a.at(day + h.To)})
	}
	sort.Slice(all, func(i, j int) bool { return all[i].from < all[j].from })
	var out []shift
	for _, s := range all {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		if s.to > s.from {
			out = append(out, s)
		}
	}
	return out
}

// UnderWay reports whether a dinner is being cooked at minute now: the kitchen has
// opened for it, and its last course is less than half a day ago.
func (in *Input) UnderWay(now int) bool {
	open := axis{in.Serve, in.ClockChanges}.open(in.Kitchen)
	return len(open) > 0 && now >= open[0].from && !in.Past(now)
}

// Past reports whether the last course is more than half a day ago.
func (in *Input) Past(now int) bool {
	end := 0
	for _, c := range in.Dinner.Menu.Courses {
		end = max(end, c.After)
	}
	return now > end+aDay/2
}

// Hours returns the kitchen's shifts, in order, as minutes after the serving time.
func (p *Plan) Hours() [][2]int {
	var out [][2]int
	for _, s := range p.project.open {
		out = append(out, [2]int{s.from, s.to})
	}
	return out
}

// Name returns a step as a cook calls it: "Pressed lamb, step 4".
func (p *Plan) Name(s Step) string { return p.project.name(s) }
