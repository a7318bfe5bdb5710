package safety

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestGaps(t *testing.T) {
	chicken := StepNeeds{Items: []string{"chicken thighs"}, Text: "Roast skin up.", Equipment: []string{"oven"}, Minutes: 35}
	with := func(s StepNeeds, f func(*StepNeeds)) StepNeeds { f(&s); return s }
	tests := []struct {
		name  string
		rules Rules
		steps []StepNeeds
		want  []string
	}{
		{"chicken", US, []StepNeeds{chicken}, []string{"chicken thighs, no critical limit: at least 74 °C, at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"chicken in the UK", UK, []StepNeeds{chicken}, []string{"chicken thighs, no critical limit: at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read)"}},
		{"no rules", "", []StepNeeds{chicken}, []string{`chicken thighs, no critical limit: the kitchen names no rules; write "rules: us" or "rules: uk" there`}},
		{"chicken with its limit", US, []StepNeeds{with(chicken, func(s *StepNeeds) { s.HasLimit = true })}, nil},
		{"the limit stands later", US, []StepNeeds{chicken, {Text: "Rest. Probe the thickest.", HasLimit: true}}, nil},
		{"the limit stands earlier, at something else", US, []StepNeeds{{Items: []string{"cod"}, Text: "Poach.", HasLimit: true}, chicken},
			[]string{"chicken thighs, no critical limit: at least 74 °C, at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"mince", US, []StepNeeds{{Items: []string{"minced lamb"}, Text: "Grill the patties."}},
			[]string{"minced lamb, no critical limit: at least 68 °C for 17 s: US FDA Food Code 2017, 2022, 3-401.11(A)(2) (read)"}},
		{"braised for hours", US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise until it falls apart.", Minutes: 180}}, nil},
		{"braised for a quarter of an hour", US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise.", Minutes: 15}},
			[]string{"lamb shoulder, no critical limit: at least 63 °C for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read)"}},
		{"never cooked here", US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Trim and salt."}}, nil},
		{"vegetables", US, []StepNeeds{{Items: []string{"carrots"}, Text: "Roast."}}, nil},
		{"bones are for nobody to eat", US, []StepNeeds{{Items: []string{"chicken carcasses"}, Text: "Roast the bones."}}, nil},
		{"stock cooled", US, []StepNeeds{{Items: []string{"chicken carcasses"}, Text: "Simmer.", Minutes: 240}, {Text: "Strain and chill."}},
			[]string{"chicken carcasses, cooled without a limit: from 57 °C to 21 °C in at most 2 h, and from 57 °C to 5 °C in at most 6 h: US FDA Food Code, 3-501.14(A)(1) (read)"}},
		{"stock cooled with its limit", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true}}, nil},
		{"on the hob, whatever the words", US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Turn until brown.", Equipment: []string{"hob"}}},
			[]string{"chicken thighs, no critical limit: at least 74 °C, at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"cooled with its limit, then only kept cold", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Stand in iced water.", HasCool: true}, {Text: "Cover and chill."}}, nil},
		{"cooled, heated again, cooled without", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true}, {Text: "Boil."}, {Text: "Chill."}},
			[]string{"brown stock, cooled without a limit: from 57 °C to 21 °C in at most 2 h, and from 57 °C to 5 °C in at most 6 h: US FDA Food Code, 3-501.14(A)(1) (read)"}},
		{"cool slightly", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Cool slightly."}}, nil},
		{"bread cools on its rack", US, []StepNeeds{{Items: []string{"flour"}, Text: "Bake. Cool on a rack."}}, nil},
		{"re-heated", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Re-heat the sauce."}},
			[]string{"brown stock, re-heated without a limit: at least 74 °C for 15 s: US FDA Food Code, 3-403.11(A) (read)"}},
		{"nothing", US, nil, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, g := range Gaps(tt.rules, tt.steps) {
				got = append(got, g.Text)
			}
			assert.Equal(t, tt.want, got)
		})
	}
	// There is one gap, at the last step that cooks the item.
	got := Gaps(US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Sear."}, {Items: []string{"chicken thighs"}, Text: "Roast."}, {Items: []string{"carrots"}, Text: "Boil."}})
	require.Len(t, got, 1)
	assert.Equal(t, 1, got[0].Step)
	got = Gaps(US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Salt."}, {Text: "Roast."}})
	require.Len(t, got, 1)
	assert.Equal(t, 1, got[0].Step)
}

func TestRawFoodHasAUsualLimit(t *testing.T) {
	for _, rules := range []Rules{US, UK} {
		for _, c := range Classes() {
			_, ok := Usual(rules, c)
			assert.Equal(t, c.raw(), ok, "%s, %s: raw food has a usual limit and other food has none", rules, c)
		}
	}
}

// TestLimitAtTheLastStepLeavesNoCookingGap: a limit at the last step leaves no cooking gap.
func TestLimitAtTheLastStepLeavesNoCookingGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"Roast", "Salt", "Chill", "Reheat", "Rest", "Fry", "Boil"})
		food := rapid.SampledFrom([]string{"chicken thighs", "cod", "stock", "carrots", "eggs"})
		steps := make([]StepNeeds, rapid.IntRange(1, 6).Draw(t, "steps"))
		for i := range steps {
			steps[i] = StepNeeds{Items: rapid.SliceOfN(food, 0, 3).Draw(t, "items"), Text: word.Draw(t, "text"), Minutes: rapid.Float64Range(0, 100).Draw(t, "minutes")}
		}
		for _, g := range Gaps(US, steps) {
			if g.Step < 0 || g.Step >= len(steps) || g.Text == "" || len(g.Limits) == 0 {
				t.Fatalf("%+v", g)
			}
		}
		steps[len(steps)-1].HasLimit = true
		for _, g := range Gaps(US, steps) {
			if g.Kind == CookTo {
				t.Fatalf("%s, though the last step has a limit", g.Text)
			}
		}
	})
}
