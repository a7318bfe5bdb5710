package sim

import (
	"encoding/json"
	"maps"
	"slices"
	"strconv"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// A brain is what a phone keeps and how it syncs: the Go model here, or the page's own
// modules under Node.
type brain interface {
	// make makes an event and returns its id, which may be another than was asked for. The
	// brain sets its device and stamp.
	make(id string, now int64, ev dinner.Event) (made string)
	// edit saves a text of a file that was made from the newest one, and returns the
	// offer's id, as make does.
	edit(id string, now int64, name, text string) (made string)
	// newest returns the newest text of a file that the phone knows, and the revisions
	// beside it that wait for somebody to choose.
	newest(name string) (text string, beside []string)
	// choose is edit for a text that is chosen over the revisions beside the newest.
	choose(id string, now int64, name, text string, over []string) (made string)
	// request returns the body of the next sync.
	request(now int64) []byte
	// take takes the reply to the last request, and reports whether there is more to do.
	take(now int64, status int, body []byte) (more bool)
	// lost tells that no reply came.
	lost()
	// cursor returns where the phone is in the log.
	cursor() (epoch, after, chain string)
	// hear takes a message of the stream, and reports whether the phone must fetch.
	hear(message []byte) (fetch bool)
	// holds returns all that the phone has.
	holds() holding
}

// A holding is all that a phone has.
type holding struct {
	Events map[string]dinner.Event `json:"events"`
	Names  map[string]string       `json:"names"` // file name -> newest revision
	Texts  map[string]string       `json:"texts"` // revision -> text
	Outbox []string                `json:"outbox"`
	Parked []string                `json:"parked"` // ids
	Own    []string                `json:"own"`    // names of files with a parked edit
	Beside map[string][]string     `json:"beside"` // file name -> revisions that wait for somebody to choose
}

// waiting is an entry of the outbox.
type waiting struct {
	event bool
	offer hub.Offer // only its ID for an event
}

// A model is the Go model of what static/app keeps and does: events.js, offers.js,
// answer.js, offeragain.js, parking.js and stream.js, under the same names.
type model struct {
	device, epoch, after, chain, role string
	offset                            int64
	last                              dinner.Stamp
	events                            map[string]dinner.Event
	files                             map[string]file // by revision
	names                             map[string]string
	outbox                            []waiting
	parked                            map[string]waiting
	sure                              *hub.Position // see hub.Request

	sent       int64
	asked      string
	sentEvents []dinner.Event // of the last request
	sentOffers []hub.Offer
}

// modelBrains makes Go models.
func modelBrains(_ *world, device string) brain {
	return &model{device: device, after: "0", events: map[string]dinner.Event{}, files: map[string]file{}, names: map[string]string{}, parked: map[string]waiting{}}
}

func (m *model) make(id string, now int64, ev dinner.Event) string {
	m.last = dinner.Next(now+m.offset, m.last)
	ev.ID, ev.Device, ev.Stamp = id, m.device, m.last
	m.events[id] = ev
	m.outbox = append(m.outbox, waiting{event: true, offer: hub.Offer{ID: id}})
	return id
}

func (m *model) edit(id string, now int64, name, text string) string {
	return m.choose(id, now, name, text, nil)
}

func (m *model) choose(id string, now int64, name, text string, over []string) string {
	base, revision := m.names[name], dinner.Revision(text)
	m.outbox = append(m.outbox, waiting{offer: hub.Offer{ID: id, Name: name, Base: base, Text: text, Settles: over}})
	if revision != base {
		m.files[revision] = file{Name: name, Revision: revision, Base: base, Text: text, At: now + m.offset, Settles: over}
		m.names[name] = revision
	}
	return id
}

func (m *model) newest(name string) (text string, beside []string) {
	return m.files[m.names[name]].Text, m.beside(name)
}

// beside returns the revisions of a file that wait for somebody to choose.
func (m *model) beside(name string) (out []string) {
	used := map[string]bool{}
	for _, f := range m.files {
		if f.Name == name {
			used[f.Base] = used[f.Base] || f.Base != f.Revision
			for _, r := range f.Settles {
				used[r] = used[r] || r != f.Revision
			}
		}
	}
	for _, r := range sortedKeys(m.files) {
		if f := m.files[r]; f.Name == name && f.Beside != "" && m.names[name] != r && !used[r] {
			out = append(out, r)
		}
	}
	return out
}

// page and bytes are how much one request carries, see offers.js.
const (
	pageRecords = 400
	pageBytes   = 600_000
)

func (m *model) request(now int64) []byte {
	m.sentEvents, m.sentOffers, m.sent, m.asked = nil, nil, now, m.after
	bytes := 0
	for _, w := range m.outbox {
		if len(m.sentEvents)+len(m.sentOffers) >= pageRecords {
			break
		}
		if !w.event && slices.ContainsFunc(m.sentOffers, func(o hub.Offer) bool { return o.Name == w.offer.Name }) {
			continue
		}
		var what any = w.offer
		ev, ok := m.events[w.offer.ID]
		if w.event {
			if !ok {
				continue
			}
			what = ev
		}
		b, _ := json.Marshal(what)
		if bytes > 0 && bytes+len(b) > pageBytes {
			break
		}
		bytes += len(b)
		if w.event {
			m.sentEvents = append(m.sentEvents, ev)
		} else {
			m.sentOffers = append(m.sentOffers, w.offer)
		}
	}
	b, _ := json.Marshal(map[string]any{"device": m.device, "epoch": m.epoch, "after": m.after, "chain": m.chain, "sure": m.sure, "events": list(m.sentEvents), "files": list(m.sentOffers)})
	return b
}

// list is a slice that is [] in JSON, never null.
func list[T any](s []T) []T {
	if s == nil {
		return []T{}
	}
	return s
}

func (m *model) lost() {}

func (m *model) cursor() (epoch, after, chain string) { return m.epoch, m.after, m.chain }

func (m *model) drop(id string) {
	m.outbox = slices.DeleteFunc(m.outbox, func(w waiting) bool { return w.offer.ID == id })
}

func (m *model) take(now int64, status int, body []byte) (more bool) {
	if status != 200 {
		return false
	}
	var r reply
	if json.Unmarshal(body, &r) != nil {
		return false
	}
	for _, id := range r.Acked {
		m.drop(id)
	}
	for _, refused := range r.Refused {
		if i := slices.IndexFunc(m.outbox, func(w waiting) bool { return w.offer.ID == refused.ID }); i >= 0 {
			m.parked[refused.ID] = m.outbox[i]
			if m.outbox[i].event {
				delete(m.events, refused.ID)
			}
		}
		m.drop(refused.ID)
	}
	m.adopt(r.Events)
	for _, f := range r.Files {
		m.files[f.Revision] = f
		if f.Beside == "" && !slices.ContainsFunc(m.outbox, func(w waiting) bool { return !w.event && w.offer.Name == f.Name }) {
			m.names[f.Name] = f.Revision
		}
	}
	if r.Reset || m.role == "helper" && r.Role != "helper" {
		m.offerAgain(r)
	}
	next, chain := r.Next, r.Chain
	if !r.Reset && m.epoch == r.Epoch && further(m.after, r.Next) {
		next, chain = m.after, m.chain
	}
	moved := len(r.Acked)+len(r.Refused) > 0 || !r.Reset && further(r.Next, m.asked)
	m.epoch, m.after, m.chain, m.role = r.Epoch, next, chain, r.Role
	if r.Device != "" {
		m.device = r.Device
	}
	if len(r.Acked) > 0 && r.End != nil {
		m.sure = r.End
	} else if r.Reset || !r.More {
		m.sure = nil
	}
	if offset := r.Now - now; offset-m.offset >= 2000 || m.offset-offset >= 2000 {
		if m.offset = offset; offset < 2000 && offset > -2000 {
			m.offset = 0
		}
	}
	return (r.More || r.Reset || len(m.outbox) > 0) && (moved || r.Reset)
}

func (m *model) adopt(came []dinner.Event) {
	restamped, news := false, []dinner.Event{}
	for _, ev := range came {
		old, had := m.events[ev.ID]
		if had && old.Stamp == ev.Stamp && old.Device == ev.Device && old.Who == ev.Who {
			continue
		}
		m.events[ev.ID] = ev
		news = append(news, ev)
		restamped = restamped || had && old.Stamp.Compare(ev.Stamp) > 0
	}
	if restamped {
		m.last = dinner.Stamp{}
	}
	for _, ev := range news {
		if ev.Stamp.Compare(m.last) > 0 {
			m.last = ev.Stamp
		}
	}
}

func (m *model) offerAgain(r reply) {
	there := map[string]bool{}
	for _, w := range m.outbox {
		there[w.offer.ID] = true
	}
	for _, id := range r.Acked {
		there[id] = true
	}
	for _, ev := range r.Events {
		there[ev.ID] = true
	}
	if r.Role != "helper" {
		for _, f := range m.inOrder() {
			id := "file-" + f.Revision
			if !there[id] && !slices.ContainsFunc(r.Files, func(g file) bool { return g.Revision == f.Revision }) {
				m.outbox = append(m.outbox, waiting{offer: hub.Offer{ID: id, Name: f.Name, Base: f.Base, Text: f.Text, Beside: f.Beside, Settles: f.Settles}})
			}
		}
	}
	events := slices.SortedFunc(maps.Values(m.events), func(a, b dinner.Event) int { return a.Stamp.Compare(b.Stamp) })
	for _, ev := range events {
		if !there[ev.ID] && (r.Kinds == nil || slices.Contains(r.Kinds, ev.Kind)) {
			m.outbox = append(m.outbox, waiting{event: true, offer: hub.Offer{ID: ev.ID}})
		}
	}
}

// inOrder returns the files so that each comes after the one it was made from.
func (m *model) inOrder() (out []file) {
	byTime := slices.SortedFunc(maps.Values(m.files), func(a, b file) int {
		if a.At != b.At {
			return int(max(-1, min(1, a.At-b.At)))
		}
		return slices.Compare([]byte(a.Revision), []byte(b.Revision))
	})
	seen := map[string]bool{}
	for _, f := range byTime {
		var chain []file
		for ok := true; ok && !seen[f.Revision]; {
			seen[f.Revision] = true
			chain = append(chain, f)
			base, has := m.files[f.Base]
			ok = has && base.Name == f.Name
			f = base
		}
		slices.Reverse(chain)
		out = append(out, chain...)
	}
	return out
}

func (m *model) hear(message []byte) (fetch bool) {
	var w struct {
		Epoch, Seq, Chain string
		From              *string
		Chains            []string
		Events            []dinner.Event
	}
	if json.Unmarshal(message, &w) != nil {
		return true
	}
	if w.Epoch == m.epoch && further(m.after, w.Seq) {
		return false // known already
	}
	if w.Epoch != m.epoch || w.From == nil || further(*w.From, m.after) {
		return true
	}
	if i := number(m.after) - number(*w.From); i >= uint64(len(w.Chains)) || w.Chains[i] != m.chain {
		return true
	}
	m.adopt(w.Events)
	m.after, m.chain = w.Seq, w.Chain
	return false
}

// further reports whether cursor a is beyond b.
func further(a, b string) bool { return number(a) > number(b) }

func number(cursor string) uint64 {
	n, _ := strconv.ParseUint(cursor, 10, 64)
	return n
}

func (m *model) holds() holding {
	h := holding{Events: m.events, Names: m.names, Texts: map[string]string{}, Beside: map[string][]string{}, Parked: slices.Sorted(maps.Keys(m.parked))}
	for revision, f := range m.files {
		h.Texts[revision] = f.Text
		h.Beside[f.Name] = m.beside(f.Name)
	}
	for _, w := range m.outbox {
		h.Outbox = append(h.Outbox, w.offer.ID)
	}
	for _, id := range h.Parked {
		if w := m.parked[id]; !w.event {
			h.Own = append(h.Own, w.offer.Name)
		}
	}
	return h
}
