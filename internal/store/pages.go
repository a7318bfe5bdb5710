package store

import (
	"encoding/binary"
	"fmt"
	"io"
)

// The layout of bbolt's pages, file format 2 (bbolt 1.5, internal/common: page.go,
// meta.go, bucket.go). All numbers are the machine's own; bbolt files do not
// travel between byte orders, and so neither does this.
const (
	pageHead     = 16 // id 8, flags 2, count 2, overflow 4
	elementSize  = 16 // branch: pos 4, ksize 4, page 8; leaf: flags 4, pos 4, ksize 4, vsize 4
	metaSize     = 64 // magic 4, version 4, page size 4, flags 4, root 8, sequence 8, freelist 8, pages 8, txid 8, checksum 8
	bucketHead   = 16 // root 8, sequence 8
	isBranch     = 0x01
	isLeaf       = 0x02
	isFreelist   = 0x10
	leafIsBucket = 0x01
	noFreelist   = ^uint64(0)
	manyFree     = 0xFFFF // the freelist's count is in its first element
)

var native = binary.NativeEndian

// checkPages walks bbolt's pages as they are on disk and says what is wrong with
// their structure: every page must be in use once or free, and what it holds
// must lie inside it. It has to come before anything that trusts the pages,
// bbolt's own check included: that one follows a ring of pages for ever.
//
// Txid is the transaction whose pages are meant; no write may be under way.
func checkPages(file io.ReaderAt, pageSize, txid int) error {
	w := pageWalk{file: file, size: pageSize, seen: map[uint64]bool{0: true, 1: true}}
	meta, err := w.meta(uint64(txid))
	if err != nil {
		return err
	}
	w.pages = native.Uint64(meta[40:])
	w.next = []uint64{native.Uint64(meta[16:])}
	for len(w.next) > 0 {
		id := w.next[len(w.next)-1]
		w.next = w.next[:len(w.next)-1]
		if err := w.page(id); err != nil {
			return err
		}
	}
	if err := w.free(native.Uint64(meta[32:])); err != nil {
		return err
	}
	if lost := w.pages - uint64(len(w.seen)); lost != 0 {
		return fmt.Errorf("%w: %d of its pages are neither in use nor free", ErrDamaged, lost)
	}
	return nil
}

type pageWalk struct {
	file  io.ReaderAt
	size  int
	pages uint64          // how many there are
	seen  map[uint64]bool // in use, or free
	next  []uint64        // to be looked at
	buf   []byte
}

func (w *pageWalk) meta(txid uint64) ([]byte, error) {
	b := make([]byte, pageHead+metaSize)
	for id := range int64(2) {
		if _, err := w.file.ReadAt(b, id*int64(w.size)); err != nil {
			return nil, err
		}
		if m := b[pageHead:]; native.Uint64(m[48:]) == txid {
			return m, nil
		}
	}
	return nil, fmt.Errorf("%w: its head is not that of transaction %d", ErrDamaged, txid)
}

// read gives a page with those that it runs over into, and marks them seen.
func (w *pageWalk) read(id uint64) (b []byte, flags, count int, err error) {
	if id < 2 || id >= w.pages {
		return nil, 0, 0, fmt.Errorf("%w: it points to page %d of %d", ErrDamaged, id, w.pages)
	}
	head := make([]byte, pageHead)
	if _, err := w.file.ReadAt(head, int64(id)*int64(w.size)); err != nil {
		return nil, 0, 0, fmt.Errorf("%w: page %d: %v", ErrDamaged, id, err)
	}
	over := uint64(native.Uint32(head[12:]))
	if native.Uint64(head) != id || over >= w.pages-id {
		return nil, 0, 0, fmt.Errorf("%w: page %d is not what its head says", ErrDamaged, id)
	}
	for p := id; p <= id+over; p++ {
		if w.seen[p] {
			return nil, 0, 0, fmt.Errorf("%w: page %d is in use twice", ErrDamaged, p)
		}
		w.seen[p] = true
	}
	if n := int(over+1) * w.size; cap(w.buf) < n {
		w.buf = make([]byte, n)
	}
	b = w.buf[:int(over+1)*w.size]
	if _, err := w.file.ReadAt(b, int64(id)*int64(w.size)); err != nil {
		return nil, 0, 0, fmt.Errorf("%w: page %d: %v", ErrDamaged, id, err)
	}
	return b, int(native.Uint16(head[8:])), int(native.Uint16(head[10:])), nil
}

