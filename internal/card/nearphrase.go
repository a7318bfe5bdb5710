package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// phrases are the prep phrases that are read by themselves, and sized those with a
// figure behind them.
var (
	phrases = []string{"optional", "to taste", "as needed", "not eaten", "fixed"}
	sized   = []string{"trim", "each", "pack", "bag"}
)

// nearPhrase adds a problem for a prep phrase that is a slip away from one that is
// read: "optioal", "trim 8 °F", "eahc 60 g".
func (p *parser) nearPhrase(part, low string, at int) {
	if hint := nearWord(low, phrases); hint != "" && low != "mixed" {
		p.Warn(at, `"`+document.Clip(part)+`" is read as words`, hint, "")
		return
	}
	if slices.Contains(sized, low) {
		p.Warn(at, `"`+part+`" says nothing`, "", `write it like "trim 12 %", "each 60 g" or "pack 500 g"`)
		return
	}
	if p.sizedInside(part, low, at) || p.phraseAtEnd(part, low, at) {
		return
	}
	first, rest, more := strings.Cut(low, " ")
	if !more || !strings.ContainsAny(rest, "0123456789½¼¾") {
		return
	}
	exact := slices.Contains(sized, first)
	hint := first
	if !exact {
		hint = nearWord(first, sized)
	}
	_, after, err := quantity.ParseAmount(rest)
	share := strings.HasSuffix(low, "%")
	if hint != "" && (exact || share && hint == "trim" || err == nil && after == "" && hint != "trim") {
		p.Err(at, `"`+document.Clip(part)+`" is read as words`, "", `write it like "trim 12 %", "each 60 g" or "pack 500 g"`)
	}
}

// sizedInside reports whether a phrase with a figure is within other words, where it
// is not read, and adds its problem: "silver each 1.6 g".
func (p *parser) sizedInside(words, low string, at int) bool {
	if !strings.ContainsAny(low, "0123456789") {
		return false
	}
	for _, w := range sized {
		if i := strings.Index(low, w+" "); i > 0 && low[i-1] == ' ' && len(low) > i+len(w)+1 && document.IsDigit(low[i+len(w)+1]) {
			p.Warn(at, `"`+document.Clip(words[min(i, len(words)):])+`" is read as words`, "", "put a comma before it, and nothing else")
			return true
		}
	}
	return false
}

// phraseAtEnd reports whether "optional", "not eaten" or "fixed" ends other words without a comma
// before it, where it is not read, and adds its problem: "coarse not eaten".
func (p *parser) phraseAtEnd(words, low string, at int) bool {
	for _, phrase := range []string{"optional", "not eaten", "fixed"} {
		if strings.HasSuffix(low, " "+phrase) {
			p.Warn(at, `"`+document.Clip(words)+`" is read as words`, phrase, "put a comma before it")
			return true
		}
	}
	return false
}

// nearWord returns the entry of words that is one slip away from word, "" for none.
func nearWord(word string, words []string) string {
	for _, w := range words {
		if n := len(word) - len(w); n < -2 || n > 2 {
			continue
		}
		limit := 1
		if len(w) > 6 {
			limit = 2
		}
		if n := quantity.Distance(word, w, limit); n > 0 && n <= limit {
			return w
		}
	}
	return ""
}
