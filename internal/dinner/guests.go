package dinner

import (
	"strings"

	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/menu"
)

// withGuests returns a menu with the guests of a dinner, in lines as a menu has
// them. Nil lines leave the guests that the menu names.
func withGuests(m *menu.Menu, lines *string) *menu.Menu {
	if lines == nil {
		return m
	}
	with := *m // the menu itself is shared with other dinners
	with.Guests, _ = menu.ParseGuests(*lines, m.Foods)
	return &with
}

// seats returns the plates that the cook chose for guests.
func seats(s *State) map[demand.Seat]int {
	out := map[demand.Seat]int{}
	for key, plate := range s.Seats {
		on, words, _ := strings.Cut(key, " ")
		if k, ok := ParseKey(on); ok && plate > 0 {
			out[demand.Seat{Course: k.Course, Words: words}] = plate
		}
	}
	return out
}

// guestProblems returns what is wrong with the guests of a dinner: a line that
// can't be read, or more guests than covers. The menu's own guests are not
// checked here: the menu's problems tell of them.
func guestProblems(in demand.Input, lines *string) []document.Problem {
	if in.Menu == nil || lines == nil {
		return nil
	}
	_, problems := menu.ParseGuests(*lines, in.Menu.Foods)
	if msg, do, over := menu.MoreGuestsThan(max(0, in.Covers), in.Menu.Guests); over {
		problems = append(problems, document.Problem{File: "guests", Line: 1, Col: 1, Severity: document.Error, Msg: msg, Do: do})
	}
	return problems
}
