package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// heldHot is a dinner of two components for one plate that are held hot as typed, and whose
// plates are warmed as typed.
func heldHot(t failer, kitchen []string, beans, roots, plates string) Input {
	steps := func(title, keep string) string {
		return recipe(title, "makes: 1 kg", []string{"1.1 kg polenta"}, "Boil the **polenta**.; hob: 1 ring; hands: 5 min; "+keep)
	}
	first := "Lay the **Beans** and the **Roots** on plates.; hands: 2 min; keep: 5 min hot"
	if plates != "" {
		first += "; plates: " + plates
	}
	return cook(t, galley(1, "12:00–22:00", append([]string{"hob: 4 rings"}, kitchen...)...), courses(20, "plate"), map[string]string{
		"plate": recipe("Plate", "makes: 1 plate", []string{"50 g [Beans](beans.md)", "50 g [Roots](roots.md)"}, first, "Send it.; hands: 2 min; serve"),
		"beans": steps("Beans", beans),
		"roots": steps("Roots", roots),
	})
}

// storeOf returns a store of the plan by its name.
func storeOf(t *testing.T, in Input, p *Plan, name string) *Store {
	t.Helper()
	stores := in.Stores(p)
	for i := range stores {
		if stores[i].Name == name {
			return &stores[i]
		}
	}
	t.Fatalf("no store %q in %d", name, len(stores))
	return nil
}

// overfull returns what a plan says of all its stores.
func overfull(in Input, p *Plan) (said []string) {
	for _, s := range in.Stores(p) {
		for _, f := range s.Overfull() {
			said = append(said, p.OverfullText(&s, f))
		}
	}
	return said
}

// TestOverfullHotCupboardIsTold: 1 kg of each and 20 plates take one shelf each; the cupboard has
// three, or two, and then the plan says when, and what is in it.
func TestOverfullHotCupboardIsTold(t *testing.T) {
	const keep = "keep: 30 min hot cupboard at 70 °C, 1 shelf"
	in := heldHot(t, []string{"hot cupboard: 1, 3 shelves"}, keep, keep, "15 min hot cupboard at 70 °C, 1 shelf per 20 plates")
	p, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, overfull(in, p))
	s := storeOf(t, in, p, "hot cupboard")
	plate := task(t, p, "plate", 1)
	assert.Equal(t, 3.0, s.Fullest().Places)
	assert.Equal(t, "hot cupboard: fullest "+p.Clock(s.Fullest().From)+", 3 shelves of 3", p.FullestText(s))

	in = heldHot(t, []string{"hot cupboard: 1, 2 shelves"}, keep, keep, "15 min hot cupboard at 70 °C, 1 shelf per 20 plates")
	p, err = Make(in)
	require.NoError(t, err)
	said := overfull(in, p)
	require.Len(t, said, 1)
	last := max(task(t, p, "beans", 1).End, task(t, p, "roots", 1).End, plate.Start-15)
	assert.True(t, strings.HasPrefix(said[0], "the hot cupboard is overfull, "+p.Clock(last)+"–"+p.Clock(plate.Start)+": 3 shelves wanted, 2 there: "), said[0])
	for _, what := range []string{"Beans, step 1, 1 shelf", "Roots, step 1, 1 shelf", "20 plates for Plate, step 1, 1 shelf"} {
		assert.Contains(t, said[0], what)
	}
}

// TestPlatesAndHotCupboardAreGotReady: the plan has a line to put the plates to warm so long
// before, and one to turn on the cupboard before anything is in it, once.
func TestPlatesAndHotCupboardAreGotReady(t *testing.T) {
	in := heldHot(t, []string{"hot cupboard: 1, 3 shelves, hot in 25 min"}, "keep: 10 min hot", "keep: 10 min hot", "40 min hot cupboard at 70 °C, 1 shelf per 20 plates")
	p, err := Make(in)
	require.NoError(t, err)
	ready := in.Readies(p, in.Stores(p))
	plate := task(t, p, "plate", 1).Start
	require.Len(t, ready, 2)
	assert.Equal(t, Ready{For: Step{"plate", 1, 1}, At: plate - 65, By: plate - 40, Text: "turn the hot cupboard to 70 °C for 20 plates for Plate, step 1 at " + p.Clock(plate-40)}, ready[0])
	assert.Equal(t, "put 20 plates in the hot cupboard for Plate, step 1", ready[1].Text)
	assert.Equal(t, plate-40, ready[1].At)
	assert.True(t, ready[1].Plates)
}

