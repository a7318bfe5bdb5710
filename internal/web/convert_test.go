package web_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/document"
)

// fileOf returns the request that hands a file to the server.
func fileOf(t *testing.T, name string, data []byte) string {
	t.Helper()
	b, err := json.Marshal(map[string]any{"name": name, "data": data})
	require.NoError(t, err)
	return string(b)
}

// foundRecipes is the answer.
type foundRecipes struct {
	Error   string
	Recipes []struct {
		Title           string
		Source, NotRead []string
		Lines           []struct {
			Text, Plain string
			Fact        bool
		}
	}
}

func TestServerReadsARecipe(t *testing.T) {
	s := newSite(t, nil)
	page, err := os.ReadFile("../../testdata/convert/leek-tart.html")
	require.NoError(t, err)
	res := s.do("POST", "/api/convert", fileOf(t, "tart.html", page), "Content-Type: application/json")
	body := text(t, res)
	require.Equal(t, 200, res.StatusCode, body)
	assert.NotContains(t, body, "document.write", "no script of a page reaches the app")
	var got foundRecipes
	require.NoError(t, json.Unmarshal([]byte(body), &got))
	require.Len(t, got.Recipes, 1)
	r := got.Recipes[0]
	assert.Equal(t, "Leek tart", r.Title)
	assert.Contains(t, r.Source, "225 g/8 oz plain flour, plus extra for dusting")
	proposals := 0
	for mask := range 4 { // whatever is taken and left, the card compiles
		var rows []string
		for _, l := range r.Lines {
			if l.Fact || l.Plain != "" {
				proposals++
			}
			switch {
			case l.Fact && mask&1 == 0:
			case l.Plain != "" && mask&2 == 0:
				rows = append(rows, l.Plain)
			default:
				rows = append(rows, l.Text)
			}
		}
		c, problems := card.Parse("tart.md", []byte(strings.Join(rows, "\n")))
		for _, p := range problems {
			assert.NotEqual(t, document.Error, p.Severity, p.Error())
		}
		assert.Len(t, c.Steps, 5)
	}
	assert.Greater(t, proposals, 20)
}

func TestServerSaysWhyItReadsNoRecipe(t *testing.T) {
	s := newSite(t, nil)
	for _, tt := range []struct {
		ctype, body string
		want        int
		says        string
	}{
		{"application/json", fileOf(t, "a.pdf", []byte("%PDF-1.7")), 422, "this is a PDF"},
		{"application/json", fileOf(t, "", []byte("hello there")), 422, "no recipe was found"},
		{"application/json", fileOf(t, "a.html", []byte(strings.Repeat("<p>", 1<<20))), 413, "over 2 MB"},
		{"application/json", "{", 400, "cannot read the request"},
		{"text/plain", "2 eggs", 415, "send application/json"},
	} {
		res := s.do("POST", "/api/convert", tt.body, "Content-Type: "+tt.ctype)
		var got foundRecipes
		require.NoError(t, json.Unmarshal([]byte(text(t, res)), &got))
		assert.Equal(t, tt.want, res.StatusCode, got.Error)
		assert.Contains(t, got.Error, tt.says)
	}
	assert.Equal(t, 405, s.do("GET", "/api/convert", "").StatusCode)
}

func TestHelperCannotBringRecipesIn(t *testing.T) {
	g := newGated(t, nil)
	cook, helper := g.pair("cook"), g.pair("helper")
	body := fileOf(t, "a.txt", []byte("Soup\n\n200 g peas\n1 L water\n\nBoil for 5 minutes."))
	assert.Equal(t, 403, helper.do("POST", "/api/convert", body).StatusCode)
	res := cook.do("POST", "/api/convert", body)
	assert.Equal(t, 200, res.StatusCode, text(t, res))
}
