package store

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/crc32"

	"hobside/internal/dinner"
)

// A Record is one entry of the log. Exactly one of Event and File is set.
type Record struct {
	Seq   uint64        `json:"-"` // its place in the log, from 1
	Event *dinner.Event `json:"event,omitempty"`
	File  *File         `json:"file,omitempty"`
}

// A File is one revision of a card, menu or kitchen.
type File struct {
	ID       string `json:"id,omitempty"` // of the offer that brought it; "" when the server made it by a merge
	Name     string `json:"name"`
	Revision string `json:"revision"` // dinner.Revision of Text
	Base     string `json:"base"`     // the revision it was made from, "" for a new file
	Text     string `json:"-"`        // stored once for each revision, in the bucket of texts
	Device   string `json:"device"`
	At       int64  `json:"at"`              // when the server took it, Unix milliseconds
	Clash    bool   `json:"clash,omitempty"` // a text of an earlier release that has two versions of some lines in it

	// Beside is the revision that was the newest when this one came and changed the
	// same lines. The two wait for somebody to choose; the newest stays the newest.
	Beside string `json:"beside,omitempty"`
	// Awaits is the revision that this one was beside in another data file, and that has
	// not come yet: this one is the newest until then.
	Awaits string `json:"awaits,omitempty"`
	// Settles are the revisions beside the newest that this one was chosen over, or
	// made from: they wait no more.
	Settles []string `json:"settles,omitempty"`
}

// A Written is a record that a transaction has just put on disk.
type Written struct {
	Record
	EventJSON []byte // the event as it is in the file; nil for a file. Do not change it
	Size      int    // bytes, as [Tx.Since] counts them
	Chain     Chain
}

// ID returns the id that the record was sent with, "" for a file that the server
// made itself.
func (r Record) ID() string {
	if r.Event != nil {
		return r.Event.ID
	}
	return r.File.ID
}

// TextSize returns how many bytes a text takes in JSON, without its quotes. A text of
// control characters, or of the signs of HTML, becomes six times as long there.
func TextSize(text string) int {
	n := len(text)
	for i := range len(text) {
		switch c := text[i]; {
		case c < ' ', c == '<', c == '>', c == '&':
			n += 5 // \u003c
		case c == '"', c == '\\':
			n++
		case c == 0xe2: // perhaps a line separator, \u2028
			n += 3
		}
	}
	return n
}

// recordHead is the length of what a stored record has before its JSON: four bytes of
// CRC-32C over the sequence number and all that follows, and its chain.
const recordHead = 4 + 8

// encode returns the JSON of a record. Event is the JSON of the event alone, nil for a
// file.
func encode(r Record) (body, event []byte, err error) {
	if r.Event != nil {
		if event, err = json.Marshal(r.Event); err == nil {
			body = fmt.Appendf(nil, `{"event":%s}`, event) // what json.Marshal(r) gives, without a second run
		}
	} else {
		body, err = json.Marshal(r)
	}
	if err != nil {
		return nil, nil, fmt.Errorf("record %s: %w", r.ID(), err)
	}
	return body, event, nil
}

// withHead returns the JSON of a record as it is stored under a sequence number.
// bbolt keeps a checksum of its meta pages only; without one of our own a flipped bit
// in a weight would end up in a pot.
func withHead(seq uint64, chain Chain, body []byte) []byte {
	v := binary.BigEndian.AppendUint64(make([]byte, 4, recordHead+len(body)), uint64(chain))
	v = append(v, body...)
	binary.BigEndian.PutUint32(v, recordSum(seq, v[4:]))
	return v
}

func recordSum(seq uint64, v []byte) uint32 {
	return crc32.Update(crc32.Checksum(key(seq), castagnoli), castagnoli, v)
}

// bodyOf returns the JSON of the record that is stored under a sequence number; ok is
// false when its checksum does not match.
func bodyOf(seq uint64, b []byte) (body []byte, ok bool) {
	if len(b) < recordHead || recordSum(seq, b[4:]) != binary.BigEndian.Uint32(b) {
		return nil, false
	}
	return b[recordHead:], true
}

// decode returns the record that is stored under a sequence number. It returns an
// error that wraps [ErrDamaged] for bytes that withHead did not write there.
func decode(seq uint64, b []byte) (Record, error) {
	if b == nil {
		return Record{}, fmt.Errorf("%w: record %d is missing", ErrDamaged, seq)
	}
	body, ok := bodyOf(seq, b)
	if !ok {
		return Record{}, fmt.Errorf("%w: record %d does not match its checksum", ErrDamaged, seq)
	}
	r := Record{Seq: seq}
	if err := json.Unmarshal(body, &r); err != nil {
		return Record{}, fmt.Errorf("%w: record %d: %v", ErrDamaged, seq, err)
	}
	if (r.Event == nil) == (r.File == nil) {
		return Record{}, fmt.Errorf("%w: record %d is neither an event nor a file", ErrDamaged, seq)
	}
	return r, nil
}

// key returns a sequence number as a key: big endian, so that keys sort as the
// numbers do.
func key(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// unkey returns the sequence number of a key, and 0, which no record has, for
// bytes that are not one.
func unkey(b []byte) uint64 {
	if len(b) != 8 {
		return 0
	}
	return binary.BigEndian.Uint64(b)
}
