package plan

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// failer holds the methods that a test and a rapid property have in common.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// cook returns the dinner of a kitchen, a menu and cards given as text, which
// must have no errors.
func cook(t failer, kitchenText, menuText string, cards map[string]string) Input {
	t.Helper()
	none := func(all []document.Problem) {
		t.Helper()
		for _, f := range all {
			if f.Severity == document.Error {
				t.Fatalf("%v", f.Error())
			}
		}
	}
	k, found := kitchen.Parse("kitchen.md", []byte(kitchenText))
	none(found)
	m, found := menu.Parse("menu.md", []byte(menuText))
	none(found)
	in := Input{Dinner: demand.Input{Menu: m, Cards: map[string]*card.Card{}}, Kitchen: k, Serve: m.Serve}
	for name, text := range cards {
		c, found := card.Parse(name+".md", []byte(text))
		none(found)
		in.Dinner.Cards[c.ID] = c
	}
	return in
}

// galley is a kitchen with so many cooks, open on the day from one time to another.
func galley(hands int, hours string, equipment ...string) string {
	text := fmt.Sprintf("---\ncooks: %d\n---\n\n# Galley\n\n## Equipment\n\n- sink\n", hands)
	for _, e := range equipment {
		text += "- " + e + "\n"
	}
	return text + "\n## Hours\n\n- on the day: " + hours + "\n"
}

// courses is a menu of the cards named, each a course, so many minutes after
// the first.
func courses(covers int, plates ...string) string {
	text := fmt.Sprintf("---\ncovers: %d\nserve: 2027-06-12 19:00\n---\n\n# Supper\n", covers)
	for i, p := range plates {
		id, after, ok := strings.Cut(p, " ")
		text += fmt.Sprintf("\n## Course %d\n\n", i+1)
		if ok {
			text += "- after: " + after + "\n"
		}
		text += fmt.Sprintf("- [%s](%s.md)\n", id, id)
	}
	return text
}

// recipe is a card: what stands at its top, its formula's items and its steps, each
// its words with its facts.
func recipe(title, front string, items []string, steps ...string) string {
	text := "---\n" + front + "\n---\n\n# " + title + "\n\n## Formula\n\n"
	for _, it := range items {
		text += "- " + it + "\n"
	}
	text += "\n## Method\n\n"
	for i, s := range steps {
		words, facts, _ := strings.Cut(s, "; ")
		text += fmt.Sprintf("%d. %s\n", i+1, words)
		for _, f := range strings.Split(facts, "; ") {
			if f != "" {
				text += "   - " + f + "\n"
			}
		}
	}
	return text
}

