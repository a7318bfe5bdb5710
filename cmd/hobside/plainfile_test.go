//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCommandsReadOnlyRegularFiles puts a link or a pipe beside good files. Every
// command that reads a folder must name it and must not wait for the pipe.
func TestCommandsReadOnlyRegularFiles(t *testing.T) {
	dir := filesIn(t, map[string]string{"brine.md": usCard, "menu.md": "---\ncovers: 2\n---\n# M\n"})
	odd, menu := filepath.Join(dir, "odd.md"), filepath.Join(dir, "menu.md")
	for _, tt := range []struct {
		says string
		make func() error
	}{
		{"odd.md is a link", func() error { return os.Symlink("brine.md", odd) }},
		{"odd.md is a link", func() error { return os.Symlink("/dev/zero", odd) }},
		{"odd.md is not a regular file", func() error { return syscall.Mkfifo(odd, 0o600) }},
	} {
		require.NoError(t, tt.make())
		for _, args := range [][]string{
			{"check", dir},
			{"card", filepath.Join(dir, "brine.md")},
			{"order", "--menu", menu},
			{"plan", "--menu", menu, "--serve", "2027-06-12 19:30"},
		} {
			_, problems, code := callHobside(args...)
			assert.Equal(t, exitFailed, code, args)
			assert.Contains(t, problems, tt.says, args)
		}
		require.NoError(t, os.Remove(odd))
	}
	_, problems, code := callHobside("check", "/dev/zero")
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, problems, "/dev/zero is not a regular file")
}
