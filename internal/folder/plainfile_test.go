//go:build unix

package folder

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
)

// TestImportReadsOnlyRegularFiles puts one entry that is not a plain file, or is too
// large, at each place that an import reads. The import must name it, must not wait
// for a pipe, and must not reach the server.
func TestImportReadsOnlyRegularFiles(t *testing.T) {
	secret := filepath.Join(t.TempDir(), "secret")
	require.NoError(t, os.WriteFile(secret, []byte("# Secret\n"), 0o600))
	rev := strings.Repeat("0", 24)
	makers := []struct {
		name, says string
		make       func(p string) error
	}{
		{"link to a file outside", "is a link", func(p string) error { return os.Symlink(secret, p) }},
		{"link to a file beside", "is a link", func(p string) error { return os.Symlink("soup.md", p) }},
		{"link to nothing", "is a link", func(p string) error { return os.Symlink("none", p) }},
		{"link to a device", "is a link", func(p string) error { return os.Symlink("/dev/zero", p) }},
		{"pipe", "not a regular file", func(p string) error { return syscall.Mkfifo(p, 0o600) }},
		{"file without an end", "make two of it", func(p string) error {
			if err := os.WriteFile(p, nil, 0o600); err != nil {
				return err
			}
			return os.Truncate(p, 1<<40) // a sparse file: the disk holds none of it
		}},
	}
	for _, at := range []string{"passwd.md", "cards/passwd.md", "dinners/a.jsonl", "sittings/a.jsonl", "revisions/index.jsonl", "revisions/" + rev + ".txt"} {
		for _, m := range makers {
			t.Run(m.name+" at "+at, func(t *testing.T) {
				dir := t.TempDir()
				for _, sub := range []string{"cards", "dinners", "sittings", "revisions"} {
					require.NoError(t, os.Mkdir(filepath.Join(dir, sub), 0o700))
				}
				require.NoError(t, os.WriteFile(filepath.Join(dir, "soup.md"), []byte("# Soup\n"), 0o600))
				p := filepath.Join(dir, at)
				if strings.HasSuffix(at, ".txt") {
					require.NoError(t, os.WriteFile(filepath.Join(dir, "revisions/index.jsonl"), []byte(`{"name":"a.md","revision":"`+rev+`","base":""}`), 0o600))
				}
				require.NoError(t, m.make(p))
				assertRefused(t, dir, filepath.Base(at), m.says)
			})
		}
	}
	for _, sub := range []string{"dinners", "sittings", "revisions"} {
		t.Run("link to a folder at "+sub, func(t *testing.T) {
			dir := t.TempDir()
			require.NoError(t, os.WriteFile(filepath.Join(dir, "soup.md"), []byte("# Soup\n"), 0o600))
			require.NoError(t, os.Symlink(t.TempDir(), filepath.Join(dir, sub)))
			assertRefused(t, dir, sub, "is a link")
		})
	}
}

// assertRefused imports a folder and wants an error that names a file.
func assertRefused(t *testing.T, dir, name, says string) {
	t.Helper()
	_, err := Import(t.Context(), dir, func() (Syncer, error) {
		t.Error("the import reached the server")
		return nil, os.ErrInvalid
	})
	assert.ErrorContains(t, err, name)
	assert.ErrorContains(t, err, says)
}

func TestReadFileIsBounded(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.md")
	require.NoError(t, os.WriteFile(name, []byte(strings.Repeat("x", hub.MaxText)), 0o600))
	text, err := ReadFile(name)
	require.NoError(t, err)
	assert.Len(t, text, hub.MaxText)
	require.NoError(t, os.WriteFile(name, []byte(strings.Repeat("x", hub.MaxText+1)), 0o600))
	_, err = ReadFile(name)
	assert.ErrorContains(t, err, "make two of it")
	_, err = ReadFile("/dev/zero")
	assert.ErrorContains(t, err, "/dev/zero is not a regular file")
}
