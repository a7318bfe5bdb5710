package engine

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/demand"
)

const (
	ukKitchen = "---\ncooks: 1\nrules: uk\nhob: 2 rings\noven: 1, 2 shelves\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"
	usKitchen = "---\ncooks: 1\nrules: us\nhob: 2 rings\noven: 1, 2 shelves\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"
)

// written writes a card of steps, each with its facts after "|".
func written(title, items string, steps ...string) string {
	out := "---\nmakes: 1 kg\n---\n\n# " + title + "\n\n## Formula\n\n" + items + "\n\n## Method\n\n"
	for i, s := range steps {
		words, facts, _ := strings.Cut(s, "|")
		out += strconv.Itoa(i+1) + ". " + words + "\n   - hands: 5 min\n"
		for f := range strings.SplitSeq(facts, "|") {
			if f != "" {
				out += "   - " + f + "\n"
			}
		}
	}
	return out
}

// TestDemoHasNoGaps: under either rule set, at sea level.
func TestDemoHasNoGaps(t *testing.T) {
	files := demoFiles(t)
	assert.Empty(t, said(check(files)))
	for i := range files {
		files[i].Text = strings.Replace(files[i].Text, "rules: uk", "rules: us", 1)
	}
	assert.Empty(t, said(check(files)))
	_, d := demo(t)
	for _, c := range d.Cards {
		for _, m := range c.Batches {
			seen := map[string]string{}
			for _, s := range m.Steps {
				for _, line := range s.Cautions {
					assert.NotContains(t, seen, line, "%s and %s", s.Key, seen[line])
					seen[line] = s.Key
				}
			}
		}
	}
}

func TestExcludedAndLabels(t *testing.T) {
	assert.Equal(t, []string{"fish"}, demand.Excluded("trout fillets", []string{"gluten", "fish", "fish"}))
	assert.Empty(t, demand.Excluded("an unknown thing", []string{"fish"}), "what is not assessed is said on the sheet, not at the board")
	assert.Equal(t, []string{"beef"}, demand.Excluded("beef shin", []string{"beef"}))
	c, _ := card.Parse("curd.md", []byte(written("Curd", "- 1 kg milk\n- 1 g zzyzx", "Warm the **milk** and **zzyzx**.|hob: 1 ring")))
	sheet := demand.AllergensOf(demand.Input{Cards: map[string]*card.Card{"curd": c}}, "curd")
	require.NotEmpty(t, sheet.Carried)
	assert.Equal(t, "milk", sheet.Carried[0].Code)
	assert.Equal(t, [][]string{{"Curd", "zzyzx"}}, sheet.NotAssessed)
}
