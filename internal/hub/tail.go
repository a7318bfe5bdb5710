package hub

import (
	"encoding/json"
	"slices"

	"hobside/internal/store"
)

// maxTail is how many of the newest records stay in memory.
const maxTail = 1024

// tail is the end of the log, read from disk once. When one phone ticks, all
// others ask for the same few records; reading them two hundred times is most
// of the work there is.
type tail struct {
	from    uint64         // the number of the first record
	records []store.Record // in order, without gaps; never changed once they are here
	encoded [][]byte       // each event's JSON, made once for all streams; nil for a file
}

// add takes records that follow the last one.
func (t *tail) add(records []store.Record) {
	t.records = append(t.records, records...)
	for _, r := range records {
		var b []byte
		if r.Event != nil {
			b, _ = json.Marshal(r.Event) // it was read from JSON just now
		}
		t.encoded = append(t.encoded, b)
	}
	if over := len(t.records) - maxTail; over > 0 {
		t.records = slices.Clone(t.records[over:]) // a copy, so that the old ones can go
		t.encoded = slices.Clone(t.encoded[over:])
		t.from += uint64(over)
	}
}

// since is store.Tx.Since from memory; ok is false when it does not reach back
// far enough, or the page would be too large.
func (t *tail) since(after uint64) (records []store.Record, ok bool) {
	if after+1 < t.from || after-t.from+1 > uint64(len(t.records)) {
		return nil, false
	}
	records = t.records[after+1-t.from:]
	if len(records) > MaxRecords {
		return nil, false
	}
	bytes := 0
	for _, r := range records {
		if r.File != nil {
			bytes += len(r.File.Text)
		} else {
			bytes += len(r.Event.Text)
		}
	}
	return records, bytes < maxReplyBytes
}

// wordsSince is the JSON of the events after a number, joined by commas; ok is
// false when there is a file among them, or more than max bytes, or they are not
// all here.
func (t *tail) wordsSince(after uint64, max int) (joined []byte, ok bool) {
	if after+1 < t.from || after-t.from+1 > uint64(len(t.encoded)) {
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
