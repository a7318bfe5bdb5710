package convert

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/document"
)

// sources are the files of recipes, with those set aside.
func sources(t testing.TB) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, dir := range []string{"../../testdata/convert", "../../testdata/convert/holdout"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.*"))
		require.NoError(t, err)
		for _, f := range files {
			if strings.HasSuffix(f, ".want") || strings.HasSuffix(f, "README.md") {
				continue
			}
			b, err := os.ReadFile(f)
			require.NoError(t, err)
			out[filepath.Base(f)] = b
		}
	}
	require.Greater(t, len(out), 20)
	return out
}

// compiles checks that a recipe's card compiles without errors and has all that the recipe has.
func compiles(t require.TestingT, r *Recipe) string {
	text := r.Card()
	require.LessOrEqual(t, len(text), document.MaxBytes)
	c, problems := card.Parse("card.md", []byte(text))
	for _, p := range problems {
		require.NotEqual(t, document.Error, p.Severity, "%v\n%s", p, text)
	}
	require.NotNil(t, c.Makes.Unit, text)
	require.Len(t, c.Items, len(r.Ingredients), text)
	require.Len(t, c.Steps, len(r.Steps), text)
	return text
}

func TestEveryCardCompiles(t *testing.T) {
	for name, data := range sources(t) {
		found, err := Read(name, data)
		require.NoError(t, err, name)
		for _, r := range found {
			compiles(t, r)
		}
	}
}

func TestNoWordOfTextIsLost(t *testing.T) {
	for name, data := range sources(t) {
		if ext := filepath.Ext(name); ext != ".txt" && ext != ".md" && ext != ".csv" {
			continue
		}
		found, err := Read(name, data)
		require.NoError(t, err, name)
		all := ""
		for _, r := range found {
			all += r.Card()
		}
		for _, w := range lost(string(data), all) {
			assert.True(t, headings[w] != partTop || columns[w] != "" || structureWords[w], "%s: %q is lost in\n%s", name, w, all)
		}
	}
}

// structureWords stand over parts of a recipe and say nothing of it, or are figures that the
// card has in another writing.
var structureWords = wordSet("you will need step recipe yield serves baker s")

// TestWhateverIsReadCompiles writes texts of lines that recipes are made of, in any order.
func TestWhateverIsReadCompiles(t *testing.T) {
	var rows []string
	for name, data := range sources(t) {
		if s := string(data); !strings.HasSuffix(name, ".html") {
			rows = append(rows, strings.Split(s, "\n")...)
		}
	}
	rows = append(rows, "---", "makes: 3", "- ", "1.", "**", "| a | b |", "|---|---|", "## Then", "### Way: x", "# Method", "100 % flour", "5 % salt", "0 g nothing", "-3 eggs", "1/0 cup milk", "[x](y.md)", "<b>100 g</b> x", "\\", "&amp; *a* _b_", "makes 0", "serves 1000000", "after 400 days")
	slices.Sort(rows)
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOfN(rapid.SampledFrom(rows), 1, 30).Draw(t, "rows"), "\n")
		if rapid.Bool().Draw(t, "headed") {
			s = "Ingredients\n" + s
		}
		found, err := Read("a.txt", []byte(s))
		if err != nil {
			return
		}
		all := ""
		for _, r := range found {
			all += compiles(t, r)
		}
		for _, w := range lost(listNumber.ReplaceAllString(s, ""), all) {
			if headings[w] == partTop && columns[w] == "" && !structureWords[w] {
				t.Fatalf("%q is lost in\n%s\n----\n%s", w, s, all)
			}
		}
	})
}

// listNumber is the number of a step: the card counts by itself.
var listNumber = regexp.MustCompile(`(?im)^\s*(?:step\s*)?\d+\s*[.):](?:\s|$)`)

func FuzzRead(f *testing.F) {
	for name, data := range sources(f) {
		f.Add(name, data)
	}
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		found, err := Read(name, data)
		if err != nil {
			assert.Empty(t, found)
			return
		}
		for _, r := range found {
			compiles(t, r)
		}
	})
}
