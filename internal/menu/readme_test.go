package menu

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeCompiles holds the grammar's own menus and kitchens to the grammar.
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
		kind := KindOf([]byte(text))
		kinds[kind]++
		switch kind {
		case KindMenu:
			m, problems := ParseMenu("example.md", []byte(text))
			assert.Empty(t, problems)
			assert.NotEmpty(t, m.Courses)
		case KindKitchen:
			k, problems := ParseKitchen("example.md", []byte(text))
			assert.Empty(t, problems)
			assert.NotEmpty(t, k.Hours)
		}
	}
	assert.GreaterOrEqual(t, kinds[KindMenu], 1)
	assert.GreaterOrEqual(t, kinds[KindKitchen], 2)
	assert.GreaterOrEqual(t, kinds[KindCard], 3)
}
