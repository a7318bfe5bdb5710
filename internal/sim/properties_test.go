package sim

import (
	"encoding/json"
	"net/http/httptest"
	"slices"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// plainWords holds every reply to words for people and to a status that the page knows.
func (w *world) plainWords(q request, r *httptest.ResponseRecorder) {
	if !slices.Contains([]int{200, 400, 401, 403, 404, 405, 409, 413, 429, 503}, r.Code) {
		w.fail("%s %s: status %d: %s", q.method, q.path, r.Code, r.Body)
	}
	if strings.Contains(r.Body.String(), "runtime error") {
		w.fail("%s %s: %s", q.method, q.path, r.Body)
	}
}

// mostBytes bounds the records of a reply but its largest, and slack the rest of it.
const (
	mostBytes = 1 << 20
	slack     = 64 << 10
)

// checkReply checks the reply of a sync: within its bound, and no record in it that is not
// as it was when it was first read. It returns the reply.
//
// Not mended yet: where a changed bit is in the index of ids, a request that comes again is
// taken again, and the event gets another stamp.
func (w *world) checkReply(s *server, status int, body []byte) (r reply) {
	if status != 200 {
		if len(body) > 2000 {
			w.fail("a refusal of %d bytes", len(body))
		}
		return r
	}
	w.checkSize(body)
	w.must(json.Unmarshal(body, &r), "read a reply")
	for _, ev := range r.Events {
		b, _ := json.Marshal(ev)
		if known, ok := s.known[ev.ID]; ok && known.json != string(b) && !(s.flipped && known.event.Same(&ev)) {
			w.fail("event %s was %s and is now %s", ev.ID, known.json, b)
		}
	}
	for _, f := range r.Files {
		if dinner.Revision(f.Text) != f.Revision {
			w.fail("revision %s of %s has another text", f.Revision, f.Name)
		}
	}
	return r
}

// checkSize holds a reply to its bound.
func (w *world) checkSize(body []byte) {
	if len(body) <= mostBytes {
		return
	}
	var raw struct{ Events, Files []json.RawMessage }
	w.must(json.Unmarshal(body, &raw), "read a reply")
	largest := 0
	for _, r := range append(raw.Events, raw.Files...) {
		largest = max(largest, len(r))
	}
	if len(body)-largest > mostBytes+slack {
		w.fail("a reply of %d bytes, its largest record %d", len(body), largest)
	}
}

// checkIntake holds what a request brought to the rights of the device that sent it.
func (w *world) checkIntake(s *server, device string, fresh []entry) {
	role := s.roles[device]
	for _, e := range fresh {
		switch {
		case s.flipped:
		case role == "":
			w.fail("a device that is not paired wrote %s", e.id)
		case role == "cook":
		case e.revision != "":
			w.fail("a helper wrote a file: %s", e.id)
		case !s.helperMay(e.event):
			w.fail("a helper wrote %s", e.json)
		case e.event.Device != device:
			w.fail("a helper signed for another: %s", e.json)
		}
	}
}

// helperMay reports whether an event is of a kind that a helper may send. An undo has the
// kind of what it undoes.
func (s *server) helperMay(ev dinner.Event) bool {
	for ev.Kind == dinner.KindUndo {
		undone, ok := s.known[ev.Undo]
		if !ok {
			return false
		}
		ev = undone.event
	}
	return slices.Contains(hub.HelperKinds, ev.Kind)
}

// checkStranger checks the reply to somebody without a valid cookie.
func (w *world) checkStranger(s *server, ask [3]string, status int, body []byte) {
	if status != 401 && !(ask[1] == "/api/pair" && status == 403) && !s.flipped {
		w.fail("a stranger got %d for %s %s", status, ask[0], ask[1])
	}
	for _, e := range s.ledger {
		if strings.Contains(string(body), e.id) {
			w.fail("a stranger read %s by %s %s", e.id, ask[0], ask[1])
		}
	}
}

// checkDamage asks a server with a changed bit for everything. Every record must be as it
// was, or the server must say that something is damaged.
func (w *world) checkDamage(s *server) {
	served := map[string]bool{}
	reported := false
	for after, epoch, chain := "0", "", ""; ; {
		b, _ := json.Marshal(map[string]string{"device": "observer", "epoch": epoch, "after": after, "chain": chain})
		a := s.fromHere("POST", "/api/sync", string(b))
		if a.Code != 200 {
			reported = true
			break
		}
		r := w.checkReply(s, a.Code, a.Body.Bytes())
		for _, ev := range r.Events {
			served[ev.ID] = true
		}
		for _, f := range r.Files {
			served["file "+f.Name+" "+f.Revision] = true
		}
		reported = reported || len(r.Damaged) > 0
		if after, epoch, chain = r.Next, r.Epoch, r.Chain; !r.More {
			break
		}
	}
	if health := s.fromHere("GET", "/healthz", ""); health.Code != 200 {
		return // reported
	} else if reported {
		w.fail("a damaged record was named, and /healthz says all is well")
	}
	for _, e := range s.ledger {
		if !served[e.id] {
			w.fail("after a changed bit %s is missing and nothing says so", e.id)
		}
	}
}

// checkEnd compares all phones and the log after everything has settled.
func (w *world) checkEnd(s *server) {
	log := map[string]entry{}
	heads := map[string]string{}
	for _, e := range s.ledger {
		log[e.id] = e
		if e.revision != "" && !e.beside {
			heads[e.name] = e.revision
		}
	}
	held := map[string]bool{}
	first := w.phones[0].brain.holds() // always a cook's
	for _, p := range w.phones {
		if !p.gone {
			w.checkPhone(s, p, log, heads, held)
			for _, name := range sortedKeys(heads) {
				h := p.brain.holds()
				if helper := s.roles[p.ids[s]] == "helper"; !helper && !slices.Equal(h.Beside[name], first.Beside[name]) && !slices.Contains(h.Own, name) {
					w.fail("beside %s wait %v on %s and %v on %s", name, h.Beside[name], p.name, first.Beside[name], w.phones[0].name)
				}
			}
		}
	}
	for _, s := range w.servers {
		for _, id := range sortedKeys(s.acked) {
			_, is := s.known[id]
			if w.events[id] && !is && !s.rolled {
				w.fail("%s was acknowledged and is lost", id)
			}
		}
	}
	for _, id := range sortedKeys(held) {
		if _, ok := log[id]; !ok {
			w.fail("a phone has %s and the server does not", id)
		}
	}
}

// checkPhone compares one phone with the log. It adds to held what the log must have.
func (w *world) checkPhone(s *server, p *phone, log map[string]entry, heads map[string]string, held map[string]bool) {
	h := p.brain.holds()
	helper := s.roles[p.ids[s]] == "helper"
	for _, id := range sortedKeys(h.Events) {
		ev := h.Events[id]
		if !helper || s.helperMay(ev) {
			held[id] = true
		}
	}
	for _, id := range sortedKeys(log) {
		e := log[id]
		if e.revision != "" {
			if h.Texts[e.revision] != e.json {
				w.fail("%s has another text of %s", p.name, id)
			}
			continue
		}
		ev, ok := h.Events[id]
		if b, _ := json.Marshal(ev); !ok || string(b) != e.json {
			w.fail("%s has %s and the log has %s", p.name, b, e.json)
		}
	}
	for _, name := range sortedKeys(heads) {
		revision := heads[name]
		if h.Names[name] != revision && !slices.Contains(h.Own, name) {
			w.fail("%s has revision %s of %s and the log has %s", p.name, h.Names[name], name, revision)
		}
	}
	for _, revision := range sortedKeys(h.Texts) {
		text := h.Texts[revision]
		if dinner.Revision(text) != revision {
			w.fail("%s has another text of revision %s", p.name, revision)
		}
	}
}
