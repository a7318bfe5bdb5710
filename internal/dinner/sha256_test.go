package dinner

import (
	"crypto/sha256"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every length across three blocks: the padding is where such code goes wrong.
func TestSum256HasThePaddingOfTheStandard(t *testing.T) {
	for n := range 200 {
		text := strings.Repeat("é", n/2) + strings.Repeat("x", n%2)
		require.Equal(t, sha256.Sum256([]byte(text)), sum256(text), "%d bytes", n)
	}
}

func TestSum256IsThatOfTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := string(rapid.SliceOfN(rapid.Byte(), 0, 5000).Draw(t, "text"))
		require.Equal(t, sha256.Sum256([]byte(text)), sum256(text))
	})
}

func BenchmarkRevision(b *testing.B) {
	text := strings.Repeat("a card has four kilobytes or so\n", 128)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		Revision(text)
	}
}
