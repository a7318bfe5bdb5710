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
		{"chicken", US, []StepNeeds{chicken}, []string{"chicken thighs, no critical limit: at least 74 °C (165 °F), at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"chicken in the UK", UK, []StepNeeds{chicken}, []string{"chicken thighs, no critical limit: at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read)"}},
		{"no rules", "", []StepNeeds{chicken}, []string{`chicken thighs, no critical limit: the kitchen names no rules; write "rules: us" or "rules: uk" there`}},
		{"chicken with its limit", US, []StepNeeds{with(chicken, func(s *StepNeeds) { s.Core = []Core{{C: 75}} })}, nil},
		{"the limit stands later", US, []StepNeeds{chicken, {Text: "Rest. Probe the thickest.", Core: []Core{{C: 75}}}}, nil},
		{"the limit stands earlier, at something else", US, []StepNeeds{{Items: []string{"cod"}, Text: "Poach.", Core: []Core{{C: 75}}}, chicken},
			[]string{"chicken thighs, no critical limit: at least 74 °C (165 °F), at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"mince", US, []StepNeeds{{Items: []string{"minced lamb"}, Text: "Grill the patties."}},
			[]string{"minced lamb, no critical limit: at least 68 °C (155 °F) for 17 s: US FDA Food Code 2017, 2022, 3-401.11(A)(2) (read)"}},
		{"braised for hours", US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise until it falls apart.", Minutes: 180}}, nil},
		{"braised for a quarter of an hour", US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise.", Minutes: 15}},
			[]string{"lamb shoulder, no critical limit: at least 63 °C (145 °F) for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read)"}},
		{"never cooked here", US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Trim and salt."}}, nil},
		{"vegetables", US, []StepNeeds{{Items: []string{"carrots"}, Text: "Roast."}}, nil},
		{"bones are for nobody to eat", US, []StepNeeds{{Items: []string{"chicken carcasses"}, Text: "Roast the bones."}}, nil},
		{"stock cooled", US, []StepNeeds{{Items: []string{"chicken carcasses"}, Text: "Simmer.", Minutes: 240}, {Text: "Strain and chill."}},
			[]string{"chicken carcasses, cooled without a limit: from 57 °C (135 °F) to 21 °C (70 °F) in at most 2 h, and from 57 °C (135 °F) to 5 °C (41 °F) in at most 6 h: US FDA Food Code, 3-501.14(A)(1) (read)"}},
		{"stock cooled with its limit", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true}}, nil},
		{"on the hob, whatever the words", US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Turn until brown.", Equipment: []string{"hob"}}},
			[]string{"chicken thighs, no critical limit: at least 74 °C (165 °F), at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"cooled with its limit, then only kept cold", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Stand in iced water.", HasCool: true}, {Text: "Cover and chill."}}, nil},
		{"cooled, heated again, cooled without", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true}, {Text: "Boil."}, {Text: "Chill."}},
			[]string{"brown stock, cooled without a limit: from 57 °C (135 °F) to 21 °C (70 °F) in at most 2 h, and from 57 °C (135 °F) to 5 °C (41 °F) in at most 6 h: US FDA Food Code, 3-501.14(A)(1) (read)"}},
		{"cool slightly", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Cool slightly."}}, nil},
		{"bread cools on its rack", US, []StepNeeds{{Items: []string{"flour"}, Text: "Bake. Cool on a rack."}}, nil},
		{"re-heated", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Re-heat the sauce."}},
			[]string{"brown stock, re-heated without a limit: at least 74 °C (165 °F) for 15 s: US FDA Food Code, 3-403.11(A) (read)"}},
		{"nothing", US, nil, nil},
		// Its own limit: one on something else is none.
		{"a limit on something else, later", US, []StepNeeds{{Items: []string{"cod"}, Text: "Fry the cod."}, {Items: []string{"chicken thighs"}, Text: "Roast.", Core: []Core{{C: 74}}}},
			[]string{"cod, no critical limit: at least 63 °C (145 °F) for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read)"}},
		{"a limit on something else, by its words", US, []StepNeeds{{Items: []string{"cod", "chicken thighs"}, Text: "Season both."}, {Text: "Fry the cod."}, {Text: "Roast the chicken.", Core: []Core{{C: 74}}}},
			[]string{"cod, no critical limit: at least 63 °C (145 °F) for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read)"}},
		{"one limit for what cooks together", US, []StepNeeds{{Items: []string{"chicken thighs", "bacon"}, Text: "Fry both."}, {Text: "Braise the chicken.", Core: []Core{{C: 74}}}}, nil},
		{"one limit for all that is in the pot", US, []StepNeeds{{Items: []string{"chicken thighs"}, Text: "Fry."}, {Items: []string{"pork belly"}, Text: "Fry."}, {Text: "Finish in the oven.", Core: []Core{{C: 74}}}}, nil},
		{"braised for hours, and something else fried", US, []StepNeeds{{Items: []string{"lamb shoulder"}, Text: "Braise.", Minutes: 180}, {Items: []string{"eggs"}, Text: "Fry the eggs."}},
			[]string{"eggs, no critical limit: at least 63 °C (145 °F) for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read)"}},
		// A limit under every rule is no limit. 74 °F are 23.3 °C.
		{"40 °C for chicken", US, []StepNeeds{with(chicken, func(s *StepNeeds) { s.Core = []Core{{C: 40}} })},
			[]string{"chicken thighs, critical limit 40 °C (104 °F) is lower than any rule has it: at least 74 °C (165 °F), at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)"}},
		{"74 °F for chicken", UK, []StepNeeds{with(chicken, func(s *StepNeeds) { s.Core = []Core{{C: (74 - 32) / 1.8}} })},
			[]string{"chicken thighs, critical limit 23.3 °C is lower than any rule has it (74 °C typed as °F is that): at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read)"}},
		{"60 °C for 45 min for chicken in the UK", UK, []StepNeeds{with(chicken, func(s *StepNeeds) { s.Core = []Core{{60, 45}} })}, nil}, // 60 °C for 45 min, read
		{"55 °C for 89 min for a joint", US, []StepNeeds{{Items: []string{"beef sirloin"}, Text: "Roast.", Core: []Core{{55, 89}}}}, nil}, // 55 °C for 89 min: 3-401.11(B), read
		{"50 °C for a joint", "", []StepNeeds{{Items: []string{"beef sirloin"}, Text: "Roast.", Core: []Core{{C: 50}}}},
			[]string{"beef sirloin, critical limit 50 °C is lower than any rule has it"}},
		{"50 °C for a joint, and the guests are told", US, []StepNeeds{{Items: []string{"beef sirloin"}, Text: "Roast.", Core: []Core{{C: 50}}, Served: true}}, nil},
		{"low, and then enough", US, []StepNeeds{with(chicken, func(s *StepNeeds) { s.Core = []Core{{C: 60}} }), {Text: "Finish.", Core: []Core{{C: 74}}}}, nil},
		{"offal in the US", US, []StepNeeds{{Items: []string{"lamb's liver"}, Text: "Fry."}}, []string{"lamb's liver, not assessed for heat: the rules here have no row for offal"}},
		{"offal in the UK", UK, []StepNeeds{{Items: []string{"lamb's liver"}, Text: "Fry."}}, []string{"lamb's liver, no critical limit: at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read)"}},
		{"offal with a limit of its own", US, []StepNeeds{{Items: []string{"lamb's liver"}, Text: "Fry.", Core: []Core{{C: 70}}}}, nil},
		// US FDA Food Code 3-501.14(A): 57 to 21 °C in 2 h, to 5 °C in 6 h from 57, read.
		{"cooled too slowly", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true, CoolC: 5, CoolMin: 8 * 60}},
			[]string{"cooled to 5 °C within 8 h, which is slower than the rules ask: from 57 °C (135 °F) to 5 °C (41 °F) in at most 6 h: US FDA Food Code, 3-501.14(A)(2) (read)"}},
		{"cooled as the code has it", US, []StepNeeds{{Items: []string{"brown stock"}, Text: "Chill.", HasCool: true, CoolC: 5, CoolMin: 6 * 60}}, nil},
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
			if c == Offal && rules == US {
				assert.False(t, ok, "the code's rows here are for whole-muscle meat: offal is not assessed")
				continue
			}
			assert.Equal(t, c.raw(), ok, "%s, %s: raw food has a usual limit and other food has none", rules, c)
		}
	}
}

