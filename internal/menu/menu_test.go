package menu

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
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

func TestParseMenu(t *testing.T) {
	m, problems := ParseMenu("supper.md", []byte(supper))
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

func TestParseMenuProblems(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"covers in words", "---\ncovers: many\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:2:9: "many" is no number of covers; write how many guests there are, from 1 to 10000`},
		{"no covers", "---\nserve: 19:30\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:4:1: the menu does not say for how many; add "covers: 18" between the "---" lines at the top`},
		{"a day that is another", "---\ncovers: 2\nserve: Friday 12 June 2027 19:30\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:3:8: that day is a Saturday, not a Friday; write it like "serve: 2027-06-12 19:30" or "serve: 19:30"`},
		{"a typing mistake", "---\ncovers: 2\nkitchn: a.md\n---\n# M\n\n## A\n\n- [X](x.md)\n", `m.md:3:1: unknown word "kitchn"; did you mean "kitchen"?`},
		{"no courses", "---\ncovers: 2\n---\n# M\n", `m.md:4:1: the menu has no courses; write "## " and the course's name, and below it a list of links to its plates`},
		{"a plate that is no link", "---\ncovers: 2\n---\n# M\n\n## A\n\n- Soup\n- [X](x.md)\n", `m.md:8:3: a line of a course without a link; link to the card's file, like "[Soup](soup.md)"`},
		{"a link elsewhere", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](https://example.org/x.md)\n- [Y](y.md)\n", `m.md:8:4: the link "X" leads to no card; link to the card's file, like "[Soup](soup.md)"`},
		{"more guests than covers", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n\n## Guests\n\n- 3 covers: no fish\n", `m.md:2:9: the guests with exclusions are 3, the covers only 2; correct the one or the other`},
		{"guests without a figure", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md)\n\n## Guests\n\n- some: no fish\n", `m.md:12:3: a line of guests that does not begin with how many they are; write it like "2 covers: no fish"`},
		{"for nobody", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): for vegetarians\n", `m.md:8:14: "for vegetarians" does not say whom it is for; write it like "for no fish"`},
		{"instead of nothing", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): for no fish\n", `m.md:8:4: nothing stands above it that it could be served in place of; put the plate for everybody first`},
		{"a time that is none", "---\ncovers: 2\nserve: 19:30\n---\n# M\n\n## A\n\n- serve: 25:10\n- [X](x.md)\n", `m.md:9:10: "25:10" is no time of day; write it like "serve: 20:10"`},
		{"unknown unit", "---\ncovers: 2\n---\n# M\n\n## A\n\n- [X](x.md): 90 gx per cover\n", `m.md:8:17: "gx per cover" behind an amount; write "90 g per cover"`},
		{"empty", "", `m.md:1:1: the file is empty; begin with a title: "# Brown chicken stock"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := ParseMenu("m.md", []byte(tt.text))
			require.Len(t, problems, 1, "%v", problems)
			assert.Equal(t, tt.want, problems[0].Error())
		})
	}
}

func TestParseKitchen(t *testing.T) {
	k, problems := ParseKitchen("kitchen.md", []byte(`---
cooks: first cook, second cook
rules: uk
altitude: 20 m
zone: Europe/London
---

# The boathouse kitchen

## Equipment

- stove: 4 rings
- oven: 2, 3 shelves
- fryer: 1, 6 pieces at a time
- fridge
- char drum: 1, over heat, one temperature

## Hours

- Thursday 17:00–22:00
- Friday 09:00-13:00, 16:00 to 22:00
- the day before: 6:30–7:00
- 2027-06-13 09:00–12:00
- on the day: 18:00–01:00
`))
	require.Empty(t, problems)
	assert.Equal(t, []string{"first cook", "second cook"}, k.Cooks)
	assert.Equal(t, "uk", k.Rules)
	assert.Equal(t, 20, k.AltitudeM)
	piece, _ := quantity.LookupUnit("pieces")
	for i, want := range []Equipment{
		{Name: "hob", Count: 4, Places: 1, Heat: true},
		{Name: "oven", Count: 2, Places: 3, Heat: true, Temp: true},
		{Name: "fryer", Count: 1, Places: 1, Load: quantity.Amount{Qty: quantity.Int(6), Unit: piece}, Heat: true, Temp: true},
		{Name: "fridge", Count: 1},
		{Name: "char drum", Count: 1, Places: 1, Heat: true, Temp: true},
	} {
		got := k.Equipment[i]
		got.Pos = document.Pos{}
		assert.Equal(t, want, got)
	}
	serve := When{2027, 6, 12, 19, 30} // a Saturday
	var days, from, to []int
	for _, h := range k.Hours {
		days, from, to = append(days, h.Day(serve)), append(from, h.From), append(to, h.To)
	}
	assert.Equal(t, []int{-2, -1, -1, -1, 1, 0}, days)
	assert.Equal(t, []int{1020, 540, 960, 390, 540, 1080}, from)
	assert.Equal(t, []int{1320, 780, 1320, 420, 720, 1500}, to)
}

func TestParseKitchenProblems(t *testing.T) {
	const head, tail = "---\ncooks: 2\n---\n# K\n\n## Equipment\n\n", "\n\n## Hours\n\n- Saturday 08:00–24:00\n"
	for _, tt := range []struct{ name, text, want string }{
		{"no hands", "---\ncooks: 0\n---\n# K\n\n## Equipment\n\n- hob: 4 rings" + tail, `k.md:2:8: 0 cooks; write how many people cook, from 1 to 50`},
		{"other rules", "---\ncooks: 2\nrules: moon\n---\n# K\n\n## Equipment\n\n- hob: 4 rings" + tail, `k.md:3:8: no rule set "moon"; write us or uk, or leave the line out`},
		{"altitude", "---\ncooks: 2\naltitude: high\n---\n# K\n\n## Equipment\n\n- hob" + tail, `k.md:3:11: "high" is no altitude; write it in metres, like "altitude: 20 m"`},
		{"places of what", head + "- hob: 4 flames" + tail, `k.md:8:8: hob: "flames" is not a place of it; write "4 rings", "2 shelves" or "2 places"`},
		{"twice", head + "- hob: 4\n- stove: 2" + tail, `k.md:9:3: "hob" stands twice; put both on one line`},
		{"no day", head + "- hob: 4\n\n## Hours\n\n- Caturday 08:00–24:00\n", `k.md:12:3: "Caturday" is no day; write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`},
		{"no times", head + "- hob: 4\n\n## Hours\n\n- Saturday all day\n- Friday 08:00–09:00\n", `k.md:12:3: "Saturday all day" has no times of day; write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := ParseKitchen("k.md", []byte(tt.text))
			require.Len(t, problems, 1, "%v", problems)
			assert.Equal(t, tt.want, problems[0].Error())
		})
	}
}

func TestParseWhen(t *testing.T) {
	for in, want := range map[string]string{
		"2027-06-12 19:30":             "2027-06-12T19:30",
		"2027-06-12T19:30":             "2027-06-12T19:30",
		"12 June 2027, 19:30":          "2027-06-12T19:30",
		"Saturday 12 June 2027 19:30":  "2027-06-12T19:30",
		"Sat 12 June 2027 at 9:05":     "2027-06-12T09:05",
		"19:30":                        "19:30",
		"12 June 2027":                 "",
		"2027-02-30 19:30":             "",
		"tomorrow 19:30":               "",
		"2027-06-12 24:00":             "",
		"Thursday 12 June 2027, 19:30": "",
	} {
		w, what := ParseWhen(in)
		assert.Equal(t, want, w.String(), in)
		assert.Equal(t, want == "", what != "", in)
	}
}

func TestStretchDayCrossesMonths(t *testing.T) {
	// 1 March 2027 is a Monday (computed with time.Date).
	monday := When{Year: 2027, Month: 3, Day: 1}
	assert.Equal(t, -2, Shift{ByWeekday: true, Weekday: time.Saturday}.Day(monday))
	assert.Equal(t, -1, Shift{Date: When{Year: 2027, Month: 2, Day: 28}}.Day(monday))
	assert.Equal(t, 0, Shift{ByWeekday: true, Weekday: time.Monday}.Day(monday))
}

func parseAll(t *testing.T, files map[string]string) Library {
	t.Helper()
	var all Library
	for _, name := range []string{"a.md", "b.md", "c.md", "m.md", "k.md"} {
		text, ok := files[name]
		if !ok {
			continue
		}
		switch KindOf([]byte(text)) {
		case KindMenu:
			m, problems := ParseMenu(name, []byte(text))
			require.Empty(t, problems)
			all.Menus = append(all.Menus, m)
		case KindKitchen:
			k, problems := ParseKitchen(name, []byte(text))
			require.Empty(t, problems)
			all.Kitchens = append(all.Kitchens, k)
		default:
			c, problems := card.Parse(name, []byte(text))
			require.Empty(t, problems)
			all.Cards = append(all.Cards, c)
		}
	}
	return all
}

// uses writes a card that makes a kilogram of one linked item.
func uses(link string) string {
	return "---\nmakes: 1 kg\n---\n# Card\n\n## Formula\n\n- 1 kg " + link + "\n\n## Method\n\n1. Warm the **thing**.\n   - hob: 1 ring\n   - hands: 5 min\n"
}

func TestCheckLinks(t *testing.T) {
	for _, tt := range []struct {
		name  string
		files map[string]string
		want  []string
	}{
		{"all there", map[string]string{"a.md": uses("[thing](b.md)"), "b.md": uses("thing")}, nil},
		{"a missing card", map[string]string{"a.md": uses("[thing](stok.md)")},
			[]string{"a.md:8:8: there is no card stok.md; write that card, or correct the link"}},
		{"a by-product nobody saves", map[string]string{"a.md": uses("[thing](b.md#fat)"), "b.md": uses("thing")},
			[]string{`a.md:8:8: "Card" saves no fat; add it under "## Saves" in b.md`}},
		{"a loop of three", map[string]string{"a.md": uses("[thing](b.md)"), "b.md": uses("[thing](c.md)"), "c.md": uses("[thing](a.md)")},
			[]string{"c.md:8:8: these cards need each other in a loop: a → b → c → a; take one of the links out"}},
		{"a card that needs itself", map[string]string{"a.md": uses("[thing](a.md)")},
			[]string{"a.md:8:8: these cards need each other in a loop: a → a; take one of the links out"}},
		{"a menu's missing plate and kitchen", map[string]string{"m.md": "---\ncovers: 2\nkitchen: kk.md\n---\n# M\n\n## A\n\n- [X](x.md)\n"},
			[]string{"m.md:9:4: there is no card x.md; write that card, or correct the link", "m.md:1:1: there is no kitchen kk.md; write that file, or correct the kitchen line"}},
		{"a kitchen without a hob", map[string]string{"a.md": uses("thing"), "m.md": "---\ncovers: 2\nkitchen: k.md\n---\n# M\n\n## A\n\n- [X](a.md)\n", "k.md": "---\ncooks: 1\noven: 1\n---\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"},
			[]string{`a.md:12:4: warning: the kitchen has no "hob"; add it to k.md, or do the step another way`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, f := range CheckLinks(parseAll(t, tt.files)) {
				got = append(got, f.Error())
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(supper))
	f.Add([]byte("---\ncooks: 2\nhob: 4 rings\n---\n# K\n\n## Hours\n\n- the day before: 17:00–01:00\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		m, problems := ParseMenu("m.md", src)
		k, more := ParseKitchen("k.md", src)
		for _, f := range append(problems, more...) {
			if f.Line < 1 || f.Col < 1 || f.Msg == "" {
				t.Fatalf("a problem without a place or words: %+v", f)
			}
		}
		if m.Covers < 0 || m.Covers > MaxCovers {
			t.Fatalf("covers %d", m.Covers)
		}
		for _, h := range k.Hours {
			if h.To <= h.From || h.From < 0 || h.To > 48*60 {
				t.Fatalf("hours %+v", h)
			}
		}
		CheckLinks(Library{Menus: []*Menu{m}, Kitchens: []*Kitchen{k}})
	})
}
