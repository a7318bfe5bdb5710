package menu

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
)

// guestShapes are ways in which people write guests. "%" is a word that must not be lost.
var guestShapes = []string{"- 1 cover: no %", "1 cover: no %", "1 cover: %", "| 1 | % |", "| covers | what |\n|---|---|\n| 1 | % |", "  - no %", "- 1 cover: no eggs\n  - no %", "> 1 cover: no %", "### %",
	"    1 cover: no %", "```\n1 cover: %\n```", "<!-- 1 cover: no % -->", "<p>1 cover: no %</p>", "[%]: x", "[1 cover]: %", "- 1 cover: no eggs (%), no mustard", "- 1 cover: no eggs (a), no % (b)", "- 1 cover: no eggs (%",
	"- 1 cover: no eggs (a) %", "1. 1 cover: no %", "- [ ] 1 cover: %", "- 1 cover: no eggs\n\n  no %", "- 1 cover: no eggs\n  no %", "%", "* 2 guests: %; no eggs", "- %", "- - 1 cover: %", "no % for 1 cover",
	"- 1 cover: no eggs ((a), % b)", "- 1 cover: [no %](x)", "- 1 cover: no eggs [%]", "- : %", "- 1 cover: no eggs), %", "***\n1 cover: no %", "![%](x)", "- 1 cover no %", "- 1 cover: eats %", "1 cover: no eggs  \nno %"}

// TestNothingBelowTheGuestsIsLost writes guests in any way and order: each word is
// understood, a note in brackets, or in a problem, which
// stands where the block begins when it goes on.
func TestNothingBelowTheGuestsIsLost(t *testing.T) {
	words := []string{"fish", "milk", "walnuts", "celery", "lupin", "sesame", "vegan", "moonflower", "prawns", "honey"}
	rapid.Check(t, func(t *rapid.T) {
		var said []string
		text := "---\ncovers: 100\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n"
		for i, shape := range rapid.SliceOfN(rapid.SampledFrom(guestShapes), 1, 5).Draw(t, "shapes") {
			said = append(said, words[i])
			text += strings.ReplaceAll(shape, "%", words[i]) + rapid.SampledFrom([]string{"\n", "\n\n"}).Draw(t, "end")
		}
		m, problems := Parse("m.md", []byte(text))
		lines := strings.Split(text, "\n")
		for _, word := range said {
			line := 1 + slices.IndexFunc(lines, func(line string) bool { return strings.Contains(line, word) })
			told := slices.ContainsFunc(problems, func(p document.Problem) bool {
				return strings.Contains(p.Msg, word) || p.Line <= line && !slices.Contains(lines[p.Line-1:line], "")
			})
			for _, g := range m.Guests {
				told = told || slices.Contains(g.Exclude, word) || strings.Contains(g.Note+strings.Join(g.NotChecked, " "), word)
			}
			if !told {
				t.Fatalf("%q is lost:\n%s\nread: %+v\n%v", word, text, m.Guests, problems)
			}
		}
	})
}

// TestNoPlateOfACourseIsLost writes plates in any way: each is read, or its line has an
// error.
func TestNoPlateOfACourseIsLost(t *testing.T) {
	shapes := []string{"- [A](%.md)", "[A](%.md)", "1. [A](%.md): 90 g per cover", "| [A](%.md) |", "| plate |\n|---|\n| [A](%.md) |", "> [A](%.md)", "- [A](x.md)\n  - [B](%.md)", "- [A](x.md)\n\n  [B](%.md)", "### [A](%.md)",
		"- [A](x.md) and [B](%.md)", "```\n[A](%.md)\n```", "<!-- [A](%.md) -->", "- [A](x.md)\n  [B](%.md)", "words [A](%.md)", "- [A][%.md]", "- %.md"}
	rapid.Check(t, func(t *rapid.T) {
		text := "---\ncovers: 100\n---\n# M\n\n## A\n\n"
		names := []string{"one", "two", "three", "four"}
		said := rapid.SliceOfN(rapid.SampledFrom(shapes), 1, 4).Draw(t, "shapes")
		for i, shape := range said {
			text += strings.ReplaceAll(shape, "%", names[i]) + rapid.SampledFrom([]string{"\n", "\n\n"}).Draw(t, "end")
		}
		m, problems := Parse("m.md", []byte(text))
		lines := strings.Split(text, "\n")
		for _, name := range names[:len(said)] {
			line := 1 + slices.IndexFunc(lines, func(line string) bool { return strings.Contains(line, name+".md") })
			told := slices.ContainsFunc(problems, func(p document.Problem) bool {
				runsOn := p.Line <= line && !slices.Contains(lines[p.Line-1:line], "") // a line that goes on has its problem where it begins
				return p.Severity == document.Error && runsOn
			})
			for _, c := range m.Courses {
				told = told || slices.ContainsFunc(c.Plates, func(p Plate) bool { return p.Card == name })
			}
			if !told {
				t.Fatalf("%s.md is lost:\n%s\n%v", name, text, problems)
			}
		}
	})
}

