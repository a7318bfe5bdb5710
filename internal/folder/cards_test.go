package folder

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCards(t *testing.T) {
	_, err := Cards(fstest.MapFS{"a.md": {}, "cards/a.md": {}})
	assert.ErrorContains(t, err, "a.md and cards/a.md have the same name")
	files, err := Cards(fstest.MapFS{"b.md": {Data: []byte("b")}, "cards/README.md": {}, "cards/photo.jpg": {}, "cards/a.md": {Data: []byte("a")}})
	require.NoError(t, err)
	assert.Equal(t, []File{{"b.md", "b"}, {"a.md", "a"}}, files)
}
