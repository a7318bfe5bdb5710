package dinner

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/library"
	"hobside/internal/menu"
	"hobside/internal/plan"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// Worked is what follows from a dinner's events and files: amounts, batches,
// consequences. It is worked out once for a state and shared by everything that
// shows the dinner. Nothing in it changes afterwards.
type Worked struct {
	Files        library.Set          // the pinned files whose texts are here
	Menu         *menu.Menu           // with the dinner's own guests; nil while its text is missing
	Foods        *larder.Foods        // the kitchen's own; nil for none
	Kitchen      *kitchen.Kitchen     // nil while its text is missing, or when the dinner names none
	Input        demand.Input         // what Demand was exploded from
	Demand       *demand.Demand       // never nil
	Consequences []demand.Consequence // of the cards that were weighed or are short
	Clashes      []demand.Clash       // plates that hold what their guests exclude
	WaysOut      []demand.WayOut      // single changes that end some of them
	Problems     []document.Problem   // of the files, of the files together, of the dinner
}

// Rules returns the rule set of the dinner's kitchen, "" where it names none.
func (w *Worked) Rules() safety.Rules {
	if w.Kitchen == nil {
		return ""
	}
	return safety.Rules(w.Kitchen.Rules)
}

// Way returns the way a card is made: 1 + index in Card.Ways, the first when
// nobody chose one, 0 for a card that has none.
func (w *Worked) Way(c *card.Card) int {
	if len(c.Ways) == 0 {
		return 0
	}
	if n := w.Input.Ways[c.ID]; n >= 1 && n <= len(c.Ways) {
		return n
	}
	return 1
}

// work compiles the pinned files and works out what follows.
func (l *Live) work() {
	old := l.worked
	w := &Worked{Files: library.Set{}}
	l.worked, l.planned = w, nil
	for _, name := range slices.Sorted(maps.Keys(l.state.Open.Files)) {
		text, ok := l.texts[l.state.Open.Files[name]]
		if !ok {
			w.Problems = append(w.Problems, document.Problem{File: name, Line: 1, Col: 1, Severity: document.Error,
				Msg: "its text is not on this phone yet", Do: "it comes with the next sync"})
			continue
		}
		f := l.cache.Compile(name, text)
		w.Files[name] = f
	}
	w.Foods = l.cache.Stock(w.Files)
	for _, name := range w.Files.Names() {
		w.Problems = append(w.Problems, w.Files[name].Problems...)
	}
	w.Kitchen = w.Files.Kitchen(l.state.Open.Kitchen)
	if old == nil || !maps.Equal(old.Files, w.Files) {
		l.together = w.Files.Check()
		l.amounts = amounts{}
	}
	w.Problems = append(w.Problems, l.together...)
	l.amounts.used = map[string]exploded{}
	out := l.explode(l.state, l.frozen())
	w.Input, w.Demand, w.Menu = out.input, out.demand, out.input.Menu
	w.Problems = append(w.Problems, guestProblems(w.Input, l.state.Guests)...)
	w.Problems = append(w.Problems, amountProblems(out, w.Kitchen, demand.Shop{Prices: w.Files.Prices(w.Kitchen), Foods: w.Foods})...)
	w.Consequences = demand.Consequences(w.Input, w.Demand)
	w.Clashes = demand.Clashes(w.Input, w.Demand)
	w.WaysOut = demand.WaysOut(w.Input, w.Demand, w.Clashes)
	l.amounts.known, l.amounts.apart = l.amounts.used, w.Input.Apart
	w.Problems = inOrder(w.Problems)
}

// exploded is a state of the dinner in amounts.
type exploded struct {
	input    demand.Input
	demand   *demand.Demand
	problems []document.Problem
}

// explode works out the amounts of a state, or remembers them. Frozen is how
// much of the card was planned for each batch that is begun.
func (l *Live) explode(s *State, frozen map[string]quantity.Number) exploded {
	fixed := maps.Clone(frozen)
	now := begun(s)
	maps.DeleteFunc(fixed, func(key string, _ quantity.Number) bool { return !now[key] })
	b, _ := json.Marshal([]any{l.state.Open.Menu, l.state.Open.Kitchen, s.Covers, s.Open != nil && s.Open.Covers > 0, s.Guests, s.Ways, s.Leave, s.Seats, s.Portions, s.Again, s.Measures, s.onAmounts(), now, weighedDone(s), fixed})
	basis := string(b)
	out, ok := l.amounts.used[basis]
	if !ok {
		out, ok = l.amounts.known[basis]
	}
	if !ok {
		in := plan.Input{Dinner: l.input(s, frozen), Kitchen: l.worked.Kitchen, OnBuild: func() { l.count(Project) }}
		out = changedMenu(in, s.onAmounts(), l.amounts.apart)
	}
	l.amounts.used[basis] = out
	return out
}

// input gathers what package demand needs from a state.
func (l *Live) input(s *State, frozen map[string]quantity.Number) demand.Input {
	files := l.worked.Files
	in := demand.Input{
		Cards:     map[string]*card.Card{},
		Covers:    s.Covers,
		Again:     s.Again,
		Ways:      s.Ways,
		Leave:     map[string]map[int]bool{},
		Seats:     seats(s),
		Portions:  s.Portions,
		OnExplode: func() { l.count(Explosion) },
	}
	if s.Covers == 0 && s.Open != nil && s.Open.Covers > 0 {
		in.Covers = -1 // all guests have cancelled
	}
	for _, f := range files {
		if f.Card != nil {
			in.Cards[f.Card.ID] = f.Card
		}
	}
	if f := files[l.state.Open.Menu]; f != nil && f.Menu != nil {
		in.Menu = withGuests(f.Menu, s.Guests)
	}
	in.Made = made(s, in.Cards, frozen)
	for key, left := range s.Leave {
		k, ok := ParseKey(key)
		if !ok || k.Item == 0 || !left {
			continue
		}
		if in.Leave[k.Card] == nil {
			in.Leave[k.Card] = map[int]bool{}
		}
		in.Leave[k.Card][k.Item] = true
	}
	return in
}

// inOrder sorts problems by their place and takes out those that are told twice.
func inOrder(problems []document.Problem) []document.Problem {
	slices.SortStableFunc(problems, byPlace)
	return slices.Compact(problems)
}

// byPlace orders problems by file, then as one reads.
func byPlace(a, b document.Problem) int {
	return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col), strings.Compare(a.Msg, b.Msg))
}
