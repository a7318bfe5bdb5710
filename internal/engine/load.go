package engine

import (
	"slices"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/library"
)

// load replaces the library and checks all its files together. A text that was
// compiled before, under the same name, is not compiled again: the page loads
// all files after each edit.
func (e *Engine) load(in LoadCall) (*LibraryView, error) {
	e.library = make(library.Set, len(in.Files))
	damaged := []string{}
	for _, f := range in.Files {
		if r := in.Revisions[f.Name]; r != "" && dinner.Revision(f.Text) != r {
			damaged = append(damaged, r)
			continue
		}
		e.library[f.Name] = e.cache.Compile(f.Name, f.Text)
	}
	e.foods = e.cache.Stock(e.library)
	e.index = library.NewIndex(e.library)
	v := e.libraryView()
	v.Damaged = damaged
	return v, nil
}

// whole returns the texts that are what their revisions name, and the revisions of
// the others.
func whole(texts map[string]string) (good map[string]string, damaged []string) {
	good = make(map[string]string, len(texts))
	for revision, text := range texts {
		if dinner.Revision(text) == revision {
			good[revision] = text
		} else {
			damaged = append(damaged, revision)
		}
	}
	slices.Sort(damaged)
	return good, damaged
}

// find searches the library by words. It never fails: nothing found is an empty
// list.
func (e *Engine) find(in FindCall) (*FindView, error) {
	v := &FindView{Hits: []Hit{}}
	hits, total := e.index.Find(in.Words, in.Most)
	v.Total = total
	for _, h := range hits {
		v.Hits = append(v.Hits, Hit{Name: h.File.Name, Has: h.Item})
	}
	return v, nil
}

// libraryView returns the list of files, each with the number of its errors and
// warnings, and the problems of all files in one list: those of a file alone first,
// then those between files.
func (e *Engine) libraryView() *LibraryView {
	v := &LibraryView{Files: []LibraryFile{}, Problems: []document.Problem{}, Avoid: e.foods.EverydayWords()}
	names := e.library.Names()
	for _, name := range names {
		v.Problems = append(v.Problems, e.library[name].Problems...)
	}
	v.Problems = append(append(v.Problems, e.library.Check()...), dinner.CheckMenus(e.library, e.foods)...)
	errors, warnings := map[string]int{}, map[string]int{}
	for _, p := range v.Problems {
		if p.Severity == document.Error {
			errors[p.File]++
		} else {
			warnings[p.File]++
		}
	}
	for _, name := range names {
		f := e.library[name]
		line := LibraryFile{Name: name, ID: f.ID(), Title: f.Title(), Errors: errors[name], Warnings: warnings[name],
			Needs: e.library.Needs(f), Guests: []GuestGroup{}}
		switch {
		case f.Card != nil:
			line.Kind, line.Plate, line.Makes = "card", f.Card.IsPlate(), e.amount(f.Card.Makes)
		case f.Menu != nil:
			line.Kind, line.Covers, line.Serve = "menu", f.Menu.Covers, f.Menu.Serve.String()
			line.Kitchen = e.library.KitchenOf(f.Menu)
			for _, g := range f.Menu.Guests {
				line.Guests = append(line.Guests, GuestGroup{Covers: g.Covers, Exclude: g.Exclude, NotChecked: append([]string{}, g.NotChecked...), Note: g.Note})
			}
		case f.Foods != nil:
			line.Kind = "foods"
		default:
			line.Kind = "kitchen"
		}
		v.Files = append(v.Files, line)
	}
	return v
}
