package engine

import (
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/menu"
)

// withGuests is a menu for the guests of a dinner. Nil leaves those it names.
func withGuests(m *menu.Menu, lines *string) *menu.Menu {
	if lines == nil {
		return m
	}
	with := *m // the menu itself is shared with other dinners
	with.Guests, _ = menu.ParseGuests(*lines)
	return &with
}

// seated finds fault with the guests of a dinner: a line that can't be read, or
// more of them than there are covers.
func seated(in demand.Input, lines *string) []document.Problem {
	if in.Menu == nil || lines == nil {
		return nil // the menu's own have their problems
	}
	_, problems := menu.ParseGuests(*lines)
	n := 0
	for _, g := range in.Menu.Guests {
		n += g.Covers
	}
	if covers := max(0, in.Covers); n > covers {
		problems = append(problems, document.Problem{File: "guests", Line: 1, Col: 1, Severity: document.Error,
			Msg: "the guests with exclusions are " + itoa(n) + ", the covers only " + itoa(covers), Do: "correct the one or the other"})
	}
	return problems
}
