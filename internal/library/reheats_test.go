package library

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document/filetest"
	"hobside/internal/safety"
)

// ukKitchen is a kitchen by the UK rules.
var ukKitchen = strings.Replace(filetest.USKitchen, "rules: us", "rules: uk", 1)

// TestSecondReheatingIsAProblem follows meat through three cards: braised and chilled,
// crisped and chilled, heated at the pass. By the UK advice (from memory) the second time is
// one too many; the US rules set no number (from memory).
func TestSecondReheatingIsAProblem(t *testing.T) {
	require.Contains(t, ukKitchen, "rules: uk")
	braise := filetest.Steps("Braised leeks", "- 1 kg leeks", "Braise the **leeks**.|oven: 150 °C|wait: 2 h", "Chill.|fridge|cool: 5 °C within 1 h 30 min|keep: 2 d chilled")
	const heat, chill = "Crisp the **leeks**.|hob: 1 ring", "Chill.|fridge|cool: 5 °C within 1 h 30 min|keep: 1 d chilled"
	const again = "Heat through.|oven: 180 °C|check: core 75 °C"
	const advice = " is heated again for the second time after it was cooked and chilled: UK Food Standards Agency advice: re-heat food only once (from memory)"
	for _, tt := range []struct {
		name, formula, kitchen string
		steps                  []string
		want                   string
	}{
		{"once", "- 1 kg [leeks](a.md)", ukKitchen, []string{heat}, ""},
		{"twice over the fire and not chilled between", "- 1 kg [leeks](a.md)", ukKitchen, []string{heat, again}, ""},
		{"chilled between", "- 1 kg [leeks](a.md)", ukKitchen, []string{heat, chill, again}, "step 3: Pressed leeks" + advice},
		{"by the US rules", "- 1 kg [leeks](a.md)", filetest.USKitchen, []string{heat, chill, again}, ""},
		{"a little in a new dish", "- 400 g [leeks](a.md)\n- 600 g cream", ukKitchen, []string{"Cook the **leeks** with the **cream**.|hob: 1 ring", chill, again}, ""},
		{"half of it", "- 600 g [leeks](a.md)\n- 600 g cream", ukKitchen, []string{"Cook the **leeks** with the **cream**.|hob: 1 ring", chill, again}, "step 3: Pressed leeks" + advice},
		{"held hot", "- 1 kg [leeks](a.md)", ukKitchen, []string{heat, chill, "Hold.|hot cupboard: 70 °C, 1 shelf"}, ""},
	} {
		var got []string
		for _, p := range Check([]Source{{"a.md", braise}, {"b.md", filetest.Steps("Pressed leeks", tt.formula, tt.steps...)}, {"k.md", tt.kitchen}}) {
			if strings.Contains(p.Msg, "heated again") {
				assert.Equal(t, "b.md", p.File)
				got = append(got, p.Msg)
			}
		}
		assert.Equal(t, tt.want, strings.Join(got, "; "), tt.name)
	}
	rule, ok := safety.ReheatsBy(safety.UK)
	assert.True(t, ok && rule.Most == 1)
}

// TestReheatingAtThePassCounts: a plate heats each of its components by itself, and cards
// that need each other end.
func TestReheatingAtThePassCounts(t *testing.T) {
	files := []Source{
		{"a.md", filetest.Steps("Braised leeks", "- 1 kg leeks", "Braise the **leeks**.|oven: 150 °C", "Chill.|fridge|keep: 2 d chilled", "Warm through.|hob: 1 ring|check: core 75 °C", "Chill.|fridge|keep: 1 d chilled")},
		{"p.md", strings.Replace(filetest.Steps("Plate", "- 80 g [leeks](a.md)\n- 200 g peas", "Heat the **leeks**.|hob: 1 ring|check: core 75 °C", "Add the **peas**.|serve"), "makes: 1 kg", "makes: 1 plate", 1)},
		{"k.md", ukKitchen},
	}
	n := 0
	for _, p := range Check(files) {
		if strings.Contains(p.Msg, "heated again") {
			n++
			assert.Equal(t, "p.md", p.File)
			assert.True(t, strings.HasPrefix(p.Msg, "step 1: Braised leeks is heated again for the second time"), p.Msg)
		}
	}
	assert.Equal(t, 1, n)
	ring := []Source{{"a.md", filetest.Steps("A", "- 1 kg [b](b.md)", "Boil the **b**.|hob: 1 ring")}, {"b.md", filetest.Steps("B", "- 1 kg [a](a.md)", "Boil the **a**.|hob: 1 ring")}, {"k.md", ukKitchen}}
	assert.NotPanics(t, func() { Check(ring) })
}