// TestColdPlatesTakeTheFridge: plates are chilled in the fridge, which nobody turns on.
func TestColdPlatesTakeTheFridge(t *testing.T) {
	in := heldHot(t, []string{"fridge: 1, 2 shelves"}, "keep: 10 min hot", "keep: 10 min hot", "cold, 1 h fridge, 1 shelf per 8 plates")
	p, err := Make(in)
	require.NoError(t, err)
	ready := in.Readies(p, in.Stores(p))
	require.Len(t, ready, 1)
	assert.Equal(t, "put 20 plates in the fridge for Plate, step 1", ready[0].Text)
	said := overfull(in, p)
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "the fridge is overfull, ")
	assert.Contains(t, said[0], "2.5 shelves wanted, 2 there: 20 plates for Plate, step 1, 2.5 shelves")
}

// TestOvenAtTwoTemperaturesIsTold: the oven holds at 70 °C what is ready while another thing
// bakes in it at 200 °C.
func TestOvenAtTwoTemperaturesIsTold(t *testing.T) {
	in := heldHot(t, []string{"oven: 1, 2 shelves"}, "oven: 200 °C; wait: 25 min; keep: 5 min hot", "keep: 40 min hot in the oven at 70 °C, 1 shelf; before: Beans, step 1", "")
	p, err := Make(in)
	require.NoError(t, err)
	said := overfull(in, p)
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "the oven is wanted at 70 °C and 200 °C at once, ")
	assert.Contains(t, said[0], "Roots, step 1, 1 shelf at 70 °C")
	assert.Contains(t, said[0], "Beans, step 1, 1 shelf at 200 °C")
}

// TestWhatWaitsChilledTakesPartOfAShelf: what no card gives goes by its volume: 1 kg of polenta is
// more than the smallest box and less than a shelf, and of shelves of half a litre it takes several.
func TestWhatWaitsChilledTakesPartOfAShelf(t *testing.T) {
	const keep = "keep: 2 h chilled; before: Plate, step 1"
	for shelf, want := range map[string][2]float64{"": {0.1, 1}, ", 0.5 L a shelf": {1.5, 5}, ", 60 L a shelf": {smallBox, smallBox}} {
		in := heldHot(t, []string{"fridge: 1, 20 shelves" + shelf}, keep, "keep: 5 min hot", "")
		p, err := Make(in)
		require.NoError(t, err)
		s := storeOf(t, in, p, "fridge")
		require.Len(t, s.Stays, 1)
		assert.True(t, s.Stays[0].Assumed)
		assert.GreaterOrEqual(t, s.Stays[0].Places, want[0], shelf)
		assert.LessOrEqual(t, s.Stays[0].Places, want[1], shelf)
		assert.Equal(t, task(t, p, "beans", 1).End, s.Stays[0].From)
		assert.Equal(t, task(t, p, "plate", 1).Start, s.Stays[0].To)
		assert.Contains(t, p.FullestText(s), "; what no card gives is worked out from its volume")
	}
	in := heldHot(t, []string{"fridge"}, keep, "keep: 5 min hot", "")
	p, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, in.Stores(p), "a fridge whose shelves nobody counts")
}

