package store_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// ended returns the number of a process that has ended.
func ended(t *testing.T) int {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self, "-test.run=^$")
	require.NoError(t, cmd.Run())
	return cmd.Process.Pid
}

// TestFilesOfKilledProcessesAreRemoved: a killed backup or restore leaves a whole copy of
// the data beside the file. The next start removes it, and nothing else.
func TestFilesOfKilledProcessesAreRemoved(t *testing.T) {
	dir := t.TempDir()
	path, dead := filepath.Join(dir, "hobside.db"), ended(t)
	write := func(format string, args ...any) string {
		name := path + "." + fmt.Sprintf(format, args...)
		require.NoError(t, os.WriteFile(name, []byte("a copy"), 0o600))
		return name
	}
	var gone []string
	for _, purpose := range []string{"new", "backup", "restore", "part"} {
		gone = append(gone, write("%s-%d-123", purpose, dead), write("%s-%d-77", purpose, os.Getpid()))
	}
	mine, err := store.Aside(path, "backup")
	require.NoError(t, err)
	kept := []string{
		mine.Name(), write("backup-%d-5", os.Getppid()), write("before-20270612-120000"), write("server"),
		write("backup-%d", dead), write("backup-123456"), write("backup-%d-x", dead), write("backup-%d-1-2", dead), write("other-%d-1", dead),
		write("backup--%d-1", dead),
	}
	storetest.Open(t, path, store.Options{})
	for _, name := range gone {
		assert.NoFileExists(t, name)
	}
	for _, name := range kept {
		assert.FileExists(t, name, "it is in use, or may be somebody's own")
	}
	store.Discard(mine)
	assert.NoFileExists(t, mine.Name())
}

func TestFoldersOfKilledProcessesAreRemoved(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	left := filepath.Join(os.TempDir(), fmt.Sprintf("hobside-verify-%d-42", ended(t)))
	running := filepath.Join(os.TempDir(), fmt.Sprintf("hobside-verify-%d-42", os.Getppid()))
	require.NoError(t, os.MkdirAll(filepath.Join(left, "sub"), 0o700))
	require.NoError(t, os.MkdirAll(running, 0o700))
	dir, remove, err := store.AsideDir("verify")
	require.NoError(t, err)
	assert.NoDirExists(t, left)
	assert.DirExists(t, running)
	again, removeAgain, err := store.AsideDir("verify")
	require.NoError(t, err)
	assert.NotEqual(t, dir, again)
	assert.DirExists(t, dir, "it is this process's, and in use")
	remove()
	removeAgain()
	assert.NoDirExists(t, dir)
}
