package menu

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/larder"
)

// TestGuestLineRoundTrip writes a group of guests as the page does and reads the
// line back: the group must be the same.
func TestGuestLineRoundTrip(t *testing.T) {
	word := rapid.SampledFrom(append(larder.EverydayWords(), "walnuts", "chicken thighs", "crème fraîche", "tree nuts"))
	rapid.Check(t, func(t *rapid.T) {
		g := Guests{
			Covers:  rapid.IntRange(1, MaxCovers).Draw(t, "covers"),
			Exclude: rapid.SliceOfNDistinct(word, 1, 3, rapid.ID[string]).Draw(t, "exclude"),
			Note:    rapid.SampledFrom([]string{"", "by the door", "sits late"}).Draw(t, "note"),
		}
		line := strconv.Itoa(g.Covers) + " covers: no " + strings.Join(g.Exclude, ", no ")
		if g.Note != "" {
			line += " (" + g.Note + ")"
		}
		got, problems := ParseGuests("\n " + line + " \n")
		require.Empty(t, problems, line)
		require.Len(t, got, 1)
		g.Pos = got[0].Pos
		assert.Equal(t, g, got[0])
	})
}

func TestEmptyGuestListHasNoProblems(t *testing.T) {
	got, problems := ParseGuests("")
	assert.Empty(t, got)
	assert.Empty(t, problems)
}
