package quantity

import (
	"strings"
	"unicode/utf8"
)

// An AmountError says what is wrong with a typed amount, where, and what to do.
type AmountError struct {
	Offset   int      // where, in runes from the start of the text
	Msg      string   // what is wrong: lower case, no full stop
	Do       string   // what to do
	Doubtful bool     // the amount can be read in two ways
	Readings []Amount // of a doubtful amount, the readings that are possible where it was typed
}

// Error returns what is wrong and what to do.
func (e *AmountError) Error() string {
	s := e.Msg
	if e.Do != "" {
		s += "; " + e.Do
	}
	return s
}

// Amounts above these are taken for typing mistakes: 10 t, 10,000 litres, a million
// pieces. Common practice, no source.
var (
	mostGrams = Int(10_000_000)
	mostMl    = Int(10_000_000)
	mostCount = Int(1_000_000)
)

// ParseAmount reads the amount at the front of a text and returns what follows
// it, trimmed: "1 ½ lb chicken", "2–3 cloves garlic", "1,5 kg flour", "3 eggs",
// "about 1.6 kg", "to taste", "two eggs".
//
// A range may be written with a hyphen, a dash, "to" or "or", and both of its ends may
// have units ("8 oz–1 lb"). A number without a unit counts pieces; "dozen" is 12 of them.
// Parts of one measure are one amount, in the smallest of their units: "2 lb 8 oz" is
// 40 oz, "1 cup plus 2 tbsp" 18 tbsp. A comma or point between digits is decimal, or it parts thousands
// where only that is possible ("1,500,000", "1.000,5"). With exactly three digits
// behind it ("1,500 g") both are possible, but for units in which a scale shows three
// decimals (kg, L, lb and larger measures): that gives an [*AmountError] with both
// readings.
//
// A text without an amount, an amount of 0, below 0 or above what a kitchen holds,
// and a range that does not rise give an [*AmountError] and the whole text as rest.
//
// A bare pint, fluid ounce, quart or gallon is a US one. See [Measures.ParseAmount].
func ParseAmount(text string) (a Amount, rest string, err error) {
	return USMeasures.ParseAmount(text)
}

// ParseAmount reads an amount as the function of that name does, and takes a bare pint, fluid
// ounce, quart or gallon for one of m.
func (m Measures) ParseAmount(text string) (a Amount, rest string, err error) {
	p := &scanner{text: text, measures: m}
	a, rest, err = p.amount()
	if !p.ambiguous {
		return a, rest, err
	}
	grouped := &scanner{text: text, thousands: true, measures: m}
	large, largeRest, largeErr := grouped.amount()
	switch {
	case largeErr != nil:
		return a, rest, err
	case err != nil: // of "500–1,500 g" only one reading rises
		return large, largeRest, nil
	}
	doubt := &AmountError{Msg: "can be read as " + Written(large) + " or as " + Written(a), Do: "type the one that is meant", Doubtful: true, Readings: []Amount{large, a}}
	doubt.Offset = utf8.RuneCountInString(text[:p.begin])
	return Amount{}, text, doubt
}

