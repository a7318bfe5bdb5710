package hub

import (
	"encoding/json"

	"hobside/internal/dinner"
)

// MaxRecords is how many records one exchange carries, either way.
const MaxRecords = 500

// A Request is what a phone sends. Events and files are read one by one, so
// that one the server can't read is refused by name and takes nobody with it.
type Request struct {
	Device string            `json:"device"`
	Epoch  string            `json:"epoch"` // the one its cursor is of, "" at first
	After  string            `json:"after"` // its cursor, "0" at first; a word because JavaScript counts to 2^53
	Events []json.RawMessage `json:"events"`
	Files  []json.RawMessage `json:"files"`

	// Keep asks that files be kept as earlier revisions: whatever is the newest of
	// a name stays it. An import brings the history of a card so.
	Keep bool `json:"keep,omitempty"`

	Role Role `json:"-"` // of the device that sent it, as signed in; no phone says its own
}

// An Offer is a file as a phone has it.
type Offer struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Base string `json:"base"` // the revision it was edited from, "" for a new file
	Text string `json:"text"`
}

// A Reply answers a Request.
type Reply struct {
	Epoch   string         `json:"epoch"`
	Reset   bool           `json:"reset"`           // the phone's cursor meant nothing here: it should offer all it knows again
	Next    string         `json:"next"`            // the phone's cursor from now on
	More    bool           `json:"more"`            // there is more after Next
	Now     int64          `json:"now"`             // the server's clock, Unix milliseconds
	Role    Role           `json:"role"`            // what this phone may do
	Kinds   []dinner.Kind  `json:"kinds,omitempty"` // for a helper: the only events taken
	Acked   []string       `json:"acked"`           // ids that are on disk
	Refused []Refusal      `json:"refused"`
	Events  []dinner.Event `json:"events"`
	Files   []FileRecord   `json:"files"`
}

// A Refusal says why the server won't have an event or a file.
type Refusal struct {
	ID  string `json:"id"`
	Why string `json:"why"`
}

// A FileRecord is a revision of a file as everybody gets it.
type FileRecord struct {
	Name     string `json:"name"`
	Revision string `json:"revision"`
	Base     string `json:"base"`
	Text     string `json:"text"`
	Device   string `json:"device"`
	At       int64  `json:"at"`    // when the server took it, Unix milliseconds
	Clash    bool   `json:"clash"` // two versions of some lines are in it
}
