package convert

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

var (
	inlineNumber = regexp.MustCompile(`(?:^|\s)(\d{1,2})[.)]\s+(\p{Lu})`)
	sentenceEnd  = regexp.MustCompile(`([.!?])\s+(\p{Lu})`)
	meanwhile    = regexp.MustCompile(`([.!?])\s+((?:Meanwhile|In the meantime|While (?:that|this|it|they)\b|Inzwischen|In der Zwischenzeit|Währenddessen|Unterdessen|In der Zeit)\b)`)
)

// readMethod reads the lines of the method into steps: numbered, with bullets, or in
// paragraphs.
func readMethod(d *draft, rows []line, section string) {
	if words := onlyRow(rows); words != nil && words.number { // "1. Do this. 2. Do that." on one line
		if parts := sentences(words.raw); len(parts) > 1 && inlineNumber.FindAllString(words.raw, 2) != nil && len(inlineNumber.FindAllString(words.raw, 3)) > 1 {
			for _, part := range parts {
				d.step("", part, section)
			}
			return
		}
	}
	has := func(is func(line) bool) bool { return slices.ContainsFunc(rows, is) }
	switch {
	case has(func(l line) bool { return l.number }):
		readMarked(d, rows, section, func(l line) bool { return l.number })
	case has(func(l line) bool { return l.bullet }):
		readMarked(d, rows, section, func(l line) bool { return l.bullet })
	default:
		readParagraphs(d, rows, section)
	}
}

// onlyRow returns the one line that has words, nil where there are more or none.
func onlyRow(rows []line) *line {
	var only *line
	for i := range rows {
		if rows[i].blank {
			continue
		}
		if only != nil {
			return nil
		}
		only = &rows[i]
	}
	return only
}

// readMarked reads steps that begin with a number or a bullet. Other lines go on with the
// step above them, or after an empty line are steps of their own.
func readMarked(d *draft, rows []line, section string, marked func(line) bool) {
	gap, open := true, false
	for _, l := range rows {
		if l.blank {
			gap = true
			continue
		}
		if name, ok := sectionLine(l); ok && !marked(l) && !l.bullet {
			section, open = d.heading(name), false
			continue
		}
		if !marked(l) && open && (!gap || l.bullet || l.inner) {
			s := &d.steps[len(d.steps)-1]
			s.text += " " + l.words
		} else {
			before := len(d.steps)
			d.step("", stepWords(l), section)
			open = len(d.steps) > before
		}
		gap = false
	}
}

// stepWords returns the words of a line of the method. The cells of a table are parted by commas.
func stepWords(l line) string {
	if len(l.cells) > 1 {
		return strings.Join(slices.DeleteFunc(slices.Clone(l.cells), func(c string) bool { return c == "" }), ", ")
	}
	return l.words
}

// readParagraphs reads steps parted by empty lines, or line by line.
func readParagraphs(d *draft, rows []line, section string) {
	var steps []draftStep
	var group []string
	end := func() {
		for _, words := range paragraph(group) {
			steps = append(steps, draftStep{text: words, section: section})
		}
		group = nil
	}
	for _, l := range rows {
		if l.blank {
			end()
			continue
		}
		if name, ok := sectionLine(l); ok {
			end()
			section = d.heading(name)
			continue
		}
		group = append(group, stepWords(l))
	}
	end()
	if len(steps) == 1 { // all in one paragraph: nobody can follow that at the stove
		whole := steps[0]
		steps = nil
		for _, words := range sentences(whole.text) {
			steps = append(steps, draftStep{text: words, section: whole.section})
		}
	}
	for _, s := range steps {
		d.step("", s.text, s.section)
	}
}

// paragraph returns the steps of lines that have no empty line between them. Where each ends
// a sentence each is a step; else they are one text with broken lines.
func paragraph(rows []string) []string {
	each := true
	for i, s := range rows {
		last, _ := utf8.DecodeLastRuneInString(s)
		first, _ := utf8.DecodeRuneInString(s)
		each = each && (strings.ContainsRune(".!?)…:", last) || i == len(rows)-1) && (unicode.IsUpper(first) || !unicode.IsLetter(first))
	}
	if !each {
		rows = []string{strings.Join(rows, " ")}
	}
	var out []string
	for _, s := range rows {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, strings.Split(meanwhile.ReplaceAllString(s, "$1\n$2"), "\n")...)
		}
	}
	return out
}

// sentences parts a text of more than two sentences, by its own numbers where it has them.
func sentences(s string) []string {
	if m := inlineNumber.FindAllStringSubmatchIndex(s, -1); len(m) > 1 && strings.HasPrefix(s[m[0][2]:], "1") && m[0][0] == 0 {
		var out []string
		for i, at := range m {
			end := len(s)
			if i+1 < len(m) {
				end = m[i+1][0]
			}
			out = append(out, strings.TrimSpace(s[at[4]:end]))
		}
		return out
	}
	if sentenceEnd.FindAllStringIndex(s, 2) == nil || len(sentenceEnd.FindAllStringIndex(s, -1)) < 2 {
		return []string{s}
	}
	var out []string
	for part := range strings.SplitSeq(sentenceEnd.ReplaceAllString(s, "$1\n$2"), "\n") {
		if n := len(out); n > 0 && (len(part) < 12 || abbreviated(out[n-1])) {
			out[n-1] += " " + part
			continue
		}
		out = append(out, part)
	}
	return out
}

// abbreviated reports whether a text ends with a word that is shortened and no sentence's end.
func abbreviated(s string) bool {
	for _, end := range [...]string{" ca.", " Min.", " Std.", " min.", " approx.", " ggf.", " evtl.", " bzw.", " z.B.", " oz.", " tbsp.", " tsp.", " no."} {
		if strings.HasSuffix(s, end) {
			return true
		}
	}
	return false
}
