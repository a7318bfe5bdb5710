package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hobside/internal/kitchen"
)

// lacking tries the equipment that the kitchen lacks, alone and with other changes.
func (f *freeing) lacking() {
	var c Change
	for n := 1; n <= mostMore; n++ {
		c = Change{cost: perPiece * n * len(f.b.Lacking)}
		var things []string
		for _, name := range f.b.Lacking {
			c.Do = append(c.Do, Deed{Do: DoEquipment, Equipment: name, Count: n})
			things = append(things, more(f.in.Kitchen, name, n))
		}
		c.Text = listed(things)
		if f.try(c) != nil {
			break
		}
	}
	f.ways()
	if len(f.found) > 0 {
		return
	}
	with := f.in.With(c)
	_, err := with.best()
	b := new(Blocked)
	if errors.As(err, &b) {
		f.in, f.b, f.first = with, b, c // further changes need it too
		f.all()
	}
}

// equipment tries more of what is short and of what the blocked steps use.
func (f *freeing) equipment() {
	for _, name := range f.in.candidates(f.b) {
		for n := 1; n <= mostMore; n++ {
			if f.try(Change{Text: more(f.in.Kitchen, name, n), Do: []Deed{{Do: DoEquipment, Equipment: name, Count: n}}, cost: perPiece * n}) != nil {
				break
			}
		}
	}
}

// together adds equipment piece by piece, each time what the block is short of, for
// a dinner that no single change makes possible.
func (f *freeing) together() {
	b := f.b
	var c Change
	var things []string
	for range mostMore {
		changed := f.in.With(c)
		changed.Placements = 1
		names := changed.candidates(b)
		if len(names) == 0 {
			return
		}
		things = append(things, more(f.in.Kitchen, names[0], 1))
		c.Do = append(c.Do, Deed{Do: DoEquipment, Equipment: names[0], Count: 1})
		c.Text, c.cost = listed(things), c.cost+perPiece
		if f.try(c) != nil {
			return
		}
		changed = f.in.With(c)
		changed.Placements = 1
		_, err := changed.best()
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
