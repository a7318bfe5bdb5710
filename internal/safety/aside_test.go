package safety

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAside(t *testing.T) {
	tests := []struct {
		name    string
		item    string
		percent float64
		of      string
		want    string
	}{
		{"in a range", "leaf gelatine", 0.8, "the whole", ""},
		{"between two ranges", "leaf gelatine", 1.2, "the whole",
			"gelatine at 1.2 % of the whole; usual: soft set, mousse 0.6 to 1, jelly to slice 1.5 to 2.5, aspic, terrine 2 to 3, gums 6 to 10 %: own working range (working range)"},
		{"agar, too much", "agar", 4, "the whole", "agar at 4 % of the whole; usual: 0.2 to 1.5 %: ingredient data (from memory)"},
		{"salt in bread", "fine sea salt", 2, "the flour", ""},
		{"salt in bread, double", "fine sea salt", 4, "the flour", "salt at 4 % of the flour; usual: bread 1.8 to 2.2 %: own working range (working range)"},
		{"salt in a whole nobody has a range for", "salt", 4, "the whole", ""},
		{"no range", "carrots", 4, "the whole", ""},
		{"no number", "agar", math.NaN(), "the whole", ""},
		{"nothing", "agar", 0, "the whole", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, Aside(tt.item, tt.percent, tt.of)) })
	}
	for _, w := range working {
		assert.Less(t, w.Low, w.High, w.Item)
		assert.NotEmpty(t, w.Source.Status, w.Item)
		assert.NotEmpty(t, Ranges(w.Item), "%s does not go by its own name", w.Item)
		checkPhrases(t, w.words)
		assert.NotContains(t, strings.ToLower(w.Item+w.Use+w.Note), "nitri", "no amount of nitrite is proposed")
	}
	assert.Empty(t, Ranges("curing salt with nitrite"), "its salt is not the range of salt")
}