func (w *pageWalk) page(id uint64) error {
	b, flags, count, err := w.read(id)
	if err != nil {
		return err
	}
	switch flags {
	case isBranch:
		return w.branch(id, b, count)
	case isLeaf:
		return w.leaf(id, b, count)
	}
	return fmt.Errorf("%w: page %d has the flags %#x", ErrDamaged, id, flags)
}

func (w *pageWalk) branch(id uint64, b []byte, count int) error {
	if count == 0 || pageHead+count*elementSize > len(b) {
		return fmt.Errorf("%w: page %d has %d branches", ErrDamaged, id, count)
	}
	for i := range count {
		at := pageHead + i*elementSize
		e := b[at:]
		if !inside(b, at, native.Uint32(e), native.Uint32(e[4:]), 0) {
			return fmt.Errorf("%w: page %d: branch %d lies outside it", ErrDamaged, id, i)
		}
		w.next = append(w.next, native.Uint64(e[8:]))
	}
	return nil
}

func (w *pageWalk) leaf(id uint64, b []byte, count int) error {
	if pageHead+count*elementSize > len(b) {
		return fmt.Errorf("%w: page %d has %d entries", ErrDamaged, id, count)
	}
	for i := range count {
		at := pageHead + i*elementSize
		e := b[at:]
		flags, pos, ksize, vsize := native.Uint32(e), native.Uint32(e[4:]), native.Uint32(e[8:]), native.Uint32(e[12:])
		if !inside(b, at, pos, ksize, vsize) || flags > leafIsBucket {
			return fmt.Errorf("%w: page %d: entry %d lies outside it", ErrDamaged, id, i)
		}
		if flags != leafIsBucket {
			continue
		}
		v := b[at+int(pos)+int(ksize):][:vsize]
		if len(v) < bucketHead {
			return fmt.Errorf("%w: page %d: entry %d is no bucket", ErrDamaged, id, i)
		}
		if root := native.Uint64(v); root != 0 {
			w.next = append(w.next, root)
			continue
		}
		inline := v[bucketHead:] // a small bucket is a page within the entry
		if len(inline) < pageHead || native.Uint16(inline[8:]) != isLeaf {
			return fmt.Errorf("%w: page %d: entry %d is no bucket", ErrDamaged, id, i)
		}
		if err := w.leaf(id, inline, int(native.Uint16(inline[10:]))); err != nil {
			return err
		}
	}
	return nil
}

// inside says whether an element's key and value lie after all heads that fit
// before it, and within the page.
func inside(b []byte, at int, pos, ksize, vsize uint32) bool {
	return pos >= elementSize && int64(at)+int64(pos)+int64(ksize)+int64(vsize) <= int64(len(b))
}

func (w *pageWalk) free(id uint64) error {
	if id == noFreelist {
		return nil
	}
	b, flags, count, err := w.read(id)
	if err != nil {
		return err
	}
	list := b[pageHead:]
	n := uint64(count)
	if n == manyFree && len(list) >= 8 {
		n, list = native.Uint64(list), list[8:]
	}
	if flags != isFreelist || n > uint64(len(list)/8) {
		return fmt.Errorf("%w: page %d is no list of free pages", ErrDamaged, id)
	}
	for i := range n {
		p := native.Uint64(list[i*8:])
		if p < 2 || p >= w.pages || w.seen[p] {
			return fmt.Errorf("%w: page %d is free and is not", ErrDamaged, p)
		}
		w.seen[p] = true
	}
	return nil
}
