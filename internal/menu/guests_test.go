package menu

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
	"hobside/internal/larder"
)

// TestGuestLineRoundTrip writes a group of guests as the page does and reads the
// line back: the group must be the same.
func TestGuestLineRoundTrip(t *testing.T) {
	word := rapid.SampledFrom(append((*larder.Foods)(nil).EverydayWords(), "walnuts", "chicken thighs", "crème fraîche", "tree nuts"))
	rapid.Check(t, func(t *rapid.T) {
		g := Guests{
			Covers:  rapid.IntRange(1, MaxCovers).Draw(t, "covers"),
			Exclude: rapid.SliceOfNDistinct(word, 1, 3, rapid.ID[string]).Draw(t, "exclude"),
			Note:    rapid.SampledFrom([]string{"", "by the door", "sits late"}).Draw(t, "note"),
		}
		line := strconv.Itoa(g.Covers) + " covers: no " + strings.Join(g.Exclude, ", no ")
		if g.Note != "" {
			line += " (" + g.Note + ")"
		}
		got, problems := ParseGuests("\n "+line+" \n", nil)
		require.False(t, slices.ContainsFunc(problems, isError), line)
		require.Len(t, got, 1)
		g.Pos = got[0].Pos
		assert.Equal(t, g, got[0])
	})
}

// isError reports whether a problem is more than a warning, which a diet that is checked in part has.
func isError(p document.Problem) bool { return p.Severity == document.Error }

func TestEmptyGuestListHasNoProblems(t *testing.T) {
	got, problems := ParseGuests("", nil)
	assert.Empty(t, got)
	assert.Empty(t, problems)
}

func TestGuestLinesOfAForm(t *testing.T) {
	for _, tt := range []struct {
		name string
		rows []GuestRow
		want string
	}{
		{"one word", []GuestRow{{"2", "fish", ""}}, "2 covers: no fish"},
		{"several, with and without no", []GuestRow{{"1", "Fish, no gluten; without  milk", ""}}, "1 covers: no fish, no gluten, no milk"},
		{"a note", []GuestRow{{" 3 ", "fish", " by the (left) door\n"}}, "3 covers: no fish (by the  left  door)"},
		{"no covers", []GuestRow{{"", "fish", ""}}, "1 covers: no fish"},
		{"nothing excluded", []GuestRow{{"2", " , ", "by the door"}, {"1", "nuts", ""}}, "1 covers: no nuts"},
		{"a bracket in the word", []GuestRow{{"2", "nuts (all)", ""}}, "2 covers: no nuts  all"},
		{"words that would say the opposite behind no", []GuestRow{{"1", "nut allergy, lactose intolerant, no gluten free", ""}}, "1 covers: nut allergy, lactose intolerant, gluten free"},
		{"none", nil, ""},
	} {
		assert.Equal(t, tt.want, GuestLines(tt.rows), tt.name)
	}
}

// TestGuestLinesAreReadBack: what a form gives is what the guests' lines say.
func TestGuestLinesAreReadBack(t *testing.T) {
	word := rapid.SampledFrom(append((*larder.Foods)(nil).EverydayWords(), "walnuts", "chicken thighs", "crème fraîche", "tree nuts"))
	rapid.Check(t, func(t *rapid.T) {
		var rows []GuestRow
		var want []string
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			n := strconv.Itoa(rapid.IntRange(1, 40).Draw(t, "covers"))
			words := rapid.SliceOfNDistinct(word, 1, 3, rapid.ID[string]).Draw(t, "words")
			note := rapid.StringMatching(`(z[a-z]{0,6})?`).Draw(t, "note")
			rows = append(rows, GuestRow{n, strings.Join(words, rapid.SampledFrom([]string{", ", ",no ", "; "}).Draw(t, "mark")), note})
			want = append(want, n+"|"+strings.Join(words, "+")+"|"+note)
		}
		groups, problems := ParseGuests(GuestLines(rows), nil)
		var got []string
		for _, g := range groups {
			got = append(got, strconv.Itoa(g.Covers)+"|"+strings.Join(g.Exclude, "+")+"|"+g.Note)
		}
		if slices.ContainsFunc(problems, isError) || strings.Join(got, "\n") != strings.Join(want, "\n") {
			t.Fatalf("%q\nread: %q\nwant: %q\n%v", GuestLines(rows), got, want, problems)
		}
	})
}

