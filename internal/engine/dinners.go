package engine

import (
	"sort"
	"strings"

	"hobside/internal/dinner"
)

// DinnersCall asks for the list of dinners. Events are those of any number of dinners:
// what opens, moves, shelves and counts them, and every undo.
type DinnersCall struct {
	Events []dinner.Event `json:"events"`
}

// DinnersView is the list of dinners, by name.
type DinnersView struct {
	Dinners []DinnerLine `json:"dinners"`
}

// DinnerLine is one dinner as its events say now.
type DinnerLine struct {
	Dinner string `json:"dinner"`
	Title  string `json:"title"`
	Covers int    `json:"covers"`
	Serve  string `json:"serve"` // wall clock
	Zone   string `json:"zone"`  // of the phone that made it; "" when not said
	Shelf  int    `json:"shelf"` // dinner.Listed, PutAway or Deleted
}

// dinnerLines folds the events of each dinner into a line. A dinner whose opening is not among
// the events has none.
func dinnerLines(in DinnersCall) (*DinnersView, error) {
	by := map[string][]dinner.Event{}
	for _, ev := range in.Events {
		by[ev.Dinner] = append(by[ev.Dinner], ev)
	}
	out := &DinnersView{Dinners: []DinnerLine{}}
	for id, events := range by {
		s := dinner.Fold(events)
		if s.Open == nil {
			continue
		}
		title := s.Name
		if title == "" {
			title = strings.ReplaceAll(strings.TrimSuffix(s.Open.Menu, ".md"), "-", " ")
		}
		out.Dinners = append(out.Dinners, DinnerLine{Dinner: id, Title: title, Covers: s.Covers, Serve: s.Serve, Zone: s.Open.Zone, Shelf: s.Shelf})
	}
	sort.Slice(out.Dinners, func(i, j int) bool { return out.Dinners[i].Dinner < out.Dinners[j].Dinner })
	return out, nil
}
