package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/larder"
)

func sheetLines(s PlateSheet) (carried, not []string) {
	for _, c := range s.Carried {
		var via []string
		for _, v := range c.Via {
			via = append(via, strings.Join(v, " > "))
		}
		carried = append(carried, string(c.List)+" "+c.Code+" "+string(c.Certainty)+": "+strings.Join(via, "; "))
	}
	for _, v := range s.NotAssessed {
		not = append(not, strings.Join(v, " > "))
	}
	return carried, not
}

// Which item carries what is our own compilation; the codes are those of the two
// lists. Barley is gluten and no wheat; pine nuts are tree nuts in the US and not
// nuts in the EU; celery and mustard are on the EU's list alone.
func TestAllergensOfPlates(t *testing.T) {
	in := dinner(t, "---\ncovers: 4\n---\n# M\n\n## Soup\n\n- [Soup](plate.md)\n", map[string]string{
		"plate": made("makes: 1 plate", "200 g [Soup](soup.md)", "10 g pine nuts", "5 g moonflower", "3 g any soft herbs", "20 g butter, optional"),
		"soup":  made("makes: 1 kg\ncontains: mustard", "500 g pearl barley", "500 g [Stock](stock.md)"),
		"stock": made("makes: 1 kg\nwithout: milk (made with oat cream)", "300 g celery", "100 g cream", "10 g wheat flour"),
	})
	in.Cards["soup"], _ = card.Parse("soup.md", []byte(made("makes: 1 kg\ncontains: mustard, moonshine", "500 g pearl barley", "500 g [Stock](stock.md)")))
	in.Leave = map[string]map[int]bool{"plate": {5: true}}
	sheets := Allergens(in)
	require.Len(t, sheets, 1)
	carried, not := sheetLines(sheets[0])
	assert.Equal(t, []string{
		"EU gluten always: Card > Card > pearl barley; Card > Card > Card > wheat flour",
		"EU celery always: Card > Card > Card > celery",
		"EU mustard always: Card > Card > as its author says",
		"US tree_nuts always: Card > pine nuts",
		"US wheat always: Card > Card > Card > wheat flour",
	}, carried)
	assert.Equal(t, []string{"Card > Card > moonshine, as its author says", "Card > moonflower", "Card > any soft herbs"}, not)
	assert.Equal(t, []string{"milk, in Card"}, sheets[0].Without)
}

// An unknown item, and a missing card, is reported on every plate above it.
func TestNotAssessedReachesEveryPlate(t *testing.T) {
	in := dinner(t, "---\ncovers: 4\n---\n# M\n\n## A\n\n- [A](a.md)\n- [B](b.md)\n- [C](c.md)\n", map[string]string{
		"a":     made("makes: 1 plate", "20 g [Sauce](sauce.md)"),
		"b":     made("makes: 1 plate", "20 g [Sauce](sauce.md)", "10 g [Gone](gone.md)"),
		"c":     made("makes: 1 plate", "20 g salt"),
		"sauce": made("makes: 1 kg", "1 kg moonflower paste"),
	})
	var got [][]string
	for _, s := range Allergens(in) {
		_, not := sheetLines(s)
		got = append(got, not)
	}
	assert.Equal(t, [][]string{{"Card > Card > moonflower paste"}, {"Card > Card > moonflower paste", "Card > gone"}, nil}, got)
}

func TestLoopOfCardsEndsTheSheet(t *testing.T) {
	in := three(t)
	in.Cards["stock"], _ = card.Parse("stock.md", []byte(made("makes: 1 kg", "1 kg [Soup](soup.md)", "1 g butter")))
	carried, _ := sheetLines(Allergens(in)[0])
	assert.Contains(t, strings.Join(carried, "\n"), "EU milk always")
	assert.Nil(t, Allergens(Input{}))
}

// Every item that clashes with a guest must also be on the plate's sheet.
func TestClashesAreOnTheSheet(t *testing.T) {
	in := demo(t)
	d, _ := Explode(in)
	sheets := Allergens(in)
	for _, c := range Clashes(in, d) {
		for _, s := range sheets {
			plate := in.Menu.Courses[s.Course-1].Plates[s.Plate-1]
			if s.Course != c.Course || plate.Name != c.Plate {
				continue
			}
			_, not := sheetLines(s)
			found := len(not) > 0 && !c.Sure
			for _, k := range s.Carried {
				for _, ex := range avoided(nil, in.Menu.Guests[c.Group-1].Exclude) {
					found = found || ex.Code(k.List, k.Code)
				}
			}
			assert.True(t, found, "%+v", c)
		}
	}
	for _, s := range sheets {
		for _, k := range s.Carried {
			assert.NotEqual(t, k.Code, larder.OfficialName(k.List, k.Code), "it has an official name")
		}
	}
}

// Of what a maker mixes, the sheet says what is known and asks for the rest.
func TestSheetAsksWhatIsInAMix(t *testing.T) {
	in := dinner(t, "---\ncovers: 4\n---\n# M\n\n## A\n\n- [A](a.md)\n", map[string]string{
		"a": made("makes: 1 plate", "5 g curry powder", "1 stock cube", "5 g cumin seeds", "20 g moonflower almond paste"),
	})
	carried, not := sheetLines(Allergens(in)[0])
	assert.Contains(t, carried, "EU nuts probably: Card > moonflower almond paste")
	assert.Equal(t, []string{"Card > curry powder: what is in it?", "Card > stock cube: what is in it?", "Card > moonflower almond paste: what is in it?"}, not)
}
