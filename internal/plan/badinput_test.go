package plan

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// TestBadInput gives what nobody can cook. Each has a problem with its place, or a reason,
// or a plan that says what it assumed; none has the solver try more often than a dinner
// that is merely too large for its kitchen.
func TestBadInput(t *testing.T) {
	const items, do = "1 piece bread", "Go on.; hands: 2 min"
	plate := func(steps ...string) map[string]string {
		return map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{items}, steps...)}
	}
	butter := plate("Butter the **bread**.; hands: 5 min; serve")
	for _, tt := range []struct {
		name, kitchen, menu string
		cards               map[string]string
		problem             string // the first error of a file
		reason              string // why there is no plan
		note                string // of the plan
	}{
		{"no cook", galley(0, "08:00–24:00"), courses(4, "plate"), butter,
			`kitchen.md:2:8: 0 cooks; write how many people cook, from 1 to 50`, `kitchen.md: nobody cooks there: add "cooks: 2" at the top, with how many there are`, ""},
		{"a step for no cooks", galley(1, "08:00–24:00"), courses(4, "plate"), plate("Butter the **bread**.; hands: 5 min, up to 0 cooks; serve"),
			`plate.md:14:20: `, "", ""},
		{"an oven that is never hot", galley(1, "08:00–24:00", "oven: 1, hot in 900 h"), courses(4, "plate"), plate("Roast the **bread**.; oven: 180 °C; hands: 5 min; wait: 20 min; serve"),
			`kitchen.md:10:19: the oven takes 900 h to heat up, longer than any does; write it like "hot in 20 min"`, "", "turn the oven to 180 °C"},
		{"an oven that is hot too late", galley(1, "10:00–24:00", "oven: 1, hot in 10 h"), courses(4, "plate"), plate("Roast the **bread**.; oven: 180 °C; hands: 5 min; wait: 20 min; serve"),
			"", "nothing can start before Saturday 10:00; but Plate, step 1 takes 25 min, the oven takes 10 h to heat up first: 1 h 5 min too long", ""},
		{"breaks longer than the shift", "---\ncooks: 1\nbreaks: 6 h per 7 h\n---\n\n# K\n\n## Equipment\n\n- hob: 1\n\n## Hours\n\n- on the day: 14:00–20:00\n", courses(4, "plate"), butter,
			`kitchen.md:3:9: warning: a break of 6 h is as long as the kitchen's longest shift, 6 h; write a shorter one, like "breaks: 20 min per 5 h", or "breaks: none"`, "", ""},
		{"steps that wait for each other", galley(1, "08:00–24:00"), courses(4, "plate", "b"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate", []string{items}, "Butter the **bread**.; hands: 5 min; before: [B](b.md); serve"),
			"b":     recipe("B", "makes: 1 plate", []string{items}, "Butter the **bread**.; hands: 5 min; before: [Plate](plate.md); serve")},
			"", "these steps wait for each other, by “before” and “after” on their cards: B, step 1; Plate, step 1", ""},
		{"a step that waits for itself", galley(1, "08:00–24:00"), courses(4, "plate"), plate("Butter the **bread**.; hands: 5 min; before: [Plate](plate.md); serve"),
			`plate.md:15:14: "[Plate](plate.md)" is this card itself; for a step of this card write "after: step 2"`, "", ""},
		{"a load much larger than the need", galley(1, "08:00–24:00", "fryer: 1"), courses(4, "plate"), plate("Fry the **bread**.; fryer: 180 °C; load: 400 pieces; hands: 5 min; serve"),
			"", "", "Plate, step 1 takes the time of a full load, though less than half of one goes in"},
		{"a load of nothing", galley(1, "08:00–24:00", "fryer: 1"), courses(4, "plate"), plate("Fry the **bread**.; fryer: 180 °C; load: 0 pieces; hands: 5 min; serve"),
			`plate.md:15:12: "load: 0 pieces" is nothing at all; write how much it is, or take the line out`, "", ""},
		{"ten thousand covers", galley(2, "08:00–24:00", "hob: 4"), courses(10000, "plate"), plate("Butter the **bread**.; hands: 2 min per plate; serve"),
			"", "Course 1 goes out Saturday 19:00, and nothing can start before Saturday 08:00; but Plate, step 1 takes 333 h 20 min: 322 h 20 min too long", ""},
		{"ten thousand batches", galley(2, "08:00–24:00", "hob: 4"), courses(10000, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate\nlargest: 1 plate", []string{items}, "Butter the **bread**.; hands: 2 min; serve")},
			"", "between Saturday 18:53 and Saturday 19:00 these take 16 h 40 min of the cooks, where there are 14 min: Plate, batch 1, step 1; Plate, batch 2, step 1; Plate, batch 3, step 1; Plate, batch 4, step 1; Plate, batch 5, step 1; and 495 more", ""},
		{"more steps than a plan can have", galley(2, "08:00–24:00", "hob: 4"), courses(10000, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate\nlargest: 1 plate", []string{items}, "Butter the **bread**.; hands: 2 min", do, do, do, do, do, do+"; serve")},
			"", "the dinner comes to 3500 pieces of work in this kitchen, and a plan can have 3000: cook it in larger batches, or as several dinners", ""},
		{"nearly as many steps as a plan can have", galley(2, "08:00–24:00", "hob: 4"), courses(10000, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate\nlargest: 1 plate", []string{items}, "Butter the **bread**.; hands: 2 min", do, do, do, do+"; serve")},
			"", "between Saturday 18:53 and Saturday 19:00 these take 16 h 40 min of the cooks, where there are 14 min: Plate, batch 1, step 5; Plate, batch 2, step 5; Plate, batch 3, step 5; Plate, batch 4, step 5; Plate, batch 5, step 5; and 495 more", ""},
		{"a step of no minutes", galley(1, "08:00–24:00"), courses(4, "plate"), plate("Butter the **bread**.; hands: 0 min; serve"),
			`plate.md:14:13: hands: "0 min" is no time at all; `, "", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			k, found := kitchen.Parse("kitchen.md", []byte(tt.kitchen))
			m, more := menu.Parse("menu.md", []byte(tt.menu))
			found = append(found, more...)
			in := Input{Dinner: demand.Input{Menu: m, Cards: map[string]*card.Card{}}, Kitchen: k, Serve: m.Serve}
			for name, text := range tt.cards {
				c, problems := card.Parse(name+".md", []byte(text))
				found = append(found, problems...)
				in.Dinner.Cards[c.ID] = c
			}
			problem := ""
			for _, f := range found {
				if problem == "" || f.Severity == document.Error {
					problem = f.Error()
				}
			}
			if tt.problem == "" {
				assert.Empty(t, problem)
			} else {
				assert.Contains(t, problem, tt.problem)
			}
			built := 0
			in.OnBuild = func() { built++ }
			pl, err := Make(in)
			assert.LessOrEqual(t, built, 12, "projects built for the plan")
			if tt.reason != "" {
				require.EqualError(t, err, tt.reason)
			} else {
				require.NoError(t, err)
			}
			if tt.note != "" {
				said := pl.Notes
				for _, h := range pl.Heatings {
					said = append(said, in.HeatingText(pl, h))
				}
				assert.Contains(t, strings.Join(said, "\n"), tt.note)
			}
			if b := new(Blocked); errors.As(err, &b) {
				built = 0
				for _, c := range in.Free(b) {
					assert.Empty(t, carriedOut(in, c), c.Text)
				}
				assert.LessOrEqual(t, built, 250, "projects built for the changes that would help, and to check them")
			}
		})
	}
}
