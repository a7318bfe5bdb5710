package engine

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const soupText = "---\nmakes: 2 kg\n---\n\n# Soup\n\n## Formula\n\n- 500 g peas\n- 1.2 kg water\n- 2 eggs, each 50 g\n- 400 g cream\n\n" +
	"## Method\n\n1. Boil the **peas** in **half the water**.\n   - hands: 5 min\n2. Add the **rest of the water** and the **eggs** and the **cream**.\n   - hands: 5 min\n"

// TestRead scales a page to what was asked. Factors by hand.
func TestRead(t *testing.T) {
	e := New()
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "soup.md", Text: soupText}}})
	for _, row := range []struct{ make, makes, peas, water, eggs string }{
		{"", "2 kg", "500 g", "600 g", "2"},
		{"×3", "6 kg", "1.5 kg", "1.8 kg", "6"},
		{"x3", "6 kg", "1.5 kg", "1.8 kg", "6"},
		{"* ½", "1 kg", "250 g", "300 g", "1"},
		{"× 1.5", "3 kg", "750 g", "900 g", "3"},
		{"2.4 kg", "2.4 kg", "600 g", "720 g", "120 g (crack 3)"},
		{"2,4 kg", "2.4 kg", "600 g", "720 g", "120 g (crack 3)"},
		{"1000 g", "1 kg", "250 g", "300 g", "1"},
		{"1–2 kg", "2 kg", "500 g", "600 g", "2"},
	} {
		v := call[PageView](t, e, "read", ReadCall{Name: "soup.md", Make: row.make})
		assert.Equal(t, row.makes, v.Makes, row.make)
		assert.Contains(t, v.HTML, `<td class="amount">`+row.peas+`</td><td data-item="1">peas`, row.make)
		assert.Contains(t, v.HTML, `<td class="amount">`+row.eggs+`</td><td data-item="3">eggs`, row.make)
		assert.Contains(t, v.HTML, "<strong>"+row.water+" water</strong>", row.make)
		assert.Empty(t, v.Problems)
	}
}

// TestReadErrors: what can't be done is said in words that name it and say
// what to type.
func TestReadErrors(t *testing.T) {
	e := New()
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "soup.md", Text: soupText}, {Name: "odd.md", Text: "# Odd\n"}}})
	for _, row := range []struct{ name, make, want string }{
		{"soup.md", "lots", `"lots" is not an amount: no amount here; type a number and a unit, such as "500 g", or "to taste"`},
		{"soup.md", "to taste", `"to taste" is not an amount: write it like 2.4 kg or ×3`},
		{"soup.md", "2 kg of soup", `"2 kg of soup" is not an amount: write it like 2.4 kg or ×3`},
		{"soup.md", "×", `"×" is not so many times: write it like ×3`},
		{"soup.md", "×3 kg", `"×3 kg" is not so many times: write it like ×3`},
		{"soup.md", "×-3", `"×-3" is not so many times: write it like ×3`},
		{"soup.md", "0 kg", `"0 kg" is not an amount: an amount of 0; leave the line out, or mark the item optional`},
		{"soup.md", "-1 kg", `"-1 kg" is not an amount: an amount can't be negative; type how much goes in`},
		{"soup.md", "1e9 kg", `"1e9 kg" is not an amount: a number in powers of ten; write it out in full`},
		{"soup.md", "3 m", `"3 m" is not an amount: write it like 2.4 kg or ×3`},
		{"soup.md", "2 L", `the card makes 2 kg: what a litre of Soup weighs is not known: give it by weight, or put "density" on the card`},
		{"soup.md", "4 pieces", `the card makes 2 kg: what one piece of Soup weighs is not known: give it by weight, or put "each" on the card`},
		{"odd.md", "2 kg", "the card does not say what it makes, so it can't be scaled to 2 kg; ×3 works"},
		{"none.md", "", "there is no file none.md in the library"},
	} {
		_, failure := try[PageView](t, e, "read", ReadCall{Name: row.name, Make: row.make})
		assert.Equal(t, row.want, failure, "%s %s", row.name, row.make)
	}
}

// TestReadWhileTyping reads what is in the editor, not what is kept, and
// looks at its neighbours.
func TestReadWhileTyping(t *testing.T) {
	e := New()
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "soup.md", Text: soupText}}})
	v := call[PageView](t, e, "read", ReadCall{Name: "soup.md", Text: "---\nmakes: 2 kg\n---\n# New soup\n\n- 1 kg [stock](stoc.md)\n"})
	assert.Equal(t, "New soup", v.Title)
	kept := call[PageView](t, e, "read", ReadCall{Name: "soup.md"})
	assert.Equal(t, "Soup", kept.Title)
	plate := "---\nmakes: 1 plate\n---\n\n# Plate\n\n## Formula\n\n- 200 g [Soup](soop.md)\n\n## Method\n\n1. Pour the **soup**.\n   - hands: 1 min\n"
	v = call[PageView](t, e, "read", ReadCall{Name: "plate.md", Text: plate})
	require.Len(t, v.Problems, 1)
	assert.Equal(t, `plate.md:9:9: there is no card soop.md; did you mean "soup.md"?; write that card, or correct the link`, v.Problems[0].Error())
	assert.Contains(t, v.HTML, "<h1>Plate</h1>")
}

