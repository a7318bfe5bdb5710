package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// A Change makes a blocked dinner possible. It was tried: with it there is a plan.
type Change struct {
	Text   string `json:"text"`   // "one more fryer"
	Effect string `json:"effect"` // "every course on time"
}

const (
	mostChanges = 6
	mostMore    = 4 // of one kind of equipment
)

// Free returns changes that make a blocked dinner possible, each by itself, the
// smallest of each kind.
func (in Input) Free(b *Blocked) []Change {
	in.explode()
	var out []Change
	on := "" // what every further change needs as well
	try := func(text, effect string, changed Input) bool {
		if len(out) >= mostChanges {
			return false
		}
		changed.Placements = 1
		pl, _ := changed.best()
		if pl == nil {
			return false
		}
		out = append(out, Change{on + text, effect + in.otherwise(pl)})
		return true
	}
	const onTime = "every course on time"
	if len(b.Lacking) > 0 {
		var changed Input
		var text string
		for n := 1; n <= mostMore; n++ {
			changed = in
			var things []string
			for _, name := range b.Lacking {
				changed = changed.with(name, n)
				things = append(things, more(in.Kitchen, name, n))
			}
			if text = listed(things); try(text, onTime, changed) {
				break
			}
		}
		in.otherWays(b, func(text string, changed Input) { try(text, onTime, changed) })
		if len(out) > 0 {
			return out
		}
		in, on = changed, text+", and " // further changes need it too
	}
	in.otherWays(b, func(text string, changed Input) { try(text, onTime, changed) })
	for _, name := range in.candidates(b) {
		for n := 1; n <= mostMore && !try(more(in.Kitchen, name, n), onTime, in.with(name, n)); n++ {
		}
	}
	changed := in
	k := *in.Kitchen
	k.Cooks = append(slices.Clone(k.Cooks), "one more")
	changed.Kitchen = &k
	try("one more cook", onTime, changed)
	for _, hours := range [...]int{1, 2, 4} {
		if try(fmt.Sprintf("open the kitchen %s earlier on its first day", plural(hours, "hour")), onTime, in.earlier(hours)) {
			break
		}
	}
	try("open the kitchen a day sooner, with the hours of its first day", onTime, in.sooner())
	for _, minutes := range [...]int{15, 30, 60, 120} {
		changed := in
		changed.Serve = in.Serve.Add(minutes)
		if try(fmt.Sprintf("serve %d minutes later", minutes), "the first course at "+changed.Serve.Clock(), changed) {
			break
		}
	}
	if len(out) == 0 {
		in.together(b, func(text string, changed Input) { try(text, onTime, changed) })
	}
	in.fewer(try)
	return out
}

// together adds equipment piece by piece, each time what the block is short of, for
// a dinner that no single change makes possible.
func (in *Input) together(b *Blocked, try func(string, Input)) {
	changed := *in
	changed.Placements = 1
	var things []string
	for range mostMore {
		names := changed.candidates(b)
		if len(names) == 0 {
			return
		}
		things = append(things, more(in.Kitchen, names[0], 1))
		changed = changed.with(names[0], 1)
		pl, err := changed.best()
		if pl != nil {
			try(listed(things), changed)
			return
		}
		if b = new(Blocked); !errors.As(err, &b) {
			return
		}
	}
}

