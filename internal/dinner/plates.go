package dinner

import (
	"strings"

	"hobside/internal/demand"
	"hobside/internal/larder"
)

// A PlateSheet is what is known of one plate's allergens. An allergen that is not
// listed was not found, which does not mean "free of".
type PlateSheet struct {
	Course      string     `json:"course"`
	Plate       string     `json:"plate"`
	For         string     `json:"for"` // for whom it is where it is not for everybody: "for vegans"
	Covers      int        `json:"covers"`
	EU          []Allergen `json:"eu"`          // of the fourteen of Regulation (EU) No 1169/2011
	US          []Allergen `json:"us"`          // of the nine of 21 U.S.C. 321(qq)
	NotAssessed []string   `json:"notAssessed"` // items that are not in the food table
	Without     []string   `json:"without"`     // what authors say it does not contain
}

// An Allergen is one allergen on a plate.
type Allergen struct {
	Code      string           `json:"code"`
	Name      string           `json:"name"` // the official one
	Certainty larder.Certainty `json:"certainty"`
	Via       []string         `json:"via"` // the items that bring it, the surest first
}

// Sheet returns what is known of the allergens of every plate, in the order of the
// menu.
func (w *Worked) Sheet() []PlateSheet {
	var out []PlateSheet
	for _, s := range demand.Allergens(w.Input) {
		course := w.Menu.Courses[s.Course-1]
		plate := course.Plates[s.Plate-1]
		v := PlateSheet{Course: course.Name, Plate: plate.Name, For: larder.ForGuests(plate.For), Covers: w.Served(s.Course, s.Plate), Without: s.Without}
		for _, c := range s.Carried {
			a := Allergen{Code: c.Code, Name: larder.OfficialName(c.List, c.Code), Certainty: c.Certainty}
			for _, via := range c.Via {
				a.Via = append(a.Via, below(via))
			}
			if c.List == larder.EU {
				v.EU = append(v.EU, a)
			} else {
				v.US = append(v.US, a)
			}
		}
		for _, via := range s.NotAssessed {
			v.NotAssessed = append(v.NotAssessed, below(via))
		}
		out = append(out, v)
	}
	return out
}

// below returns a way from a plate down to an item as text, without the plate's own
// name.
func below(via []string) string {
	if len(via) > 1 {
		via = via[1:]
	}
	return strings.Join(via, " › ")
}

// An ExclusionGroup is a group of guests with exclusions, and the plates on which they
// clash.
type ExclusionGroup struct {
	Covers     int          `json:"covers"`
	Exclude    []string     `json:"exclude"`
	Without    string       `json:"without"`    // Exclude as it is said behind the covers: " without fish", ", vegan"
	NotChecked []string     `json:"notChecked"` // words that are not understood, as typed
	Note       string       `json:"note"`
	Clashes    []GroupClash `json:"clashes"`
	Out        []WayOut     `json:"out"`     // single changes that end some of them
	Seated     []WayOut     `json:"seated"`  // the plates that the cook chose for them, each with what takes that back
	NotRead    []NotRead    `json:"notRead"` // what of the words is not checked
}

// NotRead is a guest's word that is not understood, or not wholly.
type NotRead struct {
	Typed      string `json:"typed"`
	Word       string `json:"word"`       // what is not checked: the word, and what to do where that is known
	DidYouMean string `json:"didYouMean"` // the nearest word that is understood, "" for none
}

// A GroupClash is a plate that some guests can't have, and the item that causes it.
type GroupClash struct {
	Course string `json:"course"`
	Plate  string `json:"plate"`
	Clashing
}

// Clashing is how what some guests can't have meets a plate.
type Clashing struct {
	Word       string   `json:"word"` // of the guests' words: "tree nuts"
	Via        []string `json:"via"`  // plate, component …, item
	Sure       bool     `json:"sure"`
	May        bool     `json:"may"`        // it may have it: read the label; neither: the item is not assessed
	NotChecked bool     `json:"notChecked"` // the word is not understood, nothing was checked
	DidYouMean string   `json:"didYouMean"`
}

// clashing returns how a clash is shown.
func clashing(c demand.Clash) Clashing {
	return Clashing{Word: c.Word, Via: c.Via, Sure: c.Sure, May: c.May, NotChecked: c.NotChecked, DidYouMean: c.DidYouMean}
}

// A PlateClash is a group of guests who get a plate and exclude something on it.
type PlateClash struct {
	Covers  int    `json:"covers"`
	Without string `json:"without"` // as in ExclusionGroup
	Clashing
}

// ExclusionGroups returns the groups of guests with exclusions and their clashes.
func (w *Worked) ExclusionGroups() []ExclusionGroup {
	var out []ExclusionGroup
	for i, g := range w.Menu.Guests {
		v := ExclusionGroup{Covers: g.Covers, Exclude: g.Exclude, Without: larder.Without(g.Exclude), NotChecked: append([]string{}, g.NotChecked...), Note: g.Note}
		for _, n := range g.Unchecked(w.Foods) {
			v.NotRead = append(v.NotRead, NotRead(n))
		}
		v.Out, v.Seated = w.waysOut(i+1), w.seated(i+1)
		for _, c := range w.Clashes {
			if c.Group == i+1 {
				v.Clashes = append(v.Clashes, GroupClash{Course: w.Menu.Courses[c.Course-1].Name, Plate: c.Plate, Clashing: clashing(c)})
			}
		}
		out = append(out, v)
	}
	return out
}

// PlateClashes returns the groups of guests who get a plate and exclude something
// on it. Course and line count from 1.
func (w *Worked) PlateClashes(course, line int) []PlateClash {
	var out []PlateClash
	for _, c := range w.Clashes {
		if c.Course == course && c.Line == line {
			g := w.Menu.Guests[c.Group-1]
			out = append(out, PlateClash{Covers: g.Covers, Without: larder.Without(g.Exclude), Clashing: clashing(c)})
		}
	}
	return out
}