// amount reads an amount and what follows it. See [ParseAmount].
func (p *scanner) amount() (a Amount, rest string, err error) {
	p.spaces()
	for _, w := range [...]string{"to taste", "as needed", "a little", "some"} {
		if mark := p.at; p.word(w) {
			if after := p.text[p.at:]; after == "" || !isWord(after) {
				return Amount{ToTaste: true}, strings.TrimSpace(after), nil
			}
			p.at = mark
		}
	}
	for _, w := range [...]string{"about ", "approx. ", "approx ", "ca. ", "c. ", "~"} {
		if p.word(w) {
			a.About = true
			p.spaces()
			break
		}
	}
	p.begin = p.at
	if strings.HasPrefix(p.text[p.at:], "-") || strings.HasPrefix(p.text[p.at:], "−") {
		return Amount{}, p.text, p.fault(p.begin, "an amount can't be negative", "type how much goes in")
	}
	if err := p.figures(&a); err != nil {
		return Amount{}, p.text, err
	}
	if r, _ := utf8.DecodeRuneInString(p.text[p.at:]); r == 'e' || r == 'E' {
		if next := p.text[p.at+1:]; next != "" && next[0] >= '0' && next[0] <= '9' {
			return Amount{}, p.text, p.fault(p.begin, "a number in powers of ten", "write it out in full")
		}
	}
	p.dozens(&a)
	p.spaces()
	a.Unit = p.unit(false)
	if a.Unit.Dim == Mass {
		p.byWeight()
	}
	p.more(&a)
	p.upperEnd(&a)
	if err := p.check(a, p.begin); err != nil {
		return Amount{}, p.text, err
	}
	return a, strings.TrimSpace(p.text[p.at:]), nil
}

// figures reads the figure of an amount, or both of a range.
func (p *scanner) figures(a *Amount) error {
	var ok bool
	if a.Qty, ok = p.spoken(); ok {
		return nil
	}
	if a.Qty, ok = p.figure(); !ok {
		return p.noFigure(p.begin, "no amount here", `type a number and a unit, such as "500 g", or "to taste"`)
	}
	mark := p.at
	p.spaces()
	joined := p.at
	if !p.dash() {
		p.at = mark
		return nil
	}
	if p.at == joined+1 && mark == joined && p.endsInUnit() {
		return nil // "28-oz"
	}
	p.spaces()
	if a.To, ok = p.figure(); !ok {
		return p.noFigure(p.at, "a range without an upper end", `type both ends, such as "2–3"`)
	}
	if mark == joined && p.text[joined] == '-' && a.Qty.IsInt() && a.To.Cmp(Int(1)) < 0 {
		a.Qty, a.To = a.Qty.Add(a.To), Number{} // "1-1/2": it would not rise as a range
		return nil
	}
	if a.To.Cmp(a.Qty) <= 0 {
		return p.fault(p.begin, "a range whose upper end is not above its lower", "swap them or type one number")
	}
	return nil
}

// byWeight skips a word that says again that a mass is one: "6 oz wt pasta".
func (p *scanner) byWeight() {
	mark := p.at
	p.spaces()
	for _, w := range [...]string{"wt.", "wt", "by weight", "weight"} {
		if p.wholeWord(w) {
			return
		}
	}
	p.at = mark
}

// noFigure returns the error of a text that has no figure where one should be.
func (p *scanner) noFigure(at int, msg, do string) error {
	if strings.ContainsAny(p.odd, "/⁄∕") {
		return p.fault(at, `"`+p.odd+`" may be two figures run together`, `type it with a space, such as "1 1/2", or as a decimal, such as "5.5"`)
	}
	if p.odd != "" {
		return p.fault(at, `"`+p.odd+`" is not a figure`, `type it with one comma or point at most, such as "1500" or "1.5"`)
	}
	return p.fault(at, msg, do)
}

// ParseNumber reads a figure that has no unit and whose size says that three digits
// behind a comma or point are decimals: a share, a density. ok is false for anything
// else.
func ParseNumber(text string) (n Number, ok bool) {
	p := &scanner{text: strings.TrimSpace(text)}
	n, ok = p.number()
	return n, ok && p.at == len(p.text)
}

// check refuses an amount of 0 and one that no kitchen has. start is where the
// amount begins, in bytes.
func (p *scanner) check(a Amount, start int) error {
	if a.Qty.IsZero() {
		return p.fault(start, "an amount of 0", "leave the line out, or mark the item optional")
	}
	most := mostCount
	switch a.Unit.Dim {
	case Mass:
		most = mostGrams
	case Volume:
		most = mostMl
	}
	if a.Need().Mul(a.Unit.Factor).Cmp(most) > 0 {
		return p.fault(start, "more than any kitchen holds", "check the number and its unit")
	}
	return nil
}
