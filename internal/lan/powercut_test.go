package lan

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var errCut = errors.New("the power is cut")

// An inode is a file's content: what is on disk for certain, and what was written.
type inode struct{ synced, written []byte }

// A change is one change of the list of names that is not on disk for certain.
type change func(names map[string]*inode)

// A cutDisk is a disk in memory whose power is cut, or whose room is gone, at the call
// with a number. Before it, calls do what they should; it and all after it fail.
type cutDisk struct {
	names   map[string]*inode // as programs see them
	synced  map[string]*inode // as they are on disk for certain
	pending []change
	calls   int
	failAt  int  // 0: never
	once    bool // only that call fails, as on a full disk
}

func newDisk(files map[string]string) *cutDisk {
	d := &cutDisk{names: map[string]*inode{}}
	for name, text := range files {
		d.names[name] = &inode{synced: []byte(text), written: []byte(text)}
	}
	d.synced = maps.Clone(d.names)
	return d
}

// fails counts a call and reports whether it fails.
func (d *cutDisk) fails() bool {
	d.calls++
	return d.calls == d.failAt || d.failAt != 0 && d.calls > d.failAt && !d.once
}

func (d *cutDisk) read(name string) ([]byte, fs.FileMode, error) {
	n := d.names[name]
	if n == nil {
		return nil, 0, fs.ErrNotExist
	}
	return n.written, 0o600, nil
}

func (d *cutDisk) change(c change) error {
	if d.fails() {
		return errCut
	}
	c(d.names)
	d.pending = append(d.pending, c)
	return nil
}

func (d *cutDisk) create(name string) (file, error) {
	if d.names[name] != nil {
		return nil, fs.ErrExist
	}
	n := &inode{}
	return &cutFile{d, n}, d.change(func(names map[string]*inode) { names[name] = n })
}

func (d *cutDisk) rename(from, to string) error {
	n := d.names[from]
	if n == nil {
		return fs.ErrNotExist
	}
	return d.change(func(names map[string]*inode) { delete(names, from); names[to] = n })
}

func (d *cutDisk) remove(name string) error {
	if d.names[name] == nil {
		return fs.ErrNotExist
	}
	return d.change(func(names map[string]*inode) { delete(names, name) })
}

func (d *cutDisk) syncNames(string) error {
	if d.fails() {
		return errCut
	}
	d.synced, d.pending = maps.Clone(d.names), nil
	return nil
}

type cutFile struct {
	d *cutDisk
	n *inode
}

func (f *cutFile) Write(b []byte) (int, error) {
	if f.d.fails() {
		f.n.written = append(f.n.written, b[:len(b)/2]...)
		return len(b) / 2, errCut
	}
	f.n.written = append(f.n.written, b...)
	return len(b), nil
}

func (f *cutFile) Sync() error {
	if f.d.fails() {
		return errCut
	}
	f.n.synced = f.n.written
	return nil
}

func (f *cutFile) Close() error {
	if f.d.fails() {
		return errCut
	}
	return nil
}

// afterCut returns every disk that the next start may find: any of the changes of names
// that were not synced may be there or not, and of what was written and not synced
// nothing, a half or all.
func (d *cutDisk) afterCut() (found []*cutDisk) {
	for which := range 1 << len(d.pending) {
		names := maps.Clone(d.synced)
		for i, c := range d.pending {
			if which&(1<<i) != 0 {
				c(names)
			}
		}
		for part := range 3 {
			files := map[string]string{}
			for name, n := range names {
				lost := len(n.written) - len(n.synced)
				files[name] = string(n.written[:len(n.synced)+lost*part/2])
			}
			found = append(found, newDisk(files))
		}
	}
	return found
}

// TestPowerCutAtAnyCallLeavesAUsableAuthority cuts the power at every call that the
// making of an authority makes, on an empty folder and on what an earlier release may
// have left there. Whatever is then on disk, the next start has an authority; when the
// first start had finished, it is the same one.
func TestPowerCutAtAnyCallLeavesAUsableAuthority(t *testing.T) {
	whole := newDisk(nil)
	_, err := openAuthority(whole, "db", Names, (&clock{june}).now)
	require.NoError(t, err)
	text := string(whole.names["db.authority.pem"].written)
	disks := 0
	for start, files := range map[string]map[string]string{
		"an empty folder":     nil,
		"only a key":          {"db.authority.key": text},
		"half a certificate":  {"db.authority.key": text, "db.authority.crt": text[:200]},
		"half a new one":      {"db.authority.pem.new": text[:100]},
		"a whole one, unused": {"db.authority.pem.new": text},
	} {
		t.Run(start, func(t *testing.T) {
			for cut, done := 1, false; !done; cut++ {
				d := newDisk(files)
				d.failAt = cut
				a, err := openAuthority(d, "db", Names, (&clock{june}).now)
				done = d.calls < cut
				require.Equal(t, done, err == nil, "call %d: %v", cut, err)
				for i, found := range d.afterCut() {
					disks++
					at := fmt.Sprintf("cut at call %d, disk %d with %v", cut, i, maps.Keys(found.names))
					again, err := openAuthority(found, "db", Names, (&clock{june}).now)
					if !assert.NoError(t, err, at) {
						continue
					}
					if done {
						assert.Equal(t, a.Fingerprint(), again.Fingerprint(), at)
					}
					third, err := openAuthority(found, "db", Names, (&clock{june}).now)
					require.NoError(t, err, at)
					assert.Equal(t, again.Fingerprint(), third.Fingerprint(), at)
				}
			}
		})
	}
	t.Logf("%d disks after a power cut", disks)
	assert.Greater(t, disks, 100)
}

// A disk that refuses one call, as a full one does, leaves no part of an authority, and
// the next start makes one.
func TestFailedCallLeavesNoPartOfAnAuthority(t *testing.T) {
	for call, done := 1, false; !done; call++ {
		d := newDisk(nil)
		d.failAt, d.once = call, true
		_, err := openAuthority(d, "db", Names, (&clock{june}).now)
		done = d.calls < call
		if done {
			assert.NoError(t, err)
			continue
		}
		assert.ErrorIs(t, err, errCut)
		assert.NotContains(t, d.names, "db.authority.pem.new", "call %d", call)
		_, err = openAuthority(d, "db", Names, (&clock{june}).now)
		assert.NoError(t, err, "call %d", call)
	}
}
