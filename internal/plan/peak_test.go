package plan

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// roasts is a dinner for four with a roast for each use of equipment given. Each takes 45
// minutes, keeps so long, and must be there when the plate is laid out at 18:55. What goes
// into the mixer keeps for eight hours.
func roasts(t *testing.T, cooks int, equipment, keep string, uses ...string) Input {
	t.Helper()
	cards, items := map[string]string{}, []string{}
	for i, use := range uses {
		id := fmt.Sprintf("c%d", i)
		items = append(items, fmt.Sprintf("20 g [Roast %d](%s.md)", i+1, id))
		cards[id] = recipe(fmt.Sprintf("Roast %d", i+1), "makes: 1 kg", []string{"1 kg onions"}, "Roast.; "+use+"; hands: 5 min; wait: 40 min; keep: "+keep)
		if use == "mixer" {
			cards[id] = strings.Replace(cards[id], keep, "8 h chilled", 1)
		}
	}
	cards["plate"] = recipe("Plate", "makes: 1 plate", items, "Lay out.; hands: 5 min; serve")
	return cook(t, galley(cooks, "08:00–24:00", equipment), courses(4, "plate"), cards)
}

// TestReasonCountsWhatIsWantedAtOnce checks the reason where only the search shows that
// there is no plan, or finds none: counts and times, and changes that work. The latest time
// for every roast is 18:10–18:55. In each row the roasts fit in pairs, and take less of the
// equipment than there is between 18:55 and the earliest that they keep for.
func TestReasonCountsWhatIsWantedAtOnce(t *testing.T) {
	const low, medium, hot, rings = "oven: 120 °C", "oven: 150 °C", "oven: 180 °C", "hob: 2 rings"
	const three = "Saturday 18:10–18:55: Roast 1, step 1; Roast 2, step 1; Roast 3, step 1; "
	for _, tt := range []struct {
		name            string
		cooks           int
		equipment, keep string
		uses            []string
		want, free      string
	}{
		{"two shelves", 9, "oven: 1, 2 shelves", "30 min hot", []string{hot, hot, hot},
			"3 things want 3 places of the oven at once, " + three + "the kitchen has 2, and no other times keep every rule", "one more oven"},
		{"two shelves, while others can wait for the mixer", 9, "mixer: 1\n- oven: 1, 2 shelves", "30 min hot", []string{hot, hot, hot, "mixer", "mixer", "mixer", "mixer"},
			"3 things want 3 places of the oven at once, " + three + "the kitchen has 2, and no other times keep every rule", "one more oven"},
		{"four rings", 9, "hob: 4", "30 min hot", []string{rings, rings, rings},
			"3 things want 6 places of the hob at once, " + three + "the kitchen has 4, and no other times keep every rule", "2 more rings"},
		{"three temperatures, and fewer cooks than roasts", 2, "oven: 1, 4 shelves", "60 min hot", []string{hot, medium, low},
			"3 things want the oven at 3 temperatures at once, " + three + "it has one at a time, and no other times keep every rule", "one more oven"},
		{"nine in four rings, which the search does not prove", 9, "hob: 4", "75 min hot", []string{"hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring", "hob: 1 ring"},
			"9 things want 9 places of the hob at once, Saturday 18:10–18:55: Roast 1, step 1; Roast 2, step 1; Roast 3, step 1; Roast 4, step 1; Roast 5, step 1; and 4 more; the kitchen has 4, and no other times were found that keep every rule", "one more ring"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := roasts(t, tt.cooks, tt.equipment, tt.keep, tt.uses...)
			_, err := Make(in)
			b := new(Blocked)
			require.ErrorAs(t, err, &b)
			assert.Equal(t, []string{tt.want}, b.Because)
			var texts []string
			for _, c := range in.Free(b) {
				texts = append(texts, c.Text)
				assert.Empty(t, carriedOut(in, c), c.Text)
			}
			assert.Contains(t, texts, tt.free)
		})
	}
}

// TestLargePlanSaysThatItStoppedEarly plans dinners of 100 and of 600 steps: both keep
// every rule, and the larger one says that improving it stopped early.
func TestLargePlanSaysThatItStoppedEarly(t *testing.T) {
	const note = "the dinner comes to 721 pieces of work, and improving its plan stopped early: it keeps every rule, but its cooks may change cards more often than they have to"
	for steps, want := range map[int]bool{100: false, 600: true} {
		in := banquet(t, steps)
		pl, err := Make(in)
		require.NoError(t, err)
		assert.Empty(t, breaks(in, pl), "%d steps", steps)
		if want {
			assert.Contains(t, pl.Notes, note)
		} else {
			assert.NotContains(t, fmt.Sprint(pl.Notes), "stopped early")
		}
	}
}
