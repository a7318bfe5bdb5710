package demand

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/menu"
)

// What of a menu can't be read reaches its guests as not checked: "no clash found" would
// be untrue. In each of these the plate is of plain rice.
func TestWhatCannotBeReadIsNotChecked(t *testing.T) {
	const head, course, guests = "---\ncovers: 9\n---\n# M\n\n", "## A\n\n- [A](a.md)\n\n", "## Guests\n\n"
	for name, tt := range map[string]struct {
		menu string
		word string // what is not checked; "" for an item that is not assessed
	}{
		"a nested list":            {head + course + guests + "- 1 cover: vegetarian\n  - nut allergy\n", "- nut allergy"},
		"a table":                  {head + course + guests + "| covers | what |\n|---|---|\n| 1 | nuts |\n", "| 1 | nuts |"},
		"a line without a number":  {head + course + guests + "- some: no fish\n", "some: no fish"},
		"guests above the courses": {head + "- 1 cover: no nuts\n\n" + course, "1 cover: no nuts"},
		"guests under a course":    {head + course + "1 cover: no nuts\n", "1 cover: no nuts"},
		"a note with a meaning":    {head + course + guests + "- 1 cover: no beef (no nuts)\n", "no nuts"},
		"a bracket left open":      {head + course + guests + "- 1 cover: no beef (Bob, no nuts\n", "no beef (Bob, no nuts"},
		"a plate without its dash": {head + course + "[Fish](fish.md)\n\n" + guests + "- 1 cover: no fish\n", "[Fish](fish.md)"},
		"a plate without a link":   {head + course + "- Fish\n\n" + guests + "- 1 cover: no fish\n", "Fish"},
		"a link to elsewhere":      {head + course + "- [Fish](https://example.org/x)\n\n" + guests + "- 1 cover: no fish\n", "[Fish](https://example.org/x)"},
		"a plate in a heading":     {head + course + "## [Fish](fish.md)\n\n" + guests + "- 1 cover: no fish\n", "Fish"},
		"a card that is missing":   {head + course + "- [Fish](fish.md)\n\n" + guests + "- 1 cover: no fish\n", ""},
	} {
		m, problems := menu.Parse("m.md", []byte(tt.menu))
		told := slices.ContainsFunc(problems, func(p document.Problem) bool { return p.Severity == document.Error })
		assert.True(t, told || tt.word == "", "%s is an error", name)
		in := Input{Menu: m, Cards: map[string]*card.Card{}}
		in.Cards["a"], _ = card.Parse("a.md", []byte(made("makes: 1 plate", "100 g rice")))
		d, _ := Explode(in)
		found := slices.ContainsFunc(Clashes(in, d), func(c Clash) bool {
			if tt.word == "" {
				return !c.Sure && c.Via[len(c.Via)-1] == "fish (not assessed)"
			}
			return c.NotChecked && c.Word == tt.word
		})
		assert.True(t, found, "%s is not checked: %+v", name, Clashes(in, d))
	}
}

// A menu that does not say its covers is checked all the same.
func TestGuestsOfAMenuWithoutCoversAreChecked(t *testing.T) {
	m, _ := menu.Parse("m.md", []byte("# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no milk\n"))
	in := Input{Menu: m, Cards: map[string]*card.Card{}}
	in.Cards["a"], _ = card.Parse("a.md", []byte(made("makes: 1 plate", "100 g butter")))
	d, _ := Explode(in)
	clashes := Clashes(in, d)
	require.Len(t, clashes, 1)
	assert.True(t, clashes[0].Sure)
}
