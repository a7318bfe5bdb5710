package menu

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

const supper = `---
covers: 18
serve: 2027-06-12 19:30
kitchen: boathouse-kitchen.md
margin: 5 %
---

# Supper on the slipway

Five courses for the crew.

## Bread

- [Crust bread](crust-bread.md): 90 g per cover
- [Oat bread](oat-bread.md): 80 g per cover, for no gluten
- [Whipped butter](whipped-butter.md): 20 g per cover

## Trout

- after: 25 min
- [Cured trout](trout.md)
- [Beet](beet.md): for no fish, no milk

## Lamb

- serve: 00:05
- [Lamb](lamb.md)

## Guests

- 2 covers: no fish
- 1 cover: no gluten, no milk (by the door)
`

func TestParse(t *testing.T) {
	m, problems := Parse("supper.md", []byte(supper))
	require.Empty(t, problems)
	assert.Equal(t, "supper", m.ID)
	assert.Equal(t, "Supper on the slipway", m.Title)
	assert.Equal(t, "Five courses for the crew.", m.Intro)
	assert.Equal(t, 18, m.Covers)
	assert.Equal(t, "2027-06-12T19:30", m.Serve.String())
	assert.Equal(t, "boathouse-kitchen", m.Kitchen)
	assert.Equal(t, quantity.Frac(1, 20), m.Margin)
	require.Len(t, m.Courses, 3)
	assert.Equal(t, []int{0, 25, 4*60 + 35}, []int{m.Courses[0].After, m.Courses[1].After, m.Courses[2].After}, "00:05 is past midnight")
	bread := m.Courses[0].Plates
	require.Len(t, bread, 3)
	assert.Equal(t, "crust-bread", bread[0].Card)
	assert.Equal(t, quantity.Int(90), bread[0].Amount.Qty)
	assert.Equal(t, []string{"gluten"}, bread[1].For)
	assert.Equal(t, []string{"fish", "milk"}, m.Courses[1].Plates[1].For)
	require.Len(t, m.Guests, 2)
	assert.Equal(t, Guests{Covers: 1, Exclude: []string{"gluten", "milk"}, Note: "by the door", Pos: document.Pos{Line: 32, Col: 3}}, m.Guests[1])
}

