package control

import (
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"os"
)

// NoteFile is the name of the note about the server of a data file.
func NoteFile(data string) string { return data + ".server" }

// A Note says how to reach the control endpoint of a running server.
type Note struct {
	Address string `json:"address"` // loopback address and port
	Token   string `json:"token"`   // the secret that requests carry
}

// readNote reads the note of a data file's server. ok is false when there is
// none, or none that this user may read. It returns an error for a note that is
// damaged, or that names another machine: the token is sent to this one only.
func readNote(data string) (n Note, ok bool, err error) {
	name := NoteFile(data)
	b, err := os.ReadFile(name)
	if err != nil {
		return Note{}, false, nil
	}
	n, err = parseNote(b)
	if err != nil {
		return Note{}, false, fmt.Errorf("%s %w", name, err)
	}
	return n, true, nil
}

func parseNote(b []byte) (n Note, err error) {
	if err := json.Unmarshal(b, &n); err != nil {
		return Note{}, errors.New("is damaged: if no server runs, remove it")
	}
	host, _, err := net.SplitHostPort(n.Address)
	if ip := net.ParseIP(host); err != nil || ip == nil || !ip.IsLoopback() {
		return Note{}, errors.New("does not name this machine: remove it")
	}
	return n, nil
}

// writeNote writes the note, readable by its user only. It replaces one that is
// there: only one server can hold the data file's lock, so an existing note is of
// a server that was killed.
func writeNote(name string, n Note) error {
	b, err := json.Marshal(n)
	if err != nil {
		return err
	}
	if err := os.Remove(name); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("cannot replace the note of an earlier server: %w", err)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("cannot write the note for the command line: %w", err)
	}
	_, err = f.Write(b)
	return errors.Join(err, f.Close())
}
