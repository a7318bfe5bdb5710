package sim

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// step does one thing: what people do most of the time, a fault now and then.
func (w *world) step() {
	p := pick(w, w.phones)
	switch w.chance.IntN(16) {
	case 0, 1, 2, 3:
		w.event(p)
	case 4, 5:
		w.write(p)
	case 6, 7, 8, 9:
		w.sync(p, way{})
	case 10:
		w.hear(p)
	case 11:
		w.commandLine(w.server(p))
	case 12:
		w.abuse(w.server(p), p)
	default:
		w.disturb(p)
	}
}

// event makes an event on a phone.
func (w *world) event(p *phone) {
	id := w.id("event")
	ev := dinner.Event{Dinner: "boathouse"}
	kind := w.chance.IntN(8)
	if p.role == "helper" && !w.odds(10) { // its screens offer no more
		kind = w.chance.IntN(6)
	}
	switch kind {
	default:
		ev.Kind, ev.On, ev.Done = dinner.KindTick, fmt.Sprintf("stock#1/step/%d", 1+w.chance.IntN(4)), w.odds(2)
	case 4:
		ev.Kind, ev.Text = dinner.KindNote, strings.Repeat("a note <&> ", 1+w.chance.IntN(300))
	case 5:
		own := p.brain.holds().Events
		for _, k := range sortedKeys(own) {
			if w.odds(len(own)) {
				ev.Kind, ev.Undo = dinner.KindUndo, k
			}
		}
		if ev.Kind == "" {
			return
		}
	case 6, 7:
		ev.Kind, ev.Number = dinner.KindCovers, 1+w.chance.IntN(40)
	}
	id = p.brain.make(id, w.clock(p), ev)
	w.events[id] = true
	w.note("%s: %s %s", p.name, ev.Kind, id)
	w.count("events")
}

// write edits a card on a phone.
func (w *world) write(p *phone) {
	if p.role == "helper" {
		return
	}
	name := pick(w, []string{"stock.md", "sauce.md"})
	line := fmt.Sprintf("line %d\n", w.made)
	newest, beside := p.brain.newest(name)
	id, text := w.id("offer"), newest+line
	if w.heavy {
		text = line + strings.Repeat("<&> a long card\n", 10_000+w.chance.IntN(8000))
	}
	switch w.chance.IntN(12) {
	case 0, 1, 2:
		text = line + newest
	case 4, 5:
		if len(beside) > 0 {
			id = p.brain.choose(id, w.clock(p), name, text, beside)
			w.note("%s: chooses a text of %s, %s", p.name, name, id)
			w.count("choices")
			return
		}
	}
	id = p.brain.edit(id, w.clock(p), name, text)
	w.note("%s: edits %s, %s", p.name, name, id)
	w.count("edits")
}

// A way is how one sync goes wrong.
type way struct {
	lost, twice bool
	killed      bool
	during      func() // happens while the body is on its way
}

// sync makes one exchange of a phone with its server. It reports whether there is more
// to do.
func (w *world) sync(p *phone, how way) (more bool) {
	s := w.server(p)
	body := p.brain.request(w.clock(p))
	p.stale = append(p.stale, body)
	if s.store == nil {
		p.brain.lost()
		return false
	}
	q := request{method: "POST", path: "/api/sync", cookie: p.cookies[s], body: string(body), during: how.during}
	var told reply
	send := func() (status int, body []byte) {
		r := s.fromNetwork(q)
		told = w.checkReply(s, r.Code, r.Body.Bytes())
		return r.Code, r.Body.Bytes()
	}
	var status int
	var answer []byte
	if how.killed {
		s.kill(func() { status, answer = send() })
	} else {
		status, answer = send()
	}
	w.checkIntake(s, p.ids[s], s.observe())
	if how.twice && s.store != nil {
		q.during = nil
		status, answer = send()
		w.checkIntake(s, p.ids[s], s.observe())
	}
	if w.traced {
		w.note("%s: sync with server %d: sends %s; status %d: %s", p.name, p.at, inShort(body), status, inShort(answer))
	}
	w.count("requests")
	if how.lost || how.killed {
		p.brain.lost()
		return true
	}
	s.remember(told)
	return p.brain.take(w.clock(p), status, answer)
}

// inShort returns the cursor and the files of a request or a reply, for the trace.
func inShort(body []byte) string {
	var r struct {
		After, Next, Chain string
		Reset              bool
		Acked              []string
		Refused            []hub.Refusal
		Events             []dinner.Event
		Files              []file
	}
	json.Unmarshal(body, &r) // what is not there stays empty
	line := fmt.Sprintf("%s%s %.6s %d events", r.After, r.Next, r.Chain, len(r.Events))
	for _, f := range r.Files {
		line += fmt.Sprintf(" [%s %.6s on %.6s beside %.6s]", f.Name, dinner.Revision(f.Text), f.Base, f.Beside)
	}
	if r.Reset {
		line += " reset"
	}
	for _, id := range r.Acked {
		line += " " + id
	}
	for _, refused := range r.Refused {
		line += " refused " + refused.ID + ": " + refused.Why
	}
	return line
}

