package store_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/binary"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// format3 returns the data file of testdata, which a release of format 3 wrote: 43
// records, of which the first two are revisions of stock.md, the third is soup.md and
// the others are the events of tick(0) to tick(39); one alias; two devices.
func format3(t *testing.T) []byte {
	t.Helper()
	f, err := os.Open("testdata/format3.db.gz")
	require.NoError(t, err)
	defer f.Close()
	z, err := gzip.NewReader(f)
	require.NoError(t, err)
	b, err := io.ReadAll(z)
	require.NoError(t, err)
	return b
}

func written(t *testing.T, b []byte) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "hobside.db")
	require.NoError(t, os.WriteFile(path, b, 0o600))
	return path
}

// checkUpgraded compares a store with what is in the file of format 3.
func checkUpgraded(t *testing.T, s *store.Store) {
	t.Helper()
	records := all(t, s)
	require.Len(t, records, 43)
	salty, less := "# Stock\n\n- 4 kg bones\n- 120 g salt\n", "# Stock\n\n- 4 kg bones\n- 100 g salt\n"
	for i, want := range []store.File{
		{ID: "file-0123456789abcdef01234567", Name: "stock.md", Text: salty, Device: "import", At: 1_800_000_000_000},
		{ID: "offer-000002", Name: "stock.md", Base: dinner.Revision(salty), Text: less, Device: "phone-b", At: 1_800_000_000_100},
		{Name: "soup.md", Text: "# Soup\n", Device: "phone-b", At: 1_800_000_000_200},
	} {
		want.Revision = dinner.Revision(want.Text)
		assert.Equal(t, want, *records[i].File)
	}
	for n, r := range records[3:] {
		assert.Equal(t, tick(n), *r.Event)
	}
	require.NoError(t, s.View(func(tx *store.Tx) error {
		for _, id := range []string{"offer-000002", "offer-again"} {
			r, err := tx.FindOffer(id)
			require.NoError(t, err)
			assert.EqualValues(t, 2, r.Seq, id)
			r, err = tx.FindEvent(id)
			require.NoError(t, err)
			assert.Zero(t, r, "an event can have the id of a file")
		}
		r, err := tx.FindEvent(tick(7).ID)
		require.NoError(t, err)
		assert.EqualValues(t, 11, r.Seq)
		newest, err := tx.Newest()
		require.NoError(t, err)
		assert.Equal(t, tick(39).Stamp, newest)
		imported, err := tx.Imported("stock.md")
		require.NoError(t, err)
		assert.Equal(t, dinner.Revision(salty), imported)
		return nil
	}))
}

func TestFormat3IsUpgraded(t *testing.T) {
	s := storetest.Open(t, written(t, format3(t)), store.Options{})
	checkUpgraded(t, s)
	assert.Equal(t, "ea1d3f1f6c834161", s.Epoch(), "phones keep their cursor")
	assert.Equal(t, []string{"tablet", "Nora's phone"}, names(t, s))
	require.NoError(t, s.Update(add(tick(40))))
}

// TestDamagedRecordStaysDamagedAfterUpgrade: the upgrade must not give a new checksum to
// bytes that the disk changed.
func TestDamagedRecordStaysDamagedAfterUpgrade(t *testing.T) {
	b := format3(t)
	broken := bytes.ReplaceAll(b, []byte(`"event-000007"`), []byte(`"event-000008"`))
	require.NotEqual(t, b, broken)
	s, err := store.Open(written(t, broken), store.Options{})
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, s.View(func(tx *store.Tx) error {
		page := tx.Since(0, 100, 1<<20)
		assert.Len(t, page.Records, 42)
		require.Len(t, page.Damaged, 1)
		assert.EqualValues(t, 11, page.Damaged[0].Seq)
		return nil
	}))
	assert.ErrorIs(t, s.Check(context.Background()), store.ErrDamaged)
}

// TestFormat1IsUpgraded: a file of the first format has no devices and names the dinner
// of an event "sitting".
func TestFormat1IsUpgraded(t *testing.T) {
	path := written(t, format3(t))
	db, err := bolt.Open(path, 0o600, nil)
	require.NoError(t, err)
	require.NoError(t, db.Update(func(tx *bolt.Tx) error {
		require.NoError(t, tx.DeleteBucket([]byte("devices")))
		log := tx.Bucket([]byte("log"))
		for seq := uint64(1); seq <= log.Sequence(); seq++ {
			key := binary.BigEndian.AppendUint64(nil, seq)
			body := bytes.Replace(log.Get(key)[4:], []byte(`"dinner":`), []byte(`"sitting":`), 1)
			sum := binary.BigEndian.AppendUint32(nil, crc32.Checksum(body, crc32.MakeTable(crc32.Castagnoli)))
			require.NoError(t, log.Put(key, append(sum, body...)))
		}
		return tx.Bucket([]byte("meta")).Put([]byte("format"), []byte("1"))
	}))
	require.NoError(t, db.Close())
	s := storetest.Open(t, path, store.Options{})
	checkUpgraded(t, s)
	assert.Empty(t, names(t, s))
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.AddDevice(store.Device{ID: "a"}, "x") }))
}
