package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// naming holds the words by which steps may name an item.
type naming struct {
	words []string
	at    int
	used  bool // a step names it
}

// bold is a bold piece of a step whose item is not known yet.
type bold struct {
	step, run  int
	at         int
	words      string
	card, save string // of its link
}

// match finds the item that each bold piece names, and marks the items used.
func (p *parser) match() {
	if len(p.items) == 0 {
		return // there is a problem about that already
	}
	for i := range p.bolds {
		b := &p.bolds[i]
		run := &p.card.Steps[b.step].Text[b.run]
		use, name := readUse(b.words)
		name = p.amountLast(ofWhat(name))
		if halfOfOne(b.words) {
			use, name = Run{}, b.words
		}
		if p.badFigure(b, name) {
			continue
		}
		typed := name
		if n, ok := p.quantityPart(name); ok && use.Share.IsZero() {
			use.Part, name, use.Rest = n.Part, n.Text, false // "remaining 300 ml cream"
			if !n.Share.IsZero() {
				use.Share = n.Share
			}
		}
		called := words(name)
		if side, whole := sideOf(called); side != "" && !p.fits(called) && p.fits(whole) {
			use.side, called = side, whole
		}
		item := p.find(b, called)
		if item < 0 {
			continue
		}
		p.items[item].used = true
		use.Item, use.Text = item+1, document.Valid(name)
		faults := len(p.Problems)
		p.part(b, &use, typed, &p.card.Items[item])
		if len(p.Problems) == faults && use.Part.Unit == nil && p.card.Items[item].Amount.Unit != nil {
			p.oddShare(b, called, p.items[item].words)
		}
		*run = use
	}
}

// oddShare adds a problem for words before an item that are meant to say how much of it
// and are not read: "haf the butter", "rest/of the butter".
func (p *parser) oddShare(b *bold, name, item []string) {
	extra := len(name) - len(item)
	if extra <= 0 || !slices.Equal(name[extra:], item) {
		return
	}
	if saysUnit(name[:extra]) {
		return // "thin slices of bacon"
	}
	of := func(w string) bool {
		return slices.Contains([]string{"the", "of", "rest", "remaining", "third", "quarter"}, w)
	}
	if slices.ContainsFunc(name[:extra], of) {
		p.Warn(b.at, `"`+document.Clip(b.words)+`" does not say a share that is read: it takes all that is left`, "", `write it like "half the butter", "a third of the butter" or "rest of the butter"`)
	}
}

// badFigure reports whether a bold piece begins with an amount that can't be read,
// and adds its problem. Its item then counts as used.
func (p *parser) badFigure(b *bold, name string) bool {
	if !document.BeginsWithAmount(name) {
		return false
	}
	_, _, err := p.Measures.ParseAmount(name)
	if err == nil {
		return false
	}
	p.Amount(name, b.at+max(0, strings.Index(b.words, name)))
	rest := words(afterFigure(name))
	for i := range p.items {
		if fit(rest, p.items[i].words) != none {
			p.items[i].used = true
		}
	}
	return true
}

// readUse reads words that say how much of an item is used: the rest, or a
// share.
func readUse(s string) (use Run, name string) {
	for _, word := range [...]string{"one-", "two-", "three-"} { // "one-third of the cream"
		if n := len(word); document.HasPrefixFold(s, word) {
			s = s[:n-1] + " " + s[n:]
		}
	}
	low := strings.ToLower(s)
	cut := func(prefixes ...string) bool {
		for _, pre := range prefixes {
			if strings.HasPrefix(low, pre) && len(low) == len(s) {
				low, s = low[len(pre):], s[len(pre):]
				return true
			}
		}
		return false
	}
	switch {
	case cut("the rest of ", "rest of ", "the remaining ", "remaining ", "what is left of ", "the last of "):
		use.Rest = true
	case cut("all of ", "all "):
	default:
		aboutWhole, aboutLow := s, low
		about := cut("about ", "roughly ", "nearly ", "almost ")
		for _, sh := range shares {
			if whole, wholeLow := s, low; cut(sh.words) {
				if !cut("of ") && !strings.HasPrefix(low, "the ") && sh.of != 2 {
					s, low = whole, wholeLow
					break // "third" and the like only with an "of"
				}
				use.Share = quantity.Frac(sh.n, sh.of)
				break
			}
		}
		if about && use.Share.IsZero() {
			s, low = aboutWhole, aboutLow
		}
		if i := strings.IndexByte(low, '%'); i > 0 && i < 8 && len(low) == len(s) {
			if n, ok := document.Number(low[:i]); ok && n.Sign() > 0 {
				use.Share = n.Mul(quantity.Frac(1, 100))
				low, s = strings.TrimSpace(low[i+1:]), strings.TrimSpace(s[i+1:])
				cut("of ")
			}
		}
	}
	cut("the ", "this ", "that ")
	return use, strings.TrimSpace(s)
}

