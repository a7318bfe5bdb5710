package store

import (
	"encoding/binary"
	"slices"

	"hobside/internal/dinner"
)

// The first byte of a stored text says its form. A card that is edited a hundred times
// would else be stored a hundred times.
const (
	wholeText = 'T' // the text
	deltaText = 'D' // what deltaHead says, and what is between the two ends
)

// A delta begins with its form, the number of steps that lead to a whole text, the
// revision of the text it differs from, and the numbers of bytes that both texts begin
// and end with.
const (
	revisionLen = 24 // of dinner.Revision
	deltaHead   = 1 + 1 + revisionLen + 4 + 4
	minDelta    = 1 << 10 // shorter texts are stored whole
	maxSteps    = 32      // from a text to a whole one
)

// storeText returns a text as it is stored. A long text that differs from that of its
// base in one place only is stored as that difference.
func (tx *Tx) storeText(f File) []byte {
	whole := append([]byte{wholeText}, f.Text...)
	if len(f.Text) < minDelta || f.Base == "" || f.Base == f.Revision {
		return whole
	}
	steps := 1
	if b := tx.tx.Bucket(bucketTexts).Get([]byte(f.Base)); len(b) >= deltaHead && b[0] == deltaText {
		steps += int(b[1])
	}
	base, err := tx.Text(f.Base)
	if err != nil || steps > maxSteps {
		return whole
	}
	begin, end := ends(base, f.Text)
	if deltaHead+len(f.Text)-begin-end > len(whole)/2 {
		return whole
	}
	delta := append([]byte{deltaText, byte(steps)}, f.Base...)
	delta = binary.BigEndian.AppendUint32(delta, uint32(begin))
	delta = binary.BigEndian.AppendUint32(delta, uint32(end))
	return append(delta, f.Text[begin:len(f.Text)-end]...)
}

// ends returns how many bytes two texts have in common where they begin and end.
func ends(a, b string) (begin, end int) {
	most := min(len(a), len(b))
	for begin < most && a[begin] == b[begin] {
		begin++
	}
	for end < most-begin && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	return begin, end
}

// readText returns the text that storeText stored under a revision; ok is false for
// bytes that give no text of that revision.
func (tx *Tx) readText(revision string, stored []byte) (text string, ok bool) {
	var deltas [][]byte
	for len(stored) >= deltaHead && stored[0] == deltaText && len(deltas) <= maxSteps {
		deltas = append(deltas, stored)
		stored = tx.tx.Bucket(bucketTexts).Get(stored[2 : 2+revisionLen])
	}
	if len(stored) == 0 || stored[0] != wholeText {
		return "", false
	}
	b := stored[1:]
	for _, d := range slices.Backward(deltas) {
		begin, end := binary.BigEndian.Uint32(d[deltaHead-8:]), binary.BigEndian.Uint32(d[deltaHead-4:])
		if uint64(begin)+uint64(end) > uint64(len(b)) {
			return "", false
		}
		b = slices.Concat(b[:begin], d[deltaHead:], b[len(b)-int(end):])
	}
	text = string(b)
	return text, dinner.Revision(text) == revision
}
