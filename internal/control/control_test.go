package control

import (
	"context"
	"encoding/json"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

// listening opens the control endpoint of a new data file and returns the file's
// name.
func listening(t *testing.T) (data string) {
	t.Helper()
	quiet := slog.New(slog.DiscardHandler)
	s := storetest.New(t)
	h, err := hub.New(s, time.Now, quiet)
	require.NoError(t, err)
	e, err := Listen(s, h, web.NewGate(s, time.Now, quiet))
	require.NoError(t, err)
	t.Cleanup(e.Close)
	return s.Path()
}

// atRest creates a data file that no server has open.
func atRest(t *testing.T) (data string) {
	t.Helper()
	data = filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(data, store.Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	return data
}

func TestOpenFindsTheRunningServer(t *testing.T) {
	s, err := Open(listening(t), false)
	require.NoError(t, err)
	assert.IsType(t, &server{}, s)
	counts, err := s.Verify(context.Background())
	require.NoError(t, err)
	assert.Zero(t, counts.Records)
	code, err := s.NewCode("helper")
	require.NoError(t, err)
	assert.Len(t, code.Code, 8)
}

func TestOpenWithoutServerOpensTheFile(t *testing.T) {
	s, err := Open(atRest(t), false)
	require.NoError(t, err)
	defer s.Close()
	assert.IsType(t, &file{}, s)
	_, err = s.NewCode("helper")
	assert.ErrorContains(t, err, "no server runs")
}

func TestOpenWithoutDataFile(t *testing.T) {
	_, err := Open(filepath.Join(t.TempDir(), "none.db"), false)
	assert.ErrorContains(t, err, "there is no data file")
}

// TestNoteOfAKilledServer leaves a note whose address has no program behind it,
// or another program. Both times the file itself must be opened.
func TestNoteOfAKilledServer(t *testing.T) {
	data := atRest(t)
	for name, address := range map[string]string{"nobody answers": "127.0.0.1:1", "another server has the port": addressOf(t, listening(t))} {
		require.NoError(t, writeNote(NoteFile(data), Note{Address: address, Token: "old"}))
		s, err := Open(data, false)
		require.NoError(t, err, name)
		assert.IsType(t, &file{}, s, name)
		require.NoError(t, s.Close())
	}
}

func addressOf(t *testing.T, data string) string {
	t.Helper()
	n, ok, err := readNote(data)
	require.NoError(t, err)
	require.True(t, ok)
	return n.Address
}

func TestDamagedNoteIsAnError(t *testing.T) {
	data := atRest(t)
	for note, says := range map[string]string{
		`{"address":"192.0.2.1:80","token":"x"}`: "does not name this machine", // a documentation address, RFC 5737
		`half`:                                   "is damaged",
	} {
		require.NoError(t, os.WriteFile(NoteFile(data), []byte(note), 0o600))
		_, err := Open(data, false)
		assert.ErrorContains(t, err, says)
	}
}

func TestNoteIsReadableByItsUserOnly(t *testing.T) {
	info, err := os.Stat(NoteFile(listening(t)))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
}

func TestWrongTokenIsRefused(t *testing.T) {
	s, err := Find(listening(t))
	require.NoError(t, err)
	s.(*server).note.Token = "guessed"
	_, err = s.Devices()
	assert.ErrorIs(t, err, errNotOurs)
}

// FuzzParseNote: a note that is taken names a loopback address, so that the token
// is never sent to another machine.
func FuzzParseNote(f *testing.F) {
	f.Add([]byte(`{"address":"127.0.0.1:8421","token":"x"}`))
	f.Add([]byte(`{"address":"[::1]:1","token":"x"}`))
	f.Add([]byte(`{"address":"192.0.2.1:80","token":"x"}`))
	f.Fuzz(func(t *testing.T, b []byte) {
		n, err := parseNote(b)
		if err != nil {
			return
		}
		assert.Regexp(t, `^(127\.|\[::1\]|\[0*:|\[::ffff:127\.)`, n.Address)
		out, err := json.Marshal(n)
		require.NoError(t, err)
		again, err := parseNote(out)
		require.NoError(t, err)
		assert.Equal(t, n, again)
	})
}