// shares are the words for a part of something.
var shares = [...]struct {
	words string
	n, of int64
}{
	{"half ", 1, 2}, {"a half ", 1, 2}, {"one half ", 1, 2}, {"the other half ", 1, 2}, {"the first half ", 1, 2},
	{"a third ", 1, 3}, {"one third ", 1, 3}, {"two thirds ", 2, 3},
	{"a quarter ", 1, 4}, {"one quarter ", 1, 4}, {"three quarters ", 3, 4},
	{"a fifth ", 1, 5}, {"one fifth ", 1, 5}, {"two fifths ", 2, 5}, {"three fifths ", 3, 5}, {"four fifths ", 4, 5},
	{"a sixth ", 1, 6}, {"an eighth ", 1, 8}, {"a tenth ", 1, 10}, {"nine tenths ", 9, 10},
}

// halfOfOne reports whether words are half of one piece, "half a lemon", and not half of all
// that the formula has.
func halfOfOne(s string) bool {
	return document.HasPrefixFold(s, "half a ") || document.HasPrefixFold(s, "half an ")
}

// quantityPart reads a part given in figures: "100 g butter", "½ of the butter".
func (p *parser) quantityPart(name string) (use Run, ok bool) {
	a, rest, err := p.Measures.ParseAmount(name)
	if err != nil || a.Unit == nil || rest == "" || p.fits(words(name)) && !document.BeginsWithAmount(name) { // "five spice"
		return use, false
	}
	tail, of := strings.CutPrefix(rest, "of ")
	tail = strings.TrimPrefix(tail, "the ")
	tail = strings.TrimPrefix(tail, "more ")
	if of && a.Unit == quantity.Each && a.Qty.Cmp(quantity.Int(1)) < 0 {
		return Run{Share: a.Qty, Text: tail}, true
	}
	return Run{Part: a, Text: tail}, true
}

// How well a name fits an item, best first.
const (
	exact  = 4 - iota // the same words
	ending            // the item's last words: "backs" of "chicken backs"
	within            // some of the item's words: "bread" of "bread flour"
	around            // the item's words and more: "melted butter" of "butter"
	none
)

func fit(bold, item []string) int {
	switch {
	case len(bold) == 0 || len(item) == 0:
		return none
	case slices.Equal(bold, item):
		return exact
	case len(bold) < len(item) && slices.Equal(bold, item[len(item)-len(bold):]):
		return ending
	case len(bold) < len(item):
		for _, w := range bold {
			if !slices.Contains(item, w) {
				return none
			}
		}
		return within
	case len(bold) > len(item) && (slices.Equal(item, bold[len(bold)-len(item):]) || slices.Equal(item, bold[:len(item)])):
		return around
	}
	return none
}

// find returns the index of the item that a bold piece names, or −1 after a
// problem.
func (p *parser) find(b *bold, name []string) int {
	best, at := none, -1
	also := -1 // another item that fits as well
	for i := range p.items {
		it := &p.card.Items[i]
		f := fit(name, p.items[i].words)
		if b.card != "" && b.card == it.Card && b.save == it.Save {
			f = exact
		}
		if f == none || f < best {
			continue
		}
		if f > best {
			best, at, also = f, i, -1
			continue
		}
		switch same := slices.Equal(p.items[i].words, p.items[at].words); {
		case same && p.items[at].used && !p.items[i].used:
			at = i // two items "butter": the second mention is the second item
		case same:
		case best == around && len(p.items[i].words) != len(p.items[at].words):
			if len(p.items[i].words) > len(p.items[at].words) {
				at = i
			}
		default:
			also = i
		}
	}
	switch {
	case also >= 0:
		p.Err(b.at, `"`+document.Clip(b.words)+`" may be "`+p.card.Items[at].Name+`" or "`+p.card.Items[also].Name+`"`, "", "write the name as the formula has it")
		p.items[at].used, p.items[also].used = true, true
		return -1
	case at < 0:
		p.unmatched(b, name)
	}
	return at
}

// unmatched adds the problem of a bold piece that names no item.
func (p *parser) unmatched(b *bold, name []string) {
	if p.Full() {
		return
	}
	joined := strings.Join(name, " ")
	for _, s := range p.card.Saves {
		if slices.Equal(words(s.Name), name) {
			return // what the card itself sets aside
		}
	}
	names := make([]string, len(p.items))
	for i := range p.items {
		names[i] = strings.Join(p.items[i].words, " ")
	}
	shown := document.Clip(b.words)
	if _, plain := readUse(b.words); plain != "" {
		shown = document.Clip(plain)
		if n, ok := p.quantityPart(plain); ok {
			shown = document.Clip(n.Text)
		}
	}
	if near := document.Nearest(joined, names); near != "" && joined != "" {
		i := slices.Index(names, near)
		p.items[i].used = true // one problem is enough
		at := b.at + max(0, strings.LastIndex(b.words, shown))
		p.Warn(min(at, len(p.Body())), `"`+shown+`" is not in the formula`, p.card.Items[i].Name, "")
		return
	}
	p.Warn(b.at, `"`+document.Clip(b.words)+`" is not in the formula`, "", "bold names an item; for stress write *one star*")
}
