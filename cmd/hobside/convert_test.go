package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const recipes = "../../testdata/convert/"

func TestConvertPrintsACardThatChecks(t *testing.T) {
	code, out, problems := hobside(t, "convert", recipes+"leek-tart.html")
	require.Equal(t, 0, code, problems)
	assert.True(t, strings.HasPrefix(out, "---\nmakes: 2 pieces\n"), out)
	assert.Contains(t, out, "\n# Leek tart\n")
	assert.Contains(t, out, "\n### For the pastry\n\n- 225 g/8 oz plain flour, plus extra for dusting\n")
	assert.Contains(t, out, "\n   - oven: 170 °C fan\n")
	assert.Contains(t, problems, "leek-tart.html: Leek tart, from schema.org data (JSON-LD)")
	assert.Regexp(t, `step 1 +wait: 30 min; fridge  <- Rub the butter`, problems)

	file := filepath.Join(t.TempDir(), "leek-tart.md")
	require.NoError(t, os.WriteFile(file, []byte(out), 0o600))
	code, said, problems := hobside(t, "check", file)
	assert.Equal(t, 0, code, said+problems)
}

func TestConvertJSON(t *testing.T) {
	code, out, problems := hobside(t, "convert", recipes+"pork-belly.txt", "--format", "json")
	require.Equal(t, 0, code, problems)
	var r struct {
		Title string
		Makes struct {
			Amount []float64
			Unit   string
		}
		Ingredients []struct {
			Amount              any
			Unit, Item, Section string
		}
		Steps []struct {
			Text        string
			Minutes     *float64
			Temperature *float64 `json:"temperature_c"`
			Equipment   []string
			Unattended  bool
		}
		NotRead []string `json:"not_read"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	assert.Equal(t, "Slow roast belly of pork", r.Title)
	assert.Equal(t, []float64{8, 10}, r.Makes.Amount)
	assert.Equal(t, "portion", r.Makes.Unit)
	require.Len(t, r.Ingredients, 10)
	assert.Equal(t, 2.5, r.Ingredients[0].Amount)
	assert.Equal(t, "kg", r.Ingredients[0].Unit)
	assert.Nil(t, r.Ingredients[6].Amount, "butter the size of an egg has no amount")
	assert.Equal(t, "butter", r.Ingredients[6].Item)
	assert.Equal(t, "For the sauce", r.Ingredients[7].Section)
	require.Len(t, r.Steps, 5)
	assert.Equal(t, 180.0, *r.Steps[2].Minutes)
	assert.Equal(t, []string{"oven"}, r.Steps[2].Equipment)
	assert.True(t, r.Steps[2].Unattended)
	assert.Empty(t, r.NotRead)
}

func TestConvertSeveralRecipes(t *testing.T) {
	code, out, problems := hobside(t, "convert", recipes+"three-in-one.txt")
	assert.Equal(t, 1, code)
	assert.Empty(t, out)
	assert.Contains(t, problems, "there are 3 recipes: name a folder for their cards, --out DIR")

	dir := filepath.Join(t.TempDir(), "cards")
	code, out, problems = hobside(t, "convert", recipes+"three-in-one.txt", "--out", dir)
	require.Equal(t, 0, code, problems)
	for _, name := range []string{"tartare-sauce.md", "beer-batter.md", "mushy-peas.md"} {
		assert.Contains(t, out, name)
		assert.FileExists(t, filepath.Join(dir, name))
	}
	code, out, _ = hobside(t, "convert", recipes+"three-in-one.txt", "--out", dir)
	assert.Equal(t, 0, code)
	assert.Contains(t, out, "mushy-peas-2.md", "a file that is there is never replaced")

	code, out, problems = hobside(t, "convert", recipes+"three-in-one.txt", "--format", "json")
	require.Equal(t, 0, code, problems)
	var list []struct{ Title string }
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	assert.Len(t, list, 3)
}

func TestConvertReadsFoldersAndZips(t *testing.T) {
	from, dir := t.TempDir(), t.TempDir()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range []string{"chutney.txt", "flatbreads.md", "picture.png"} {
		w, err := z.Create("mine/" + name)
		require.NoError(t, err)
		text, err := os.ReadFile(recipes + name)
		if err != nil {
			text = []byte("\x89PNG")
		}
		_, err = w.Write(text)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	file := filepath.Join(from, "mine.zip")
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
	code, out, problems := hobside(t, "convert", file, "--out", dir)
	require.Equal(t, 0, code, problems)
	assert.Contains(t, out, "green-tomato-chutney.md")
	assert.Contains(t, out, "yoghurt-flatbreads.md")

	require.NoError(t, os.Remove(file))
	text, err := os.ReadFile(recipes + "stock.txt")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(from, "stock.txt"), text, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(from, "other.txt"), []byte("nothing of a recipe here"), 0o600))
	code, out, problems = hobside(t, "convert", from, "--out", dir)
	assert.Equal(t, 1, code, "one file of the folder holds no recipe")
	assert.Contains(t, problems, "other.txt: no recipe was found")
	assert.Contains(t, out, "dark-vegetable-stock.md", "the others are written all the same")
}

func TestConvertRefuses(t *testing.T) {
	dir := t.TempDir()
	for name, tt := range map[string]struct{ data, want string }{
		"a.pdf":     {"%PDF-1.7 ...", "this is a PDF"},
		"a.jpg":     {"\xff\xd8\xff\xe0....", "this is a picture"},
		"login.htm": {`<html><body><form><input name="u"><input type="password"></form></body></html>`, "asks for a sign-in"},
		"news.html": {"<html><body><h1>News</h1><p>Nothing to cook.</p></body></html>", "no recipe was found"},
		"empty.txt": {"  \n", "there is nothing in it"},
		"deep.json": {strings.Repeat("[", 100_000), "nested too deep"},
		"cut.json":  {`{"@type":"Recipe","name":"x`, "not whole JSON"},
		"large.htm": {"<html>" + strings.Repeat("<p>page</p>", 2<<20), "larger than 8 MB"},
		"doc.docx":  {officeFile(t), "word processor's file"},
	} {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, []byte(tt.data), 0o600))
		code, out, problems := hobside(t, "convert", file)
		assert.Equal(t, 1, code, name)
		assert.Empty(t, out, name)
		assert.Contains(t, problems, tt.want, name)
	}
	code, _, _ := hobside(t, "convert")
	assert.Equal(t, 2, code)
	code, _, _ = hobside(t, "convert", "x", "--format", "xml")
	assert.Equal(t, 2, code)
	code, _, problems := hobside(t, "convert", filepath.Join(dir, "none.txt"))
	assert.Equal(t, 1, code)
	assert.Contains(t, problems, "none.txt")
}

// officeFile returns the outline of a word processor's file.
func officeFile(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	_, err := z.Create("[Content_Types].xml")
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return b.String()
}

func TestCardAsSchemaOrgRecipe(t *testing.T) {
	const file = "../../content/cards/almond-cake.md"
	code, out, problems := hobside(t, "card", file, "--format", "jsonld")
	require.Equal(t, 0, code, problems)
	var r struct {
		Type      string `json:"@type"`
		Name      string
		Nutrition struct {
			Type     string `json:"@type"`
			Calories string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	assert.Equal(t, "Recipe", r.Type)
	assert.Regexp(t, `^\d+ kcal$`, r.Nutrition.Calories)

	data := filepath.Join(t.TempDir(), "cake.json")
	require.NoError(t, os.WriteFile(data, []byte(out), 0o600))
	code, back, problems := hobside(t, "convert", data)
	require.Equal(t, 0, code, problems)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(text), back, "read back in, it is the same card")

	code, _, problems = hobside(t, "card", file, "--format", "jsonld", "--make", "×2")
	assert.Equal(t, 2, code)
	assert.Contains(t, problems, "leave --make out")
}
