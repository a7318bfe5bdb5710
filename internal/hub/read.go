package hub

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"hobside/internal/dinner"
)

// Limits on a file. A card has a few kilobytes; these keep one mistake from
// filling every phone.
const (
	MaxText  = 512 << 10 // bytes
	MaxLines = 20_000

	maxSettles = 100 // revisions that one text is chosen over
)

// ErrRequest means that a request can't be read at all. The phone keeps what it
// wanted to send.
var ErrRequest = errors.New("cannot read the sync request")

// ReadRequest decodes the body of a request. It fails with [ErrRequest]. Events and
// files are decoded later, by Sync.
func ReadRequest(body []byte) (Request, error) {
	var req Request
	if !utf8.Valid(body) { // encoding/json would replace the bytes without an error
		return req, fmt.Errorf("%w: it is not UTF-8", ErrRequest)
	}
	if err := json.Unmarshal(body, &req); err != nil {
		return req, fmt.Errorf("%w: %v", ErrRequest, err)
	}
	if n := len(req.Events) + len(req.Files); n > MaxRecords {
		return req, fmt.Errorf("%w: it has %d records; send at most %d at a time", ErrRequest, n, MaxRecords)
	}
	if len(req.Want) > MaxWanted {
		return req, fmt.Errorf("%w: it wants %d texts; ask for at most %d at a time", ErrRequest, len(req.Want), MaxWanted)
	}
	if !isWord(req.Device, 1) {
		return req, fmt.Errorf("%w: its device is not 1 to 64 letters, digits, - or _", ErrRequest)
	}
	return req, nil
}

// readEvent decodes and validates one event. It refuses an event with an unknown
// field: without the field, the phone would get another event back.
func readEvent(raw json.RawMessage) (dinner.Event, error) {
	ev, err := dinner.ReadEvent(raw)
	if err != nil {
		return ev, unreadable(err)
	}
	if err := dinner.Validate(ev); err != nil {
		return ev, err
	}
	if strings.HasPrefix(ev.ID, returnedPrefix) { // phones keep both kinds in one list
		return ev, fmt.Errorf("its id begins with %q, which names a file", returnedPrefix)
	}
	_, err = json.Marshal(ev) // it must be possible to store it
	return ev, err
}

// readOffer decodes and validates one file.
func readOffer(raw json.RawMessage) (Offer, error) {
	var o Offer
	if err := strictly(raw, &o); err != nil {
		return o, err
	}
	switch {
	case !isWord(o.ID, 8):
		return o, errors.New("its id is not 8 to 64 letters, digits, - or _")
	case !dinner.IsFileName(o.Name):
		return o, errors.New("its name is not that of a file ending in .md")
	case o.Base != "" && !dinner.IsRevision(o.Base):
		return o, errors.New("what it was edited from is not a revision")
	case o.Beside != "" && !dinner.IsRevision(o.Beside), len(o.Settles) > maxSettles, slices.ContainsFunc(o.Settles, func(r string) bool { return !dinner.IsRevision(r) }):
		return o, errors.New("what it is beside, or was chosen over, is not a revision")
	case o.Revision != "" && o.Revision != dinner.Revision(o.Text):
		return o, errors.New("its text was damaged on the phone: it is not what its revision names")
	case len(o.Text) > MaxText:
		return o, fmt.Errorf("%s has %d bytes, over the %d that fit: make two of it", o.Name, len(o.Text), MaxText)
	case strings.Count(o.Text, "\n") > MaxLines:
		return o, fmt.Errorf("%s has more than %d lines: make two of it", o.Name, MaxLines)
	}
	return o, nil
}

// strictly decodes JSON into a value. It fails on a field that the value does not
// have.
func strictly(raw json.RawMessage, into any) error {
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(into); err != nil {
		return unreadable(err)
	}
	return nil
}

// unreadable returns an error that tells a cook why a record can't be decoded.
func unreadable(err error) error {
	why := strings.TrimPrefix(err.Error(), "json: ")
	if strings.HasPrefix(why, "unknown field") {
		return fmt.Errorf("it has an %s: the phone may be of a newer release than the server", why)
	}
	return fmt.Errorf("it can't be read: %s", why)
}

// idOf returns the id of a record that can't be decoded, "" when its id can't be
// decoded either.
func idOf(raw json.RawMessage) string {
	var named struct {
		ID string `json:"id"`
	}
	json.Unmarshal(raw, &named) // an error leaves what could be decoded
	return named.ID
}

// isWord reports whether s has min to 64 letters, digits, - or _, and nothing else.
func isWord(s string, min int) bool {
	ok := func(c rune) bool {
		return c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c == '-' || c == '_'
	}
	return len(s) >= min && len(s) <= 64 && !strings.ContainsFunc(s, func(c rune) bool { return !ok(c) })
}