// TestEditingGuestsLosesNoWord fills the form with groups as the page does, and reads what
// the form gives: words that were not understood are still there.
func TestEditingGuestsLosesNoWord(t *testing.T) {
	part := rapid.SampledFrom([]string{"no fish", "nut allergy", "nutz", "eats fish", "not vegan", "no beef (no milk)", "no eggs (Ann", "| 1 | nuts |", "no nut allergy", "vegan", "the usual"})
	words := func(groups []Guests) []string {
		var out []string
		for _, g := range groups {
			for _, w := range append(g.Exclude, g.NotChecked...) {
				out = append(out, strings.Join(strings.FieldsFunc(strings.ToLower(w), func(c rune) bool { return !unicode.IsLetter(c) }), " "))
			}
		}
		return out
	}
	rapid.Check(t, func(t *rapid.T) {
		text := "1 cover: " + strings.Join(rapid.SliceOfN(part, 1, 4).Draw(t, "parts"), ", ")
		if rapid.Bool().Draw(t, "no number") {
			text = text[len("1 cover: "):]
		}
		before, _ := ParseGuests(text, nil)
		var rows []GuestRow
		for _, g := range before {
			rows = append(rows, GuestRow{strconv.Itoa(g.Covers), strings.Join(append(g.Exclude, g.NotChecked...), ", "), g.Note})
		}
		after, _ := ParseGuests(GuestLines(rows), nil)
		all := strings.Join(words(after), " ")
		for _, word := range words(before) {
			for w := range strings.FieldsSeq(word) {
				if w != "no" && w != "allergy" && !strings.Contains(all, w) {
					t.Fatalf("%q of %q is lost:\n%s\n%+v", w, text, GuestLines(rows), after)
				}
			}
		}
	})
}

// A list of guests' words is of all its things, in a group and for a plate.
func TestListOfExclusionsIsReadWhole(t *testing.T) {
	for words, want := range map[string][]string{
		"no fish or nuts": {"fish", "nuts"}, "no fish, nuts or milk": {"fish", "nuts", "milk"}, "neither fish nor nuts": {"fish", "nuts"}, "vegan, no nuts": {"vegan", "nuts"},
	} {
		m, problems := Parse("m.md", []byte("---\ncovers: 4\n---\n\n# M\n\n## First\n\n- [Soup](soup.md)\n- [Salad](salad.md): for "+words+"\n\n## Guests\n\n- 1 cover: "+words+"\n"))
		require.Empty(t, problems, words)
		assert.Equal(t, want, m.Guests[0].Exclude, words)
		assert.Equal(t, want, m.Courses[0].Plates[1].For, words)
	}
}

// A diet that is checked in part is a warning of the menu, one that no table can check an error
// that says what to do.
func TestWordsThatAreCheckedInPart(t *testing.T) {
	for line, want := range map[string]string{
		"1 cover: halal":                    "guests:3:12: warning: not checked: halal: how the animals were slaughtered, rennet and additives; ask the guest",
		"1 cover: low salt":                 `guests:3:12: not checked: "low salt"; look at the salt of each plate in its nutrition, and ask how much is too much`,
		"1 cover: no nuts":                  "",
		"1 cover: vegetarian but eats fish": "",
	} {
		groups, problems := ParseGuests(line, nil)
		require.Len(t, groups, 1, line)
		got := ""
		for _, p := range problems {
			got += p.Error()
			assert.True(t, p.Guests, line)
		}
		assert.Equal(t, want, got, line)
		assert.Equal(t, strings.Contains(line, "salt"), len(groups[0].NotChecked) > 0, line)
	}
}
