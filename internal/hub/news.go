package hub

import "fmt"

// maxNews is about how many bytes of events one message of the stream carries.
// More is better fetched by Sync, compressed and in pages.
const maxNews = 64 << 10

// News returns one message of the stream for a phone whose cursor is at a place, the
// end of the log, and a channel that is closed when the log grows. Phones at the same
// place get the same bytes.
//
// The message is JSON:
//
//	{"epoch":"…","seq":"12","chain":"…","from":"10","chains":["…","…","…"],"events":[…]}
//
// Epoch, seq and chain are the end of the log. Events are all records between from and
// seq, and chains are those at from and at each record after it: a phone whose cursor is
// among them, with the same chain, needs no more. From, chains and events are absent when
// the records are too many or have a file among them, or when the phone's cursor is not
// valid here: the phone then fetches by Sync.
func (h *Hub) News(phone Position) (at Position, message []byte, moved <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if chain, ok := h.tail.chain(phone.Seq); phone.Epoch != h.at.Epoch || !ok || chain.String() != phone.Chain && phone.Seq > 0 {
		phone = Position{Seq: mustFetch}
	}
	phone.Chain = "" // it is the log's
	if message = h.news[phone]; message == nil {
		message = h.newsFrom(phone.Seq)
		if h.news == nil {
			h.news = map[Position][]byte{}
		}
		h.news[phone] = message
	}
	return h.at, message, h.moved
}

// mustFetch is the place of a phone whose cursor is not valid here.
const mustFetch = ^uint64(0)

func (h *Hub) newsFrom(after uint64) []byte {
	end := fmt.Sprintf(`{"epoch":%q,"seq":"%d","chain":%q`, h.at.Epoch, h.at.Seq, h.at.Chain)
	if after != mustFetch {
		if events, ok := h.tail.eventsSince(after, maxNews); ok {
			return fmt.Appendf(nil, `%s,"from":"%d","chains":%s,"events":[%s]}`, end, after, h.tail.chainsSince(after), events)
		}
	}
	return []byte(end + "}")
}
