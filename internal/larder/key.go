package larder

import "strings"

// unaccented maps the accented letters of foods' names to plain ones.
var unaccented = strings.NewReplacer("à", "a", "á", "a", "â", "a", "ä", "a", "ã", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "ö", "o", "õ", "o", "ø", "o", "ù", "u", "ú", "u", "û", "u", "ü", "u",
	"ý", "y", "ÿ", "y", "œ", "oe", "æ", "ae", "ß", "ss", "’", "", "'", "", "-", " ", "‐", " ", "–", " ", "&", " and ", "/", " or ")

// key returns the words by which the tables are searched for an item: without what
// follows a comma or is in brackets, in lower case, without accents, hyphens and
// apostrophes, every word in the singular. Nothing else is taken away.
func key(item string) string {
	if i := strings.IndexAny(item, ",(;:"); i >= 0 {
		item = item[:i]
	}
	item = strings.ToLower(item)
	for i := range len(item) {
		if c := item[i]; c >= 0x80 || c == '-' || c == '\'' || c == '&' || c == '/' {
			item = unaccented.Replace(item)
			break
		}
	}
	return singular(item)
}

// singular returns a phrase in lower case with every word in the singular and one space between
// words. Tables and items both go through it, so it must be consistent; it need not be
// good English.
func singular(phrase string) string {
	phrase = strings.ToLower(phrase)
	if isSingular(phrase) {
		return phrase
	}
	var out strings.Builder
	out.Grow(len(phrase))
	for word := range strings.FieldsSeq(phrase) {
		if out.Len() > 0 {
			out.WriteByte(' ')
		}
		word, tail := one(word)
		out.WriteString(word)
		out.WriteString(tail)
	}
	return out.String()
}

// isSingular reports whether a phrase in lower case is as singular would write it, as
// most names of the table are: it saves the copy.
func isSingular(phrase string) bool {
	for more := true; more; {
		var word string
		word, phrase, more = strings.Cut(phrase, " ")
		if word == "" || strings.ContainsAny(word, "\t\n\r\v\f\u0085\u00a0") {
			return false
		}
		switch word[len(word)-1] {
		case 's', 'e', 't':
			if stem, tail := one(word); len(stem)+len(tail) != len(word) || stem+tail != word {
				return false
			}
		}
	}
	return true
}

// one returns the singular of a word as a stem and what is put after it.
func one(w string) (stem, tail string) {
	n := len(w)
	switch {
	case w == "peppers":
		return w, "" // pepper is a spice
	case w == "yogurt", w == "yogurts":
		return "yoghurt", ""
	case w == "chillies", w == "chilies":
		return w[:n-2], ""
	case n > 4 && strings.HasSuffix(w, "ies"):
		return w[:n-3], "y"
	case n > 3 && strings.HasSuffix(w, "ie"):
		return w[:n-2], "y"
	case n > 4 && strings.HasSuffix(w, "oes"), n > 4 && strings.HasSuffix(w, "xes"), n > 5 && strings.HasSuffix(w, "shes"), n > 5 && strings.HasSuffix(w, "ches"):
		return w[:n-2], ""
	case n > 4 && strings.HasSuffix(w, "che"):
		return w[:n-1], ""
	case w == "leaves", w == "loaves", w == "halves":
		return w[:n-3], "f"
	case w == "feet":
		return "foot", ""
	case w == "calves":
		return "calf", ""
	case n > 3 && w[n-1] == 's' && w[n-2] != 's' && w[n-2] != 'u':
		return w[:n-1], ""
	}
	return w, ""
}
