package bboltpages

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	bolt "go.etcd.io/bbolt"
)

// A sampleFile is a bbolt file with every kind of page and entry: branches,
// leaves, overflow pages, free pages, small and large buckets, buckets in
// buckets.
type sampleFile struct {
	bytes    []byte
	pageSize int
	txid     int
	free     int        // free pages, as bbolt counts them
	pages    []pageInfo // every page, as bbolt describes it
}

type pageInfo struct {
	kind            string
	count, overflow int
}

func newSample(t testing.TB) sampleFile {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sample.db")
	db, err := bolt.Open(path, 0o600, &bolt.Options{PageSize: 4096, FreelistType: bolt.FreelistMapType, NoSync: true})
	require.NoError(t, err)
	fill := func(tx *bolt.Tx) error {
		for _, name := range []string{"large", "outer", "small"} {
			if _, err := tx.CreateBucketIfNotExists([]byte(name)); err != nil {
				return err
			}
		}
		inner, err := tx.Bucket([]byte("outer")).CreateBucketIfNotExists([]byte("inner"))
		if err != nil {
			return err
		}
		for i := range 600 {
			if err := tx.Bucket([]byte("large")).Put(fmt.Appendf(nil, "key-%04d", i), bytes.Repeat([]byte("v"), 40)); err != nil {
				return err
			}
		}
		if err := tx.Bucket([]byte("large")).Put([]byte("overflow"), make([]byte, 10_000)); err != nil {
			return err
		}
		if err := inner.Put([]byte("k"), []byte("v")); err != nil {
			return err
		}
		return tx.Bucket([]byte("small")).Put([]byte("k"), []byte("v"))
	}
	require.NoError(t, db.Update(fill))
	require.NoError(t, db.Update(func(tx *bolt.Tx) error { // leaves free pages behind
		for i := range 300 {
			if err := tx.Bucket([]byte("large")).Delete(fmt.Appendf(nil, "key-%04d", i)); err != nil {
				return err
			}
		}
		return nil
	}))
	require.NoError(t, db.Close())

	db, err = bolt.Open(path, 0o600, &bolt.Options{FreelistType: bolt.FreelistMapType, NoSync: true})
	require.NoError(t, err)
	s := sampleFile{pageSize: db.Info().PageSize, free: db.Stats().FreePageN}
	tx, err := db.Begin(true)
	require.NoError(t, err)
	for id := 0; ; id++ {
		info, err := tx.Page(id)
		require.NoError(t, err)
		if info == nil {
			break
		}
		s.pages = append(s.pages, pageInfo{info.Type, info.Count, info.OverflowCount})
		if info.Type == "free" { // an overflow page in use has no head and no description of its own
			continue
		}
		for range info.OverflowCount {
			id++
			s.pages = append(s.pages, pageInfo{kind: "overflow"})
		}
	}
	require.NoError(t, tx.Rollback())
	require.NoError(t, db.View(func(tx *bolt.Tx) error { s.txid = tx.ID(); return nil }))
	require.NoError(t, db.Close())
	s.bytes, err = os.ReadFile(path)
	require.NoError(t, err)
	return s
}

// first returns the number of the first page of a kind that holds something.
func (s sampleFile) first(t testing.TB, kind string) int {
	t.Helper()
	for id, p := range s.pages {
		if p.kind == kind && (p.count > 0 || kind == "free") {
			return id
		}
	}
	t.Fatalf("the sample has no %s page", kind)
	return 0
}

// entry returns where in the file the leaf entry of a key is.
func (s sampleFile) entry(t testing.TB, key string) int {
	t.Helper()
	for id, p := range s.pages {
		if p.kind != "leaf" {
			continue
		}
		for i := range p.count {
			at := id*s.pageSize + headSize + i*elementSize
			from := at + int(native.Uint32(s.bytes[at+4:]))
			if string(s.bytes[from:from+int(native.Uint32(s.bytes[at+8:]))]) == key {
				return at
			}
		}
	}
	t.Fatalf("the sample has no entry %q", key)
	return 0
}

func (s sampleFile) check(b []byte) error {
	return Check(bytes.NewReader(b), s.pageSize, s.txid)
}