// TestEditingShowsWhatADinnerShows: a menu being typed has the clashes of its guests, and a
// card being typed those of the menu that needs it.
func TestEditingShowsWhatADinnerShows(t *testing.T) {
	e := New()
	const (
		plate = "---\nmakes: 1 plate\n---\n\n# Plate\n\n## Formula\n\n- 50 g walnuts\n\n## Method\n\n1. Put the **walnuts** on the plate.\n   - hands: 1 min\n   - serve\n"
		menu  = "---\ncovers: 4\n---\n\n# Lunch\n\n## First\n\n- [Plate](plate.md)\n"
		guest = "\n## Guests\n\n- 1 cover: no walnuts\n"
	)
	problems := func(name, text string) (out []string) {
		for _, p := range call[PageView](t, e, "read", ReadCall{Name: name, Text: text}).Problems {
			out = append(out, p.Error())
		}
		return out
	}
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "plate.md", Text: plate}, {Name: "lunch.md", Text: menu}}})
	assert.Empty(t, problems("lunch.md", menu))
	typed := problems("lunch.md", menu+guest)
	require.Len(t, typed, 1)
	assert.Contains(t, typed[0], "walnuts")
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "plate.md", Text: plate}, {Name: "lunch.md", Text: menu + guest}}})
	assert.Equal(t, typed, problems("lunch.md", ""))
	assert.Empty(t, problems("lunch.md", menu))

	sauce := "---\nmakes: 1 kg\n---\n\n# Sauce\n\n## Formula\n\n- 1 kg cream\n\n## Method\n\n1. Warm the **cream**.\n   - hands: 1 min\n"
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "plate.md", Text: plate}, {Name: "sauce.md", Text: sauce}, {Name: "lunch.md", Text: menu}}})
	counted := strings.NewReplacer("- 50 g walnuts", "- 50 g walnuts\n- 1 [sauce](sauce.md)", "on the plate.", "on the plate with the **sauce**.").Replace(plate)
	assert.Empty(t, problems("plate.md", plate))
	assert.NotEmpty(t, problems("plate.md", counted), "the sauce is not made in pieces")
}

// TestCallErrors: calls that can't be done, each with what to do.
func TestCallErrors(t *testing.T) {
	e := New()
	for _, row := range []struct{ method, in, want string }{
		{"fry", `{}`, `the engine has no call "fry": the page and the engine are of two releases; reload the page`},
		{"open", `{}`, "open names no dinner"},
		{"apply", `{"dinner":"supper"}`, `dinner "supper" is not open in the engine: open it first`},
		{"order", `{"dinner":"supper"}`, `dinner "supper" is not open in the engine: open it first`},
		{"plan", `{"dinner":"supper"}`, `dinner "supper" is not open in the engine: open it first`},
		{"prefs", `{"dinner":"supper"}`, `dinner "supper" is not open in the engine: open it first`},
		{"prefs", `{"system":"imperious"}`, `unknown system "imperious": metric, us, imperial or typed`},
		{"prefs", `{"scale":"3 g"}`, `unknown scale "3 g": 0.1 g, 1 g or 5 g`},
		{"load", `{`, "cannot read the call: unexpected end of JSON input"},
		{"load", ``, "cannot read the call: unexpected end of JSON input"},
	} {
		var f Failure
		require.NoError(t, json.Unmarshal(e.Call(row.method, []byte(row.in)), &f))
		assert.Equal(t, row.want, f.Error, "%s %s", row.method, row.in)
	}
}

// TestReadByALine scales a card to what there is of one item. Factors by hand:
// 750 g of 500 g peas is ×3/2, 1 to 2 kg of 1.2 kg water is ×5/3 at the upper end.
func TestReadByALine(t *testing.T) {
	e := New()
	salted := strings.Replace(soupText, "- 500 g peas\n", "- 500 g peas\n- salt, to taste\n", 1)
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "soup.md", Text: salted}}})
	for _, row := range []struct {
		line              int
		make, makes, fail string
	}{
		{1, "750 g", "3 kg", ""},
		{1, "0,75 kg", "3 kg", ""},
		{3, "1–2 kg", "3.33 kg", ""},
		{4, "3", "3 kg", ""},
		{4, "75 g", "1.5 kg", ""}, // an egg of 50 g
		{1, "lots", "", `"lots" is not an amount: write it like 1.35 kg`},
		{1, "3 kg of", "", `"3 kg of" is not an amount: write it like 1.35 kg`},
		{2, "3 g", "", "salt has no amount to scale by"},
	} {
		v, failure := try[PageView](t, e, "read", ReadCall{Name: "soup.md", Line: row.line, Make: row.make})
		assert.Equal(t, row.fail, failure, "line %d, %s", row.line, row.make)
		if row.fail == "" {
			assert.Equal(t, row.makes, v.Makes, "line %d, %s", row.line, row.make)
		}
	}
	for _, line := range []int{-1, 99} {
		_, failure := try[PageView](t, e, "read", ReadCall{Name: "soup.md", Line: line, Make: "3 g"})
		assert.NotEmpty(t, failure, "line %d", line)
	}
}
