package hub

import "hobside/internal/store"

// MaxWanted is how many texts a phone may ask for in one request.
const MaxWanted = 50

// A WantedText is the text of a revision that a phone has lost.
type WantedText struct {
	Revision string `json:"revision"`
	Text     string `json:"text"`
}

// wanted adds to the reply the texts that the phone asks for by their revisions, as
// far as they fit. A text that the server does not have, or that is damaged, is left
// out.
func (h *Hub) wanted(tx *store.Tx, req Request, room *space, reply *Reply) {
	for _, revision := range req.Want {
		if !tx.Knows(revision) {
			continue
		}
		text, err := tx.Text(revision)
		if err != nil || !room.take(store.TextSize(text)+100) {
			continue
		}
		reply.Texts = append(reply.Texts, WantedText{Revision: revision, Text: text})
	}
}
