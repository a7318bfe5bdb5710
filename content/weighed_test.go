package content_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/content"
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder/composition"
	"hobside/internal/quantity"
)

var update = flag.Bool("update", false, "write the table of all cards anew")

// A weighing is one figure of a card that matters, with its working range.
type weighing struct {
	card, figure, of string
	low, high        float64
	unit, source     string
}

// TestCardsAreInTheirWorkingRanges weighs every card through: the shares in
// testdata/ranges.csv, each with its working range and source, the yield against the
// sum of the formula, the hands-on minutes. A share out of its range is an error;
// testdata/weighed.txt is the whole table.
func TestCardsAreInTheirWorkingRanges(t *testing.T) {
	cards := demoCards(t)
	rows := readRanges(t)
	var b strings.Builder
	names, err := fs.Glob(content.Files, "cards/*.md")
	require.NoError(t, err)
	for _, name := range names {
		id := strings.TrimSuffix(strings.TrimPrefix(name, "cards/"), ".md")
		w := weigh(t, cards, id)
		fmt.Fprintf(&b, "%s: makes %.0f g of %.0f g, hands-on %.0f min, %.0f min a kilo\n", id, w.makes, w.all, w.minutes, w.minutes/w.makes*1000)
		weighed := 0
		for _, r := range rows {
			if r.card != id {
				continue
			}
			weighed++
			got := w.value(t, r.of)
			mark := ""
			if got < r.low || got > r.high {
				mark = "  OUT OF RANGE"
				t.Errorf("%s: %s is %.3g %s, which is not in %.3g to %.3g: %s", id, r.figure, got, r.unit, r.low, r.high, r.source)
			}
			fmt.Fprintf(&b, "    %-34s %6.2f %-10s %5.3g to %-5.3g %s%s\n", r.figure, got, r.unit, r.low, r.high, r.source, mark)
		}
		assert.InDelta(t, 70, w.minutes/w.makes*1000, 65, "%s: hands-on minutes a kilo; common practice, no source", id)
		assert.Positive(t, weighed, "%s has no figure in testdata/ranges.csv", id)
	}
	const golden = "testdata/weighed.txt"
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err, "go test ./content -update writes it")
	assert.Equal(t, string(want), b.String())
}

// TestCoverIsNotTooMuch adds up what a guest who can have everything is served. Seven to
// nine hundred grams over five courses: common practice, no source.
func TestCoverIsNotTooMuch(t *testing.T) {
	cards := demoCards(t)
	sum := 0.0
	for _, plate := range []string{"bread-board", "pea-soup-plate", "trout-plate", "lamb-plate", "strawberry-plate"} {
		sum += weigh(t, cards, plate).makes
	}
	assert.InDelta(t, 850, sum, 100)
}

// demoCards returns the demo's cards by their IDs.
func demoCards(t *testing.T) map[string]*card.Card {
	cards := map[string]*card.Card{}
	names, err := fs.Glob(content.Files, "cards/*.md")
	require.NoError(t, err)
	for _, name := range names {
		src, err := fs.ReadFile(content.Files, name)
		require.NoError(t, err)
		c, problems := card.Parse(strings.TrimPrefix(name, "cards/"), src)
		require.Empty(t, problems, name)
		cards[c.ID] = c
	}
	return cards
}

