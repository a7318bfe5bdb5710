package library

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/document/filetest"
)

func TestGapsAreProblems(t *testing.T) {
	chicken := filetest.Steps("Thighs", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C")
	for _, tt := range []struct {
		name  string
		files []Source
		want  []string
	}{
		{"the US rules", []Source{{"a.md", chicken}, {"k.md", filetest.USKitchen}},
			[]string{"a.md:13:4: warning: step 1: chicken thighs, no critical limit: at least 74 °C (165 °F), at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read); " +
				`add "check: core 74 °C" there or at a later step, or "not eaten" to the item if it is thrown away`}},
		{"the UK's", []Source{{"a.md", chicken}, {"k.md", filetest.UKKitchen}},
			[]string{"a.md:13:4: warning: step 1: chicken thighs, no critical limit: at least 70 °C for 2 min: UK Food Standards Agency cooking advice (read); " +
				`add "check: core 70 °C for 2 min" there or at a later step, or "not eaten" to the item if it is thrown away`}},
		{"no kitchen", []Source{{"a.md", chicken}},
			[]string{`a.md:13:4: warning: step 1: chicken thighs, no critical limit: the kitchen names no rules; write "rules: us" or "rules: uk" there; ` +
				`add "check: core 75 °C" there or at a later step, or "not eaten" to the item if it is thrown away`}},
		{"with its limit", []Source{{"a.md", filetest.Steps("Thighs", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 74 °C")}, {"k.md", filetest.USKitchen}}, []string{}},
		// 3-401.11(A) and (B), read: the code writes 165 °F and 145 °F; 57.2 °C for 36 min is for a roast.
		{"the code's °F", []Source{{"a.md", filetest.Steps("Thighs", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 165 °F")}, {"k.md", filetest.USKitchen}}, []string{}},
		{"a roast with its holding time", []Source{{"a.md", filetest.Steps("Loin", "- 1 kg pork loin", "Roast the **pork loin**.|oven: 150 °C|check: core 135 °F for 36 min")}, {"k.md", filetest.USKitchen}}, []string{}},
		{"a roast without it", []Source{{"a.md", filetest.Steps("Loin", "- 1 kg pork loin", "Roast the **pork loin**.|oven: 150 °C|check: core 135 °F")}, {"k.md", filetest.USKitchen}},
			[]string{"a.md:13:4: warning: step 1: pork loin, critical limit 57.2 °C (135 °F) has no holding time: at least 57.2 °C (135 °F) for 36 min: US FDA Food Code 2013, 2017, 2022, 3-401.11(B) (read); " +
				`write "check: core 57.2 °C for 36 min" or "check: core 63 °C" at a step that cooks it`}},
		{"tenderized, by its preparation", []Source{{"a.md", filetest.Steps("Steak", "- 1 kg rump steak, blade-tenderized", "Grill the **rump steak**.|grill|check: core 145 °F")}, {"k.md", filetest.USKitchen}},
			[]string{"a.md:13:4: warning: step 1: rump steak, blade-tenderized, critical limit 62.8 °C (145 °F) has no holding time: at least 63 °C (145 °F) for 3 min: US FDA Food Code, 3-401.11(A)(2) chart (read); " +
				`write "check: core 63 °C for 3 min" or "check: core 68 °C" at a step that cooks it`}},
		{"thrown away", []Source{{"a.md", filetest.Steps("Crust", "- 1 kg egg whites, not eaten", "Bake a crust of the **egg whites**.|oven: 170 °C")}, {"k.md", filetest.UKKitchen}}, []string{}},
		{"the same, eaten", []Source{{"a.md", filetest.Steps("Crust", "- 1 kg egg whites", "Bake a crust of the **egg whites**.|oven: 170 °C")}, {"k.md", filetest.USKitchen}},
			[]string{"a.md:13:4: warning: step 1: egg whites, no critical limit: at least 63 °C (145 °F) for 15 s: US FDA Food Code 2013, 2017, 2022, 3-401.11(A)(1) (read); " +
				`add "check: core 63 °C" there or at a later step, or "not eaten" to the item if it is thrown away`}},
		{"cooked on a card of its own", []Source{{"b.md", filetest.Steps("Crisp lamb", "- 1 kg [Braised lamb](a.md)", "Crisp the **braised lamb**.|hob: 1 ring")},
			{"a.md", filetest.Steps("Braised lamb", "- 1 kg lamb shoulder", "Braise the **lamb**.|hob: 1 ring|check: core 75 °C")}, {"k.md", filetest.USKitchen}}, []string{}},
		{"only cured on a card of its own", []Source{{"b.md", filetest.Steps("Seared lamb", "- 1 kg [Salted lamb](a.md)", "Sear the **salted lamb**.|hob: 1 ring")},
			{"a.md", filetest.Steps("Raw lamb", "- 1 kg lamb shoulder", "Spice the **lamb**.")}, {"k.md", filetest.USKitchen}}, []string{}}, // "salted" is a word of what is not raw any more
		{"stock cooled without", []Source{{"a.md", filetest.Steps("Soup", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.")}, {"k.md", filetest.USKitchen}},
			[]string{"a.md:16:4: warning: step 2: fish stock, cooled without a limit: from 57 °C (135 °F) to 21 °C (70 °F) in at most 2 h, and from 57 °C (135 °F) to 5 °C (41 °F) in at most 6 h: US FDA Food Code, 3-501.14(A)(1) (read); " +
				`add "cool: 5 °C within 6 h" to the step, or the figures of your own food safety plan`}},
		// 90 min before the fridge is advice, 8 °C the law (both read); no UK source has 4 h.
		{"stock cooled without, in the UK", []Source{{"a.md", filetest.Steps("Soup", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.")}, {"k.md", filetest.UKKitchen}},
			[]string{"a.md:16:4: warning: step 2: fish stock, cooled without a limit: at most 1 h 30 min: UK practice guidance (local authority) (read); " +
				`add "cool: 8 °C within 1 h 30 min" to the step, or the figures of your own food safety plan`}},
		{"re-heated without", []Source{{"a.md", filetest.Steps("Soup", "- 1 kg fish stock", "Re-heat the **fish stock**.|hob: 1 ring")}, {"k.md", filetest.USKitchen}},
			[]string{`a.md:13:4: warning: step 1: fish stock, re-heated without a limit: at least 74 °C (165 °F) for 15 s: US FDA Food Code, 3-403.11(A) (read); add "check: core 74 °C" to the step`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, said(Check(tt.files)))
		})
	}
	// Each way is checked by itself: the limit of one way is not the limit of
	// the other.
	ways := "---\nmakes: 1 kg\n---\n\n# Thighs\n\n## Formula\n\n- 1 kg chicken thighs\n\n## Method\n\n### Way: roast\n\n1. Roast the **chicken thighs**.\n   - oven: 200 °C\n   - hands: 5 min\n   - check: core 74 °C\n\n" +
		"### Way: fry\n\n1. Fry the **chicken thighs**.\n   - hob: 1 ring\n   - hands: 5 min\n"
	got := Check([]Source{{"a.md", ways}, {"k.md", filetest.USKitchen}})
	require.Len(t, got, 1)
	assert.Equal(t, 22, got[0].Line)
}

// The boil at 2000 m is 93.3 °C: 99.97 less 6.7 (IAPWS-IF97 at 795 hPa of the US
// Standard Atmosphere 1976; the safety room holds it to steam tables).
func TestAltitudeWarnings(t *testing.T) {
	syrup := filetest.Steps("Syrup", "- 1 kg caster sugar", "Boil the **caster sugar**.|hob: 1 ring|until: 118 °C on the thermometer")
	egg := filetest.Steps("Rolls", "- 1 kg flour", "Boil the **flour**.|hob: 1 ring|until: core 96 °C")
	bread := filetest.Steps("Bread", "- 1 kg flour", "Bake the **flour**.|oven: 220 °C|until: core 96 °C")
	high := strings.Replace(filetest.USKitchen, "rules: us", "rules: us\naltitude: 2000 m", 1)
	assert.Equal(t, []string{
		"b.md:13:4: warning: step 1: at 2000 m water boils at 93.3 °C, and nothing in it gets to 96 °C: US Standard Atmosphere 1976 and IAPWS-IF97 (computed); " +
			"cook it under pressure or in dry heat, or write the limit your rules have for lower heat",
		"s.md:13:4: warning: step 1: at 2000 m water boils at 93.3 °C, and syrup lower by 6.7 K: US Standard Atmosphere 1976 and IAPWS-IF97 (computed); look for 111 °C instead of 118 °C",
	}, said(Check([]Source{{"b.md", egg}, {"o.md", bread}, {"s.md", syrup}, {"k.md", high}})))
	assert.Empty(t, Check([]Source{{"b.md", egg}, {"s.md", syrup}, {"k.md", filetest.USKitchen}}), "by the sea")
}

// TestWhatIsToldToTypeClosesTheGap: the first thing that a problem says to type, added to the
// step it names, leaves nothing to say of it, under either rule set and without one.
func TestWhatIsToldToTypeClosesTheGap(t *testing.T) {
	typed := regexp.MustCompile(`"((?:check|cool): [^"]+)"`)
	for _, items := range [][]string{
		{"- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C"},
		{"- 1 kg mince", "Fry the **mince**.|hob: 1 ring"},
		{"- 1 kg lamb's liver", "Fry the **lamb's liver**.|hob: 1 ring"},
		{"- 1 kg T-bone steak", "Grill the **T-bone steak**.|grill|check: core 40 °C"},
		{"- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it."},
		{"- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|cool: 5 °C within 20 h"},
		{"- 1 kg fish stock", "Re-heat the **fish stock**.|hob: 1 ring"},
	} {
		for _, kitchen := range []string{filetest.USKitchen, filetest.UKKitchen, ""} {
			text := filetest.Steps("A", items[0], items[1:]...)
			check := func() []document.Problem {
				files := []Source{{"a.md", text}}
				if kitchen != "" {
					files = append(files, Source{"k.md", kitchen})
				}
				return Check(files)
			}
			for _, p := range check() {
				say := typed.FindStringSubmatch(p.Do)
				require.NotNil(t, say, p.Error())
				lines := strings.Split(text, "\n")
				word, _, _ := strings.Cut(say[1], ":")
				if i := p.Line + 1; i < len(lines) && strings.Contains(lines[i], "- "+word+":") {
					lines[i] = "   - " + say[1]
				} else {
					lines[p.Line] += "\n   - " + say[1]
				}
				text = strings.Join(lines, "\n")
			}
			assert.Empty(t, check(), text)
		}
	}
}
