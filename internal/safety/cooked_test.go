package safety

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAgainst(t *testing.T) {
	get := func(id string) Limit { l, ok := byID(id); require.True(t, ok, id); return l }
	tests := []struct {
		name  string
		limit string
		log   []Reading
		met   bool
		at    float64
		held  float64
	}{
		{"poultry, at once", "fc_poultry_2017", []Reading{{0, 60}, {10, 80}}, true, (FromF(165) - 60) / 2, 10 - (FromF(165)-60)/2}, // 165 °F is 73.9 °C
		{"poultry, one reading", "fc_poultry_2017", []Reading{{3, 74}}, true, 3, 0},
		{"poultry, under", "fc_poultry_2017", []Reading{{0, 60}, {10, 73.8}}, false, 0, 0},
		{"old edition, 15 s", "fc_poultry_2013", []Reading{{0, 74}, {0.2, 74}}, false, 0, 0.2},
		{"old edition, 15 s, held", "fc_poultry_2013", []Reading{{0, 74}, {0.25, 74}}, true, 0.25, 0.25},
		{"mince, 17 s", "fc_ground_2017", []Reading{{0, 68}, {16.0 / 60, 68}}, false, 0, 16.0 / 60},
		{"mince, 17 s, held", "fc_ground_2017", []Reading{{0, 68}, {17.0 / 60, 68}}, true, 17.0 / 60, 17.0 / 60},
		{"2 min at 70, broken", "uk_cook_70", []Reading{{0, 70}, {1, 70}, {2, 60}, {3, 70}, {4, 70}}, false, 0, 1},
		{"2 min at 70, whole", "uk_cook_70", []Reading{{0, 69}, {1, 71}, {2, 71}, {3, 71}}, true, 2.5, 2.5},
		{"standing time is no holding time", "fc_reheat_micro", []Reading{{0, 74}}, true, 0, 0},
		{"nor does a long gap add to what came before it", "uk_cook_70", []Reading{{0, 71}, {1, 71}, {30, 60}}, false, 0, 1},
		{"a long gap adds only its two ends", "uk_cook_70", []Reading{{0, 69}, {20, 71}, {21, 71}}, false, 0, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Against([]Limit{get(tt.limit)}, tt.log)
			require.NoError(t, err)
			require.Len(t, got, 1)
			assert.Equal(t, tt.met, got[0].Met)
			assert.InDelta(t, tt.at, got[0].At, 1e-9)
			assert.InDelta(t, tt.held, got[0].Minutes, 1e-9)
		})
	}
	none, err := Against([]Limit{get("fc_cold"), get("fc_date")}, []Reading{{0, 70}})
	require.NoError(t, err)
	assert.Empty(t, none, "a limit of the other kind is not for a cooking log")
	_, err = Against(nil, nil)
	assert.EqualError(t, err, "no reading yet")
	_, err = Against(nil, []Reading{{0, 165}})
	assert.ErrorContains(t, err, "°F")
	got, _ := Against([]Limit{get("fc_poultry_2017")}, []Reading{{0, 60}, {10, 80}})
	assert.Equal(t, "at least 74 °C, at once", got[0].Limit.String())
	assert.Equal(t, "US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)", got[0].Limit.Source.String())
	assert.True(t, got[0].Met)
	assert.InDelta(t, 10-(FromF(165)-60)/2, got[0].Minutes, 1e-9)
}
