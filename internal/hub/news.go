package hub

import (
	"fmt"

	"hobside/internal/dinner"
)

// maxNews is about how many bytes of events one word of the stream carries. More
// than that is better fetched, compressed and in pages.
const maxNews = 64 << 10

// A News is one word of the stream: where the log is and, where they are few and
// only events, all records from From to there. A phone whose cursor is at From
// or beyond has all it needs; any other fetches.
type News struct {
	Position
	From   *uint64        `json:"from,string,omitempty"` // nil: fetch
	Events []dinner.Event `json:"events,omitempty"`
}

// News gives the word for a phone that has the log up to after, in JSON, and a
// channel that is closed when there is more to say. Two hundred phones at one
// place get the same bytes.
func (h *Hub) News(epoch string, after uint64) (at Position, word []byte, moved <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if epoch != h.at.Epoch || after > h.at.Seq {
		after = fetchAll
	}
	if word = h.news[after]; word == nil {
		word = h.newsFrom(after)
		if h.news == nil {
			h.news = map[uint64][]byte{}
		}
		h.news[after] = word
	}
	return h.at, word, h.moved
}

// fetchAll is the place of a phone whose cursor means nothing here.
const fetchAll = ^uint64(0)

func (h *Hub) newsFrom(after uint64) []byte {
	where := fmt.Sprintf(`{"epoch":%q,"seq":"%d"`, h.at.Epoch, h.at.Seq)
	if after != fetchAll {
		if events, ok := h.tail.wordsSince(after, maxNews); ok {
			return fmt.Appendf(nil, `%s,"from":"%d","events":[%s]}`, where, after, events)
		}
	}
	return []byte(where + "}")
}
