package composition

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
)

// Every row is compared with USDA SR28, read: ../../../testdata/reference/sr28.csv.
func TestRowsAreThoseOfSR28(t *testing.T) {
	file, err := os.Open("../../../testdata/reference/sr28.csv")
	require.NoError(t, err)
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	table := Rows()
	require.Len(t, table, len(all)-1)
	for _, r := range all[1:] {
		c, ok := table[r[0]]
		require.True(t, ok, r[0])
		assert.Equal(t, r[2], c.Name)
		for n, column := range map[larder.Nutrient]int{larder.Protein: 8, larder.Fat: 9, larder.Saturates: 10, larder.Carbohydrate: 11, larder.Sugars: 12, larder.Fibre: 13, larder.Sodium: 14} {
			want, err := strconv.ParseFloat(r[column], 64)
			assert.Equal(t, err == nil, c.Known[n] > 0, "%s: nutrient %d is known", r[2], n)
			assert.Equal(t, want, c.Has[n], "%s: nutrient %d", r[2], n)
		}
		// What the energy does not explain is alcohol: 6.93 kcal a gram in SR28.
		if kcal, err := strconv.ParseFloat(r[7], 64); err == nil && r[1] == "1400" {
			rest := (kcal - 4*c.Has[larder.Carbohydrate] - 9*c.Has[larder.Fat] - 4*c.Has[larder.Protein]) / 6.93
			if rest > 0.5 {
				assert.InDelta(t, rest, c.Has[larder.Alcohol], 0.06, r[2])
			}
		}
	}
}
