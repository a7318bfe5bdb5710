package store

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/crc32"

	"hobside/internal/dinner"
)

// A Record is one line of the log: exactly one of Event and File is set.
type Record struct {
	Seq   uint64        `json:"-"`
	Event *dinner.Event `json:"event,omitempty"`
	File  *File         `json:"file,omitempty"`
}

// A File is one revision of a card, menu or kitchen.
type File struct {
	ID       string `json:"id,omitempty"` // of the offer it came by; "" when the server made it by a merge
	Name     string `json:"name"`
	Revision string `json:"revision"` // dinner.Revision of Text
	Base     string `json:"base"`     // the revision it was made from, "" when new
	Text     string `json:"-"`        // kept once, in the bucket of texts
	Device   string `json:"device"`
	At       int64  `json:"at"` // when the server took it, Unix milliseconds
	Clash    bool   `json:"clash,omitempty"`
}

// ID is what the record was sent by; "" for what the server made itself.
func (r Record) ID() string {
	if r.Event != nil {
		return r.Event.ID
	}
	return r.File.ID
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// encode writes a record: four bytes of CRC-32C, then JSON. bbolt sums up only
// its first pages; without a sum of our own a flipped bit in a weight would be
// cooked.
func encode(r Record) ([]byte, error) {
	body, err := json.Marshal(r)
	if err != nil {
		return nil, fmt.Errorf("record %s: %w", r.ID(), err)
	}
	out := binary.BigEndian.AppendUint32(make([]byte, 0, 4+len(body)), crc32.Checksum(body, castagnoli))
	return append(out, body...), nil
}

// decode reads a record back; anything but what encode wrote is damage.
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

// key writes a sequence number so that it sorts as it counts.
func key(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// unkey reads one; 0, which is no record's number, when it is none.
func unkey(b []byte) uint64 {
	if len(b) != 8 {
		return 0
	}
	return binary.BigEndian.Uint64(b)
}
