//go:build unix

package store_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

const crampedEnv = "HOBSIDE_STORE_CRAMPED"

// cramped is a process that writes until the operating system gives it no more
// room, and then tries five more times. It prints the id of each event that was
// acknowledged or refused.
func cramped(path string) {
	signal.Ignore(syscall.SIGXFSZ) // setrlimit(2): with the signal ignored the write fails with EFBIG
	s, err := store.Open(path, store.Options{})
	if err == nil {
		err = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 512 << 10, Max: 512 << 10})
	}
	if err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
	refused := 0
	for i := 0; i < 4000 && refused < 5; i++ {
		ev := tick(i)
		ev.Text = strings.Repeat("a long note ", 100)
		switch err := s.Update(add(ev)); {
		case err == nil:
			fmt.Println("acked", ev.ID)
		case errors.Is(err, store.ErrFull):
			refused++
			fmt.Println("full", ev.ID)
		default:
			fmt.Println("error", err)
			os.Exit(1)
		}
	}
	os.Exit(0) // without closing the store
}

// TestNothingAcknowledgedIsLostWithoutRoom uses a limit of the operating system
// on the file's size. The store refuses writes while there is no room, keeps
// what it acknowledged, and takes more when there is room again.
func TestNothingAcknowledgedIsLostWithoutRoom(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), crampedEnv+"="+path)
	pipe, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	acked, full := map[string]bool{}, 0
	for lines := bufio.NewScanner(pipe); lines.Scan(); {
		word, rest, _ := strings.Cut(lines.Text(), " ")
		require.NotEqual(t, "error", word, rest)
		if word == "acked" {
			acked[rest] = true
		} else {
			full++
		}
	}
	require.NoError(t, cmd.Wait())
	assert.NotEmpty(t, acked)
	assert.Positive(t, full, "the process never ran out of room")

	s := storetest.Open(t, path, store.Options{})
	have := map[string]bool{}
	for _, r := range all(t, s) {
		have[r.ID()] = true
	}
	for id := range acked {
		assert.True(t, have[id], "%s was acknowledged and is lost", id)
	}
	require.NoError(t, s.Update(add(tick(9999))), "there is room again")
}
