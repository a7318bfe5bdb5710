package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"hobside/internal/hub"
)

// streamWait is how long a phone may take to take one word of the stream before
// it counts as gone.
const streamWait = 10 * time.Second

// stream is GET /api/stream: server-sent events (WHATWG HTML, section 9.2). It
// says where the log is, at once and whenever that changes. A phone says by
// ?epoch=E&after=N what it has, and by Last-Event-ID when it comes back: where
// what it lacks is little, it is in the word itself, else the phone fetches it by
// sync. Nothing is missed when the stream breaks.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	if s.streams.Add(1) > int64(s.cfg.MaxStreams) {
		s.streams.Add(-1)
		w.Header().Set("Retry-After", "60")
		fail(w, r, http.StatusServiceUnavailable, "too many streams are open")
		return
	}
	defer s.streams.Add(-1)
	var gone <-chan struct{}
	if id := visitorOf(r).device.ID; id != "" {
		l, ok := s.cfg.Gate.enter(id, s.cfg.PerDevice)
		if !ok {
			w.Header().Set("Retry-After", "60")
			fail(w, r, http.StatusTooManyRequests, "this device has too many streams open: close a tab")
			return
		}
		defer s.cfg.Gate.exit(id, l)
		// It may have been revoked between the door and here: then nobody would end it.
		if _, err := s.visitor(r); err != nil {
			fail(w, r, http.StatusUnauthorized, "this device is not let in")
			return
		}
		gone = l.gone
	}
	epoch, after := place(r)
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no") // a proxy that gathers before it passes on would hold words back
	conn := http.NewResponseController(w)
	say := func(format string, args ...any) bool {
		conn.SetWriteDeadline(time.Now().Add(streamWait)) // in place of the one for whole answers
		_, err := fmt.Fprintf(w, format, args...)
		return err == nil && conn.Flush() == nil
	}
	if !say("retry: 2000\n\n") {
		return
	}
	beat, gap := time.NewTicker(s.cfg.Beat), time.NewTimer(0)
	defer beat.Stop()
	defer gap.Stop()
	ended := func() bool { // whether the wait for a word is over for good
		select {
		case <-r.Context().Done():
		case <-s.stopping:
		case <-gone:
		default:
			return false
		}
		return true
	}
	var said hub.Position
	var spoke time.Time
	for {
		// Many changes in a short time are one word.
		select {
		case <-gap.C:
		case <-r.Context().Done():
		case <-s.stopping:
		case <-gone:
		}
		if ended() {
			return
		}
		at, word, moved := s.cfg.Hub.News(epoch, after)
		if at != said {
			if !say("event: changed\nid: %s-%d\ndata: %s\n\n", at.Epoch, at.Seq, word) {
				return
			}
			said, spoke = at, time.Now()
			epoch, after = at.Epoch, at.Seq // told to fetch, it has that much next
		}
		for waiting := true; waiting; {
			select {
			case <-moved:
				waiting = false
			case <-beat.C:
				if !say(":\n\n") {
					return
				}
			case <-r.Context().Done():
				return
			case <-s.stopping:
				return
			case <-gone:
				return
			}
		}
		gap.Reset(s.pause(spoke))
	}
}

// place is what a phone says it has. Whatever can't be read is nothing: it then
// fetches.
func place(r *http.Request) (epoch string, after uint64) {
	q := r.URL.Query()
	epoch, seq := q.Get("epoch"), q.Get("after")
	if id := r.Header.Get("Last-Event-ID"); id != "" {
		epoch, seq, _ = strings.Cut(id, "-")
	}
	after, err := strconv.ParseUint(seq, 10, 64)
	if err != nil {
		return "", 0
	}
	return epoch, after
}

// pause is how long a stream waits before a word: not at all when it has been
// quiet, else to the end of the gap. The gaps of all streams end together, so
// that all are at the same place and one word does for all.
func (s *Server) pause(spoke time.Time) time.Duration {
	gap, now := s.gap(), time.Now()
	if now.Sub(spoke) >= gap {
		return 0
	}
	return now.Truncate(gap).Add(gap).Sub(now)
}

// gap is how long a stream is quiet after each word. Every word goes to every
// phone: the more phones, the more changes one word must stand for.
func (s *Server) gap() time.Duration {
	if s.cfg.Gap != 0 {
		return s.cfg.Gap
	}
	return 10*time.Millisecond + time.Duration(s.streams.Load())*(50*time.Microsecond)
}
