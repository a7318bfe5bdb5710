package plan

import (
	"slices"

	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
	"hobside/internal/plan/rcpsp"
)

// always is all the time that a plan may have.
var always = shift{-forEver, forEver}

// span returns a time of the plan as a day and times of day.
func (a axis) span(from, to int) Span {
	day := a.reading(from)
	begins := day.Minutes()
	end := a.reading(to)
	return Span{Day: day, Date: day.String()[:len("2006-01-02")], From: begins, To: end.DaysSince(day)*aDay + end.Minutes()}
}

// shift returns a time on a day as a time of the plan; ok is false where its day is none.
func (a axis) shift(t Span) (s shift, ok bool) {
	day := t.Day
	if !day.HasDate() {
		if day, ok = document.ParseDate(t.Date); !ok {
			return shift{}, false
		}
	}
	midnight := day.DaysSince(a.serve)*aDay - a.serve.Minutes()
	s = shift{a.at(midnight + t.From), forEver}
	if t.To > 0 {
		s.to = a.at(midnight + t.To)
	}
	return s, s.to > s.from
}

// shifts returns times on days as times of the plan.
func (in *Input) shifts(times []Span) []shift {
	var out []shift
	for _, t := range times {
		if s, ok := (axis{in.Serve, in.ClockChanges}).shift(t); ok {
			out = append(out, s)
		}
	}
	return out
}

// without returns times with another taken out.
func without(all []shift, out shift) []shift {
	var left []shift
	for _, s := range all {
		if before := (shift{s.from, min(s.to, out.from)}); before.to > before.from {
			left = append(left, before)
		}
		if after := (shift{max(s.from, out.to), s.to}); after.to > after.from {
			left = append(left, after)
		}
	}
	return left
}

// during reports whether a minute is in any of some times.
func during(all []shift, t int) bool {
	return slices.ContainsFunc(all, func(s shift) bool { return s.from <= t && t < s.to })
}

// absences returns the absences of every cook, to be changed.
func (in *Input) absences() [][]shift {
	out := make([][]shift, len(in.Kitchen.Cooks))
	for i := range min(len(in.absent), len(out)) {
		out[i] = slices.Clone(in.absent[i])
	}
	return out
}

// helped returns the input with one more cook. A name that the kitchen has is a cook who
// is there at these times as well.
func (in Input) helped(d Deed) Input {
	if d.Cook != "" && slices.Contains(in.Kitchen.Cooks, d.Cook) {
		d.Do = DoThere
		return in.attendance(d)
	}
	k := *in.Kitchen
	k.Cooks = slices.Clone(k.Cooks)
	if d.Cook == "" {
		d.Cook = "one more"
	}
	k.Cooks = append(k.Cooks, d.Cook)
	in.Kitchen = &k
	if len(d.Times) > 0 {
		in.absent = in.absences()
		in.absent[len(k.Cooks)-1] = []shift{always}
		d.Do = DoThere
		return in.attendance(d)
	}
	return in
}

// attendance returns the input with a cook away, or there, at some times; without times
// always.
func (in Input) attendance(d Deed) Input {
	at := slices.Index(in.Kitchen.Cooks, d.Cook)
	if at < 0 {
		return in
	}
	times := in.shifts(d.Times)
	if len(d.Times) == 0 {
		times = []shift{always}
	}
	in.absent = in.absences()
	for _, t := range times {
		in.absent[at] = without(in.absent[at], t)
		if d.Do == DoAway {
			in.absent[at] = append(in.absent[at], t)
		}
	}
	return in
}

// opened returns the input with the kitchen open, or closed, at some times.
func (in Input) opened(d Deed) Input {
	k := *in.Kitchen
	ax := axis{in.Serve, in.ClockChanges}
	if d.Do == DoClose {
		open := ax.open(&k)
		for _, t := range in.shifts(d.Times) {
			open = without(open, t)
		}
		k.Hours = nil
		for _, s := range open {
			t := ax.span(s.from, s.to)
			k.Hours = append(k.Hours, kitchen.Shift{Date: t.Day, From: t.From, To: t.To})
		}
		in.Kitchen = &k
		return in
	}
	if usual := ax.open(&k); d.Card != "" && len(usual) > 0 {
		in.ahead, in.usually = in.takes(d.Card), usual[0].from
	}
	k.Hours = slices.Clone(k.Hours)
	for _, t := range d.Times {
		day := t.Day
		if !day.HasDate() {
			day, _ = document.ParseDate(t.Date)
		}
		if day.HasDate() && t.To > t.From {
			k.Hours = append(k.Hours, kitchen.Shift{Date: day, From: t.From, To: t.To})
		}
	}
	in.Kitchen = &k
	return in
}

