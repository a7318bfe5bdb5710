package plan

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"hobside/internal/document"
	"hobside/internal/safety"
)

// A Store is what has room for so much at once: the shelves of a fridge, a freezer or a hot
// cupboard, the places of a bain-marie, the vessels of a size.
type Store struct {
	Name  string // "fridge", "tray of 53 × 33 cm, 4 cm deep"
	Place string // what a place of it is called, "shelf"; "" for vessels
	Has   int
	Stays []Stay // by the time from which they take room

	vessels bool
	units   int // how many there are that have one temperature each; 0 where that does not matter
}

// A Full is a time at which a store holds most, or more than it has room for.
type Full struct {
	From, To int
	Places   float64
	Stays    []Stay    // what is in it then
	Temps    []float64 // at which temperatures it is wanted, where that is more than there are of it
}

// Stores returns the room of a kitchen, with all that takes it by a plan: equipment in the
// order of the kitchen's file, then vessels. Equipment whose shelves the kitchen does not count,
// and vessels that it does not list, are left out; so is what nothing waits in.
func (in *Input) Stores(p *Plan) []Store {
	stays := in.stays(p)
	sort.SliceStable(stays, func(i, j int) bool { return stays[i].From < stays[j].From })
	var out []Store
	for i := range in.Kitchen.Equipment {
		e := &in.Kitchen.Equipment[i]
		if document.HoldsFood(e.Name) == "" || !counted(e) {
			continue
		}
		std, _ := document.FindEquipment(e.Name)
		s := Store{Name: e.Name, Place: std.Place, Has: e.Count * e.Places}
		if e.Temp {
			s.units = e.Count
		}
		waits := false
		for _, stay := range stays {
			if stay.in == e.Name {
				s.Stays = append(s.Stays, stay)
				waits = waits || !stay.works
			}
		}
		if waits {
			out = append(out, s)
		}
	}
	return append(out, in.vesselStores(stays)...)
}

// vesselStores returns the vessels of each size that a step asks for, with all steps that must
// have one of those or of some of them.
func (in *Input) vesselStores(stays []Stay) []Store {
	var out []Store
	var sets [][]int
	for _, want := range stays {
		which, listed := vesselsAsLarge(in.Kitchen, want.vessel)
		if want.vessel.Name == "" || !listed || len(which) == 0 || slices.ContainsFunc(sets, func(s []int) bool { return slices.Equal(s, which) }) {
			continue
		}
		sets = append(sets, which)
		s := Store{Name: want.vessel.Name + " of " + want.vessel.Words, vessels: true}
		for _, i := range which {
			s.Has += in.Kitchen.Vessels[i].Count
		}
		for _, stay := range stays {
			if stay.vessel.Name != want.vessel.Name {
				continue
			}
			of, _ := vesselsAsLarge(in.Kitchen, stay.vessel)
			if len(of) > 0 && !slices.ContainsFunc(of, func(i int) bool { return !slices.Contains(which, i) }) {
				s.Stays = append(s.Stays, stay)
			}
		}
		out = append(out, s)
	}
	return out
}

// IsVessel reports whether the store is the vessels of a size.
func (s *Store) IsVessel() bool { return s.vessels }

// aCrumb is by how much shelves may be exceeded that are worked out from volumes.
const aCrumb = 0.05

// Fullest returns the first time at which a store holds most.
func (s *Store) Fullest() Full {
	var most Full
	for _, f := range s.stretches(func(Full) bool { return true }) {
		if f.Places > most.Places {
			most = f
		}
	}
	return most
}

// Overfull returns the times at which a store is asked to hold more than it has room for, or
// to have more temperatures than it can.
func (s *Store) Overfull() []Full {
	return s.stretches(func(f Full) bool { return f.Places > float64(s.Has)+aCrumb || len(f.Temps) > 0 })
}

