package larder

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// millilitres of the measures of USDA SR28: 21 CFR 101.9 has the customary gallon of
// 3,785.412 ml, of which these are parts.
var millilitres = map[string]float64{"cup": 236.588, "tbsp": 14.7868, "tsp": 4.92892, "fl oz": 29.5735}

// published holds what SR28 says of one food: its refuse, and the grams of its measures.
type published struct {
	name    string
	refuse  string
	grams   []float64 // of one of any measure
	volumes []volume
	made    [5]float64 // grams in 100 g: water, protein, fat, carbohydrate, fibre
}

// A volume is a measure of volume of SR28: grams of one millilitre, and its words.
type volume struct {
	perML float64
	words string
}

// forms returns the words of a measure that tell the form of the food; what it is not
// ("not packed") is none.
func (v volume) forms() []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ReplaceAll(v.words, "not packed", ""), func(r rune) bool { return strings.ContainsRune(" ,()", r) }) {
		if forms[w] {
			out = append(out, w)
		}
		if w == "yields" {
			break // "fluid (yields 2 cups whipped)"
		}
	}
	return out
}

// sr28 reads the rows of USDA SR28 (2015, public domain), read: ../../testdata/reference.
func sr28(t *testing.T) map[string]*published {
	t.Helper()
	out := map[string]*published{}
	add := func(p *published, measure string, amount, grams float64) {
		if amount == 0 || grams == 0 {
			return
		}
		p.grams = append(p.grams, grams/amount, grams)
		for word, ml := range millilitres {
			if strings.HasPrefix(measure, word) {
				p.volumes = append(p.volumes, volume{grams / amount / ml, measure})
			}
		}
	}
	float := func(s string) float64 { return number(s).Float64() }
	for _, r := range rows(t, "sr28.csv") {
		p := &published{name: r[2], refuse: r[5]}
		for i, column := range []int{6, 8, 9, 11, 13} {
			if r[column] != "" {
				p.made[i] = float(r[column])
			}
		}
		for i := 15; i <= 17; i += 2 {
			amount, measure, _ := strings.Cut(r[i+1], " ")
			n := 1.0
			if over, under, fraction := strings.Cut(amount, "/"); fraction {
				n = float(over) / float(under)
			} else if amount != "" && strings.Trim(amount, "0123456789.") == "" {
				n = float(strings.TrimPrefix(amount, "."))
				if strings.HasPrefix(amount, ".") {
					n = float("0" + amount)
				}
			}
			add(p, strings.TrimSpace(measure), n, float(r[i]))
		}
		out[r[0]] = p
	}
	for _, r := range rows(t, "densities.csv") {
		if p := out[r[0]]; p != nil {
			amount := r[2]
			if strings.HasPrefix(amount, ".") {
				amount = "0" + amount
			}
			add(p, r[3], float(amount), float(r[4]))
		}
	}
	return out
}

// TestFiguresMatchSR28 compares every figure that is not marked as our own with the row
// of SR28 that the table names for it.
func TestFiguresMatchSR28(t *testing.T) {
	rows := sr28(t)
	near := func(x, want, share float64) bool { return math.Abs(x-want) <= share*want }
	checked := map[string]int{}
	for i := range foods {
		f := &foods[i]
		if f.row != "" {
			require.NotNil(t, rows[f.row], f.Name)
		}
		if f.variant {
			continue
		}
		for _, token := range strings.Fields(f.tokens) {
			word, value, ok := strings.Cut(token, "=")
			value, row, other := strings.Cut(value, "@")
			if !other {
				row = f.row
			}
			u, unit := quantity.LookupUnit(word)
			unit = unit && u.Name == word
			if !ok || strings.HasSuffix(value, "*") || word != "t" && word != "d" && word != "e" && !unit {
				continue
			}
			if !assert.NotNil(t, rows[row], "%s: %s names no row of SR28", f.Name, token) {
				continue
			}
			want := number(value).Float64()
			switch word {
			case "t":
				checked["trim"]++
				if want > 0 {
					assert.Equal(t, rows[row].refuse, value, "%s: trim; SR28 %s", f.Name, row)
				}
			case "d":
				checked["density"]++
				assert.True(t, slices.ContainsFunc(rows[row].volumes, func(v volume) bool { return near(v.perML, want, 0.0006) }), "%s: %v g/ml; SR28 %s: %v", f.Name, want, row, rows[row].volumes)
			default:
				checked["each"]++
				assert.True(t, slices.ContainsFunc(rows[row].grams, func(g float64) bool { return near(g, want, 0.0001) }), "%s: one %s %v g; SR28 %s: %v", f.Name, word, want, row, rows[row].grams)
			}
		}
	}
	assert.Greater(t, checked["trim"], 150)
	assert.Greater(t, checked["density"], 150)
	assert.Greater(t, checked["each"], 50)
}

// Every figure says where it comes from: a row of SR28 or common practice, and as for
// which food where it is a broader one's.
func TestEveryFigureSaysItsSource(t *testing.T) {
	for item, want := range map[string]string{
		"onions":              "1/10 SR28 11282",
		"red onions":          "1/10 SR28 11282, as for onion",
		"finely sliced onion": "1/10 SR28 11282, as for onion",
		"gooseberries":        "1/20 common practice",
		"roasted onions":      "0 ", // an onion that was roasted has nothing to trim
		"moonflower":          "0 ",
	} {
		f := Nearest(item).Trim()
		assert.Equal(t, want, f.Value.String()+" "+f.Source, item)
	}
	for i := range foods {
		f := &foods[i]
		n := Near{f, true}
		all := []Figure{n.Trim(), n.Density()}
		for _, unit := range f.Units() {
			each := n.Each(unit)
			assert.Positive(t, each.Value.Sign(), "%s: one %s", f.Name, unit)
			all = append(all, each)
		}
		for _, fig := range all {
			assert.Equal(t, fig.Source == "", fig.Value.IsZero() && !fig.Known(), f.Name)
			assert.True(t, fig.Source == "" || strings.HasPrefix(fig.Source, "SR28 ") && len(fig.Source) >= 10 || strings.HasPrefix(fig.Source, practice), "%s: %q", f.Name, fig.Source)
			assert.NotContains(t, strings.SplitN(fig.Source, ",", 2)[0], "SR28  ", f.Name)
		}
		assert.Less(t, n.Trim().Value.Float64(), 0.8, f.Name)
		assert.GreaterOrEqual(t, n.Trim().Value.Sign(), 0, f.Name)
	}
}