// moved returns the menu with a course at another time, struck, or served after all.
func (in *Input) moved(d Deed) *menu.Menu {
	if in.Dinner.Menu == nil || d.Course < 1 || d.Course > len(in.Dinner.Menu.Courses) {
		return in.Dinner.Menu
	}
	m := *in.Dinner.Menu
	m.Courses = slices.Clone(m.Courses)
	if c := &m.Courses[d.Course-1]; d.Do == DoCourse {
		c.After = min(max(-7*aDay, d.Minutes), 7*aDay)
	} else {
		c.Struck = d.Count > 0
	}
	return &m
}

// cooksAt returns how many of the cooks are there in the minute from t on.
func (p *project) cooksAt(t int) int {
	if !during(p.open, t) {
		return 0
	}
	n := p.cooks
	for _, away := range p.absent {
		if during(away, t) {
			n--
		}
	}
	return n
}

// fixed reports whether the cooks and the equipment are there whenever the kitchen is
// open.
func (p *project) fixed() bool { return len(p.absent) == 0 && len(p.lacks) == 0 }

// calendar returns a resource of which there is so much in each minute of the plan. It
// changes only where a shift, an absence or a lack begins or ends.
func (m mirrored) calendar(p *project, there func(t int) int) rcpsp.Resource {
	at := []int{0}
	mark := func(s shift) {
		for _, t := range [...]int{m.end - s.from, m.end - s.to} {
			if t > 0 && t <= m.Horizon {
				at = append(at, t)
			}
		}
	}
	for _, s := range p.open {
		mark(s)
	}
	for _, away := range p.absent {
		for _, s := range away {
			mark(s)
		}
	}
	for _, l := range p.lacks {
		mark(l.shift)
	}
	slices.Sort(at)
	r := rcpsp.Resource{Cap: there(m.end - 1)}
	last := r.Cap
	for _, t := range slices.Compact(at)[1:] {
		// The solver's minute t is our minute end - t - 1, which ends at end - t.
		if n := there(m.end - t - 1); n != last {
			r.Changes, last = append(r.Changes, rcpsp.Change{At: t, Cap: n}), n
		}
	}
	return r
}

// deserted returns from when on no cook is there; ok is false where somebody is.
func (in *Input) deserted() (from int, ok bool) {
	if len(in.absent) < len(in.Kitchen.Cooks) {
		return 0, false
	}
	from = -forEver
	for _, away := range in.absent {
		leaves := forEver
		for _, s := range away {
			if s.to == forEver {
				leaves = min(leaves, s.from)
			}
		}
		from = max(from, leaves)
	}
	return from, from < forEver
}

// nobody returns the reason that there is no plan because no cook is there from some
// minute on, nil where somebody is.
func (in *Input) nobody() *Blocked {
	from, ok := in.deserted()
	if !ok {
		return nil
	}
	since := "nobody is in the kitchen"
	if from > -forEver {
		since += " from " + (axis{in.Serve, in.ClockChanges}).reading(from).Clock() + " on"
	}
	return &Blocked{Because: []string{since + ": say who comes, and when"}, Short: []string{"cooks"}, always: true}
}

// handovers notes where a cook goes, or equipment is out, in the middle of a task that
// still has to be done.
func (p *Plan) handovers(in *Input) {
	for i := range p.Tasks {
		t := &p.Tasks[i]
		if t.Done || in.Under && t.Free <= in.Now {
			continue
		}
		for _, cook := range append([]int{t.Cook}, t.With...) {
			if cook > 0 && p.project.away(cook-1, t) > 0 {
				p.Notes = append(p.Notes, in.Kitchen.Cooks[cook-1]+" is not there for all of "+p.Name(t.Step)+", "+p.Clock(t.Start)+"–"+p.Reading(t.Free).Clock()+": somebody has to take it over")
			}
		}
	}
}
