package card

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
)

// example is one fenced block of content/README.md.
type example struct {
	info string // the words after the fence: "markdown", "markdown formula", "text"
	line int    // of the fence
	text string
}

func readmeExamples(t testing.TB) []example {
	t.Helper()
	b, err := os.ReadFile("../../content/README.md")
	require.NoError(t, err)
	var out []example
	var open *example
	for i, line := range strings.Split(string(b), "\n") {
		fence, isFence := strings.CutPrefix(line, "```")
		switch {
		case isFence && open == nil:
			open = &example{info: fence, line: i + 1}
		case isFence:
			out = append(out, *open)
			open = nil
		case open != nil:
			open.text += line + "\n"
		}
	}
	require.Nil(t, open, "a fence that nobody closed")
	return out
}

// TestReadmeCompiles holds the grammar's own examples to the grammar. Whole
// files must be without any problem; a part is put into a card and may lack
// the other parts; a wrong one must give the problems printed below it.
func TestReadmeCompiles(t *testing.T) {
	kinds := map[string]int{}
	examples := readmeExamples(t)
	for i, ex := range examples {
		kinds[ex.info]++
		name := "README.md:" + strconv.Itoa(ex.line)
		switch ex.info {
		case "markdown":
			if !strings.Contains(ex.text, "makes:") {
				continue // a menu or a kitchen: the menu package compiles it
			}
			c, problems := Parse("example.md", []byte(ex.text))
			assert.Empty(t, lines(problems), name)
			assert.NotEmpty(t, c.Items, name)
			assert.NotEmpty(t, c.Steps, name)
		case "markdown formula", "markdown steps", "markdown saves":
			_, problems := Parse("example.md", []byte("---\nmakes: 4 pieces\neach: 50 g\ndensity: 1\n---\n\n# Example\n\n"+ex.text))
			for _, f := range problems {
				part := strings.Contains(f.Msg, "has no formula") || strings.Contains(f.Msg, "has no method")
				assert.True(t, part, "%s: %s", name, f.Error())
			}
		case "markdown wrong":
			_, problems := Parse("example.md", []byte(ex.text))
			require.Less(t, i+1, len(examples))
			assert.Equal(t, strings.TrimSpace(examples[i+1].text), strings.Join(lines(problems), "\n"), name)
		case "text":
		default:
			t.Errorf("%s: a fence of an unknown kind %q", name, ex.info)
		}
	}
	assert.GreaterOrEqual(t, kinds["markdown"], 7)
	assert.GreaterOrEqual(t, kinds["markdown formula"], 5)
	assert.Positive(t, kinds["markdown wrong"])
}

func lines(problems []document.Problem) []string {
	out := []string{}
	for _, f := range problems {
		out = append(out, f.Error())
	}
	return out
}
