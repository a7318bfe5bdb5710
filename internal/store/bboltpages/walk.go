package bboltpages

import (
	"errors"
	"fmt"
	"io"
)

// Check reads the pages of a bbolt file that transaction txid sees and returns
// an error when their structure is wrong. The structure is right when every
// page is either in use once or free, and everything a page holds lies inside
// it. Check does not compare keys or read values: after it, bbolt's own check
// can do that without harm.
//
// PageSize is in bytes. Nothing may write to the file meanwhile. The error wraps
// [ErrVersion] when the file has another format.
func Check(file io.ReaderAt, pageSize, txid int) error {
	m, err := readMeta(file, pageSize, uint64(txid))
	if err != nil {
		return err
	}
	w := walk{file: file, pageSize: pageSize, pages: m.pages, seen: map[uint64]bool{0: true, 1: true}, next: []uint64{m.root}}
	for len(w.next) > 0 {
		id := w.next[len(w.next)-1]
		w.next = w.next[:len(w.next)-1]
		if err := w.page(id); err != nil {
			return err
		}
	}
	if err := w.freeList(m.freeList); err != nil {
		return err
	}
	if lost := w.pages - uint64(len(w.seen)); lost != 0 {
		return fmt.Errorf("%d pages are neither in use nor free", lost)
	}
	return nil
}

// A walk is one run of Check.
type walk struct {
	file     io.ReaderAt
	pageSize int
	pages    uint64          // number of pages in the file
	seen     map[uint64]bool // pages found in use or free so far
	next     []uint64        // pages still to read
	buf      []byte          // the page read last
}

// read returns a page together with its overflow pages, and marks them all as
// seen. The bytes are good until the next call. It fails when a page does not
// exist, has another page's head, or was seen before.
func (w *walk) read(id uint64) (b []byte, flags, count int, err error) {
	if id < 2 || id >= w.pages {
		return nil, 0, 0, fmt.Errorf("a page number is %d; the file has %d pages", id, w.pages)
	}
	head := make([]byte, headSize)
	if _, err := w.file.ReadAt(head, int64(id)*int64(w.pageSize)); err != nil {
		return nil, 0, 0, fmt.Errorf("page %d: %w", id, err)
	}
	overflow := uint64(native.Uint32(head[12:]))
	if native.Uint64(head) != id || overflow >= w.pages-id {
		return nil, 0, 0, fmt.Errorf("page %d does not begin with its own page head", id)
	}
	for p := id; p <= id+overflow; p++ {
		if w.seen[p] {
			return nil, 0, 0, fmt.Errorf("page %d is in use twice", p)
		}
		w.seen[p] = true
	}
	size := int(overflow+1) * w.pageSize
	if cap(w.buf) < size {
		w.buf = make([]byte, size)
	}
	b = w.buf[:size]
	if _, err := w.file.ReadAt(b, int64(id)*int64(w.pageSize)); err != nil {
		return nil, 0, 0, fmt.Errorf("page %d: %w", id, err)
	}
	return b, int(native.Uint16(head[8:])), int(native.Uint16(head[10:])), nil
}

// page checks a page of a bucket's tree and notes the pages it leads to.
func (w *walk) page(id uint64) error {
	b, flags, count, err := w.read(id)
	if err != nil {
		return err
	}
	switch flags {
	case branchPage:
		return w.branch(id, b, count)
	case leafPage:
		return w.leaf(id, b, count)
	}
	return fmt.Errorf("page %d has unknown flags %#x", id, flags)
}

func (w *walk) branch(id uint64, b []byte, count int) error {
	if count == 0 || headSize+count*elementSize > len(b) {
		return fmt.Errorf("page %d can't hold %d branches", id, count)
	}
	for i := range count {
		at := headSize + i*elementSize
		e := b[at:]
		if !inside(b, at, native.Uint32(e), native.Uint32(e[4:]), 0) {
			return fmt.Errorf("page %d: branch %d lies outside the page", id, i)
		}
		w.next = append(w.next, native.Uint64(e[8:]))
	}
	return nil
}

func (w *walk) leaf(id uint64, b []byte, count int) error {
	return entries(id, b, count, func(value []byte) error {
		if len(value) < bucketSize {
			return fmt.Errorf("%d bytes are too few for a bucket", len(value))
		}
		if root := native.Uint64(value); root != 0 {
			w.next = append(w.next, root)
			return nil
		}
		return smallBucket(id, value[bucketSize:])
	})
}

// smallBucket checks a bucket that bbolt keeps inside an entry of page id, as a
// whole leaf page. bbolt never puts a bucket into a small bucket; refusing one
// also bounds the work, because entries may overlap.
func smallBucket(id uint64, b []byte) error {
	if len(b) < headSize || native.Uint16(b[8:]) != leafPage {
		return errors.New("a small bucket is not a leaf page")
	}
	return entries(id, b, int(native.Uint16(b[10:])), func([]byte) error {
		return errors.New("a small bucket holds a bucket")
	})
}

// entries checks the elements of a leaf page and calls bucket with the value of
// each that is a bucket. It names page id in its errors.
func entries(id uint64, b []byte, count int, bucket func(value []byte) error) error {
	if headSize+count*elementSize > len(b) {
		return fmt.Errorf("page %d can't hold %d entries", id, count)
	}
	for i := range count {
		at := headSize + i*elementSize
		e := b[at:]
		flags, position, keySize, valueSize := native.Uint32(e), native.Uint32(e[4:]), native.Uint32(e[8:]), native.Uint32(e[12:])
		if flags > bucketEntry {
			return fmt.Errorf("page %d: entry %d has unknown flags %#x", id, i, flags)
		}
		if !inside(b, at, position, keySize, valueSize) {
			return fmt.Errorf("page %d: entry %d lies outside the page", id, i)
		}
		if flags != bucketEntry {
			continue
		}
		if err := bucket(b[at+int(position)+int(keySize):][:valueSize]); err != nil {
			return fmt.Errorf("page %d: entry %d: %w", id, i, err)
		}
	}
	return nil
}

// inside reports whether an element's key and value lie behind the element's
// own head and within the page. The element's head is at b[at:].
func inside(b []byte, at int, position, keySize, valueSize uint32) bool {
	return position >= elementSize && int64(at)+int64(position)+int64(keySize)+int64(valueSize) <= int64(len(b))
}

// freeList checks the list of free pages and marks them as seen.
func (w *walk) freeList(id uint64) error {
	if id == noFreeList {
		return nil
	}
	b, flags, count, err := w.read(id)
	if err != nil {
		return err
	}
	list := b[headSize:]
	n := uint64(count)
	if n == longFreeList && len(list) >= 8 {
		n, list = native.Uint64(list), list[8:]
	}
	if flags != freeListPage || n > uint64(len(list)/8) {
		return fmt.Errorf("page %d is not a list of free pages", id)
	}
	for i := range n {
		p := native.Uint64(list[i*8:])
		if p < 2 || p >= w.pages || w.seen[p] {
			return fmt.Errorf("page %d is listed as free but is in use, listed twice or outside the file", p)
		}
		w.seen[p] = true
	}
	return nil
}
