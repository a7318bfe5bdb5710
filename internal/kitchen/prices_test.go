package kitchen

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPrices(t *testing.T) {
	const head = "---\ncooks: 1\nhob: 1\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n\n## Prices\n\n"
	for line, want := range map[string]string{
		"butter: €9.20 per kg":   "butter 46/5 € 1 kilogram",
		"eggs: 0.30 each":        "eggs 3/10  1 each",
		"eggs: 3,60 EUR per 12":  "eggs 18/5 EUR 12 each",
		"eggs: 3.60 per dozen":   "eggs 18/5  12 each",
		"lamb: $9 per 1 lb 8 oz": "lamb 9 $ 24 ounce",
		"thyme: 1.10 per bunch":  "thyme 11/10  1 bunch",
		"oil: £4 per 500 ml":     "oil 4 £ 500 millilitre",
	} {
		k, problems := Parse("k.md", []byte(head+"- "+line+"\n"))
		require.Empty(t, problems, line)
		require.Len(t, k.Prices, 1, line)
		p := k.Prices[0]
		assert.Equal(t, want, p.Item+" "+p.Cost.String()+" "+p.Currency+" "+p.Per.Qty.String()+" "+p.Per.Unit.Name, line)
	}
	for line, want := range map[string]string{
		"butter":                   `"butter" has no price`,
		"butter: dear":             `is not a price`,
		"butter: 9.20":             `is not a price`,
		"butter: 9.20 per":         `is not a price`,
		"butter: 9.20 per dozy":    `is not an amount that can have a price`,
		"butter: 0 per kg":         `is not a price`,
		"butter: 1–2 per kg":       `is not a price`,
		"beef: €1,500 per 100 kg":  `"€1,500 per 100 kg" can be read as 1500 or as 1.5; type the one that is meant`,
		"butter: 9.20 per 1,500 g": `"1,500 g" can be read as 1500 g or as 1.5 g; type the one that is meant`,
	} {
		k, problems := Parse("k.md", []byte(head+"- "+line+"\n"))
		if assert.NotEmpty(t, problems, line) {
			assert.Contains(t, problems[0].Error(), want, line)
			assert.Contains(t, problems[0].Error(), "k.md:14:", line)
		}
		assert.Empty(t, k.Prices, line)
	}
}