// candidates returns the kinds of equipment of which one more might help: those
// that are short, and those that the blocked steps use.
func (in *Input) candidates(b *Blocked) []string {
	var names []string
	add := func(name string) {
		if name != "cooks" && counted(has(in.Kitchen, name)) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range b.Short {
		add(name)
	}
	for _, s := range b.Steps {
		if c := in.Dinner.Cards[s.Card]; c != nil && s.Step <= len(c.Steps) {
			for _, q := range c.Steps[s.Step-1].Equipment {
				add(q.Name)
			}
		}
	}
	return names
}

// with returns the input with n more of some equipment.
func (in Input) with(name string, n int) Input {
	k := *in.Kitchen
	k.Equipment = slices.Clone(k.Equipment)
	if e := has(&k, name); e != nil {
		e.Count += n
	} else {
		k.Equipment = append(k.Equipment, in.usual(name, n))
	}
	in.Kitchen = &k
	return in
}

// usual returns equipment that the kitchen does not have, as large as the cards
// need it.
func (in *Input) usual(name string, n int) kitchen.Equipment {
	std, _ := document.FindEquipment(name)
	e := kitchen.Equipment{Name: name, Count: n, Places: 1, Heat: std.Heat, Temp: std.Temp}
	switch name {
	case "hob":
		e.Count = 4 * n
	case "fridge", "freezer":
		e.Places = 0 // not counted
	default:
		for _, c := range in.Dinner.Cards {
			for i := range c.Steps {
				for _, q := range c.Steps[i].Equipment {
					if q.Name == name {
						e.Places = max(e.Places, q.Count)
					}
				}
			}
		}
	}
	return e
}

// earlier opens the kitchen so many hours earlier on its first day.
func (in Input) earlier(hours int) Input {
	k := *in.Kitchen
	k.Hours = slices.Clone(k.Hours)
	first := 0
	for i, h := range k.Hours {
		if h.Day(in.Serve)*aDay+h.From < k.Hours[first].Day(in.Serve)*aDay+k.Hours[first].From {
			first = i
		}
	}
	k.Hours[first].From -= hours * anHour
	in.Kitchen = &k
	return in
}

// sooner adds the day before the kitchen's first day.
func (in Input) sooner() Input {
	k := *in.Kitchen
	first := k.Hours[0]
	for _, h := range k.Hours {
		if h.Day(in.Serve) < first.Day(in.Serve) {
			first = h
		}
	}
	k.Hours = append(slices.Clone(k.Hours), kitchen.Shift{Days: first.Day(in.Serve) - 1, From: first.From, To: first.To})
	in.Kitchen = &k
	return in
}

// otherWays tries the other ways of each card.
func (in *Input) otherWays(b *Blocked, try func(string, Input)) {
	for _, comp := range in.Demand.Components {
		c := comp.Card
		for w := range c.Ways {
			if w+1 == max(1, in.Dinner.Ways[c.ID]) || in.begun(c.ID) {
				continue
			}
			changed := *in
			changed.Dinner.Ways = in.chosen()
			changed.Dinner.Ways[c.ID] = w + 1
			try(c.Title+": “"+c.Ways[w].Name+"”", changed)
		}
	}
}

// fewer finds the largest possible number of covers, by bisection.
func (in *Input) fewer(try func(string, string, Input) bool) {
	covers := in.Dinner.Covers
	if covers == 0 {
		covers = in.Dinner.Menu.Covers
	}
	can, cannot := 0, covers
	for cannot-can > 1 {
		n := (can + cannot) / 2
		changed := *in
		changed.Placements, changed.Dinner.Covers, changed.Demand = 1, n, nil
		if pl, _ := changed.best(); pl != nil {
			can = n
		} else {
			cannot = n
		}
	}
	if can > 0 {
		changed := *in
		changed.Dinner.Covers, changed.Demand = can, nil
		try(plural(covers-can, "cover")+" fewer", fmt.Sprintf("every course on time for %d", can), changed)
	}
}

// otherwise names the cards for which a plan chose another way than the first.
func (in *Input) otherwise(pl *Plan) string {
	text := ""
	for _, w := range pl.Ways {
		if c := in.Dinner.Cards[w.Card]; w.Way > 1 && in.Dinner.Ways[w.Card] == 0 && c != nil {
			text += ", with “" + c.Ways[w.Way-1].Name + "”"
		}
	}
	return text
}

// more names n more of some equipment.
func more(k *kitchen.Kitchen, name string, n int) string {
	word := name
	if name == "hob" && has(k, name) != nil {
		word = "ring"
	}
	switch {
	case n > 1 && has(k, name) == nil:
		return fmt.Sprintf("%d %ss", n, strings.TrimSuffix(word, "s"))
	case n > 1:
		return fmt.Sprintf("%d more %ss", n, strings.TrimSuffix(word, "s"))
	case has(k, name) != nil:
		return "one more " + word
	case strings.ContainsRune("aeiou", rune(name[0])):
		return "an " + name
	}
	return "a " + name
}

// listed joins names: "a hob, an oven and a fridge".
func listed(things []string) string {
	if n := len(things) - 1; n > 0 {
		return strings.Join(things[:n], ", ") + " and " + things[n]
	}
	return strings.Join(things, "")
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