// TestFormatVersionIsBbolts fails when the bbolt in go.mod writes another file
// format. Then read bbolt's internal/common package and bring layout.go up to it.
func TestFormatVersionIsBbolts(t *testing.T) {
	s := newSample(t)
	for id := range 2 {
		m := s.bytes[id*s.pageSize+headSize:]
		assert.EqualValues(t, magic, native.Uint32(m), "magic of meta page %d", id)
		assert.EqualValues(t, FormatVersion, native.Uint32(m[4:]), "format version of meta page %d", id)
	}
}

// TestLayoutIsBbolts compares what layout.go reads in every page of a file with
// what bbolt says of it.
func TestLayoutIsBbolts(t *testing.T) {
	s := newSample(t)
	require.NoError(t, s.check(s.bytes))
	m, err := readMeta(bytes.NewReader(s.bytes), s.pageSize, uint64(s.txid))
	require.NoError(t, err)
	require.EqualValues(t, len(s.pages), m.pages)
	flags := map[string]int{"branch": branchPage, "leaf": leafPage, "freelist": freeListPage}
	met := map[string]int{}
	for id, want := range s.pages {
		met[want.kind]++
		if flags[want.kind] == 0 {
			continue
		}
		w := walk{file: bytes.NewReader(s.bytes), pageSize: s.pageSize, pages: m.pages, seen: map[uint64]bool{}}
		b, flag, count, err := w.read(uint64(id))
		require.NoError(t, err)
		assert.Equal(t, flags[want.kind], flag, "flags of page %d, a %s", id, want.kind)
		assert.Equal(t, want.count, count, "count of page %d, a %s", id, want.kind)
		assert.Equal(t, (want.overflow+1)*s.pageSize, len(b), "size of page %d, a %s", id, want.kind)
	}
	for _, kind := range []string{"meta", "branch", "leaf", "overflow", "freelist", "free"} {
		assert.NotZero(t, met[kind], "the sample has no %s page", kind)
	}
	assert.Equal(t, s.free, met["free"])
}

// TestDamageIsNamed changes one number of a whole file and asks for the error.
func TestDamageIsNamed(t *testing.T) {
	s := newSample(t)
	branch, leaf := s.first(t, "branch")*s.pageSize, s.first(t, "leaf")*s.pageSize
	list, free := s.first(t, "freelist")*s.pageSize, s.first(t, "free")
	small, large := s.entry(t, "small"), s.entry(t, "large")
	value := func(entry int) int {
		return entry + int(native.Uint32(s.bytes[entry+4:])) + int(native.Uint32(s.bytes[entry+8:]))
	}
	current := s.pageSize * (s.txid % 2) // bbolt writes the metas in turn
	put16 := func(b []byte, v uint64) { native.PutUint16(b, uint16(v)) }
	put32 := func(b []byte, v uint64) { native.PutUint32(b, uint32(v)) }
	for _, tt := range []struct {
		name string
		at   int
		put  func([]byte, uint64)
		to   uint64
		says string
	}{
		{"meta of another transaction", current + headSize + 48, native.PutUint64, 1 << 40, "no meta page is of transaction"},
		{"meta with another page's head", current, native.PutUint64, 9, "does not begin with its own page head"},
		{"meta of another kind", current + 8, put16, leafPage, "does not begin with its own page head"},
		{"root page beyond the end", current + headSize + 16, native.PutUint64, 1 << 40, "a page number is 1099511627776"},
		{"more pages than the file has", current + headSize + 40, native.PutUint64, uint64(len(s.pages)) + 1, "1 pages are neither in use nor free"},
		{"page with another's head", leaf, native.PutUint64, 1, "does not begin with its own page head"},
		{"page that runs over the end", leaf + 12, put32, 1 << 20, "does not begin with its own page head"},
		{"page that runs over the next", leaf + 12, put32, 1, "in use twice"},
		{"page of no kind", leaf + 8, put16, 0x40, "unknown flags 0x40"},
		{"leaf with too many entries", leaf + 10, put16, 4096, "can't hold 4096 entries"},
		{"branch with none", branch + 10, put16, 0, "can't hold 0 branches"},
		{"branch with too many", branch + 10, put16, 4096, "can't hold 4096 branches"},
		{"branch outside its page", branch + headSize, put32, 1 << 30, "branch 0 lies outside the page"},
		{"branch to its own page", branch + headSize + 8, native.PutUint64, uint64(branch / s.pageSize), "in use twice"},
		{"branch to a meta page", branch + headSize + 8, native.PutUint64, 1, "a page number is 1"},
		{"entry of no kind", leaf + headSize, put32, 4, "unknown flags 0x4"},
		{"entry in its own head", leaf + headSize + 4, put32, 0, "lies outside the page"},
		{"value outside its page", leaf + headSize + 12, put32, 1<<32 - 1, "lies outside the page"},
		{"bucket too short", large + 12, put32, 8, "8 bytes are too few for a bucket"},
		{"bucket with a root beyond the end", value(large), native.PutUint64, 1 << 40, "a page number is 1099511627776"},
		{"small bucket that is no page", value(small) + bucketSize + 8, put16, 0, "a small bucket is not a leaf page"},
		{"small bucket with too many entries", value(small) + bucketSize + 10, put16, 100, "can't hold 100 entries"},
		{"small bucket with a bucket", value(small) + bucketSize + headSize, put32, bucketEntry, "a small bucket holds a bucket"},
		{"free list of another kind", list + 8, put16, leafPage, "is not a list of free pages"},
		{"free list too long", list + 10, put16, 4096, "is not a list of free pages"},
		{"free page in use", list + headSize, native.PutUint64, uint64(leaf / s.pageSize), "is listed as free but is in use"},
		{"free page lost", list + 10, put16, uint64(s.free) - 1, "1 pages are neither in use nor free"},
		{"free page used", branch + headSize + 8, native.PutUint64, uint64(free), "page " + fmt.Sprint(free)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := bytes.Clone(s.bytes)
			tt.put(b[tt.at:], tt.to)
			assert.ErrorContains(t, s.check(b), tt.says)
		})
	}
}

