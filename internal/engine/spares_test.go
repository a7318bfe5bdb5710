package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPassKnowsSparePlates: a plate with spares says so at the pass and where it goes, and
// its batch has them; a plate on two courses says it once.
func TestPassKnowsSparePlates(t *testing.T) {
	_, d := openMenu(t, []File{
		{Name: "supper.md", Text: "---\ncovers: 10\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## First\n\n- [Toast](toast.md)\n\n## Again\n\n- after: 30 min\n- [Toast](toast.md)\n"},
		{Name: "toast.md", Text: "---\nmakes: 1 plate\nspares: 2\n---\n\n# Toast\n\n## Formula\n\n- 50 g bread\n\n## Method\n\n1. Toast the **bread**.\n   - hands: 5 min\n"},
	}, "supper.md")
	require.Len(t, d.Courses, 2)
	assert.Equal(t, "2 plates", d.Courses[0].Plates[0].Spare)
	assert.Empty(t, d.Courses[1].Plates[0].Spare)
	toast := cardOf(t, d, "toast")
	assert.Contains(t, toast.GoesInto, "spare: 2 plates")
	require.Len(t, toast.Batches, 2, "a course by itself")
	assert.Equal(t, "12 plates", toast.Batches[0].Make)
	assert.Equal(t, "10 plates", toast.Batches[1].Make)
}
