package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestLimitNeedsItsHoldingTime: US FDA Food Code 3-401.11(B), read in
// testdata/roast_table.csv: 54.4 °C (130 °F) for 112 min, 57.2 °C (135 °F) for 36 min, for
// whole roasts; 3-401.11(A)(2): 63 °C for 3 min, 66 °C for 1 min; UK advice: 60 °C for
// 45 min, 65 °C for 10 min, 70 °C for 2 min, 75 °C for 30 s, read in testdata/limits.csv.
func TestLimitNeedsItsHoldingTime(t *testing.T) {
	f := FromF
	for _, tt := range []struct {
		rules Rules
		item  string
		core  Core
		want  GapKind
	}{
		{US, "pork loin", Core{f(130), 112}, ""}, {US, "pork loin", Core{54.4, 112}, ""}, {US, "pork loin", Core{f(130), 0}, TooShort}, {US, "pork loin", Core{f(130), 111}, TooShort},
		{US, "pork tenderloin", Core{f(135), 1}, TooShort}, {US, "pork tenderloin", Core{f(135), 36}, ""}, {US, "beef sirloin", Core{56, 89}, ""}, {US, "beef sirloin", Core{56, 56}, TooShort},
		{US, "leg of lamb", Core{60, 12}, ""}, {US, "leg of lamb", Core{60, 0}, TooShort}, {US, "rib roast", Core{f(129), 300}, TooLow}, {US, "gammon joint", Core{60, 12}, ""},
		{US, "pork chop", Core{f(130), 0}, TooLow}, {US, "pork chop", Core{57, 2}, TooLow}, {US, "pork belly", Core{f(130), 112}, TooLow}, {US, "veal cutlet", Core{f(130), 112}, TooLow},
		{US, "sirloin steak", Core{f(130), 112}, TooLow}, {US, "diced beef shoulder", Core{60, 12}, TooLow}, {US, "chicken leg", Core{60, 200}, TooLow}, {US, "loin of cod", Core{60, 12}, TooLow},
		{US, "rack of pork ribs", Core{60, 12}, TooLow}, {US, "pork chop", Core{63, 0}, ""}, {US, "salmon", Core{63, 0}, ""}, {US, "salmon", Core{63, 5.0 / 60}, TooShort},
		{US, "minced beef", Core{63, 0}, TooShort}, {US, "minced beef", Core{63, 3}, ""}, {US, "minced beef", Core{66, 0}, TooShort}, {US, "minced beef", Core{66, 1}, ""}, {US, "minced beef", Core{68, 0}, ""},
		{UK, "chicken thighs", Core{60, 0}, TooShort}, {UK, "chicken thighs", Core{60, 45}, ""}, {UK, "chicken thighs", Core{70, 0}, TooShort}, {UK, "chicken thighs", Core{70, 2}, ""},
		{UK, "chicken thighs", Core{75, 0}, ""}, {UK, "minced beef", Core{60, 45}, TooShort}, {UK, "minced beef", Core{60, 93}, ""}, {UK, "trout fillets", Core{59, 500}, TooLow},
		{"", "pork chop", Core{63, 0}, ""}, {"", "chicken thighs", Core{70, 0}, TooShort}, {"", "chicken thighs", Core{70, 2}, ""}, {"", "chicken thighs", Core{50, 0}, TooLow},
	} {
		got := Gaps(tt.rules, []StepNeeds{{Items: []string{tt.item}, Text: "Roast.", Core: []Core{tt.core}}})
		if tt.want == "" {
			assert.Empty(t, got, "%s: %s, %v", tt.rules, tt.item, tt.core)
		} else if assert.Len(t, got, 1, "%s: %s, %v", tt.rules, tt.item, tt.core) {
			assert.Equal(t, tt.want, got[0].Kind, "%s: %s", tt.item, got[0].Text)
		}
	}
	text := func(k Core) string {
		return Gaps(US, []StepNeeds{{Items: []string{"pork tenderloin"}, Text: "Roast.", Core: []Core{k}}})[0].Text
	}
	assert.Equal(t, "pork tenderloin, critical limit 57.2 °C (135 °F) has no holding time: at least 57.2 °C (135 °F) for 36 min: US FDA Food Code 2013, 2017, 2022, 3-401.11(B) (read)", text(Core{f(135), 0}))
	assert.Equal(t, "pork tenderloin, critical limit 57.2 °C (135 °F) for 1 min is shorter than any rule has it: at least 57.2 °C (135 °F) for 36 min: US FDA Food Code 2013, 2017, 2022, 3-401.11(B) (read)", text(Core{f(135), 1}))
}

// TestEachOfSeveralLimitsMayBeEnough: one limit that a row has is enough, whatever the
// others of the step are.
func TestEachOfSeveralLimitsMayBeEnough(t *testing.T) {
	for _, cores := range [][]Core{{{57.2, 36}, {60, 0}}, {{60, 0}, {57.2, 36}}, {{50, 0}, {63, 0}}} {
		assert.Empty(t, Gaps(US, []StepNeeds{{Items: []string{"pork loin"}, Text: "Roast.", Core: cores}}), "%v", cores)
	}
}

// TestWhatAGapSaysToTypeClosesIt: for every food and rule set, the limit that a gap names
// is one that the rules take.
func TestWhatAGapSaysToTypeClosesIt(t *testing.T) {
	foods := strings.Split("chicken thighs; pork loin; pork chop; beef sirloin; minced beef; cod; scallops; eggs; venison; stuffed squid; leg of lamb; lamb's liver; blade-tenderized steak", "; ")
	rapid.Check(t, func(t *rapid.T) {
		rules := rapid.SampledFrom([]Rules{US, UK}).Draw(t, "rules")
		step := StepNeeds{Items: []string{rapid.SampledFrom(foods).Draw(t, "food")}, Text: "Roast."}
		if rapid.Bool().Draw(t, "limit") {
			step.Core = []Core{{C: rapid.Float64Range(40, 90).Draw(t, "°C"), Minutes: rapid.SampledFrom([]float64{0, 0.1, 1, 2, 10, 36, 45, 112, 300}).Draw(t, "min")}}
		}
		for _, g := range Gaps(rules, []StepNeeds{step}) {
			for _, l := range g.Limits {
				k := Core{C: l.TempC}
				if l.ToType() != Celsius(l.TempC) {
					k.Minutes = l.Minutes
				}
				if got := Gaps(rules, []StepNeeds{{Items: step.Items, Text: "Roast.", Core: []Core{k}}}); len(got) > 0 {
					t.Fatalf("%s; %s typed: %s", g.Text, l.ToType(), got[0].Text)
				}
			}
		}
	})
}
