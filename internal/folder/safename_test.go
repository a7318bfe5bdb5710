package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSafeNames(t *testing.T) {
	safe, notes := safeNames([]string{"Soup.md", "soup.md", "CON.md", "nul.v2.md", "a:b.md", "a-b.md", "cr\u00e8me.md", "cre\u0300me.md", "README.md", "toast.md"}, ".md")
	assert.Equal(t, map[string]string{"Soup.md": "Soup.md", "soup.md": "soup-2.md", "CON.md": "x-CON.md", "nul.v2.md": "x-nul.v2.md", "a-b.md": "a-b.md", "a:b.md": "a-b-2.md",
		"cre\u0300me.md": "cre\u0300me.md", "cr\u00e8me.md": "cr\u00e8me-2.md", "README.md": "x-README.md", "toast.md": "toast.md"}, safe)
	assert.Len(t, notes, 6)
}

// TestNoNameIsWrittenOverAnother draws names that are much alike.
func TestNoNameIsWrittenOverAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfDistinct(rapid.StringMatching(`[aA:<nN][uU2-]?[lL]?(-2)?\.md`), rapid.ID[string]).Draw(t, "names")
		safe, _ := safeNames(names, ".md")
		seen := map[string]bool{}
		for _, name := range names {
			require.NotEmpty(t, safe[name])
			require.False(t, seen[sameName(safe[name])], safe[name])
			seen[sameName(safe[name])] = true
			require.Equal(t, safe[name], plainName(safe[name]), "safe on every system")
		}
	})
}
