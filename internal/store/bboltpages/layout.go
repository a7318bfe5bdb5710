// Package bboltpages checks the page structure of a bbolt file without trusting
// it. Enter by [Check].
//
// bbolt has a check of its own, Tx.Check, but it trusts what it reads: on a
// damaged file it follows a ring of pages for ever, and a position outside a
// page makes it panic or read memory that is not the file's. bbolt.Open checks
// only the two meta pages and the list of free pages. So the store runs Check on
// every file before bbolt reads anything else in it.
//
// The price is that this package knows bbolt's file layout, which bbolt keeps
// in an internal package. That knowledge is in this file and nowhere else in the
// project, and it is tied to [FormatVersion]: Check refuses a file of another
// version, and the tests compare this layout with files that the bbolt in go.mod
// has just written. When they fail after an upgrade of bbolt, read its
// internal/common package and bring this file up to it.
package bboltpages

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// FormatVersion is the version of bbolt's file format that this package reads.
const FormatVersion = 2

// ErrVersion means that a file has another version than [FormatVersion], or is
// not a bbolt file at all.
var ErrVersion = errors.New("bbolt file format not known")

// The layout of format 2, as read in bbolt 1.5.0, internal/common: page.go,
// meta.go, bucket.go, types.go. All sizes are in bytes.
const (
	magic        = 0xED0CDAED
	headSize     = 16 // page: id 8, flags 2, count 2, overflow 4
	elementSize  = 16 // branch: position 4, key size 4, page 8; leaf: flags 4, position 4, key size 4, value size 4
	metaSize     = 64 // magic 4, version 4, page size 4, flags 4, root page 8, sequence 8, free list 8, pages 8, transaction 8, checksum 8
	bucketSize   = 16 // bucket: root page 8, sequence 8
	branchPage   = 0x01
	leafPage     = 0x02
	metaPage     = 0x04
	freeListPage = 0x10
	bucketEntry  = 0x01       // flag of a leaf element whose value is a bucket
	noFreeList   = ^uint64(0) // in a meta page: the file has no free list
	longFreeList = 0xFFFF     // as a free list's count: the count is the first item instead
)

// native is this machine's byte order. bbolt writes its numbers in it, so a
// file can't move between machines of different byte order.
var native = binary.NativeEndian

// A meta holds what Check needs of a meta page.
type meta struct {
	root     uint64 // page of the root bucket
	freeList uint64 // first page of the free list, or noFreeList
	pages    uint64 // number of pages in the file
}

// readMeta returns the meta page that transaction txid wrote. It fails when
// neither of the two meta pages is of that transaction, with an error that wraps
// [ErrVersion] when the page is of another format. The other meta page may hold
// anything: a power cut while bbolt writes it leaves it half written.
func readMeta(file io.ReaderAt, pageSize int, txid uint64) (meta, error) {
	b := make([]byte, headSize+metaSize)
	for id := range int64(2) {
		if _, err := file.ReadAt(b, id*int64(pageSize)); err != nil {
			return meta{}, fmt.Errorf("meta page %d: %w", id, err)
		}
		m := b[headSize:]
		if native.Uint64(m[48:]) != txid {
			continue
		}
		if have, version := native.Uint32(m), native.Uint32(m[4:]); have != magic || version != FormatVersion {
			return meta{}, fmt.Errorf("%w: magic %#x, version %d; this release reads magic %#x, version %d", ErrVersion, have, version, uint32(magic), FormatVersion)
		}
		if native.Uint64(b) != uint64(id) || native.Uint16(b[8:]) != metaPage {
			return meta{}, fmt.Errorf("page %d does not begin with its own page head", id)
		}
		return meta{root: native.Uint64(m[16:]), freeList: native.Uint64(m[32:]), pages: native.Uint64(m[40:])}, nil
	}
	return meta{}, fmt.Errorf("no meta page is of transaction %d", txid)
}
