package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPrepThatNamesAnotherGood checks the goods of the food table that differ by a word which
// is typed behind the comma.
func TestPrepThatNamesAnotherGood(t *testing.T) {
	for line, want := range map[string]string{
		"1 cup breadcrumbs, fresh": `"breadcrumbs" is bought and weighed, not "fresh breadcrumbs"`,
		"100 g apricots, dried":    `"apricots" is bought and weighed, not "dried apricots"`,
		"2 tsp thyme, dried":       `"thyme" is bought and weighed, not "dried thyme"`,
		"200 g salmon, smoked":     `"salmon" is bought and weighed, not "smoked salmon"`,
		"2 tsp thyme, fresh":       "",
		"3 eggs, beaten":           "",
		"500 g potatoes, new":      `"potatoes" is bought and weighed, not "new potatoes"`,
		"1 cup fresh breadcrumbs":  "",
		"50 g moonflowers, dried":  "",
	} {
		_, problems := listed("", line)
		if want == "" {
			assert.Empty(t, problems, line)
			continue
		}
		require.Len(t, problems, 1, line)
		assert.Equal(t, want, problems[0].Msg)
	}
}

// TestSizeInTheAmountOfATable weighs "3 large" onions of a table by USDA SR28's large one,
// 150 g (testdata/reference/sizes.csv).
func TestSizeInTheAmountOfATable(t *testing.T) {
	for body, want := range map[string]string{
		"| Amount | Item |\n|---|---|\n| 3 large | onions |":                      "large",
		"| Amount | Item | Prep |\n|---|---|---|\n| 3 | onions | large, sliced |": "large",
		"- 3 onions, extra-large":                                                 "extra large",
		"- 3 onions, in large chunks":                                             "",
		"- 3 onions, sliced":                                                      "",
	} {
		c, problems := Parse("a.md", []byte("---\nmakes: 1 plate\n---\n\n# A\n\n## Formula\n\n"+body+"\n\n## Method\n\n1. Fry the **onions**.\n   - hands: 5 min\n"))
		require.Empty(t, problems, body)
		assert.Equal(t, want, c.OwnOf(&c.Items[0]).Size, body)
	}
}
