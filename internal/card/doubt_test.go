package card

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDoubtfulFigureIsAProblemEverywhere puts a figure that can be read in two ways in
// each place of a card where a figure is read.
func TestDoubtfulFigureIsAProblemEverywhere(t *testing.T) {
	const whole = `---
makes: 800 g
smallest: 400 g
portion: 200 g
each: 100 g
---

# Soup

## Formula

| Amount | Item   | Prep | Each |
|-------:|--------|------|-----:|
| 900 g  | leeks  |      |      |
| 50 ml  | oil    |      |      |
| 3      | onions |      | 90 g |
| 2      | bags of peas | pack 300 g | |

## Method

1. Sweat the **leeks**, **onions** and **bags of peas** in **30 ml oil**; add the **oil**.
   - hob: 1 ring
   - load: 500 g
   - hands: 5 min + 2 min per 250 g
   - wait: 10 min
   - until: 800 g

## Saves

- leek tops: 100 g, 2 d chilled
`
	_, problems := Parse("soup.md", []byte(whole))
	require.Empty(t, problems)
	for _, place := range []string{"makes: 800 g", "smallest: 400 g", "portion: 200 g", "each: 100 g", "| 900 g", "| 50 ml", "| 3 ", "| 90 g", "pack 300 g",
		"**30 ml", "load: 500 g", "+ 2 min", "per 250 g", "wait: 10 min", "until: 800 g", "tops: 100 g", ", 2 d chilled"} {
		start := strings.IndexAny(place, "0123456789")
		end := start + strings.IndexFunc(place[start:], func(r rune) bool { return r < '0' || r > '9' })
		require.Equal(t, 1, strings.Count(whole, place), place)
		for _, figure := range []string{"1,250", "1.250"} {
			slip := strings.Replace(whole, place, place[:start]+figure+place[end:], 1)
			_, problems := Parse("soup.md", []byte(slip))
			found := false
			for _, p := range problems {
				found = found || strings.Contains(p.Error(), "can be read as 1250") && p.Line == 1+strings.Count(whole[:strings.Index(whole, place)], "\n")
			}
			assert.True(t, found, "%s in %q: %v", figure, place, problems)
		}
	}
}
