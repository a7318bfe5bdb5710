package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestPluralIsTheSameWord(t *testing.T) {
	tests := []struct {
		got, want string
		same      bool
	}{
		{"egg", "egg", true}, {"eggs", "egg", true}, {"radishes", "radish", true}, {"cherries", "cherry", true},
		{"eggy", "egg", false}, {"eg", "egg", false}, {"cherrie", "cherry", false}, {"ies", "y", true}, {"", "", false}, {"s", "", false},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.same, same(tt.got, tt.want), "%q, %q", tt.got, tt.want)
	}
}

func TestPhraseInText(t *testing.T) {
	text := tokens("Pass the Purée, crème fraîche and the lamb’s-lettuce through.")
	assert.Equal(t, []string{"pass", "the", "puree", "creme", "fraiche", "and", "the", "lambs", "lettuce", "through"}, text)
	for phrase, want := range map[string]bool{
		"puree": true, " creme fraiche": true, "lamb lettuce": true, "the lamb lettuce": true, "lettuce through": true,
		"through it": false, "lamb through": false, "": false, " ": false, "lettuce through it": false,
	} {
		assert.Equal(t, want, has(text, phrase), "%q", phrase)
	}
	assert.False(t, hasAny(text, ""))
	assert.True(t, hasAny(text, "beef, lamb lettuce"))
}

// TestSkippingPhrasesLosesNone checks that the quick search finds every phrase
// that the slow one finds.
func TestSkippingPhrasesLosesNone(t *testing.T) {
	phrases := "fry, deep fry, berry, 110 c, a caramel, égg, raw beans, stock, on the slicer, n2o, x"
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(rapid.SampledFrom([]string{"fry", "fries", "deep", "berry", "berries", "110", "c", "a", "caramel", "raw", "bean", "beans", "on", "the", "slicer", "n2o", "x", "xs", "", "egg", "é"}), 0, 6).Draw(t, "text")
		long := false
		for p := range strings.SplitSeq(phrases, ",") {
			long = long || has(text, p)
		}
		if got := hasAny(text, phrases); got != long {
			t.Fatalf("%q: %v, not %v", text, got, long)
		}
	})
}
