package store

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// seal returns a value as the indexes and the meta bucket hold it: four bytes of
// CRC-32C, then the value. The checksum is over the names of the bucket and the key
// too, so that a key that the disk changed is noticed.
func seal(bucket, key, value []byte) []byte {
	return append(binary.BigEndian.AppendUint32(make([]byte, 0, 4+len(value)), sealSum(bucket, key, value)), value...)
}

// unseal returns the value that seal was given; ok is false for any other bytes.
func unseal(bucket, key, sealed []byte) (value []byte, ok bool) {
	if len(sealed) < 4 || sealSum(bucket, key, sealed[4:]) != binary.BigEndian.Uint32(sealed) {
		return nil, false
	}
	return sealed[4:], true
}

func sealSum(bucket, key, value []byte) uint32 {
	sum := crc32.Checksum(bucket, castagnoli)
	sum = crc32.Update(sum, castagnoli, []byte{byte(len(key)), byte(len(key) >> 8)}) // where the key ends
	sum = crc32.Update(sum, castagnoli, key)
	return crc32.Update(sum, castagnoli, value)
}

// put stores a sealed value.
func (tx *Tx) put(bucket, key, value []byte) error {
	tx.dirty = true
	return tx.tx.Bucket(bucket).Put(key, seal(bucket, key, value))
}

// get returns a sealed value, nil when the bucket does not have the key. It fails with
// [ErrDamaged] when the disk has changed the value.
func (tx *Tx) get(bucket, key []byte) ([]byte, error) {
	sealed := tx.tx.Bucket(bucket).Get(key)
	if sealed == nil {
		return nil, nil
	}
	value, ok := unseal(bucket, key, sealed)
	if !ok {
		return nil, tx.store.note(entryError(bucket, key))
	}
	return value, nil
}

// has reports whether a bucket has a key. It notes a value that the disk has changed.
func (tx *Tx) has(bucket, key []byte) bool {
	value, err := tx.get(bucket, key)
	return value != nil || err != nil
}

// entryError says that an entry of an index is damaged.
func entryError(bucket, key []byte) error {
	return fmt.Errorf("%w: the entry of %q in %q does not match its checksum", ErrDamaged, key, bucket)
}

// sealed checks every entry of the indexes, of the devices and of the meta bucket, and
// calls wrong with an error for each that the disk has changed.
func (tx *Tx) sealed(wrong func(error)) {
	for _, name := range sealedBuckets {
		tx.tx.Bucket(name).ForEach(func(k, v []byte) error {
			if _, ok := unseal(name, k, v); !ok {
				wrong(entryError(name, k))
			}
			return nil
		})
	}
	tx.tx.Bucket(bucketMeta).ForEach(func(k, v []byte) error {
		if _, ok := unseal(bucketMeta, k, v); !ok && string(k) != string(keyFormat) {
			wrong(entryError(bucketMeta, k))
		}
		return nil
	})
}
