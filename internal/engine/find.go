package engine

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A shelf is the library as it is looked through: one text with all the words
// of all files, small and without accents, so that a word is looked for once
// and not ten thousand times. A file's words are a line with its title and name
// and a line for each thing that goes in.
type shelf struct {
	text  string
	files []*document // by title
	ends  []int       // in text, of each file
}

// stack lays the library out for find.
func stack(library map[string]*document) shelf {
	var s shelf
	for _, d := range library {
		s.files = append(s.files, d)
	}
	sort.Slice(s.files, func(i, j int) bool {
		a, b := s.files[i], s.files[j]
		if x, y := a.title(), b.title(); x != y {
			return x < y
		}
		return a.name < b.name
	})
	var text []byte
	for _, d := range s.files {
		text = fold(text, d.title()+" "+d.id())
		if d.card != nil {
			for i := range d.card.Items {
				text = fold(append(text, '\n'), d.card.Items[i].Name)
			}
		}
		text = append(text, '\n')
		s.ends = append(s.ends, len(text))
	}
	s.text = string(text)
	return s
}

// find lists the files that hold every word, be it as a part of one of theirs:
// those where the title begins with each or has it at the beginning of a word,
// then other titles, then what has it among its items.
func (e *Engine) find(in FindCall) (*FindView, error) {
	words := strings.Fields(string(fold(nil, in.Words)))
	rare := "" // the longest word is in the fewest
	for _, w := range words {
		if len(w) > len(rare) {
			rare = w
		}
	}
	v := &FindView{Hits: []Hit{}}
	var ranked [3][]Hit
	at, from := 0, 0
	for i, d := range e.shelf.files {
		if at < from { // the last place found is in a file before this
			n := strings.Index(e.shelf.text[from:], rare)
			if n < 0 {
				break
			}
			at = from + n
		}
		end := e.shelf.ends[i]
		if at < end {
			if rank, has := holds(e.shelf.text[from:end], words); rank >= 0 {
				v.Total++
				hit := Hit{Name: d.name}
				if has >= 0 {
					hit.Has = d.card.Items[has].Name
				}
				if in.Most <= 0 || len(ranked[rank]) < in.Most {
					ranked[rank] = append(ranked[rank], hit)
				}
			}
			at = from // looked at: the next place is after this file
		}
		from = end
	}
	for _, hits := range ranked {
		v.Hits = append(v.Hits, hits...)
	}
	if in.Most > 0 && len(v.Hits) > in.Most {
		v.Hits = v.Hits[:in.Most]
	}
	return v, nil
}

// holds ranks a file's lines for some words, -1 when one is nowhere in them; has
// is the item a word was first found in when the title has it not, else -1.
func holds(lines string, words []string) (rank, has int) {
	has = -1
	head := strings.IndexByte(lines, '\n')
	for _, w := range words {
		at := strings.Index(lines, w)
		switch {
		case at < 0:
			return -1, -1
		case at > head:
			if has < 0 {
				has = strings.Count(lines[head+1:at], "\n")
			}
			rank = 2
		case rank == 0 && at > 0 && lines[at-1] != ' ' && !strings.Contains(lines[:head], " "+w):
			rank = 1
		}
	}
	return rank, has
}

// plain is what a cook without accents on the keyboard types for each letter of
// Latin-1 and Latin Extended-A, from U+00C0 on; "-" where that is not one letter.
const plain = "aaaaaa-ceeeeiiiidnooooo-ouuuuy--" + // À to ß
	"aaaaaa-ceeeeiiiidnooooo-ouuuuy-y" + // à to ÿ
	"aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii--jjkkklllllll" + // Ā to Ŀ
	"lllnnnnnnn--oooooo--rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs" // ŀ to ſ

// fold adds words as they are compared: small letters without their accents.
func fold(out []byte, s string) []byte {
	for _, r := range s {
		r = unicode.ToLower(r)
		switch {
		case r >= 0xc0 && r < 0x180 && plain[r-0xc0] != '-':
			out = append(out, plain[r-0xc0])
		case r == 'ß':
			out = append(out, "ss"...)
		case r == 'æ':
			out = append(out, "ae"...)
		case r == 'œ':
			out = append(out, "oe"...)
		case r == '-' || r == '’' || r == '\'' || r == '\n':
			out = append(out, ' ')
		case r >= 0x300 && r <= 0x36f: // an accent written as a character of its own
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return out
}
