package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// TestVesselTooSmallIsAProblem: 10 covers of 1 kg are 10 kg of stock from 16 kg of backs
// and water. Of one pot of 12 L 10.8 L are filled; two take it.
func TestVesselTooSmallIsAProblem(t *testing.T) {
	for _, tt := range []struct{ fact, vessels, want string }{
		{"pot: 12 L", "", "step 1: 16 kg, about 16 L (chicken backs taken at 1 kg a litre), in one pot of 12 L, which takes 10.8 L"},
		{"pot: 12 L", "- pot: 2, 12 L\n", "step 1: 16 kg, about 16 L (chicken backs taken at 1 kg a litre), in one pot of 12 L, which takes 10.8 L"},
		{"pot: 2, 12 L", "", ""},
		{"pot: 2, 12 L", "- pot: 1, 12 L\n- pot: 3, 5 L\n", "step 1 needs 2 of the pot of 12 L, and the kitchen has 1 as large: its largest takes 12 L"},
		{"pot: 2, 12 L", "- pot: 1, 12 L\n- pot: 20 L\n", ""},
		{"pot: 20 L", "- pot: 12 L\n", "step 1 needs 1 of the pot of 20 L, and the kitchen has 0 as large: its largest takes 12 L"},
		{"pot: 20 L", "- tray: 12 L\n", ""},
		{"tray: 50 × 40 cm, 4 cm deep", "", ""}, // 8 L each: two of them
		{"tray: 50 × 40 cm, 4 cm deep", "- tray: 2, 40 × 50 cm, 5 cm deep\n", ""},
		{"tray: 50 × 40 cm, 4 cm deep", "- tray: 50 × 40 cm, 4 cm deep\n- tray: 5, 53 × 33 cm, 9 cm deep\n", "step 1 needs 2 of the tray of 50 × 40 cm, 4 cm deep, and the kitchen has 1 as large: its largest takes 15.7 L"},
		{"tray: 1, 50 × 40 cm, 4 cm deep", "", "step 1: 16 kg, about 16 L (chicken backs taken at 1 kg a litre), in one tray of 50 × 40 cm, 4 cm deep, which takes 8 L"},
	} {
		stock := strings.Replace(made("makes: 10 kg\nportion: 1 kg", "6 kg chicken backs", "10 kg water"), "1. Put it together.", "1. Boil the **chicken backs** in the **water**.\n   - "+tt.fact, 1)
		in := dinner(t, strings.Replace(supper, "plate.md", "stock.md", 1), map[string]string{"stock": stock})
		d, problems := Explode(in)
		require.Empty(t, problems)
		k, problems := kitchen.Parse("k.md", []byte("---\ncooks: 2\n---\n\n# K\n\n## Equipment\n\n- hob: 4 rings\n"+tt.vessels+"\n## Hours\n\n- Saturday 08:00–24:00\n"))
		require.Empty(t, problems)
		var got []string
		for _, p := range vesselProblems(in, d, k) {
			assert.Equal(t, document.Warning, p.Severity)
			assert.Equal(t, "stock.md:15", p.File+":"+strings.Split(p.Error(), ":")[1])
			got = append(got, p.Msg)
		}
		assert.Equal(t, tt.want, strings.Join(got, "; "), "%s %s", tt.fact, tt.vessels)
	}
}
