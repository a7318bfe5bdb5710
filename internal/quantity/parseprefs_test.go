package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestParsePrefs(t *testing.T) {
	for _, tt := range []struct {
		system, scale string
		want          Prefs
		wrong         string
	}{
		{"", "", Prefs{System: Metric, Scale: Int(1)}, ""},
		{"metric", "5 g", Prefs{System: Metric, Scale: Int(5)}, ""},
		{"us", "0.1 g", Prefs{System: US, Scale: Frac(1, 10)}, ""},
		{"imperial", "1 g", Prefs{System: Imperial, Scale: Int(1)}, ""},
		{"typed", "", Prefs{AsTyped: true, Ladder: true, System: Metric, Scale: Int(1)}, ""},
		{"stones", "", Prefs{}, `unknown system "stones": metric, us, imperial or typed`},
		{"us", "2 g", Prefs{}, `unknown scale "2 g": 0.1 g, 1 g or 5 g`},
	} {
		got, err := ParsePrefs(tt.system, tt.scale)
		assert.Equal(t, tt.want, got, "%q, %q", tt.system, tt.scale)
		if tt.wrong == "" {
			assert.NoError(t, err)
		} else {
			assert.EqualError(t, err, tt.wrong)
		}
	}
}
