package convert

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
)

// demoCards are the cards of the demo, by name.
func demoCards(t *testing.T) map[string]*card.Card {
	t.Helper()
	files, err := filepath.Glob("../../content/cards/*.md")
	require.NoError(t, err)
	require.Greater(t, len(files), 30)
	out := map[string]*card.Card{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		out[filepath.Base(f)], _ = card.Parse(filepath.Base(f), b)
	}
	return out
}

func TestCardWrittenOutAndReadBackIsTheSame(t *testing.T) {
	for name, c := range demoCards(t) {
		data, err := JSONLD(c, nil, "")
		require.NoError(t, err)
		for _, page := range []string{string(data), `<html><script type="application/ld+json">` + string(data) + "</script></html>"} {
			found, err := Read("https://cards.example/"+name, []byte(page))
			require.NoError(t, err, name)
			require.Len(t, found, 1)
			assert.Equal(t, string(c.Source), found[0].Card(), name)
		}
	}
}

// Without the card's own text, as other programs pass the data on, the formula, the steps
// and their facts are the same.
func TestDataOfACardSaysWhatTheCardSays(t *testing.T) {
	for name, c := range demoCards(t) {
		if len(c.Ways) > 0 {
			continue // a Recipe has no steps of which one or the other is done
		}
		data, err := JSONLD(c, nil, "")
		require.NoError(t, err)
		var m map[string]any
		require.NoError(t, json.Unmarshal(data, &m))
		delete(m, "encoding")
		data, err = json.Marshal(m)
		require.NoError(t, err)
		found, err := Read("", data)
		require.NoError(t, err, name)
		require.Len(t, found, 1)
		back, _ := card.Parse(name, []byte(found[0].Card()))
		assert.Equal(t, c.Title, back.Title, name)
		assert.Equal(t, c.Makes, back.Makes, name)
		require.Len(t, back.Items, len(c.Items), "%s\n%s", name, found[0].Card())
		for i := range c.Items {
			assert.Equal(t, c.Items[i].Name, back.Items[i].Name, name)
			if c.Items[i].Percent.IsZero() {
				assert.Equal(t, c.Items[i].Amount, back.Items[i].Amount, name)
			} else { // worked out of a percentage, and rounded as it is shown
				assert.InEpsilon(t, c.Items[i].Amount.Qty.Float64()*c.Items[i].Amount.Unit.Factor.Float64(), back.Items[i].Amount.Qty.Float64()*back.Items[i].Amount.Unit.Factor.Float64(), 0.02, name)
			}
			assert.Equal(t, c.Items[i].Prep, back.Items[i].Prep, name)
			assert.Equal(t, c.Items[i].Percent, back.Items[i].Percent, name)
		}
		require.Len(t, back.Steps, len(c.Steps), "%s\n%s", name, found[0].Card())
		for i := range c.Steps {
			assert.Equal(t, stepText(c.Steps[i].Text), stepText(back.Steps[i].Text), name)
			assert.Equal(t, c.Steps[i].Hands, back.Steps[i].Hands, "%s, step %d", name, i+1)
			assert.Equal(t, c.Steps[i].Wait, back.Steps[i].Wait, "%s, step %d", name, i+1)
			assert.Equal(t, c.Steps[i].Equipment, back.Steps[i].Equipment, "%s, step %d", name, i+1)
			assert.Equal(t, c.Steps[i].Keep, back.Steps[i].Keep, "%s, step %d", name, i+1)
		}
	}
}

// schemaProperties are the properties that schema.org gives the types that a card is
// written in, with those of the types above them. From memory of schema.org/Recipe and of
// the pages of the other types; not read for this test.
var schemaProperties = map[string]string{
	"Recipe":               "name description recipeYield prepTime cookTime totalTime recipeIngredient recipeInstructions tool nutrition encoding",
	"HowToSection":         "name itemListElement",
	"HowToStep":            "position text itemListElement",
	"HowToDirection":       "text performTime totalTime tool supply",
	"HowToTip":             "text",
	"HowToTool":            "name",
	"HowToSupply":          "name",
	"NutritionInformation": "servingSize calories fatContent saturatedFatContent carbohydrateContent sugarContent fiberContent proteinContent",
	"MediaObject":          "encodingFormat text",
}

func TestDataHasOnlyPropertiesOfItsTypes(t *testing.T) {
	duration := regexp.MustCompile(`^P(\d+D)?(T(\d+H)?(\d+M)?(\d+S)?)?$`) // ISO 8601
	var check func(v any)
	check = func(v any) {
		switch v := v.(type) {
		case []any:
			for _, one := range v {
				check(one)
			}
		case map[string]any:
			kind, _ := v["@type"].(string)
			allowed := strings.Fields(schemaProperties[kind])
			require.NotEmpty(t, allowed, "%v", v)
			for key, value := range v {
				if key != "@type" && key != "@context" {
					assert.Contains(t, allowed, key, kind)
				}
				if strings.HasSuffix(key, "Time") {
					assert.Regexp(t, duration, value)
				}
				check(value)
			}
		}
	}
	for _, c := range demoCards(t) {
		data, err := JSONLD(c, nil, "")
		require.NoError(t, err)
		assert.NotContains(t, string(data), "<", "the data may stand in a page")
		var v map[string]any
		require.NoError(t, json.Unmarshal(data, &v))
		assert.Equal(t, "https://schema.org", v["@context"])
		for _, must := range []string{"name", "recipeYield", "recipeIngredient", "recipeInstructions", "totalTime"} {
			assert.NotEmpty(t, v[must], "%s of %s", must, c.File)
		}
		check(v)
	}
}
