package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestServiceAndFaultsAreWhereTheyAreNeeded: the service is at the pass and on the last step
// alone, a fault on the step that it names, and all of it on the card's page.
func TestServiceAndFaultsAreWhereTheyAreNeeded(t *testing.T) {
	p, d := openMenu(t, []File{
		{Name: "supper.md", Text: "---\ncovers: 10\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## First\n\n- [Toast](toast.md)\n"},
		{Name: "toast.md", Text: "---\nmakes: 1 plate\n---\n\n# Toast\n\n## Formula\n\n- 50 g bread\n\n## Method\n\n1. Toast the **bread**.\n   - hands: 5 min\n2. Send.\n   - hands: 1 min\n   - serve\n" +
			"\n## Service\n\n- portion tool: tongs\n- serving temperature: hot\n\n![Gold](data:image/png;base64,AAAA)\n\n## Faults\n\n- step 1: burnt edge: cut it off\n"},
	}, "supper.md")
	served := []FactView{{"serving temperature", "hot"}, {"portion tool", "tongs"}}
	pass := d.Courses[0].Plates[0]
	assert.Equal(t, served, pass.Service)
	assert.Equal(t, PictureView{"data:image/png;base64,AAAA", "Gold"}, pass.Picture)
	steps := cardOf(t, d, "toast").Batches[0].Steps
	require.Len(t, steps, 2)
	assert.Equal(t, []FaultView{{"burnt edge", "cut it off"}}, steps[0].Faults)
	assert.Empty(t, steps[1].Faults)
	assert.NotContains(t, steps[0].Facts, served[0])
	assert.Subset(t, steps[1].Facts, served)
	page := call[PageView](t, p.e, "read", ReadCall{Name: "toast.md"})
	assert.Empty(t, page.Problems)
	assert.Contains(t, page.HTML, "<li>step 1: burnt edge: cut it off</li>")
	assert.Contains(t, page.HTML, "<li>portion tool: tongs</li>")
}