// Each of these was read as nothing at all, or as one long note.
func TestGuestsAreReadOrAreAnError(t *testing.T) {
	head := "---\ncovers: 9\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n"
	for _, tt := range []struct {
		text     string
		exclude  string // of all groups
		note     string
		problems []string
	}{
		{text: "- 1 cover: no walnuts (Ann), no fish (Ann), no milk (Ann)", exclude: "walnuts, fish, milk", note: "Ann; Ann; Ann"},
		{text: "- 1 cover: no beef (Bob), nut allergy (severe)", exclude: "beef, nut", note: "Bob; severe"},
		{text: "- 1 cover: no fish (sits by the door (left))", exclude: "fish", note: "sits by the door (left)"},
		{text: "- 1 cover: allergic to nuts and shellfish, no milk or eggs", exclude: "nuts, shellfish, milk, eggs"},
		{text: "- 1 cover: no nuts but eats fish and milk", problems: []string{`m.md:12:12: not checked: "no nuts but eats fish and milk"; say what they can't have; an exception is checked where it is a whole allergen or class, "vegetarian except fish", or nothing of it, "no nuts except coconut"`}},
		{text: "- 1 cover: no fish (Basil)", exclude: "fish", note: "Basil"},
		{text: "- 1 cover: no shellfish (crustaceans)", exclude: "shellfish", note: "crustaceans"},
		{text: "1 cover: nut allergy (severe)", exclude: "nut", note: "severe"},
		{text: "- 1 cover: no celery\n\n2 covers: no fish\n1 cover: no eggs", exclude: "celery, fish, eggs"},
		{text: "- 1 cover: no beef (and no milk)", exclude: "beef", note: "and no milk", problems: []string{`m.md:12:21: "and no milk" in brackets is a note, and is not checked; take the brackets away, with a comma before it`}},
		{text: "- 1 cover: no beef (nuts)", exclude: "beef", note: "nuts", problems: []string{`m.md:12:21: "nuts" in brackets is a note, and is not checked; take the brackets away, with a comma before it`}},
		{text: "- 1 cover: nut allergy (severe, no fish", problems: []string{`m.md:12:12: "nut allergy (severe, no fish" has a bracket without its other, and is not checked; close the bracket, or take it out`}},
		{text: "| covers | what |\n|---|---|\n| 1 | nuts |", problems: []string{
			`m.md:12:3: not read, and not checked: "| covers | what |"; put each group of guests on a line of its own in one list: "- 2 covers: no fish"`,
			`m.md:14:3: not read, and not checked: "| 1 | nuts |"; put each group of guests on a line of its own in one list: "- 2 covers: no fish"`}},
		{text: "- 1 cover: vegetarian\n  - nut allergy\n  - no milk", exclude: "vegetarian", problems: []string{
			`m.md:13:5: not read, and not checked: "- nut allergy"; put each group of guests on a line of its own in one list: "- 2 covers: no fish"`,
			`m.md:14:5: not read, and not checked: "- no milk"; put each group of guests on a line of its own in one list: "- 2 covers: no fish"`}},
		{text: "- 1 cover: vegetarian, eats fish", exclude: "vegetarian", problems: []string{`m.md:12:24: not checked: "eats fish"; say what they can't have; an exception is checked where it is a whole allergen or class, "vegetarian except fish", or nothing of it, "no nuts except coconut"`}},
	} {
		m, problems := Parse("m.md", []byte(head+tt.text+"\n"))
		var exclude, notes []string
		for _, g := range m.Guests {
			exclude = append(exclude, g.Exclude...)
			if g.Note != "" {
				notes = append(notes, g.Note)
			}
		}
		assert.Equal(t, tt.exclude, strings.Join(exclude, ", "), tt.text)
		assert.Equal(t, tt.note, strings.Join(notes, "|"), tt.text)
		var got []string
		for _, p := range problems {
			assert.Equal(t, document.Error, p.Severity)
			got = append(got, p.Error())
		}
		assert.Equal(t, tt.problems, got, tt.text)
	}
}

// Lines of a course and above it that were dropped without an error.
func TestLinesOfACourseAreReadOrAreAProblem(t *testing.T) {
	for text, want := range map[string]string{
		"## A\n\n- [A](a.md)\n\n[Fish](fish.md)\n":                              `m.md:10:2: this plate is not read; put each plate on a line of its own in one list: "- [Soup](soup.md)"`,
		"## A\n\n- [A](a.md)\n\n1 cover: no nuts\n":                             `m.md:10:1: guests outside their section are not checked; put the line below a heading "## Guests"`,
		"1 cover: no nuts\n\n## A\n\n- [A](a.md)\n":                             `m.md:6:1: guests outside their section are not checked; put the line below a heading "## Guests"`,
		"## A\n\n- [A](a.md)\n\nThe fish is served cold.\n":                     `m.md:10:1: warning: this line of a course is not read; put words for the reader above the first course, or take the line out`,
		"## A\n\n- [A](a.md)\n- for no fish: [B](b.md)\n":                       `m.md:9:3: what is before the link is not read; begin the line with the link, and write behind it how much and for whom: "[Soup](soup.md): for no fish"`,
		"## A\n\n- [A](a.md)\n\n## Allergies\n\n- 1 cover: nuts\n- [B](b.md)\n": `m.md:12:3: this line of a course has no link; put guests below a heading "## Guests"`,
	} {
		_, problems := Parse("m.md", []byte("---\ncovers: 9\n---\n# M\n\n"+text))
		require.Len(t, problems, 1, text)
		assert.Equal(t, want, problems[0].Error(), text)
	}
}

// A text that is no menu keeps as many words as problems, and at least one that is red.
func TestWordsThatAreNotUnderstoodAreKeptWithinBounds(t *testing.T) {
	m, problems := Parse("m.md", []byte("---\ncovers: 9\n---\n# M\n\n## A\n\n"+strings.Repeat("- soup\n", 5000)+"\n## Guests\n\n- 1 cover: "+strings.Repeat("moon, ", 5000)+"\n"+strings.Repeat("  - nuts\n", 5000)))
	require.Len(t, m.Guests, 1)
	assert.NotEmpty(t, m.Guests[0].NotChecked)
	assert.LessOrEqual(t, len(m.Guests[0].NotChecked)+len(m.Courses[0].Unread), len(problems)+2)
}
