package dinner

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
)

// ReadEvent reads one event from JSON. It returns an error for JSON that is not
// one event and for a field that this release does not know: an event stored
// without that field would come back to its phone changed. It does not check what
// the fields hold, see [Validate].
//
// Events of the first release, which named the dinner in a field "sitting", are
// read too: phones still send them and exports still hold them.
func ReadEvent(raw []byte) (Event, error) {
	var read struct {
		Event
		Sitting string `json:"sitting,omitempty"`
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&read); err != nil {
		return Event{}, err
	}
	if _, err := dec.Token(); err != io.EOF {
		return Event{}, errors.New("there is something after the event")
	}
	if read.Dinner == "" {
		read.Dinner = read.Sitting
	}
	return read.Event, nil
}