// TestLimitAtTheLastStepLeavesNoCookingGap: a limit at the last step, which is about no one
// item, leaves no cooking gap.
func TestLimitAtTheLastStepLeavesNoCookingGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"Roast", "Salt", "Chill", "Reheat", "Rest", "Fry", "Boil"})
		food := rapid.SampledFrom([]string{"chicken thighs", "cod", "stock", "carrots", "eggs"})
		steps := make([]StepNeeds, rapid.IntRange(1, 6).Draw(t, "steps"))
		for i := range steps {
			steps[i] = StepNeeds{Items: rapid.SliceOfN(food, 0, 3).Draw(t, "items"), Text: word.Draw(t, "text"), Minutes: rapid.Float64Range(0, 100).Draw(t, "minutes")}
		}
		for _, g := range Gaps(US, steps) {
			if g.Step < 0 || g.Step >= len(steps) || g.Text == "" || len(g.Limits) == 0 && g.Kind != NotAssessed {
				t.Fatalf("%+v", g)
			}
		}
		steps[len(steps)-1] = StepNeeds{Text: "Probe the middle.", Core: []Core{{C: 80}}}
		for _, g := range Gaps(US, steps) {
			if g.Kind == NoLimit {
				t.Fatalf("%s, though the last step has a limit", g.Text)
			}
		}
	})
}