// anyDinner draws a small dinner in a small kitchen: components that need one
// another, keeping times, waits, loads, ovens at several temperatures.
func anyDinner(t *rapid.T) Input {
	tens := func(label string, low, high int) int { return 5 * rapid.IntRange(low, high).Draw(t, label) }
	n := rapid.IntRange(2, 5).Draw(t, "cards")
	cards := map[string]string{}
	flour := rapid.IntRange(0, 2).Draw(t, "flour") == 0 // on the first plate; the last card is kept apart from it
	plates := 1
	if n > 2 {
		plates = rapid.IntRange(1, 2).Draw(t, "plates")
	}
	for i := range n {
		front, items := "makes: 1 kg", []string{"500 g onions"}
		if i < plates {
			front = "makes: 1 plate"
		} else if rapid.Bool().Draw(t, "keeps") {
			front += fmt.Sprintf("\nkeeps: %d min chilled", tens("card keeps", 2, 60))
		}
		for j := max(i+1, plates); j < n; j++ {
			if j == i+1 || rapid.IntRange(0, 2).Draw(t, "link") == 0 {
				items = append(items, fmt.Sprintf("40 g [Card %d](c%d.md)", j, j))
			}
		}
		if flour && i == 0 {
			items = append(items, "50 g wheat flour")
		}
		var steps []string
		for s := range rapid.IntRange(1, 4).Draw(t, "steps") {
			words := rapid.SampledFrom([]string{"Do it.", "Do it.", "Whisk the whites.", "Dress the leaves with it.", "Fold in the cream."}).Draw(t, "words")
			if s > 0 && len(items) > 1 && rapid.Bool().Draw(t, "named") {
				words = fmt.Sprintf("Do it with the **Card %d**.", max(i+1, plates))
			}
			facts := []string{fmt.Sprintf("hands: %d min", tens("hands", 1, 5))}
			if s > 0 && rapid.IntRange(0, 4).Draw(t, "free") == 0 {
				facts = append(facts, "after: start")
			}
			if rapid.Bool().Draw(t, "waits") {
				w := tens("wait", 1, 12)
				facts = append(facts, rapid.SampledFrom([]string{fmt.Sprintf("wait: %d min", w), fmt.Sprintf("wait: %d–%d min", w, w+20), fmt.Sprintf("wait: about %d min", w), fmt.Sprintf("wait: at least %d min", w)}).Draw(t, "form"))
			}
			switch rapid.IntRange(0, 5).Draw(t, "keep") {
			case 0:
				facts = append(facts, "keep: straight on")
			case 1, 2, 3:
				facts = append(facts, fmt.Sprintf("keep: %d min room", tens("keep", 1, 60)))
			}
			switch rapid.IntRange(0, 6).Draw(t, "equipment") {
			case 0:
				facts = append(facts, fmt.Sprintf("hob: %d rings", rapid.IntRange(1, 2).Draw(t, "rings")))
			case 1, 2:
				facts = append(facts, fmt.Sprintf("oven: %d °C, 1 shelf", rapid.SampledFrom([]int{110, 150, 180}).Draw(t, "heat")))
			case 3:
				facts = append(facts, "fryer: 180 °C", "load: "+rapid.SampledFrom([]string{"100 g", "300 g"}).Draw(t, "load"))
			case 4:
				facts = append(facts, "fridge")
			}
			if flour && i == 0 {
				words += " Mix the **wheat flour**."
			} else if flour && i == n-1 {
				facts = append(facts, rapid.SampledFrom([]string{"apart: gluten", "before: anything with gluten", "before: Card 0, step 1"}).Draw(t, "apart"))
			}
			steps = append(steps, words+"; "+strings.Join(facts, "; "))
		}
		cards[fmt.Sprintf("c%d", i)] = recipe(fmt.Sprintf("Card %d", i), front, items, steps...)
	}
	menuText := courses(rapid.IntRange(1, 12).Draw(t, "covers"), "c0")
	if plates == 2 {
		menuText = courses(rapid.IntRange(1, 12).Draw(t, "covers"), "c0", fmt.Sprintf("c1 %d min", tens("after", 1, 12)))
	}
	hours := rapid.SampledFrom([]string{"08:00–24:00", "10:00–13:00, 15:00–23:00", "15:00–23:00"}).Draw(t, "hours")
	kitchen := galley(rapid.IntRange(1, 3).Draw(t, "hands"), hours, "hob: 3", fmt.Sprintf("oven: %d, 2 shelves", rapid.IntRange(1, 2).Draw(t, "ovens")), fmt.Sprintf("fryer: %d", rapid.IntRange(1, 2).Draw(t, "fryers")), "fridge")
	return cook(t, kitchen, menuText, cards)
}

// TestRandomPlansKeepRules draws dinners and checks every plan that is made.
func TestRandomPlansKeepRules(t *testing.T) {
	made, blocked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		in := anyDinner(t)
		pl, err := Make(in)
		if b := new(Blocked); errors.As(err, &b) {
			blocked++
			if len(b.Because) == 0 || strings.TrimSpace(b.Because[0]) == "" {
				t.Fatalf("blocked without a word why")
			}
			return
		}
		if err != nil {
			t.Fatalf("%v", err)
		}
		made++
		if said := breaks(in, pl); len(said) > 0 {
			for id, c := range in.Dinner.Cards {
				t.Logf("%s:\n%s", id, c.Source)
			}
			t.Logf("%s\n%s", in.Kitchen.Source, in.Dinner.Menu.Source)
			for _, k := range pl.Tasks {
				t.Logf("%+v", k)
			}
			t.Fatalf("%s", strings.Join(said, "\n"))
		}
	})
	t.Logf("%d planned, %d blocked", made, blocked)
	assert.Greater(t, made, blocked/4, "hardly any dinner could be planned")
}

