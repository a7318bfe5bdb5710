package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"hobside/internal/hub"
)

// streamWait is how long a phone may take to take one word of the stream before
// it counts as gone.
const streamWait = 10 * time.Second

// stream is GET /api/stream: server-sent events (WHATWG HTML, section 9.2). It
// says where the log is, at once and whenever that changes; the phone then asks
// by sync. It carries no data, so nothing is missed when it breaks.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	if s.streams.Add(1) > int64(s.cfg.MaxStreams) {
		s.streams.Add(-1)
		w.Header().Set("Retry-After", "60")
		fail(w, r, http.StatusServiceUnavailable, "too many streams are open")
		return
	}
	defer s.streams.Add(-1)
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
	for said := (hub.Position{}); ; {
		// Many changes in a short time are one word: phones fetch all at once.
		select {
		case <-gap.C:
		case <-r.Context().Done():
			return
		case <-s.stopping:
			return
		}
		at, moved := s.cfg.Hub.Watch()
		if at != said {
			data, err := json.Marshal(at)
			if err != nil || !say("event: changed\ndata: %s\n\n", data) {
				return
			}
			said = at
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
			}
		}
		gap.Reset(s.gap())
	}
}

// gap is how long a stream is quiet after each word. Every word brings a request
// from every phone: the more phones, the more changes one word must stand for.
func (s *Server) gap() time.Duration {
	if s.cfg.Gap != 0 {
		return s.cfg.Gap
	}
	return 10*time.Millisecond + time.Duration(s.streams.Load())*(100*time.Microsecond)
}
