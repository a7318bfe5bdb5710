package dinner

import (
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestRevision(t *testing.T) {
	const fips = "FIPS 180-2, appendix B; from memory, and the same by sha256sum of GNU coreutils"
	for _, tt := range []struct{ text, digest, source string }{
		{"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", fips},
		{"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1", fips},
		{"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", "sha256sum of GNU coreutils"},
	} {
		assert.Equal(t, tt.digest[:24], Revision(tt.text), "%q; source: %s", tt.text, tt.source)
	}
}

func TestRevisionOfAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		got := Revision(text)
		require.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(text)))[:24], got)
		require.True(t, IsRevision(got))
		require.NotEqual(t, got, Revision(text+"\n"), "one byte more is another revision")
	})
}

func TestIsRevision(t *testing.T) {
	good := Revision("stock")
	for word, want := range map[string]bool{
		good:                          true,
		strings.Repeat("0", 24):       true,
		strings.Repeat("f", 24):       true,
		"":                            false,
		good[:23]:                     false,
		good + "0":                    false,
		strings.Repeat("g", 24):       false,
		strings.Repeat("A", 24):       false,
		strings.Repeat("/", 24):       false,
		strings.Repeat(":", 24):       false,
		strings.Repeat("`", 24):       false,
		strings.Repeat("0", 23) + " ": false,
	} {
		assert.Equal(t, want, IsRevision(word), "%q", word)
	}
}
