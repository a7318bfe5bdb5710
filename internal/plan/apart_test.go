package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/demand"
	"hobside/internal/document"
)

// apartOf returns what Amounts finds must be made apart, nil for nothing.
func apartOf(in Input) demand.Apart {
	apart, _, _ := in.apart(nil)
	return apart
}

// foam is a dinner in which the fish and, two hours on, the meat take a foam that
// keeps half an hour; the foam takes a butter, the butter a stock.
func foam(t failer, foamKeeps, butterKeeps, meat string) Input {
	return cook(t, galley(2, "08:00–24:00"), courses(4, "fish", "meat "+meat), map[string]string{
		"fish":   recipe("Fish", "makes: 1 plate", []string{"20 g [Foam](foam.md)"}, "Send with the **foam**.; hands: 5 min; serve"),
		"meat":   recipe("Meat", "makes: 1 plate", []string{"30 g [Foam](foam.md)"}, "Send with the **foam**.; hands: 5 min; serve"),
		"foam":   recipe("Foam", "makes: 200 g\nkeeps: "+foamKeeps, []string{"100 g [Herb butter](butter.md)"}, "Beat in the **herb butter**.; hands: 5 min"),
		"butter": recipe("Herb butter", "makes: 500 g\nkeeps: "+butterKeeps, []string{"100 g [Stock](stock.md)"}, "Beat in the **stock**.; hands: 10 min"),
		"stock":  recipe("Stock", "makes: 2 kg\nkeeps: 4 d chilled", []string{"1 kg bones"}, "Simmer.; hands: 10 min; wait: 1 h"),
	})
}

func TestCardIsMadeApart(t *testing.T) {
	fishFoam, meatFoam := demand.Taker{By: "fish", Item: 1}, demand.Taker{By: "meat", Item: 1}
	twice := demand.Apart{"foam": {fishFoam: 1, meatFoam: 2}}
	for _, tt := range []struct {
		name                string
		foam, butter, after string
		want                demand.Apart
		notes               []string
	}{
		{"both keep", "3 h room", "1 d chilled", "120 min", nil, nil},
		{"the foam falls", "30 min room", "1 d chilled", "120 min", twice, []string{"Foam is made twice: it keeps 30 min"}},
		{"foam and butter fall", "30 min room", "40 min room", "120 min",
			demand.Apart{"foam": twice["foam"], "butter": {{By: "foam", Of: 1, Item: 1}: 1, {By: "foam", Of: 2, Item: 1}: 2}},
			[]string{"Foam is made twice: it keeps 30 min", "Herb butter is made twice: it keeps 40 min"}},
		{"the butter keeps just long enough", "30 min room", "90 min room", "120 min", twice, []string{"Foam is made twice: it keeps 30 min"}},
		{"just near enough", "30 min room", "10 min room", "35 min", nil, nil},
		{"a minute too far", "30 min room", "1 d chilled", "36 min", twice, []string{"Foam is made twice: it keeps 30 min"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := foam(t, tt.foam, tt.butter, tt.after)
			got := apartOf(in)
			assert.Equal(t, tt.want, got)
			assert.Equal(t, got, apartOf(in), "the same twice")
			undated := in
			undated.Serve = document.When{}
			assert.Equal(t, got, apartOf(undated), "the amounts need no date")
			pl, err := Make(in)
			require.NoError(t, err)
			assert.Equal(t, tt.notes, apartNotes(pl))
			assert.Empty(t, breaks(in, pl))
			if tt.want == nil {
				return
			}
			// While the dinner is under way the batch numbers stay the same.
			again := begun(in, pl, -20)
			assert.Equal(t, got, apartOf(again))
			remake(t, again)
		})
	}
}

// TestWithoutApartDinnerIsBlocked plans the same dinner with one batch for all:
// there is no plan.
func TestWithoutApartDinnerIsBlocked(t *testing.T) {
	in := foam(t, "30 min room", "1 d chilled", "120 min")
	in.Dinner.Apart = demand.Apart{}
	_, err := Make(in)
	assert.ErrorAs(t, err, new(*Blocked))
	in.Dinner.Apart = nil
	_, err = Make(in)
	assert.NoError(t, err)
}

// TestApartGuestsTakeDirectly serves one component with the first course and
// with the third: it is made once for each.
func TestApartGuestsTakeDirectly(t *testing.T) {
	in := cook(t, galley(1, "08:00–24:00"), courses(4, "rolls", "plate 40 min", "rolls 90 min"), map[string]string{
		"rolls": recipe("Rolls", "makes: 12 pieces", []string{"500 g flour"}, "Warm through.; hands: 5 min; keep: 15 min hot"),
		"plate": recipe("Plate", "makes: 1 plate", []string{"1 g salt"}, "Send.; hands: 5 min; serve"),
	})
	assert.Equal(t, demand.Apart{"rolls": {{Course: 1, Plate: 1}: 1, {Course: 3, Plate: 1}: 2}}, apartOf(in))
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Equal(t, []string{"Rolls is made twice: it keeps 15 min"}, pl.Notes)
	assert.Empty(t, breaks(in, pl))
}

// TestDemoNeedsNoApart checks that no card of the demo is made apart, and that
// finding this out costs one explosion.
func TestDemoNeedsNoApart(t *testing.T) {
	for _, covers := range []int{1, 18, 200} {
		assert.Nil(t, apartOf(supper(t, covers)))
	}
	assert.Nil(t, apartOf(Input{}))
	in := supper(t, 18)
	in.Kitchen = nil
	assert.Nil(t, apartOf(in))
}

func BenchmarkApart(b *testing.B) {
	in := supper(b, 18)
	for b.Loop() {
		apartOf(in)
	}
}

// apartNotes returns the notes of a plan without those on what waits for its course.
func apartNotes(pl *Plan) (notes []string) {
	for _, n := range pl.Notes {
		if !strings.Contains(n, " goes out, and keeps ") {
			notes = append(notes, n)
		}
	}
	return notes
}
