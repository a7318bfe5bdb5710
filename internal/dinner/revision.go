package dinner

import (
	"crypto/sha256"
	"encoding/hex"
)

// Revision names a text: the first 24 hex digits of its SHA-256. Equal texts
// have equal names wherever they were typed.
func Revision(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:12])
}

// IsRevision reports whether a word has the form that [Revision] gives.
func IsRevision(word string) bool {
	if len(word) != 24 {
		return false
	}
	for _, c := range []byte(word) {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}
