package store

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
)

// A Chain is a hash of a record and of all records before it: eight bytes of SHA-256
// over the chain of the record before and the record's JSON, which names the revision
// of its text. Logs that differ in any record differ in the chains from there on. It
// tells accidents, such as an old copy of the file, not an attacker. The chain before
// the first record is 0.
type Chain uint64

// String returns the chain as 16 hexadecimal digits.
func (c Chain) String() string { return fmt.Sprintf("%016x", uint64(c)) }

// next returns the chain of the record that follows, of which body is the JSON.
func (c Chain) next(body []byte) Chain {
	h := sha256.New()
	h.Write(binary.BigEndian.AppendUint64(nil, uint64(c)))
	h.Write(body)
	return Chain(binary.BigEndian.Uint64(h.Sum(nil)))
}

// Chain returns the chain at a sequence number; ok is false when there is no such
// record. It does not check the record: where the disk has changed the chain, a phone
// starts over once, and fits after that.
func (tx *Tx) Chain(seq uint64) (c Chain, ok bool) {
	if seq == 0 {
		return 0, true
	}
	return chainOf(tx.tx.Bucket(bucketLog).Get(key(seq)))
}

// chainOf returns the chain of a stored record.
func chainOf(value []byte) (c Chain, ok bool) {
	if len(value) < recordHead {
		return 0, false
	}
	return Chain(binary.BigEndian.Uint64(value[4:])), true
}
