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
	At       int64  `json:"at"` // when the server took it, Unix milliseconds
	Clash    bool   `json:"clash,omitempty"`
}

// A Written is a record that a transaction has just put on disk.
type Written struct {
	Record
	EventJSON []byte // the event as it is in the file; nil for a file. Do not change it
	Size      int    // bytes, as [Tx.Since] counts them
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

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// encode returns a record as it is stored: four bytes of CRC-32C, then JSON.
// bbolt keeps a checksum of its meta pages only; without one of our own a
// flipped bit in a weight would end up in a pot. Event is the JSON of the event
// alone, nil for a file.
func encode(r Record) (value, event []byte, err error) {
	var body []byte
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
	value = binary.BigEndian.AppendUint32(make([]byte, 0, 4+len(body)), crc32.Checksum(body, castagnoli))
	return append(value, body...), event, nil
}

// decode returns the record that encode stored under a sequence number. It
// returns an error that wraps [ErrDamaged] for any other bytes.
func decode(seq uint64, b []byte) (Record, error) {
	body, ok := bodyOf(b)
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

// bodyOf returns the JSON of a stored record; ok is false when its checksum does
// not match.
func bodyOf(b []byte) (body []byte, ok bool) {
	if len(b) < 4 || crc32.Checksum(b[4:], castagnoli) != binary.BigEndian.Uint32(b) {
		return nil, false
	}
	return b[4:], true
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