// readRanges returns the rows of testdata/ranges.csv.
func readRanges(t *testing.T) []weighing {
	f, err := os.Open("testdata/ranges.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []weighing
	for _, r := range rows[1:] {
		low, err := strconv.ParseFloat(r[3], 64)
		require.NoError(t, err, r)
		high, err := strconv.ParseFloat(r[4], 64)
		require.NoError(t, err, r)
		require.NotEmpty(t, r[6], "%s: the range has no source", r)
		out = append(out, weighing{r[0], r[1], r[2], low, high, r[5], r[6]})
	}
	return out
}

// weighed is one batch of a card as typed, in grams.
type weighed struct {
	items      map[string]float64 // by the item's name, as prepared and as bought; and what is set aside
	all, makes float64
	load       float64  // what goes into the fryer at once
	missing    []string // what the salt leaves out
	salt       float64  // per 100 g of what it makes, through every component
	minutes    float64  // hands-on, of all steps of the first way
}

// weigh returns one batch of a card.
func weigh(t *testing.T, cards map[string]*card.Card, id string) weighed {
	c := cards[id]
	require.NotNil(t, c, id)
	gram, _ := quantity.LookupUnit("g")
	w := weighed{items: map[string]float64{}}
	ratios, _ := demand.Ratios(c, nil)
	for i, r := range ratios {
		it := c.Items[i]
		grams := r.Grams.Float64()
		if linked := cards[it.Card]; linked != nil && it.Amount.Unit.Dim == quantity.Count {
			grams = linked.Each.Need().Mul(it.Amount.Need()).Float64()
		}
		w.items[it.Name] += grams
		w.items["bought "+it.Name] += grams / (1 - it.Trim.Float64())
		w.all += grams
	}
	n, ok := quantity.Convert(c.Makes.Need(), c.Makes.Unit, gram)
	switch {
	case ok:
		w.makes = n.Float64()
	case c.IsPlate():
		w.makes = w.all
	default:
		w.makes = c.Makes.Need().Mul(c.Each.Need()).Float64()
	}
	for _, save := range c.Saves {
		if n, ok := quantity.Convert(save.Amount.Need(), save.Amount.Unit, gram); ok {
			w.items[save.Name] = n.Float64()
		}
	}
	if c.Weighs.Unit != nil { // a formula in percent
		whole, _ := quantity.Convert(c.Weighs.Need(), c.Weighs.Unit, gram)
		share := whole.Float64() / w.all
		for name := range w.items {
			w.items[name] *= share
		}
		w.all = whole.Float64()
	}
	facts := demand.NutritionOf(cards, id, composition.Rows())
	w.salt, w.missing = facts.Nutrition.Salt()/w.makes*100, facts.Missing
	for i := range c.Steps {
		s := &c.Steps[i]
		if s.Way > 1 {
			continue
		}
		hands, _ := c.Time(s, quantity.Int(1))
		w.minutes += float64(hands.High) / 60 // of all loads
		for _, e := range s.Equipment {
			if e.Name == "fryer" && s.Load.Unit != nil {
				w.load = s.Load.Need().Mul(c.Each.Need()).Float64()
			}
		}
	}
	return w
}

// value works out "salt", or "A + B / C + D" in percent, or "A : B" as a ratio. A name is an
// item of the formula, one with "bought" before it (with its trim), what the card sets aside,
// "makes", "all" (the formula's sum) or "load". "5 % A" is a twentieth of A, and "A - B" is A
// less B.
func (w weighed) value(t *testing.T, of string) float64 {
	if of == "salt" {
		require.Empty(t, w.missing, "the salt is not known")
		return w.salt
	}
	if a, b, ok := strings.Cut(of, " : "); ok {
		return w.sum(t, a) / w.sum(t, b)
	}
	a, b, ok := strings.Cut(of, " / ")
	require.True(t, ok, of)
	return 100 * w.sum(t, a) / w.sum(t, b)
}

// sum adds up "A + 5 % B - C".
func (w weighed) sum(t *testing.T, terms string) (grams float64) {
	for _, name := range strings.Split(strings.ReplaceAll(terms, " - ", " + -"), " + ") {
		sign, share := 1.0, 1.0
		if rest, ok := strings.CutPrefix(name, "-"); ok {
			sign, name = -1, rest
		}
		if percent, rest, ok := strings.Cut(name, " % "); ok {
			p, err := strconv.ParseFloat(percent, 64)
			require.NoError(t, err, terms)
			name, share = rest, p/100
		}
		grams += sign * share * w.grams(t, name)
	}
	return grams
}

// grams returns the weight that a name stands for.
func (w weighed) grams(t *testing.T, name string) float64 {
	switch name {
	case "makes":
		return w.makes
	case "all":
		return w.all
	case "load":
		return w.load
	}
	g, ok := w.items[name]
	require.True(t, ok, "no item %q in %v", name, w.items)
	return g
}
