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
		"leeks: £1.50/kg":        "leeks 3/2 £ 1 kilogram",
		"ham: £2.20/100 g":       "ham 11/5 £ 100 gram",
		"leeks: £1.50 a kilo":    "leeks 3/2 £ 1 kilogram",
		"eggs: £3 a dozen":       "eggs 3 £ 12 each",
		"limes: 3 for £1":        "limes 1 £ 3 each",
		"limes: £1 for 3":        "limes 1 £ 3 each",
		"limes: 3 for 90p":       "limes 9/10 £ 3 each",
		"oil: 500 ml for 4 EUR":  "oil 4 EUR 500 millilitre",
		"mint: 90p a bunch":      "mint 9/10 £ 1 bunch",
		"limes: 35p each":        "limes 7/20 £ 1 each",
		"limes: 35 p apiece":     "limes 7/20 £ 1 each",
		"limes: €0.50 a piece":   "limes 1/2 € 1 each",
		"corn: 50¢ each":         "corn 1/2 $ 1 each",
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
		"butter: 90p":              `it does not say how much that buys`,
		"butter: £1.50":            `it does not say how much that buys`,
		"limes: 3 for 2":           `is not a price`,
		"limes: 50c each":          `is in hundredths of a currency that is not said; write it like "€0.90 each"`,
		"butter: £1.50/":           `is not an amount that can have a price`,
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
