package main

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestOrderCSVHoldsNoFormula writes a word that a spreadsheet takes for a formula
// into every column of text. Each cell must be read back as text.
func TestOrderCSVHoldsNoFormula(t *testing.T) {
	for _, word := range []string{`=HYPERLINK("x")`, "+1", "-1", "@SUM(A1)", "\t=1"} {
		list := dinner.OrderList{Sections: []dinner.OrderSection{{Name: word, Lines: []dinner.OrderLine{
			{Name: word, Buy: word, Need: word, Cost: word, For: []string{word}, Note: word}}}}}
		var out strings.Builder
		require.NoError(t, printOrderCSV(&out, &list))
		rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 2)
		for i, cell := range rows[1] {
			if rows[0][i] != "buy by" {
				assert.Equal(t, "'"+word, cell, rows[0][i])
			}
		}
	}
}
