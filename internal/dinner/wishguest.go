package dinner

import (
	"strconv"
	"strings"

	"hobside/internal/menu"
)

// guest proposes guests who can't have something, besides those who are known.
func (w *wishing) guest() proposal {
	var rows []menu.GuestRow
	for _, g := range w.in.Dinner.Menu.Guests {
		rows = append(rows, menu.GuestRow{Covers: strconv.Itoa(g.Covers), No: strings.Join(append(g.Exclude, g.NotChecked...), ", "), Note: g.Note})
	}
	n := max(1, w.Count)
	row := menu.GuestRow{Covers: strconv.Itoa(n), No: w.Words}
	one, problems := menu.ParseGuests(menu.GuestLines([]menu.GuestRow{row}), w.in.Dinner.Menu.Foods)
	if len(one) == 0 {
		return cannot("say what they can’t have, like “nuts”")
	}
	for _, g := range one {
		if len(g.NotChecked) > 0 {
			return cannot("“%s” is not understood, so no plate can be checked against it: use another word", clip(strings.Join(g.NotChecked, ", ")))
		}
	}
	if len(problems) > 0 {
		return cannot("%s: %s", problems[0].Msg, problems[0].Do)
	}
	lines := menu.GuestLines(append(rows, row))
	all, _ := menu.ParseGuests(lines, w.in.Dinner.Menu.Foods)
	if msg, do, over := menu.MoreGuestsThan(w.live.worked.Demand.Covers, all); over {
		return cannot("%s: %s", msg, do)
	}
	return proposal{events: []Draft{{Kind: KindGuests, Text: lines}}}
}