// remember notes what a reply acknowledges: a phone has been told that it is kept.
func (s *server) remember(told reply) {
	for _, id := range told.Acked {
		s.acked[id] = true
	}
}

// hear opens the stream for a phone and delivers messages, late, twice or never.
func (w *world) hear(p *phone) {
	s := w.server(p)
	if s.store == nil {
		return
	}
	epoch, after, chain := p.brain.cursor()
	status, message := s.message(p.cookies[s], epoch, after, chain)
	if status == 200 {
		p.news = append(p.news, message)
	}
	for len(p.news) > 0 && !w.odds(3) {
		i := 0
		if w.faults[replies] {
			i = w.chance.IntN(len(p.news))
		}
		fetch := p.brain.hear(p.news[i])
		w.note("%s: hears a message, fetches %v", p.name, fetch)
		if !w.faults[replies] || !w.odds(3) {
			p.news = slices.Delete(p.news, i, i+1)
		}
		if fetch {
			w.sync(p, way{})
		}
	}
	w.count("messages")
}

// commandLine is one command on a server.
func (w *world) commandLine(s *server) {
	if s.store == nil {
		return
	}
	switch w.chance.IntN(4) {
	case 0:
		r := s.command("GET", "/api/verify", "")
		if !s.flipped {
			w.equal(200, r.Code, "verify: %s", r.Body)
		}
	case 1:
		r := s.command("GET", "/api/backup", "")
		if r.Code == 200 && !s.flipped {
			s.backup = s.path + ".backup"
			w.writeFile(s.backup, r.Body.Bytes())
		}
	case 2:
		text := fmt.Sprintf("imported %d\n", w.made)
		body := fmt.Sprintf(`{"device":"import","after":"0","events":[],"files":[{"id":%q,"name":"imported.md","base":"","text":%q}]}`, w.id("offer"), text)
		r := s.command("POST", "/api/sync", body)
		s.remember(w.checkReply(s, r.Code, r.Body.Bytes()))
		s.observe()
	case 3:
		s.restart()
	}
	w.count("commands")
}

// pair pairs a phone with a server by a code, in the phone's role.
func (w *world) pair(p *phone, s *server) {
	r := s.command("POST", "/api/devices/code/"+p.role, "")
	if s.flipped && r.Code != 200 {
		return
	}
	w.equal(200, r.Code, "a code: %s", r.Body)
	var code struct{ Code string }
	w.must(json.Unmarshal(r.Body.Bytes(), &code), "read a code")
	r = s.fromNetwork(request{method: "POST", path: "/api/pair", body: fmt.Sprintf(`{"code":%q,"name":%q}`, code.Code, p.name)})
	if r.Code == 503 || s.flipped && r.Code != 200 { // no room: another day
		return
	}
	w.equal(200, r.Code, "pair: %s", r.Body)
	p.cookies[s] = r.Result().Cookies()[0].Value
	var me struct{ ID string }
	w.must(json.Unmarshal(r.Body.Bytes(), &me), "read who I am")
	p.ids[s] = me.ID
	s.roles[me.ID] = p.role
}

// devices reads the roles of the paired devices from the server.
func (s *server) devices() {
	r := s.command("GET", "/api/devices", "")
	s.w.equal(200, r.Code, "devices: %s", r.Body)
	var all []struct{ ID, Role string }
	s.w.must(json.Unmarshal(r.Body.Bytes(), &all), "read the devices")
	s.roles = map[string]string{}
	for _, d := range all {
		s.roles[d.ID] = d.Role
	}
}

// settle ends all faults and lets the phones sync until nothing is left to do, on the
// first server. Then everything must be as if nothing had gone wrong.
func (w *world) settle() {
	w.note("all faults end")
	for _, s := range w.servers {
		s.size, s.skew = 0, 0
		w.repair(s)
	}
	s := w.servers[0]
	for _, p := range w.phones {
		p.at, p.news = 0, nil
		if !p.gone && s.roles[p.ids[s]] == "" {
			w.pair(p, s)
		}
	}
	for round := 0; ; round++ {
		if round == 60 {
			for _, p := range w.phones {
				epoch, after, _ := p.brain.cursor()
				w.note("%s, revoked %v, is at %s %s and has %v waiting; the log is at %s %s", p.name, p.gone, epoch, after, p.brain.holds().Outbox, s.epoch, s.after)
			}
			w.fail("the phones never stop syncing")
		}
		for _, p := range w.phones {
			for n := 0; !p.gone && w.sync(p, way{}); n++ {
				if n == 60 {
					w.fail("%s never stops syncing", p.name)
				}
			}
			w.now = w.now.Add(time.Second)
		}
		if !slices.ContainsFunc(w.phones, func(p *phone) bool {
			_, after, _ := p.brain.cursor()
			return !p.gone && (len(p.brain.holds().Outbox) > 0 || after != s.after)
		}) {
			break
		}
	}
	w.checkEnd(s)
	for _, s := range w.servers {
		r := s.command("GET", "/api/verify", "")
		w.equal(200, r.Code, "verify at the end: %s", r.Body)
	}
}
