package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
)

// said are what a card says (front matter, a tab, its line of an ingredient), a guest's
// words, and the clash. Every row passed as "no clash found" once.
const said = `
contains: tree nuts | 100 g rice | nut allergy | sure A > as its author says: tree nuts
contains: hazelnuts | 100 g rice | nut allergy | sure A > as its author says: hazelnuts
contains: crab | 100 g rice | no shellfish | sure A > as its author says: crab
contains: milk and nuts | 100 g rice | no tree nuts | sure A > as its author says: nuts
contains: nuts (traces) | 100 g rice | nut allergy | may A > as its author says: may contain nuts (may contain it: read the label)
contains: traces of nuts | 100 g rice | nut allergy | may A > as its author says: may contain nuts (may contain it: read the label)
contains: may contain nuts | 100 g rice | nut allergy | may A > as its author says: may contain nuts (may contain it: read the label)
may contain: nuts | 100 g rice | nut allergy | may A > as its author says: may contain nuts (may contain it: read the label)
allergens: nuts | 100 g rice | nut allergy | sure A > as its author says: nuts
contains: treenuts | 100 g rice | nut allergy | not assessed A > as its author says: treenuts (not assessed)
contains: shelfish | 100 g rice | no shellfish | not assessed A > as its author says: shelfish (not assessed)
top up: milk | 100 g rice | no milk | may A > milk, to top up (may contain it: read the label)
margin: 0 | 100 g oat milk (with almonds) | nut allergy | sure A > oat milk, "with almonds"
margin: 0 | 100 g chocolate, chopped, may contain hazelnuts | nut allergy | may A > chocolate, "may contain hazelnuts" (may contain it: read the label)
margin: 0 | 100 g rice, with almonds | nut allergy | sure A > rice, "with almonds"
margin: 0 | 100 g rice (cooked in butter) | no milk | sure A > rice, "cooked in butter"
margin: 0 | 100 g breadcrumbs, fried in butter | no milk | sure A > breadcrumbs, "fried in butter"
margin: 0 | 100 g [B](b.md), with almonds | nut allergy | sure A > B, "with almonds"
`

func TestWhatACardSaysReachesTheGuests(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(said)) {
		part := strings.Split(strings.TrimSpace(line), " | ")
		require.Len(t, part, 4, line)
		in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: "+part[2]+"\n", map[string]string{"a": made("makes: 1 plate", part[1]), "b": made("makes: 1 kg", "1 kg rice")})
		c, problems := card.Parse("a.md", []byte(strings.Replace(made("makes: 1 plate\n"+part[0], part[1]), "# Card", "# A", 1)))
		in.Cards["a"] = c
		unknown := strings.Contains(part[3], "not assessed")
		told := 0
		for _, p := range problems {
			if p.Severity == document.Error {
				told++
				assert.Contains(t, p.Msg, "not counted", line)
			}
		}
		assert.Equal(t, unknown, told > 0, "what is not understood is an error: %s", line)
		d, _ := Explode(in)
		var got []string
		for _, clash := range Clashes(in, d) {
			kind := "not assessed "
			if clash.Sure {
				kind = "sure "
			} else if clash.May {
				kind = "may "
			}
			got = append(got, kind+strings.Join(clash.Via, " > "))
		}
		assert.Contains(t, got, part[3], line)
		a, _ := larder.Understand(part[2])
		sheet := Allergens(in)[0]
		onSheet := unknown && len(sheet.NotAssessed) > 0
		for _, k := range sheet.Carried {
			onSheet = onSheet || a.Code(k.List, k.Code)
		}
		assert.True(t, onSheet, "the sheet of allergens has it too: %s", line)
	}
}

// TestOneItemClashesOnce gives lines whose item and whose preparation both clash.
func TestOneItemClashesOnce(t *testing.T) {
	for _, line := range []string{"1 kg milk, whole", "100 g butter, with milk"} {
		in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no milk\n", map[string]string{"a": made("makes: 1 plate", line)})
		d, _ := Explode(in)
		assert.Len(t, Clashes(in, d), 1, line)
	}
}