func TestParseProblems(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"covers in words", "---\ncovers: many\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:2:9: "many" is not a number of covers; write how many guests there are, from 1 to 10000`},
		{"no covers", "---\nserve: 19:30\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:4:1: the menu does not say how many covers it is for; add "covers: 18" between the "---" lines at the top`},
		{"date on another weekday", "---\ncovers: 2\nserve: Friday 12 June 2027 19:30\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:3:8: that day is a Saturday, not a Friday; write it like "serve: 2027-06-12 19:30" or "serve: 19:30"`},
		{"covers that can be two numbers", "---\ncovers: 1,200\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:2:9: "1,200" can be read as 1200 or as 1.2; type the one that is meant`},
		{"a portion that can be two amounts", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): 1,500 g per cover\n", `m.md:8:14: "1,500 g per cover" can be read as 1500 g or as 1.5 g; type the one that is meant`},
		{"a typing mistake", "---\ncovers: 2\nkitchn: a.md\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:3:1: unknown word "kitchn"; did you mean "kitchen"?`},
		{"a course set too deep", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n\n### B\n\n- [Y](y.md)\n", `m.md:10:5: warning: "B" begins no course; write it with two signs if it is a course, "## B"; else take it out`},
		{"seconds between courses", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n- after: 25 s\n", `m.md:9:10: "25 s" is less than a minute; write it like "after: 40 min", or leave the line out for a course that is served with the one above it`},
		{"a link without a name", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n- [](y.md)\n", `m.md:9:3: a link without a name; write what the plate is called between the brackets, like "[Soup](soup.md)"`},
		{"no courses", "---\ncovers: 2\n---\n# M\n", `m.md:4:1: the menu has no courses; write "## " and the course's name, and below it a list of links to its plates`},
		{"a plate that is no link", "---\ncovers: 2\n---\n# M\n\n## A\n\n- Soup\n- [X](x.md)\n", `m.md:8:3: this line of a course has no link; link to the card's file, like "[Soup](soup.md)"`},
		{"a link elsewhere", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](https://example.org/x.md)\n- [Y](y.md)\n", `m.md:8:4: the link "X" is not to a card; link to the card's file, like "[Soup](soup.md)"`},
		{"more guests than covers", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n\n## Guests\n\n- 3 covers: no fish\n", `m.md:2:9: 3 guests have exclusions, but there are only 2 covers; correct one of the two numbers`},
		{"guests without a figure", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n\n## Guests\n\n- some: no fish\n", `m.md:12:3: the line does not begin with a number of guests; write it like "2 covers: no fish"`},
		{"plate for guests that are not understood", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): for the usual\n", `m.md:8:14: not checked: "the usual" is no allergen, diet or food that is known; write an allergen ("no nuts"), a diet ("vegan") or a food, and ask the guest again`},
		{"no plate to replace", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): for no fish\n", `m.md:8:4: there is no plate above it that this one could replace; put the plate for everybody first`},
		{"impossible time of day", "---\ncovers: 2\nserve: 19:30\n---\n# M\n\n## A\n\n- serve: 25:10\n- [X](x.md)\n", `m.md:9:10: "25:10" is not a time of day; write it like "serve: 20:10"`},
		{"a kilo that may be for all", "---\ncovers: 10\n---\n# M\n\n## A\n\n- [X](x.md): 1 kg\n", `m.md:8:14: "1 kg" may be for one cover or for all; write what one cover gets: "100 g per cover", or "1 kg per cover"`},
		{"pieces that may be for all", "---\ncovers: 10\n---\n# M\n\n## A\n\n- [X](x.md): 20 pieces\n", `m.md:8:14: "20 pieces" may be for one cover or for all; write what one cover gets: "2 pieces per cover", or "20 pieces per cover"`},
		{"an amount for all", "---\ncovers: 10\n---\n# M\n\n## A\n\n- [X](x.md): 5 kg in all\n", `m.md:8:14: "5 kg in all" is for all covers; write what one cover gets: "500 g per cover"`},
		{"unknown unit", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): 90 gx per cover\n", `m.md:8:17: "gx per cover" after an amount is not understood; write "90 g per cover"`},
		{"empty", "", `m.md:1:1: the file is empty; begin with a title: "# Brown chicken stock"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := Parse("m.md", []byte(tt.text))
			require.Len(t, problems, 1, "%v", problems)
			assert.Equal(t, tt.want, problems[0].Error())
		})
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(supper))
	f.Fuzz(func(t *testing.T, src []byte) {
		m, problems := Parse("m.md", src)
		for _, f := range problems {
			if f.Line < 1 || f.Col < 1 || f.Msg == "" {
				t.Fatalf("a problem without a place or words: %+v", f)
			}
		}
		if m.Covers < 0 || m.Covers > MaxCovers {
			t.Fatalf("covers %d", m.Covers)
		}
		for i, c := range m.Courses {
			if c.After < 0 {
				t.Fatalf("course %d is served %d minutes before the first", i, -c.After)
			}
		}
	})
}

// TestAmountOfACover reads how much a cover gets, as people write it.
func TestAmountOfACover(t *testing.T) {
	for typed, want := range map[string]string{
		"90 g per cover": "90 g", "100 g per person": "100 g", "100 g/cover": "100 g", "2 pp": "2", "1 kg per cover": "1 kg", "120 g": "120 g", "3 pieces": "3 piece", "one slice per guest": "1 slice", "half a lemon each": "",
	} {
		m, problems := Parse("m.md", []byte("---\ncovers: 10\n---\n# M\n\n## A\n\n- [X](x.md): "+typed+"\n"))
		if want == "" {
			assert.Len(t, problems, 1, typed)
			continue
		}
		require.Empty(t, problems, typed)
		assert.Equal(t, want, quantity.Written(m.Courses[0].Plates[0].Amount), typed)
	}
}