// TestEveryRawFoodNeedsALimit: heated without a limit, each of these is told of. The classes
// are those of the food table; the limits of their classes are tested by TestCook.
func TestEveryRawFoodNeedsALimit(t *testing.T) {
	for _, item := range []string{"bone-in thighs", "chicken thighs on the bone", "thighs", "T-bone steak", "pork on the bone", "mince", "beef mince", "pheasant", "venison", "venison haunch",
		"rabbit", "rabbit legs", "snapper", "snapper fillets", "spare ribs", "pork spare ribs", "hock", "ham hock", "pork hock", "wings", "drumsticks", "lamb shank", "rack of lamb",
		"duck breast", "chicken livers", "lamb's kidneys", "hare", "partridge", "wild boar", "king prawns", "squid", "mussels", "turkey mince", "sausages", "quail", "oxtail", "whole chicken"} {
		for _, rules := range []Rules{US, UK} {
			got := Gaps(rules, []StepNeeds{{Items: []string{item}, Text: "Roast.", Equipment: []string{"oven"}, Minutes: 30}})
			if assert.Len(t, got, 1, "%s, %s", item, rules) {
				assert.Contains(t, []GapKind{NoLimit, NotAssessed}, got[0].Kind, item)
			}
		}
	}
	for _, item := range []string{"beef bones", "chicken carcasses", "prawn shells", "carrots", "oyster mushrooms", "smoked salmon", "cooked chicken", "butter beans", "chicken stock cube"} {
		assert.Empty(t, Gaps(US, []StepNeeds{{Items: []string{item}, Text: "Roast.", Equipment: []string{"oven"}, Minutes: 30}}), item)
	}
}

// TestLimitOnOneItemSilencesNoOther: whatever else a card cooks with its limit, an item that is
// cooked by itself without one is told of.
func TestLimitOnOneItemSilencesNoOther(t *testing.T) {
	foods := []string{"chicken thighs", "cod", "beef sirloin", "pork belly", "eggs", "king prawns", "venison"}
	rapid.Check(t, func(t *rapid.T) {
		order := rapid.Permutation(foods).Draw(t, "order")[:rapid.IntRange(2, 5).Draw(t, "foods")]
		bare := rapid.IntRange(0, len(order)-1).Draw(t, "without a limit")
		var steps []StepNeeds
		for i, food := range order {
			step := StepNeeds{Items: []string{food}, Text: "Fry the " + food + ".", Minutes: 10}
			if i != bare {
				step.Core = []Core{{C: 80}}
			}
			steps = append(steps, step)
		}
		got := Gaps(US, steps)
		if len(got) != 1 || got[0].Item != order[bare] || got[0].Kind != NoLimit {
			t.Fatalf("%s has no limit; told: %+v", order[bare], got)
		}
	})
}
