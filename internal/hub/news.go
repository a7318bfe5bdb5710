package hub

import "fmt"

// maxNews is about how many bytes of events one message of the stream carries.
// More is better fetched by Sync, compressed and in pages.
const maxNews = 64 << 10

// News returns one message of the stream for a phone that has the log up to a
// sequence number of an epoch, the end of the log, and a channel that is closed
// when the log grows. Phones at the same place get the same bytes.
//
// The message is JSON:
//
//	{"epoch":"…","seq":"12","from":"10","events":[…]}
//
// Epoch and seq are the end of the log. Events are all records between from and
// seq; a phone whose cursor is at from or later needs no more. From and events are
// absent when the records are too many or have a file among them, or when the
// phone's cursor is not valid here: the phone then fetches by Sync.
func (h *Hub) News(epoch string, after uint64) (at Position, message []byte, moved <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if epoch != h.at.Epoch || after > h.at.Seq {
		after = mustFetch
	}
	if message = h.news[after]; message == nil {
		message = h.newsFrom(after)
		if h.news == nil {
			h.news = map[uint64][]byte{}
		}
		h.news[after] = message
	}
	return h.at, message, h.moved
}

// mustFetch is the place of a phone whose cursor is not valid here.
const mustFetch = ^uint64(0)

func (h *Hub) newsFrom(after uint64) []byte {
	end := fmt.Sprintf(`{"epoch":%q,"seq":"%d"`, h.at.Epoch, h.at.Seq)
	if after != mustFetch {
		if events, ok := h.tail.eventsSince(after, maxNews); ok {
			return fmt.Appendf(nil, `%s,"from":"%d","events":[%s]}`, end, after, events)
		}
	}
	return []byte(end + "}")
}