func TestOtherFormatsAreRefused(t *testing.T) {
	s := newSample(t)
	for _, at := range []int{0, 4} { // magic, version
		b := bytes.Clone(s.bytes)
		for id := range 2 {
			native.PutUint32(b[id*s.pageSize+headSize+at:], 3)
		}
		assert.ErrorIs(t, s.check(b), ErrVersion)
	}
}

func TestShortFilesAreRefused(t *testing.T) {
	s := newSample(t)
	for _, n := range []int{0, 10, s.pageSize, 2*s.pageSize + 8, s.first(t, "leaf") * s.pageSize, s.first(t, "leaf")*s.pageSize + headSize} {
		assert.Error(t, s.check(s.bytes[:n]), "%d bytes of the file", n)
	}
}

// FuzzCheck changes bytes of a whole file. Edits holds, for each change, four
// bytes of position and one of value. What Check accepts must be read by bbolt
// to the last key, and by bbolt's own check, without a panic or a ring.
func FuzzCheck(f *testing.F) {
	s := newSample(f)
	edit := func(at int, to byte) []byte { return append(native.AppendUint32(nil, uint32(at)), to) }
	f.Add([]byte{})
	for _, kind := range []string{"branch", "leaf", "freelist", "free"} {
		for _, at := range []int{0, 8, 10, 12, 16, 20, 24, 28} {
			f.Add(edit(s.first(f, kind)*s.pageSize+at, 1))
		}
	}
	f.Add(append(edit(s.entry(f, "small"), 0), edit(s.entry(f, "large")+4, 200)...))
	path := filepath.Join(f.TempDir(), "fuzz.db")
	f.Fuzz(func(t *testing.T, edits []byte) {
		b := bytes.Clone(s.bytes)
		for ; len(edits) >= 5; edits = edits[5:] {
			if at := int(native.Uint32(edits)) % len(b); at/s.pageSize != 1-s.txid%2 { // bbolt trusts the older meta page's head
				b[at] = edits[4]
			}
		}
		if s.check(b) != nil {
			return
		}
		require.NoError(t, os.WriteFile(path, b, 0o600))
		db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, Timeout: time.Second})
		if err != nil {
			return // both metas spoilt
		}
		defer db.Close()
		tx, err := db.Begin(false)
		require.NoError(t, err)
		defer tx.Rollback()
		if tx.ID() != s.txid {
			return // bbolt chose the other meta, which Check was not asked about
		}
		var sum byte
		require.NoError(t, tx.ForEach(func(_ []byte, bucket *bolt.Bucket) error {
			if bucket == nil { // a key beside the buckets
				return nil
			}
			return bucket.ForEach(func(k, v []byte) error {
				for _, c := range append(bytes.Clone(k), v...) {
					sum += c // reads every byte: one outside the file would end the process
				}
				return nil
			})
		}))
		for err := range tx.Check() {
			assert.NotRegexp(t, "panic|runtime error", err.Error())
		}
	})
}
