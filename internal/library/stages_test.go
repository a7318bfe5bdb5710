package library

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/document/filetest"
)

// The two stages are those of US FDA Food Code 3-501.14(A), read: to 21 °C in 2 h, then to
// 5 °C within 6 h of 57 °C, which cooks write as 4 h more.
func TestCoolingInStages(t *testing.T) {
	stock := func(first, between string) string {
		return filetest.Steps("Soup", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Cool it in iced water.|ice bath|cool: 21 °C within 2 h"+first, between, "Chill it.|fridge|cool: 5 °C within 4 h|keep: 2 d chilled")
	}
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		{"nothing said", stock("", "Cover it."), []string{"a.md:16:4: warning: step 2: cooled to 21 °C only: the plan goes straight on to the next stage; " + `add "keep: straight on" to the step to say the same`}},
		{"straight on", stock("|keep: straight on", "Cover it."), []string{}},
		{"kept for a day", stock("|keep: 1 d chilled", "Cover it."),
			[]string{"a.md:16:4: warning: step 2: cooled to 21 °C only, and kept for 24 h: the plan goes straight on to the next stage all the same; " + `write "keep: straight on", or cool it to 5 °C in this step`}},
		{"one stage", filetest.Steps("Soup", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Chill it.|fridge|cool: 5 °C within 6 h"), []string{}},
	} {
		assert.Equal(t, tt.want, said(Check([]Source{{"a.md", tt.text}, {"k.md", filetest.USKitchen}})), tt.name)
	}
}
