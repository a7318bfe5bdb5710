package library

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
)

// orders checks what cards say of the order of their steps with steps of other cards: that
// the cards and steps are there and that no ring of steps waits for itself; and that work
// kept apart from something has none of it.
func (c *linkChecker) orders() {
	titles := make([]string, 0, len(c.cards))
	for _, x := range c.cards {
		titles = append(titles, x.Title)
	}
	ring := rings{c: c, handles: map[string]*card.Handling{}}
	for _, x := range c.cards {
		for i := range x.Steps {
			s := &x.Steps[i]
			for _, o := range s.Order {
				c.named(x, o, titles)
			}
			for _, from := range x.ApartFrom(s) {
				if ring.handling(from, x).Steps(x)[i] {
					c.add(x.File, s.Pos, document.Error, "step "+strconv.Itoa(s.Number)+" is kept apart from "+from+" and handles it", "", "take one of the two out")
				}
			}
		}
	}
	ring.find()
}

// named checks that the card and the step of an order are there.
func (c *linkChecker) named(x *card.Card, o card.Order, titles []string) {
	if o.With != "" {
		return
	}
	at := slices.IndexFunc(c.cards, func(to *card.Card) bool { return o.Names(to) })
	if at < 0 {
		hint := document.Nearest(o.Words, titles)
		if hint == "" {
			hint = document.Nearest(o.Card, c.ids)
		}
		c.add(x.File, o.Pos, document.Error, `there is no card "`+o.Words+`"`, hint, "write the title of a card, or take the line out")
		return
	}
	to := c.cards[at]
	if o.Step > 0 && !slices.ContainsFunc(to.Steps, func(s card.Step) bool { return s.Number == o.Step }) {
		most := 0
		for _, s := range to.Steps {
			most = max(most, s.Number)
		}
		c.add(x.File, o.Pos, document.Error, to.Title+" has no step "+strconv.Itoa(o.Step), "", "its last step is "+strconv.Itoa(most))
	}
}

// A stepOf is one step of a card, by its index.
type stepOf struct {
	card string
	step int
}

// rings looks for rings of steps that wait for each other.
type rings struct {
	c       *linkChecker
	handles map[string]*card.Handling
	waits   map[stepOf][]stepOf // the steps that each step waits for
	orders  map[[2]stepOf]card.Order
	state   map[stepOf]int
	path    []stepOf
}

func (r *rings) handling(words string, x *card.Card) *card.Handling {
	h := r.handles[words]
	if h == nil {
		h = card.Handles(words, x.Foods, func(id string) *card.Card { return r.c.byID[id] })
		r.handles[words] = h
	}
	return h
}

// find adds a problem for each ring of steps, at an order that is part of it.
func (r *rings) find() {
	r.waits, r.orders, r.state = map[stepOf][]stepOf{}, map[[2]stepOf]card.Order{}, map[stepOf]int{}
	any := false
	for _, x := range r.c.cards {
		for i := range x.Steps {
			for _, o := range x.Steps[i].Order {
				any = true
				r.order(x, i, o)
			}
		}
	}
	if !any {
		return
	}
	for _, x := range r.c.cards {
		for i := range x.Steps {
			at := stepOf{x.ID, i}
			if before, ok := x.StepBefore(i); ok {
				r.waits[at] = append(r.waits[at], stepOf{x.ID, before})
			}
			for _, run := range x.Steps[i].Text {
				if run.Item == 0 || x.Items[run.Item-1].Save != "" {
					continue
				}
				if from := r.c.byID[x.Items[run.Item-1].Card]; from != nil && len(from.Steps) > 0 {
					r.waits[at] = append(r.waits[at], stepOf{from.ID, len(from.Steps) - 1})
				}
			}
		}
	}
	for _, x := range r.c.cards {
		for i := range x.Steps {
			r.visit(stepOf{x.ID, i})
		}
	}
}

// order adds what one order of a step makes wait for what.
func (r *rings) order(x *card.Card, step int, o card.Order) {
	at := stepOf{x.ID, step}
	for _, to := range r.c.cards {
		if to == x || o.With == "" && !o.Names(to) {
			continue
		}
		for i := range to.Steps {
			if o.With != "" && !r.handling(o.With, x).Steps(to)[i] || o.Step > 0 && to.Steps[i].Number != o.Step {
				continue
			}
			from, next := stepOf{to.ID, i}, at
			if o.Before {
				from, next = at, from
			}
			r.waits[next] = append(r.waits[next], from)
			r.orders[[2]stepOf{next, from}] = o
		}
	}
}

// visit walks the steps that a step waits for.
func (r *rings) visit(at stepOf) {
	const open, done = 1, 2
	if r.state[at] != 0 {
		return
	}
	r.state[at] = open
	r.path = append(r.path, at)
	for _, from := range r.waits[at] {
		switch r.state[from] {
		case 0:
			r.visit(from)
		case open:
			r.ring(r.path[slices.Index(r.path, from):])
		}
	}
	r.path = r.path[:len(r.path)-1]
	r.state[at] = done
}

// ring adds the problem of steps each of which waits for the next, and the last for the
// first.
func (r *rings) ring(steps []stepOf) {
	var names []string
	var at document.Pos
	file := ""
	for i, s := range steps {
		x := r.c.byID[s.card]
		names = append(names, x.Title+", step "+strconv.Itoa(x.Steps[s.step].Number))
		next := steps[(i+1)%len(steps)]
		if o, ok := r.orders[[2]stepOf{s, next}]; ok && file == "" {
			owner := s.card
			if o.Before {
				owner = next.card
			}
			at, file = o.Pos, r.c.byID[owner].File
		}
	}
	if file == "" {
		return // cards that need each other have a problem of their own
	}
	r.c.add(file, at, document.Error, "these steps wait for each other: "+strings.Join(append(names, names[0]), " → "), "", "take one of the lines out")
}
