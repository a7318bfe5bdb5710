package engine

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mixedText = "---\nmakes: 2 kg\n---\n\n# Dough\n\n## Formula\n\n- 1 kg plain flour\n- 2 cups milk\n- 1 imp pint water\n- 3 eggs\n\n" +
	"## Method\n\n1. Mix **plain flour**, **milk**, **water** and **eggs**.\n   - hands: 5 min\n"

// The same page in every choice of units. By hand, with the exact definitions
// of UK Weights and Measures Act 1985 (pound, imperial pint 568.26125 ml) and the
// US gallon of 231 cubic inches (cup 236.588 ml): 1 kg = 35.27 oz, 2 cups = 473 ml
// = 16.65 imperial fluid ounces. As typed, US measures go down the whole ladder.
func TestAmountsInEverySystem(t *testing.T) {
	for system, want := range map[string][]string{
		"metric":   {"1 kg", "475 ml", "570 ml", "3"},
		"us":       {"2 lb 3 ¼ oz", "2 cups", "2 cups 6 ½ tbsp", "3"},
		"imperial": {"2 lb 3 ¼ oz", "16 ¾ imp fl oz", "1 imp pt", "3"},
		"typed":    {"1 kg", "1 pt", "1 imp pt", "3"},
	} {
		e := New()
		call[LibraryView](t, e, "load", LoadCall{Files: []File{{Name: "dough.md", Text: mixedText}}})
		answer(t, e, Prefs{System: system, Scale: "1 g"})
		v := call[PageView](t, e, "read", ReadCall{Name: "dough.md"})
		var got []string
		for _, it := range v.Card.Items {
			got = append(got, it.Amount)
		}
		assert.Equal(t, want, got, system)
	}
}

func answer(t *testing.T, e *Engine, p Prefs) {
	t.Helper()
	in, err := json.Marshal(p)
	require.NoError(t, err)
	require.NotContains(t, string(e.Call("prefs", in)), `"error"`)
}
