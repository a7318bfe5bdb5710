package quantity

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGuideListsWhatIsCounted holds the list of counted things in the guide for authors
// to the table of units.
func TestGuideListsWhatIsCounted(t *testing.T) {
	b, err := os.ReadFile("../../content/README.md")
	require.NoError(t, err)
	_, list, ok := strings.Cut(string(b), "### Things counted\n")
	require.True(t, ok)
	_, list, ok = strings.Cut(list, "weight.\n")
	require.True(t, ok)
	list, _, ok = strings.Cut(list, "`serving`")
	require.True(t, ok)
	var want []string
	for _, u := range units {
		if u.Dim == Count && u != Each {
			want = append(want, u.Name)
		}
	}
	assert.ElementsMatch(t, want, strings.FieldsFunc(list, func(r rune) bool { return r < 'a' || r > 'z' }))
}

// Words that cooks count in. Common practice, no source.
func TestCountedWords(t *testing.T) {
	for in, want := range map[string]string{
		"6 pots": "pot", "4 servings": "portion", "6 ramekins": "ramekin", "2 glasses": "glass", "3 scoops": "scoop", "1 serving": "portion", "2 bowls": "bowl",
	} {
		a, rest, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Empty(t, rest, in)
		assert.Equal(t, want, a.Unit.Name, in)
	}
}