// TestTwoCardsWantTheSameTrays: each card's food stays in its four trays until the plate takes it,
// and the kitchen has six.
func TestTwoCardsWantTheSameTrays(t *testing.T) {
	const tray = "tray: 4, 53 × 33 cm, 2 cm deep; keep: 2 h room"
	for trays, want := range map[string]int{"tray: 6, 53 × 33 cm, 2 cm deep": 1, "tray: 8, 53 × 33 cm, 2 cm deep": 0, "tray: 8, 53 × 33 cm, 6 cm deep": 0, "pot: 2, 12 L": 0} {
		in := heldHot(t, []string{trays}, tray, tray, "")
		p, err := Make(in)
		require.NoError(t, err)
		said := overfull(in, p)
		require.Len(t, said, want, trays)
		for _, text := range said {
			assert.True(t, strings.HasPrefix(text, "too few of the tray of 53 × 33 cm, 2 cm deep, "), text)
			assert.Contains(t, text, ": 8 wanted, 6 there: ")
			assert.Contains(t, text, "Beans, step 1, 4")
			assert.Contains(t, text, "Roots, step 1, 4")
			assert.Contains(t, text, "–"+p.Clock(task(t, p, "plate", 1).Start)+": ")
		}
	}
}

// TestSmallerTraysAreWantedInTheLargeOnes: a card that takes any tray does not find one where
// another card has all the large ones and there are no others.
func TestSmallerTraysAreWantedInTheLargeOnes(t *testing.T) {
	in := heldHot(t, []string{"tray: 4, 53 × 33 cm, 6 cm deep", "tray: 1, 40 × 30 cm, 2 cm deep"},
		"tray: 4, 53 × 33 cm, 6 cm deep; keep: 2 h room", "tray: 2, 40 × 30 cm, 2 cm deep; keep: 2 h room", "")
	p, err := Make(in)
	require.NoError(t, err)
	said := overfull(in, p)
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "too few of the tray of 40 × 30 cm, 2 cm deep, ")
	assert.Contains(t, said[0], ": 6 wanted, 5 there: ")
}

// TestOverfullIsEveryMinuteWithMoreThanThereIs: minute by minute, what is told as overfull is
// what a count of the stays finds.
func TestOverfullIsEveryMinuteWithMoreThanThereIs(t *testing.T) {
	over := 0
	rapid.Check(t, func(rt *rapid.T) {
		s := Store{Name: "fridge", Place: "shelf", Has: rapid.IntRange(1, 6).Draw(rt, "has")}
		for range rapid.IntRange(0, 8).Draw(rt, "stays") {
			from := rapid.IntRange(-60, 60).Draw(rt, "from")
			s.Stays = append(s.Stays, Stay{From: from, To: from + rapid.IntRange(0, 40).Draw(rt, "long"), Places: float64(rapid.IntRange(1, 3).Draw(rt, "places"))})
		}
		full := s.Overfull()
		most := 0.0
		for minute := -70; minute < 120; minute++ {
			sum := 0.0
			for _, stay := range s.Stays {
				if stay.From <= minute && minute < stay.To {
					sum += stay.Places
				}
			}
			most = max(most, sum)
			said := 0
			for _, f := range full {
				if f.From <= minute && minute < f.To {
					said++
					if sum > f.Places {
						rt.Fatalf("at %d there are %g, more than the %g that are told", minute, sum, f.Places)
					}
				}
			}
			if want := sum > float64(s.Has); want != (said == 1) || said > 1 {
				rt.Fatalf("at %d there are %g of %d, told %d times: %v", minute, sum, s.Has, said, full)
			}
			if said > 0 {
				over++
			}
		}
		if s.Fullest().Places != most {
			rt.Fatalf("fullest is %g, told is %g", most, s.Fullest().Places)
		}
	})
	require.Positive(t, over)
}

// TestStepsThatSayShelvesAreNotPlannedTogether: two that take two shelves each are in a fridge of
// three one after the other; two that do not say take a part of a shelf.
func TestStepsThatSayShelvesAreNotPlannedTogether(t *testing.T) {
	for fact, together := range map[string]bool{"fridge: 2 shelves": false, "fridge": true} {
		steps := fact + "; wait: 30 min; keep: straight on"
		p, err := Make(heldHot(t, []string{"fridge: 1, 3 shelves"}, steps, strings.Replace(steps, "straight on", "40 min hot", 1), ""))
		require.NoError(t, err)
		beans, roots := task(t, p, "beans", 1), task(t, p, "roots", 1)
		assert.Equal(t, together, beans.Start < roots.End && roots.Start < beans.End, fact)
	}
}
