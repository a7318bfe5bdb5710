package hub

import (
	"fmt"
	"slices"

	"hobside/internal/store"
)

// maxTail is how many of the newest records stay in memory.
const maxTail = 1024

// A tail is the end of the log in memory, as it was written. When one phone
// ticks, all others ask for the same few records; reading and decoding them from
// disk for each phone would be most of the server's work.
type tail struct {
	from    uint64         // sequence number of the first record
	records []store.Record // in order, without gaps, never changed
	encoded [][]byte       // the JSON of each event, nil for a file
	sizes   []int          // of each record in bytes, as store.Tx.Since counts them
	chains  []store.Chain  // of each record
	before  store.Chain    // of the record before the first
}

// add adds records that follow the last one.
func (t *tail) add(written []store.Written) {
	for _, w := range written {
		t.records = append(t.records, w.Record)
		t.encoded = append(t.encoded, w.EventJSON)
		t.sizes = append(t.sizes, w.Size)
		t.chains = append(t.chains, w.Chain)
	}
	if over := len(t.records) - maxTail; over > 0 {
		t.before = t.chains[over-1]
		t.chains = slices.Clone(t.chains[over:])
		t.records = slices.Clone(t.records[over:]) // a copy, so that the old ones are freed
		t.encoded = slices.Clone(t.encoded[over:])
		t.sizes = slices.Clone(t.sizes[over:])
		t.from += uint64(over)
	}
}

// chain returns the chain at a sequence number; ok is false when the tail does not go
// back that far.
func (t *tail) chain(seq uint64) (c store.Chain, ok bool) {
	switch {
	case seq+1 == t.from:
		return t.before, true
	case seq < t.from, seq-t.from >= uint64(len(t.chains)):
		return 0, false
	}
	return t.chains[seq-t.from], true
}

// has reports whether the tail has every record that follows a sequence number.
func (t *tail) has(after uint64) bool {
	return after+1 >= t.from && after-t.from+1 <= uint64(len(t.records))
}

// since returns all records that follow a sequence number. It is
// store.Tx.Since from memory; ok is false when the tail does not go back far
// enough, or the page would have max bytes or more.
func (t *tail) since(after uint64, max int) (records []store.Record, ok bool) {
	if !t.has(after) {
		return nil, false
	}
	records = t.records[after+1-t.from:]
	if len(records) > MaxRecords {
		return nil, false
	}
	bytes := 0
	for _, size := range t.sizes[after+1-t.from:] {
		bytes += size
	}
	return records, bytes < max
}

// chainsSince returns the chains at a sequence number and at each after it, as the
// JSON of a list.
func (t *tail) chainsSince(after uint64) []byte {
	list := []byte{'['}
	for seq := after; ; seq++ {
		c, ok := t.chain(seq)
		if !ok {
			return append(list, ']')
		}
		if seq > after {
			list = append(list, ',')
		}
		list = fmt.Appendf(list, `"%s"`, c)
	}
}

// eventsSince returns the JSON of the events that follow a sequence number,
// joined by commas. ok is false when the tail does not have them all, when a file
// is among them, or when they have more than max bytes.
func (t *tail) eventsSince(after uint64, max int) (joined []byte, ok bool) {
	if !t.has(after) {
		return nil, false
	}
	for _, b := range t.encoded[after+1-t.from:] {
		if b == nil || len(joined)+len(b) > max {
			return nil, false
		}
		if len(joined) > 0 {
			joined = append(joined, ',')
		}
		joined = append(joined, b...)
	}
	return joined, true
}
