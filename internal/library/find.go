package library

import (
	"sort"
	"strings"
)

// An Index is a library laid out to be searched: one text with the words of all
// files, in small letters and without accents, so that one search goes through
// all of them. A file's part is a line with its title and name, and a line for
// each item of its formula.
type Index struct {
	text  string
	files []*File // by title
	ends  []int   // where each file's part ends in text
}

// A Hit is one file that holds the words that were looked for.
type Hit struct {
	File *File
	Item string // the item a word was found in, "" when the title and name hold all words
}

// NewIndex lays out the files of a set.
func NewIndex(s Set) *Index {
	x := &Index{files: make([]*File, 0, len(s))}
	for _, f := range s {
		x.files = append(x.files, f)
	}
	sort.Slice(x.files, func(i, j int) bool {
		a, b := x.files[i], x.files[j]
		if s, t := a.Title(), b.Title(); s != t {
			return s < t
		}
		return a.Name < b.Name
	})
	var text []byte
	for _, f := range x.files {
		text = fold(text, f.Title()+" "+f.ID())
		if f.Card != nil {
			for i := range f.Card.Items {
				text = fold(append(text, '\n'), f.Card.Items[i].Name)
			}
		}
		text = append(text, '\n')
		x.ends = append(x.ends, len(text))
	}
	x.text = string(text)
	return x
}

// Find returns the files that hold every word, each as a word or a part of one.
// First come titles where each word begins a word, then other titles, then
// files that have a word only among their items; within these, by title. Most
// is how many hits are wanted, 0 for all; total counts all of them.
func (x *Index) Find(words string, most int) (hits []Hit, total int) {
	wanted := strings.Fields(string(fold(nil, words)))
	rarest := "" // the longest word is in the fewest files
	for _, w := range wanted {
		if len(w) > len(rarest) {
			rarest = w
		}
	}
	var ranked [3][]Hit
	at, from := 0, 0
	for i, f := range x.files {
		if at < from { // the last place found lies in an earlier file
			n := strings.Index(x.text[from:], rarest)
			if n < 0 {
				break
			}
			at = from + n
		}
		end := x.ends[i]
		if at < end {
			if rank, item := match(x.text[from:end], wanted); rank >= 0 {
				total++
				hit := Hit{File: f}
				if item >= 0 {
					hit.Item = f.Card.Items[item].Name
				}
				if most <= 0 || len(ranked[rank]) < most {
					ranked[rank] = append(ranked[rank], hit)
				}
			}
			at = from // this file is done: search again from its end
		}
		from = end
	}
	for _, r := range ranked {
		hits = append(hits, r...)
	}
	if most > 0 && len(hits) > most {
		hits = hits[:most]
	}
	return hits, total
}

// match ranks one file's lines for some words, best 0; it returns −1 when a word
// is in none of them. Item is the index of the item that the first word missing
// from the title was found in, −1 when the title holds all.
func match(lines string, words []string) (rank, item int) {
	item = -1
	title := strings.IndexByte(lines, '\n')
	for _, w := range words {
		at := strings.Index(lines, w)
		switch {
		case at < 0:
			return -1, -1
		case at > title:
			if item < 0 {
				item = strings.Count(lines[title+1:at], "\n")
			}
			rank = 2
		case rank == 0 && at > 0 && lines[at-1] != ' ' && !strings.Contains(lines[:title], " "+w):
			rank = 1
		}
	}
	return rank, item
}