// TestCheckerFindsBrokenRules breaks one rule at a time of a good plan: the
// inspector must find each.
func TestCheckerFindsBrokenRules(t *testing.T) {
	in := supper(t, 18)
	good, err := Make(in)
	require.NoError(t, err)
	find := func(pl *Plan, card string, step int) *Task {
		for i := range pl.Tasks {
			if k := &pl.Tasks[i]; k.Card == card && k.Step.Step == step {
				return k
			}
		}
		t.Fatalf("no %s, step %d", card, step)
		return nil
	}
	shift := func(k *Task, by int) { k.Start, k.Free, k.End, k.Latest = k.Start+by, k.Free+by, k.End+by, k.Latest+by }
	for _, tt := range []struct {
		name  string
		spoil func(pl *Plan)
		want  string
	}{
		{"a step left out", func(pl *Plan) { pl.Tasks = pl.Tasks[1:] }, "is not planned"},
		{"a step twice", func(pl *Plan) { pl.Tasks = append(pl.Tasks, pl.Tasks[0]) }, "load 0 of 0 among 2"},
		{"a step of another dinner", func(pl *Plan) { k := pl.Tasks[0]; k.Batch = 7; pl.Tasks = append(pl.Tasks, k) }, "is not a step of this dinner"},
		{"too short", func(pl *Plan) { k := find(pl, "braised-lamb", 2); k.Free, k.End = k.Free-5, k.End-5 }, "attended minutes are planned, it takes"},
		{"a wait cut short", func(pl *Plan) { find(pl, "braised-lamb", 4).End -= 30 }, "minutes of waiting are planned, it takes"},
		{"before what it needs", func(pl *Plan) { shift(find(pl, "braised-lamb", 3), -60) }, "before {braised-lamb 1 2} is done"},
		{"past its best", func(pl *Plan) { shift(find(pl, "fresh-curd", 1), -24*60) }, "and keeps"},
		{"the plate for no fish last", func(pl *Plan) {
			k := find(pl, "beetroot-plate", 3)
			shift(k, find(pl, "trout-plate", 3).Start+1-k.Start)
		}, "is sent at"},
		{"a component too late", func(pl *Plan) { shift(find(pl, "apple-horseradish", 4), 24*60) }, "before {apple-horseradish 1 4} is done"},
		{"a by-product too late", func(pl *Plan) { shift(find(pl, "rhubarb-juice", 5), 24*60) }, "begins at"},
		{"cold at the table", func(pl *Plan) { shift(find(pl, "glazed-carrots", 4), -30) }, "and course 4 goes out at"},
		{"late at the pass", func(pl *Plan) { k := find(pl, "bread-board", 3); shift(k, 1-k.End) }, "after course 1 goes out"},
		{"too early at the pass", func(pl *Plan) { k := find(pl, "bread-board", 3); shift(k, -9-k.End) }, "course 1 goes out at"},
		{"a course put off", func(pl *Plan) { pl.Courses[2].At += 5 }, "course 3 is due at"},
		{"outside the hours", func(pl *Plan) { shift(find(pl, "light-chicken-stock", 1), -24*60) }, "outside the hours"},
		{"two things at once", func(pl *Plan) {
			for i := range pl.Tasks {
				pl.Tasks[i].Cook = min(1, pl.Tasks[i].Cook)
			}
		}, "at one time"},
		{"no break", func(pl *Plan) { k := find(pl, "pickled-radishes", 1); k.Free, k.End = k.Free+160, k.End+160 }, "without a break"},
		{"the same cook twice", func(pl *Plan) { k := find(pl, "bread-board", 3); k.With = []int{k.Cook} }, "twice"},
		{"more cooks than may share it", func(pl *Plan) {
			k := find(pl, "pickled-radishes", 1)
			k.With = []int{3 - k.Cook}
		}, "has 2 cooks, and 1 may share it"},
		{"nobody at it", func(pl *Plan) { find(pl, "bread-board", 3).Cook = 0 }, "is for cook 0"},
		{"more hands than there are", func(pl *Plan) { k := find(pl, "bread-board", 3); shift(k, find(pl, "trout-plate", 3).Start-k.Start) }, "4 pairs of hands are needed"},
		{"heat at night", func(pl *Plan) { shift(find(pl, "braised-lamb", 4), 6*60) }, "is over heat from"},
		{"no ring", func(pl *Plan) { find(pl, "braised-lamb", 2).On = nil }, "places of the hob"},
		{"a ring that is not there", func(pl *Plan) { find(pl, "braised-lamb", 2).On[0].Unit = 9 }, "is on hob 9, of 4"},
		{"another's shelf", func(pl *Plan) {
			cake, bread := find(pl, "almond-cake", 5), find(pl, "seed-crispbread", 4)
			shift(cake, bread.Start-cake.Start)
			cake.On[0].Unit = bread.On[0].Unit
		}, "are both on oven"},
		{"an oven not hot yet", func(pl *Plan) {
			cake, bread := find(pl, "almond-cake", 5), find(pl, "seed-crispbread", 4)
			shift(cake, bread.End+1-cake.Start)
			cake.On[0].Unit = bread.On[0].Unit
		}, "at another temperature until"},
		{"an oven at two heats", func(pl *Plan) { find(pl, "seed-crispbread", 4).On[0].TempC = 100 }, "wants the oven at 150 °C"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			pl := *good
			pl.Tasks = nil
			for _, k := range good.Tasks {
				k.On = append([]Place{}, k.On...)
				pl.Tasks = append(pl.Tasks, k)
			}
			pl.Courses = append([]Course{}, good.Courses...)
			require.Empty(t, breaks(in, &pl))
			tt.spoil(&pl)
			assert.Contains(t, strings.Join(breaks(in, &pl), "\n"), tt.want)
		})
	}
}