// stretches returns the times at which the store is as asked, each as long as it stays so,
// with what is in it at the fullest.
func (s *Store) stretches(asked func(Full) bool) []Full {
	var at []int
	for _, stay := range s.Stays {
		if stay.To > stay.From {
			at = append(at, stay.From, stay.To)
		}
	}
	sort.Slice(at, func(i, j int) bool { return at[i] < at[j] })
	at = slices.Compact(at)
	var out []Full
	for i := 0; i+1 < len(at); i++ {
		f := s.between(at[i], at[i+1])
		if !asked(f) || len(f.Stays) == 0 {
			continue
		}
		if n := len(out); n > 0 && out[n-1].To == f.From && s.goesOn(&out[n-1], &f) {
			if f.Places > out[n-1].Places {
				f.From = out[n-1].From
				out[n-1] = f
			}
			out[n-1].To = at[i+1]
			continue
		}
		out = append(out, f)
	}
	return out
}

// goesOn reports whether one time is the same trouble as the one before it: both too full, or
// both at too many temperatures. Times without trouble stand alone.
func (s *Store) goesOn(a, b *Full) bool {
	over := func(f *Full) bool { return f.Places > float64(s.Has)+aCrumb }
	return over(a) && over(b) || len(a.Temps) > 0 && slices.Equal(a.Temps, b.Temps)
}

// between returns what is in the store from one minute to another, where nothing changes.
func (s *Store) between(from, to int) Full {
	f := Full{From: from, To: to}
	var temps []float64
	for _, stay := range s.Stays {
		if stay.From > from || stay.To < to {
			continue
		}
		f.Places += stay.Places
		f.Stays = append(f.Stays, stay)
		if stay.HasTemp && !slices.Contains(temps, stay.TempC) {
			temps = append(temps, stay.TempC)
		}
	}
	if s.units > 0 && len(temps) > s.units {
		sort.Slice(temps, func(i, j int) bool { return temps[i] < temps[j] }) // slices.Sort is compiled again for each type
		f.Temps = temps
	}
	return f
}

// OverfullText says when a store is asked to hold more than it has room for, what is in it
// then and how much each takes.
func (p *Plan) OverfullText(s *Store, f Full) string {
	var list []string
	for _, stay := range f.Stays {
		text := stay.What + ", " + s.places(stay.Places)
		if stay.HasTemp && len(f.Temps) > 0 {
			text += " at " + safety.Celsius(stay.TempC)
		}
		list = append(list, text)
	}
	when := p.Clock(f.From) + "–" + p.Clock(f.To)
	if p.project.day(f.From) == p.project.day(f.To) {
		when = p.Clock(f.From) + "–" + p.Reading(f.To).Clock()
	}
	if len(f.Temps) > 0 {
		var temps []string
		for _, c := range f.Temps {
			temps = append(temps, safety.Celsius(c))
		}
		return "the " + s.Name + " is wanted at " + strings.Join(temps, " and ") + " at once, " + when + ": " + strings.Join(list, "; ")
	}
	what := "the " + s.Name + " is overfull"
	if s.vessels {
		what = "too few of the " + s.Name
	}
	return fmt.Sprintf("%s, %s: %s wanted, %d there: %s", what, when, s.places(f.Places), s.Has, strings.Join(list, "; "))
}

// FullestText says when a store holds most, and how much of it that is.
func (p *Plan) FullestText(s *Store) string {
	f := s.Fullest()
	text := fmt.Sprintf("%s: fullest %s, %s of %d", s.Name, p.Clock(f.From), s.places(f.Places), s.Has)
	if !s.vessels && slices.ContainsFunc(f.Stays, func(stay Stay) bool { return stay.Assumed }) {
		text += "; what no card gives is worked out from its volume"
	}
	return text
}

// places writes so many places of a store: "1 shelf", "2.5 shelves", "4".
func (s *Store) places(n float64) string {
	text := strconv.FormatFloat(math.Ceil(n*10-1e-6)/10, 'f', -1, 64)
	name := s.Place
	switch {
	case s.vessels:
		return text
	case name == "":
		name = "place"
	}
	if text == "1" {
		return "1 " + name
	}
	if name == "shelf" {
		return text + " shelves"
	}
	return text + " " + name + "s"
}
