package plan

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// TestIncompleteInput checks the error of an incomplete input, which is not
// [*Blocked].
func TestIncompleteInput(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(in *Input)
		want  string
	}{
		{"no menu", func(in *Input) { in.Dinner.Menu = nil }, "there is no menu to plan"},
		{"no kitchen", func(in *Input) { in.Kitchen = nil }, `there is no kitchen to plan in: name one in the menu, "kitchen: my-kitchen.md"`},
		{"no date", func(in *Input) { in.Serve = document.NewTimeOfDay(19 * 60) }, `the serving time has no date: a plan counts days, write it like "serve: 2027-06-12 19:30"`},
		{"no cook", func(in *Input) { in.Kitchen.Cooks = nil }, `boathouse-kitchen.md: nobody cooks there: add "cooks: 2" at the top, with how many there are`},
		{"no hours", func(in *Input) { in.Kitchen.Hours = nil }, `boathouse-kitchen.md: the kitchen is never open: add "## Hours" and a list, "- Saturday 08:00–24:00"`},
		{"hours that end as they begin", func(in *Input) {
			in.Kitchen.Hours = []kitchen.Shift{{From: 600, To: 600}}
		}, `boathouse-kitchen.md: the kitchen is never open: add "## Hours" and a list, "- Saturday 08:00–24:00"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := supper(t, 18)
			tt.spoil(&in)
			_, err := Make(in)
			assert.EqualError(t, err, tt.want)
			b := new(Blocked)
			assert.False(t, errors.As(err, &b))
		})
	}
}

// TestBlocked checks the reasons why a dinner can't be done, in whole sentences,
// and the changes that would make it possible. Each change is tried by planning
// with it.
func TestBlocked(t *testing.T) {
	type offer struct{ text, effect string }
	plate := func(steps ...string) map[string]string {
		return map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 piece bread", "20 g butter"}, steps...)}
	}
	add := func(name string, n int) func(*Input) {
		return func(in *Input) {
			for i := range in.Kitchen.Equipment {
				if in.Kitchen.Equipment[i].Name == name {
					in.Kitchen.Equipment[i].Count += n
					return
				}
			}
			in.Kitchen.Equipment = append(in.Kitchen.Equipment, kitchen.Equipment{Name: name, Count: n, Places: 1, Heat: true, Temp: true})
		}
	}
	keeps := func(id string, minutes int) func(*Input) {
		return func(in *Input) { in.Dinner.Cards[id].Steps[0].Keep[0].Seconds = minutes * 60 }
	}
	for _, tt := range []struct {
		name    string
		kitchen string
		menu    string
		cards   map[string]string
		because []string
		free    []offer
		apply   []func(*Input) // the same changes, by hand
	}{
		{"no oven", galley(1, "08:00–24:00", "hob: 2"), courses(4, "plate"),
			plate("Roast.; oven: 180 °C; hands: 5 min; wait: 20 min; serve"),
			[]string{"the kitchen has no oven, and Plate, step 1 needs one"},
			[]offer{{"an oven", "every course on time"}},
			[]func(*Input){add("oven", 1)}},
		{"too few rings", galley(1, "08:00–24:00", "hob: 2"), courses(4, "plate"),
			plate("Fry.; hob: 3 rings; hands: 5 min; serve"),
			[]string{"Plate, step 1 takes up 3 places of the hob, and the kitchen has 2"},
			[]offer{{"one more ring", "every course on time"}},
			[]func(*Input){add("hob", 1)}},
		{"a card longer than the time there is", galley(1, "17:00–20:00", "oven: 1"), courses(4, "plate"),
			plate("Braise.; oven: 120 °C; hands: 10 min; wait: 4 h", "Dress.; hands: 5 min; serve"),
			[]string{"nothing can start before Saturday 17:00; but Plate, step 1 takes 4 h 10 min: 2 h 10 min too long"},
			[]offer{{"open the kitchen 4 hours earlier on Saturday", "every course on time"}},
			[]func(*Input){func(in *Input) { in.Kitchen.Hours[0].From -= 4 * 60 }}},
		{"keeping times that contradict waits", galley(2, "08:00–24:00", "hob: 2", "fridge"), courses(4, "plate"),
			map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"20 g [Foam](foam.md)"}, "Coat with **half the foam**.; hands: 5 min; wait: 1 h; keep: 5 min room", "Coat with the **rest of the foam**.; hands: 5 min; serve"),
				"foam": recipe("Foam", "makes: 200 g", []string{"200 g cream"}, "Whip the **cream**.; hands: 5 min; keep: 10 min chilled")},
			[]string{"Foam, step 1 may wait 10 min chilled at most; but Plate, step 1 takes 1 h 5 min: 55 min too long"},
			[]offer{{"Foam, step 1 may wait 1 h 5 min, if its author agrees; the card says 10 min chilled", "every course on time"}},
			[]func(*Input){keeps("foam", 65)}},
		{"a fryer for four", galley(2, "08:00–24:00", "fryer: 1"), courses(18, "plate"),
			map[string]string{"plate": recipe("Fritters", "makes: 1 plate", []string{"1 piece bread"}, "Fry the **bread**.; fryer: 180 °C; load: 4 pieces; hands: 1 min; wait: 3 min; keep: 3 min hot; serve")},
			[]string{"Fritters, step 1 goes in loads one after the other: the first waits 16 min for the last, and may wait 3 min hot"},
			[]offer{{"Fritters, step 1 may wait 20 min, if its author agrees; the card says 3 min hot", "every course on time"}, {"4 more fryers", "every course on time"}, {"14 covers fewer", "every course on time for 4"}},
			[]func(*Input){keeps("plate", 20), add("fryer", 4), func(in *Input) { in.Dinner.Covers = 4 }}},
		{"a thousand covers", galley(2, "08:00–24:00", "hob: 4"), courses(1000, "plate"),
			plate("Butter the **bread**.; hands: 1 min + 2 min per plate; serve"),
			[]string{"Course 1 goes out Saturday 19:00, and nothing can start before Saturday 08:00; but Plate, step 1 takes 33 h 21 min: 22 h 21 min too long"},
			[]offer{{"341 covers fewer", "every course on time for 659"}},
			[]func(*Input){func(in *Input) { in.Dinner.Covers = 329 }}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := cook(t, tt.kitchen, tt.menu, tt.cards)
			_, err := Make(in)
			b := new(Blocked)
			require.ErrorAs(t, err, &b)
			assert.Equal(t, tt.because, b.Because)
			assert.Equal(t, tt.because[0], b.Error())
			var found []offer
			for _, c := range in.Free(b) {
				found = append(found, offer{c.Text, c.Effect})
				changed := in.With(c)
				pl, err := Make(changed)
				require.NoError(t, err, "%s, carried out", c.Text)
				assert.Empty(t, breaks(changed, pl), "%s, carried out", c.Text)
			}
			assert.Equal(t, tt.free, found)
			for i, apply := range tt.apply {
				changed := cook(t, tt.kitchen, tt.menu, tt.cards)
				apply(&changed)
				pl, err := Make(changed)
				require.NoError(t, err, "%s", tt.free[i].text)
				assert.Empty(t, breaks(changed, pl), "%s", tt.free[i].text)
			}
			assert.Len(t, tt.apply, len(tt.free), "every change is tried here too")
		})
	}
}

// TestBlockedDemo looks at the demo dinner in kitchens that are too small.
func TestBlockedDemo(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(in *Input)
		want  string
		free  []string
	}{
		{"a thousand covers", func(in *Input) { in.Dinner.Covers = 1000 }, "Pressed lamb, step 5 goes in loads one after the other: the first waits 9 h 10 min for the last, and may wait 15 min hot", []string{"976 covers fewer"}},
		{"the day alone", func(in *Input) { in.Kitchen.Hours = in.Kitchen.Hours[2:] }, "Strawberries goes out Saturday 21:35, and nothing can start before Saturday 09:00; but the 5 steps from Honey parfait, step 4 to Honey parfait, step 8 take 12 h 52 min: 19 min too long", []string{"open the kitchen on Friday, 09:00–24:00 too"}},
		{"one cook", func(in *Input) { in.Kitchen.Cooks = in.Kitchen.Cooks[:1] }, "between Saturday 20:17 and Saturday 21:00 these take 45 min of the cooks, where there are 43 min: Stuffed courgette, polenta and beans, step 1; Stuffed courgette, polenta and beans, step 2; Pressed lamb, polenta, beans and carrots, step 2; Pressed lamb, polenta, beans and carrots, step 3; Pressed lamb, polenta, beans and carrots, step 4; and 3 more", []string{"one more cook on Saturday, 19:35–21:35 (2 h)", "9 covers fewer"}},
		{"one ring", func(in *Input) { in.Kitchen.Equipment[0].Count = 1 }, "Pressed lamb, step 5 takes up 2 places of the hob, and the kitchen has 1", []string{"one more ring"}},
		{"no kitchen things at all", func(in *Input) { in.Kitchen.Equipment = nil }, "the kitchen has no hob, and Brown butter almond cake, step 1 needs one", []string{"a hob, an oven, a fridge, an ice bath, a fryer and a freezer"}},
		{"no hours on the day", func(in *Input) { in.Kitchen.Hours = in.Kitchen.Hours[:2] }, "Strawberries, honey parfait, almond cake, no jelly, step 1 needs somebody at it for 2 min, up to Saturday 21:31 at the latest, and in the time there is for it the kitchen is not open for so long", nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := supper(t, 18)
			tt.spoil(&in)
			_, err := Make(in)
			b := new(Blocked)
			require.ErrorAs(t, err, &b)
			assert.Equal(t, tt.want, b.Because[0])
			var texts []string
			for _, c := range in.Free(b) {
				texts = append(texts, c.Text)
			}
			assert.Equal(t, tt.free, texts)
		})
	}
}

// TestPlanForNoCovers: without guests there is nothing to do, and that is a plan.
func TestPlanForNoCovers(t *testing.T) {
	in := supper(t, -1)
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, pl.Tasks)
	assert.Len(t, pl.Courses, 5)
	assert.Zero(t, pl.Aims)
}
