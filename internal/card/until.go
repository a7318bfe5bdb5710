package card

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// until reads the sign that a step is done: a weight or volume, a core
// temperature, or words.
func (p *parser) until(f document.Fact) (until Until) {
	until.Words = p.said(f)
	if first, _, _ := strings.Cut(strings.ToLower(f.Value), " "); first != "core" && len(first) < 7 && nearWord(first, []string{"core"}) != "" {
		if _, degrees := document.Temperature(f.Value); degrees {
			p.Err(f.ValueAt, `"`+f.Value+`" is read as words, not as a core temperature`, "core", "")
			return until
		}
	}
	if document.HasPrefixFold(f.Value, "core") {
		until.CoreC, until.HasCore = p.limit(f)
		if !until.HasCore {
			p.Err(f.ValueAt, `"`+f.Value+`" gives no core temperature`, "", `write it like "until: core 63 °C"`)
			return until
		}
		until.CoreFor = p.held(f)
		return until
	}
	if unit := strings.TrimLeft(f.Value, "0., "); document.IsZero(f.Value) {
		if u, ok := quantity.LookupUnit(unit); ok && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) {
			p.Err(f.ValueAt, `"until: `+document.Clip(f.Value)+`" leaves nothing in the pan`, "", `write what it is to come to, like "until: 900 g"`)
			return until
		}
	}
	a, rest, err := p.Measures.ParseAmount(f.Value)
	if figure := strings.TrimLeft(f.Value, ";:,.=|/ "); figure != f.Value && figure != "" && document.IsDigit(figure[0]) {
		p.Err(f.ValueAt, `"`+document.Clip(f.Value)+`" begins with a sign`, "", `take it out: "until: `+document.Clip(figure)+`"`)
		return until
	}
	if err != nil && document.BeginsWithAmount(f.Value) {
		p.Amount(f.Value, f.ValueAt)
		return until
	}
	_, degrees := document.Temperature(f.Value)
	switch {
	case err != nil || a.Unit == nil:
	case degrees && rest == "" && a.Unit.Dim != quantity.Count: // "180 C" is no cup
	case a.Unit.Dim == quantity.Mass || a.Unit.Dim == quantity.Volume:
		if until.Amount = a; rest != "" {
			until.Amount = quantity.Amount{}
			p.Warn(f.ValueAt, `"until: `+document.Clip(f.Value)+`" is read as words, so its amount does not scale`, "", `write the amount alone: "until: `+quantity.Written(a)+`"`)
		}
	case a.Unit == quantity.Each && figureWithoutUnit(f.Value, rest):
		p.Err(f.ValueAt, `"until: `+document.Clip(f.Value)+`" is a figure without a unit that is known`, "", `write it like "until: 900 g", or begin with the words`)
	}
	return until
}

// figureWithoutUnit reports whether what follows a figure is no word: nothing, a sign,
// or one or two letters that are no temperature.
func figureWithoutUnit(typed, rest string) bool {
	if _, degrees := document.Temperature(typed); degrees {
		return false
	}
	if _, _, _, what := document.CutTime(strings.ToLower(typed)); what == "" {
		return true
	}
	r, _ := utf8.DecodeRuneInString(rest)
	first, _, _ := strings.Cut(rest, " ")
	return !unicode.IsLetter(r) || len(strings.TrimRight(first, ",.;")) <= 2
}
