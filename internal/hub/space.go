package hub

import (
	"encoding/json"
	"errors"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// maxReplyBytes bounds the records of one reply: they have at most this many bytes, and
// one record more that a page has at least. A page of cards is far larger than a page
// of ticks, and little should be lost when a weak signal breaks off.
const maxReplyBytes = 1 << 20

// errNoSpace means that the answer to a record does not fit into the reply. The record
// is neither acknowledged nor refused, and the phone sends it again.
var errNoSpace = errors.New("the reply is full")

// A space is what is left of a reply in bytes.
type space struct {
	left int
	used bool
}

// take reports whether a record of n bytes fits, and takes its bytes. The first record
// always fits, so that every reply leads on.
func (s *space) take(n int) bool {
	if s.used && n > s.left {
		return false
	}
	s.used = true
	s.left -= n
	return true
}

// forPage returns how many bytes a page of the log may have, at least 1.
func (s *space) forPage() int { return max(1, s.left) }

// eventSize returns the size of an event in a reply, in bytes.
func eventSize(ev dinner.Event) int {
	b, _ := json.Marshal(ev) // it came from the store, where it has a JSON form
	return len(b)
}

// fileSize returns about the size of a file in a reply, in bytes.
func fileSize(f store.File) int { return store.TextSize(f.Text) + 400 }
