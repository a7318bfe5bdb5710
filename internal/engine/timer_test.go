package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTimerTextsAreExact checks the text of a step's timer against its seconds. Worked by
// hand.
func TestTimerTextsAreExact(t *testing.T) {
	for typed, want := range map[string]string{"20 s": "20 s", "3 min 30 s": "3 min 30 s", "90 s": "1 min 30 s", "45 min": "45 min", "60 h": "2 d 12 h", "at least 2 h": "2 h"} {
		soup := strings.Replace(fuzzSoup, "   - load: 300 g\n", "   - wait: "+typed+"\n", 1)
		_, d := openMenu(t, []File{{"soup.md", soup}, {"stock.md", fuzzStock}, {"menu.md", fuzzMenu}}, "menu.md")
		found := false
		for _, c := range d.Cards {
			for _, b := range c.Batches {
				for _, s := range b.Steps {
					if s.WaitLow > 0 {
						found = true
						assert.Equal(t, want, s.Timer, typed)
					}
				}
			}
		}
		assert.True(t, found, typed)
	}
}
