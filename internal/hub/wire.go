package hub

import (
	"encoding/json"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// MaxRecords is how many records one request and one reply carry at most.
const MaxRecords = 500

// A Request is what a phone sends. Events and files are decoded one by one, so
// that one that can't be read is refused alone, by its id.
type Request struct {
	Device string            `json:"device"`
	Epoch  string            `json:"epoch"` // of its cursor, "" at first
	After  string            `json:"after"` // its cursor, "0" at first; text, because JavaScript numbers are exact only to 2^53
	Chain  *string           `json:"chain"` // the chain at its cursor, see store.Chain; nil from a page that knows none
	Events []json.RawMessage `json:"events"`
	Files  []json.RawMessage `json:"files"`

	// Sure is the end of the log when records of this phone were acknowledged, while its
	// cursor is not there yet: a file that went back to before it has lost them.
	Sure *Position `json:"sure,omitempty"`

	// Keep makes files earlier revisions: the newest revision of each name stays the
	// newest. An import sends the history of a card so.
	Keep bool `json:"keep,omitempty"`

	// Import makes files those of a folder: each was made from the one that the last
	// import brought.
	Import bool `json:"import,omitempty"`

	// Want names up to MaxWanted revisions whose texts the phone lost: what it has in
	// their place is not what they name.
	Want []string `json:"want,omitempty"`

	// From returns the device that sent the request, as the store has it at the moment
	// of tx. It fails with [store.ErrNoDevice] when the device was revoked meanwhile.
	// The server sets it from the cookie; nil is the server's own machine.
	From func(tx *store.Tx) (store.Device, error) `json:"-"`
}

// An Offer is a file as a phone has it.
type Offer struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Base string `json:"base"` // the revision it was edited from, "" for a new file
	Text string `json:"text"`

	Revision string `json:"revision,omitempty"` // what the phone has noted of the text; "" when it has not

	Beside  string   `json:"beside,omitempty"`  // of a revision that is sent back, see store.File
	Settles []string `json:"settles,omitempty"` // the revisions beside the newest that somebody chose this text over
}

// A Reply is the answer to a Request.
type Reply struct {
	Epoch   string          `json:"epoch"`
	Reset   bool            `json:"reset"`            // the phone's cursor is not valid here: it must send all it has again
	Next    string          `json:"next"`             // the phone's cursor from now on
	Chain   string          `json:"chain"`            // the chain at Next
	End     *Position       `json:"end,omitempty"`    // the end of the log, where more follows
	More    bool            `json:"more"`             // more records follow Next
	Now     int64           `json:"now"`              // the server's clock, Unix milliseconds
	Device  string          `json:"device,omitempty"` // the name under which this phone signs; absent on the server's own machine
	Role    Role            `json:"role"`             // what this phone may do
	Kinds   []dinner.Kind   `json:"kinds,omitempty"`  // for a helper: the kinds of events it may send
	Acked   []string        `json:"acked"`            // ids of the records that are on disk
	Refused []Refusal       `json:"refused"`
	Clashed []string        `json:"clashed,omitempty"` // ids of the offers that are beside the newest revision, for somebody to choose
	Trouble string          `json:"trouble,omitempty"` // why the server did not do all; the phone tries again later
	Damaged []store.Damaged `json:"damaged,omitempty"` // records before Next that the server can't read
	Events  []dinner.Event  `json:"events"`
	Files   []FileRecord    `json:"files"`
	Texts   []WantedText    `json:"texts,omitempty"` // of the revisions that the phone wants
}

// A Refusal says why the server refuses an event or a file.
type Refusal struct {
	ID  string `json:"id"`
	Why string `json:"why"`
}

// A FileRecord is a revision of a file as phones get it.
type FileRecord struct {
	Name     string   `json:"name"`
	Revision string   `json:"revision"`
	Base     string   `json:"base"`
	Text     string   `json:"text"`
	Device   string   `json:"device"`
	At       int64    `json:"at"`                // when the server took it, Unix milliseconds
	Clash    bool     `json:"clash"`             // the text has two versions of some lines in it, from an earlier release
	Beside   string   `json:"beside,omitempty"`  // see store.File
	Awaits   string   `json:"awaits,omitempty"`  // see store.File
	Settles  []string `json:"settles,omitempty"` // see store.File
}
