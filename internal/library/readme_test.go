package library

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeCompiles compiles the whole files that the grammar shows: they have
// no problems, and each is read as what it is.
func TestReadmeCompiles(t *testing.T) {
	b, err := os.ReadFile("../../content/README.md")
	require.NoError(t, err)
	kinds := map[Kind]int{}
	for i, block := range strings.Split(string(b), "\n```markdown\n") {
		if i == 0 {
			continue
		}
		text, _, _ := strings.Cut(block, "\n```\n")
		text += "\n"
		kinds[KindOf([]byte(text))]++
		f := Compile("example.md", text)
		assert.Empty(t, said(f.Problems))
		switch {
		case f.Menu != nil:
			assert.NotEmpty(t, f.Menu.Courses)
		case f.Kitchen != nil:
			assert.NotEmpty(t, f.Kitchen.Hours)
		case f.Foods != nil:
			assert.NotEmpty(t, f.Foods.Rows)
		default:
			assert.NotEmpty(t, f.Card.Steps)
		}
	}
	assert.GreaterOrEqual(t, kinds[KindMenu], 1)
	assert.GreaterOrEqual(t, kinds[KindKitchen], 2)
	assert.GreaterOrEqual(t, kinds[KindCard], 3)
	assert.GreaterOrEqual(t, kinds[KindFoods], 1)
}
