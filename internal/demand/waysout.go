package demand

import (
	"maps"
	"slices"
)

// A WayOut is one change that ends clashes of a group of guests with a plate. It was tried:
// what it ends and what stays was worked out with the change made. One of Item, Way and
// Plate is set.
type WayOut struct {
	Group  int    // 1 + index in Menu.Guests
	Course int    // 1 + index in Menu.Courses
	Line   int    // 1 + index in the course's plates, of the plate that clashes
	Card   string // ID of the card of Item or Way
	Item   int    // 1 + index of an optional item to leave out, for everybody
	Way    int    // 1 + index of the way to make Card by, for everybody
	Plate  int    // 1 + index of the plate of the course that the group gets in its place

	Ends    int // clashes, sure or possible, that there are no more
	Stay    int // of the same plate, or on the other one, sure or possible
	Unknown int // items that nobody has assessed, then
}

// WaysOut returns, for every plate that clashes surely or possibly with what a group of
// guests must avoid, what the cards and the menu offer: an optional item left out, another
// way of a card, another plate of the course. One that ends no clash is not among them; nor
// is another plate that has some of its own, nor a way that brings any guests a new clash.
func WaysOut(in Input, d *Demand, clashes []Clash) []WayOut {
	var out []WayOut
	seen := map[[3]int]bool{}
	for _, c := range clashes {
		at := [3]int{c.Group, c.Course, c.Line}
		if seen[at] || !c.Sure && !c.May {
			continue
		}
		seen[at] = true
		before := slices.DeleteFunc(slices.Clone(clashes), func(o Clash) bool {
			return o.Group != c.Group || o.Course != c.Course || o.Line != c.Line
		})
		for _, w := range waysOutOf(in, c, before) {
			if w.Way == 0 || !gains(clashes, Clashes(in.byWay(w.Card, w.Way), d)) {
				out = append(out, w)
			}
		}
	}
	return out
}

// gains reports whether clashes, sure or possible, are among after and not among before.
func gains(before, after []Clash) bool {
	return slices.ContainsFunc(after, func(a Clash) bool {
		return (a.Sure || a.May) && !slices.ContainsFunc(before, func(b Clash) bool {
			return b.Group == a.Group && b.Course == a.Course && b.Line == a.Line && b.same(a)
		})
	})
}

// byWay returns the dinner with a card made by one of its ways.
func (in Input) byWay(id string, way int) Input {
	in.Ways = maps.Clone(in.Ways)
	if in.Ways == nil {
		in.Ways = map[string]int{}
	}
	in.Ways[id] = way
	return in
}

// without returns the dinner with an item of a card left out, 1 + index.
func (in Input) without(id string, item int) Input {
	in.Leave = maps.Clone(in.Leave)
	if in.Leave == nil {
		in.Leave = map[string]map[int]bool{}
	}
	of := maps.Clone(in.Leave[id])
	if of == nil {
		of = map[int]bool{}
	}
	of[item] = true
	in.Leave[id] = of
	return in
}

// waysOutOf tries each change that could end the clashes of a group with a plate.
func waysOutOf(in Input, at Clash, before []Clash) []WayOut {
	var out []WayOut
	plate := in.Menu.Courses[at.Course-1].Plates[at.Line-1]
	try := func(w WayOut, changed Input) {
		w.Group, w.Course, w.Line = at.Group, at.Course, at.Line
		on := plate
		if w.Plate > 0 {
			on = in.Menu.Courses[at.Course-1].Plates[w.Plate-1]
		}
		after := clashesOn(changed, on, nil, at)
		for _, c := range before {
			if (c.Sure || c.May) && !slices.ContainsFunc(after, func(a Clash) bool { return a.same(c) }) {
				w.Ends++
			}
		}
		for _, c := range after {
			switch {
			case c.Sure || c.May:
				w.Stay++
			case !c.NotChecked:
				w.Unknown++
			}
		}
		if w.Ends > 0 && (w.Plate == 0 || w.Stay == 0) {
			out = append(out, w)
		}
	}
	for _, id := range in.under(plate.Card) {
		in.changesOf(id, try)
	}
	for line := range in.Menu.Courses[at.Course-1].Plates {
		if line+1 != at.Line && sameRun(in, at.Course, at.Line, line+1) {
			try(WayOut{Plate: line + 1}, in)
		}
	}
	slices.SortStableFunc(out, func(a, b WayOut) int { return a.Stay - b.Stay })
	return out
}

// same reports whether two clashes are about one item on one path.
func (c Clash) same(o Clash) bool {
	return c.Word == o.Word && c.Sure == o.Sure && c.May == o.May && slices.Equal(c.Via, o.Via)
}

// changesOf tries to leave out each optional item of a card, and each of its other ways.
func (in *Input) changesOf(id string, try func(WayOut, Input)) {
	c := in.Cards[id]
	for i := range c.Items {
		if !c.Items[i].Optional || in.Off(c, i) {
			continue
		}
		try(WayOut{Card: id, Item: i + 1}, in.without(id, i+1))
	}
	for way := range c.Ways {
		if len(c.Ways) < 2 || way+1 == in.Ways[id] {
			continue
		}
		try(WayOut{Card: id, Way: way + 1}, in.byWay(id, way+1))
	}
}

// under returns the IDs of a card and of all cards that go into it, each once.
func (in *Input) under(id string) []string {
	var out []string
	var visit func(id string)
	visit = func(id string) {
		c := in.Cards[id]
		if c == nil || slices.Contains(out, id) {
			return
		}
		out = append(out, id)
		for i := range c.Items {
			if c.Items[i].Card != "" && !in.Off(c, i) {
				visit(c.Items[i].Card)
			}
		}
	}
	visit(id)
	return out
}

// sameRun reports whether two plates of a course, by line, are served in place of each
// other: a plate for everybody and those "for" some guests that follow it.
func sameRun(in Input, course, a, b int) bool {
	plates := in.Menu.Courses[course-1].Plates
	for line := min(a, b) + 1; line <= max(a, b); line++ {
		if len(plates[line-1].For) == 0 {
			return false
		}
	}
	return true
}
