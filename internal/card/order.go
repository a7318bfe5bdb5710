package card

import (
	"strconv"
	"strings"

	"hobside/internal/document"
)

// An Order is an order that a step keeps with steps of other cards: "before: Trout
// fillets, step 3", "after: anything with fish".
type Order struct {
	Before bool   // the step is done before the others begin; else it begins after they are done
	Words  string // the card or the food, as typed: "Trout fillets", "fish"
	Card   string // slug of the card's title or ID; "" where With is set
	Step   int    // number of the other card's step; 0: all of its steps
	With   string // what the other cards' steps handle, as the kitchen understands it: "fish"
	Pos    document.Pos
}

// Names reports whether an order is with a card.
func (o Order) Names(c *Card) bool {
	return o.With == "" && (o.Card == c.ID || o.Card == document.Slug(c.Title))
}

// String returns the order as an author types it, without its word: "Trout fillets, step 3".
func (o Order) String() string {
	switch {
	case o.With != "":
		return "anything with " + o.With
	case o.Step > 0:
		return o.Words + ", step " + strconv.Itoa(o.Step)
	}
	return o.Words
}

// word returns the fact word of an order.
func (o Order) word() string {
	if o.Before {
		return "before"
	}
	return "after"
}

// anything are the words before a food in an order with every card.
var anything = [...]string{"anything with ", "everything with ", "anything containing ", "any card with ", "all cards with "}

// order reads an order with other cards. A step number alone belongs to "after" and is
// not read here.
func (p *parser) order(step int, f document.Fact) {
	o := Order{Before: f.Word == "before", Words: document.Valid(strings.TrimSpace(f.Value)), Pos: p.Place(f.ValueAt)}
	if with, ok := document.CutAny(strings.ToLower(o.Words), anything[:]...); ok {
		a, known := p.card.Foods.Understand(with)
		if !known {
			p.Err(f.ValueAt, `"`+with+`" is no allergen, no kind of animal and no food that is known`, p.card.Foods.Suggest(with), `write it like "`+f.Word+`: anything with fish"`)
			return
		}
		o.With = a.Words
		p.card.Steps[step].Order = append(p.card.Steps[step].Order, o)
		return
	}
	if o.Words, o.Step = cutStep(o.Words); o.Step < 0 {
		p.Err(f.ValueAt, `"`+f.Value+`" names no step`, "", `write it like "`+f.Word+`: Trout fillets, step 3"`)
		return
	}
	o.Card = document.Slug(o.Words)
	if text, target, ok := strings.Cut(o.Words, "]("); ok && strings.HasPrefix(text, "[") { // a link
		target, _, _ = strings.Cut(target, ")")
		o.Words, o.Card = text[1:], document.ID(target)
	}
	if o.Card == "" || o.Card == "start" || strings.Trim(o.Card, "0123456789-") == "" {
		p.Err(f.ValueAt, `"`+f.Value+`" names no other card`, "", `write it like "`+f.Word+`: Trout fillets, step 3" or "`+f.Word+`: anything with fish"`)
		return
	}
	if o.Names(p.card) {
		p.Err(f.ValueAt, `"`+f.Value+`" is this card itself`, "", `for a step of this card write "after: step 2"`)
		return
	}
	p.card.Steps[step].Order = append(p.card.Steps[step].Order, o)
}

// cutStep cuts ", step 3" off the end of words. The number is 0 where there is none,
// and −1 where "step" is followed by no number.
func cutStep(s string) (words string, n int) {
	at := strings.LastIndex(strings.ToLower(s), "step")
	if at < 0 || at > 0 && s[at-1] != ' ' && s[at-1] != ',' {
		return s, 0
	}
	figure := strings.TrimSpace(s[at+len("step"):])
	n, err := strconv.Atoi(figure)
	switch {
	case err == nil && n > 0:
		return strings.TrimRight(s[:at], " ,"), n
	case figure == "" || document.IsDigit(figure[0]) || figure[0] == '-':
		return s, -1
	}
	return s, 0 // "step" is a word of the title
}
