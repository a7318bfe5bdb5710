package card

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write down what the tests in testdata got")

// TestProblems compiles the cards of testdata/problems; README.md there says
// how to add one.
func TestProblems(t *testing.T) {
	files, err := filepath.Glob("testdata/problems/*.txt")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 15)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			b, err := os.ReadFile(file)
			require.NoError(t, err)
			head, want, ok := strings.Cut(string(b), "=== problems\n")
			require.True(t, ok, "no line === problems")
			what, text, ok := strings.Cut(head, "=== card\n")
			require.True(t, ok, "no line === card")
			require.NotEmpty(t, strings.TrimSpace(what), "the first line says what it shows")
			c, problems := Parse("card.md", []byte(text))
			got := ""
			for _, f := range problems {
				got += strings.TrimPrefix(f.Error(), "card.md:") + "\n"
			}
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(head+"=== problems\n"+got), 0o644))
			}
			assert.Equal(t, want, got)
			sound(t, c, problems, []byte(text))
		})
	}
}
