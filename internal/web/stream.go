package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"hobside/internal/hub"
)

// streamWait is how long a phone may take to receive one message of the stream.
// After it the stream is closed.
const streamWait = 10 * time.Second

// stream is GET /api/stream: server-sent events (WHATWG HTML, section 9.2). It
// sends a message with the end of the log at once, and after each change of it. A
// phone tells its cursor by ?epoch=E&after=N&chain=C, or by Last-Event-ID when it
// connects again. Where the phone lacks little, the records are in the message;
// else it fetches them by sync. So nothing is missed when the stream breaks.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	if s.streams.Add(1) > int64(s.cfg.MaxStreams) {
		s.streams.Add(-1)
		w.Header().Set("Retry-After", "60")
		fail(w, r, http.StatusServiceUnavailable, "too many streams are open")
		return
	}
	defer s.streams.Add(-1)
	var revoked <-chan struct{}
	if id := visitorOf(r).device.ID; id != "" {
		open, ok := s.cfg.Gate.streams.add(id, s.cfg.PerDevice)
		if !ok {
			w.Header().Set("Retry-After", "60")
			fail(w, r, http.StatusTooManyRequests, "this device has too many streams open: close a tab")
			return
		}
		defer s.cfg.Gate.streams.remove(id, open)
		// A device that was revoked before its stream was counted would keep it.
		if _, err := s.visitor(r); err != nil {
			turnAway(w, r, http.StatusUnauthorized, notPaired)
			return
		}
		revoked = open.revoked
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no") // tells a proxy to pass each message on at once
	m := &messages{s: s, w: w, conn: http.NewResponseController(w), request: r.Context().Done(), revoked: revoked}
	m.at = place(r)
	m.run()
}

// A messages is the sending side of one open stream.
type messages struct {
	s       *Server
	w       http.ResponseWriter
	conn    *http.ResponseController
	request <-chan struct{} // closed when the phone has gone
	revoked <-chan struct{} // closed when the device is revoked; nil on this machine

	at       hub.Position // the phone's cursor
	sent     hub.Position // the end of the log in the last message
	lastSent time.Time
}

// run sends messages until the phone goes, the device is revoked or the server
// stops.
func (m *messages) run() {
	if !m.send("retry: 2000\n\n") {
		return
	}
	keepAlive, gap := time.NewTicker(m.s.cfg.KeepAlive), time.NewTimer(0)
	defer keepAlive.Stop()
	defer gap.Stop()
	for {
		// Changes within the gap become one message.
		select {
		case <-gap.C:
		case <-m.request:
			return
		case <-m.s.stopping:
			return
		case <-m.revoked:
			return
		}
		moved, ok := m.news()
		if !ok || !m.wait(moved, keepAlive.C) {
			return
		}
		gap.Reset(m.s.pause(m.lastSent))
	}
}

// news sends a message when the log has grown since the last one. It returns a
// channel that is closed when the log grows again; ok is false when the phone has
// gone.
func (m *messages) news() (moved <-chan struct{}, ok bool) {
	at, message, moved := m.s.cfg.Hub.News(m.at)
	if at == m.sent {
		return moved, true
	}
	if m.over() || !m.send("event: changed\nid: %s-%d-%s\ndata: %s\n\n", at.Epoch, at.Seq, at.Chain, message) {
		return moved, false
	}
	m.sent, m.lastSent = at, time.Now()
	m.at = at // a phone that is told to fetch has this much next
	return moved, true
}

// wait waits until the log grows, and keeps the connection alive meanwhile. It
// returns false when the stream is over.
func (m *messages) wait(moved <-chan struct{}, keepAlive <-chan time.Time) bool {
	for {
		select {
		case <-moved:
			return true
		case <-keepAlive:
			if !m.send(":\n\n") {
				return false
			}
		case <-m.request:
			return false
		case <-m.s.stopping:
			return false
		case <-m.revoked:
			return false
		}
	}
}

// over reports whether the stream has ended, although the gap has ended too: a
// select with both ready takes either.
func (m *messages) over() bool {
	select {
	case <-m.request:
	case <-m.s.stopping:
	case <-m.revoked:
	default:
		return false
	}
	return true
}

// send writes to the phone. It returns false when the phone has gone or is too
// slow.
func (m *messages) send(format string, args ...any) bool {
	m.conn.SetWriteDeadline(time.Now().Add(streamWait)) // instead of the server's deadline for a whole reply
	_, err := fmt.Fprintf(m.w, format, args...)
	return err == nil && m.conn.Flush() == nil
}

// place returns the cursor that a phone sent. A cursor that can't be read is the zero
// Position: the phone then fetches.
func place(r *http.Request) hub.Position {
	q := r.URL.Query()
	epoch, seq, chain := q.Get("epoch"), q.Get("after"), q.Get("chain")
	if id := r.Header.Get("Last-Event-ID"); id != "" {
		epoch, seq, _ = strings.Cut(id, "-")
		seq, chain, _ = strings.Cut(seq, "-")
	}
	after, err := strconv.ParseUint(seq, 10, 64)
	if err != nil {
		return hub.Position{}
	}
	return hub.Position{Epoch: epoch, Seq: after, Chain: chain}
}

// pause returns how long a stream waits before its next message: 0 when it has
// been quiet for a gap, else up to the end of the current gap. The gaps of all
// streams end together, so that all are at the same place and get the same bytes.
func (s *Server) pause(lastSent time.Time) time.Duration {
	gap, now := s.gap(), time.Now()
	if now.Sub(lastSent) >= gap {
		return 0
	}
	return now.Truncate(gap).Add(gap).Sub(now)
}

// gap returns the least time between two messages of a stream. Every message goes
// to every phone, so with more phones each message covers more changes.
func (s *Server) gap() time.Duration {
	if s.cfg.Gap != 0 {
		return s.cfg.Gap
	}
	return 10*time.Millisecond + time.Duration(s.streams.Load())*(50*time.Microsecond)
}
