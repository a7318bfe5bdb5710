package dinner

import (
	"strconv"

	"hobside/internal/demand"
)

// A WayOut is one change that ends clashes of some guests with a plate. To make it, send an
// event of this kind, on this key, with these fields.
type WayOut struct {
	Course string `json:"course"` // of the plate that clashes
	Plate  string `json:"plate"`
	Text   string `json:"text"` // of the button that makes the change
	Then   string `json:"then"` // what stays after it, "" for nothing
	Kind   Kind   `json:"kind"`
	On     string `json:"on"`
	Done   bool   `json:"done,omitempty"`
	Number int    `json:"number,omitempty"`
	Words  string `json:"words,omitempty"` // the event's text
}

// waysOut returns the ways out of the clashes of a group of guests, counted from 1.
func (w *Worked) waysOut(group int) []WayOut {
	var out []WayOut
	for _, o := range w.WaysOut {
		if o.Group != group {
			continue
		}
		course := w.Menu.Courses[o.Course-1]
		v := WayOut{Course: course.Name, Plate: course.Plates[o.Line-1].Name, Then: stays(o)}
		switch {
		case o.Item > 0:
			c := w.Input.Cards[o.Card]
			v.Kind, v.On, v.Done = KindLeave, ItemKey(o.Card, o.Item), true
			v.Text = "Leave the " + c.Items[o.Item-1].Name + " off " + c.Title + ", for everybody"
		case o.Way > 0:
			c := w.Input.Cards[o.Card]
			v.Kind, v.On, v.Number = KindWay, CardKey(o.Card), o.Way
			v.Text = "Make " + c.Title + " by “" + c.Ways[o.Way-1].Name + "”, for everybody"
		default:
			seat := demand.SeatOf(o.Course, w.Menu.Guests[group-1])
			v.Kind, v.On, v.Number, v.Words = KindPlate, CourseKey(o.Course), o.Plate, seat.Words
			v.Text = "Serve these guests " + course.Plates[o.Plate-1].Name
		}
		out = append(out, v)
	}
	return out
}

// stays returns what is still wrong after a way out, in words.
func stays(o demand.WayOut) string {
	text := ""
	if o.Stay > 0 {
		text = plural(o.Stay, "clash", "clashes") + " on it would stay"
	}
	if o.Unknown > 0 {
		if text != "" {
			text += "; "
		}
		text += plural(o.Unknown, "item", "items") + " not assessed"
	}
	return text
}

// plural returns a count with its word.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// seated returns the plates that the cook chose for a group of guests, counted from 1.
func (w *Worked) seated(group int) []WayOut {
	var out []WayOut
	for i, course := range w.Menu.Courses {
		seat := demand.SeatOf(i+1, w.Menu.Guests[group-1])
		n := w.Input.Seats[seat]
		if n < 1 || n > len(course.Plates) {
			continue
		}
		out = append(out, WayOut{Course: course.Name, Plate: course.Plates[n-1].Name, Text: "As the menu says", Kind: KindPlate, On: CourseKey(i + 1), Words: seat.Words})
	}
	return out
}
