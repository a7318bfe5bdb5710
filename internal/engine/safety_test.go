package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document/filetest"
)

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
	assert.Equal(t, []string{"fish"}, demand.Excluded(nil, "trout fillets", []string{"gluten", "fish", "fish"}))
	assert.Empty(t, demand.Excluded(nil, "an unknown thing", []string{"fish"}), "what is not assessed is said on the sheet, not at the board")
	assert.Equal(t, []string{"beef"}, demand.Excluded(nil, "beef shin", []string{"beef"}))
	c, _ := card.Parse("curd.md", []byte(filetest.Steps("Curd", "- 1 kg milk\n- 1 g zzyzx", "Warm the **milk** and **zzyzx**.|hob: 1 ring")))
	sheet := demand.AllergensOf(demand.Input{Cards: map[string]*card.Card{"curd": c}}, "curd")
	require.NotEmpty(t, sheet.Carried)
	assert.Equal(t, "milk", sheet.Carried[0].Code)
	assert.Equal(t, [][]string{{"Curd", "zzyzx"}}, sheet.NotAssessed)
}
