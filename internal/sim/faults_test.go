package sim

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"time"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/store"
)

// A fault is a kind of trouble with a switch of its own.
type fault string

const (
	replies    fault = "replies"    // replies are lost, requests come twice and late
	kills      fault = "kills"      // the server is killed at any write or sync of its data file
	full       fault = "full"       // the disk is full for a while
	clocks     fault = "clocks"     // clocks are wrong and jump
	rights     fault = "rights"     // phones are revoked and get other roles, also in mid-request
	twoServers fault = "twoServers" // the network leads to one of two servers
	restores   fault = "restores"   // a backup is restored
	oldFile    fault = "oldFile"    // an older copy of the data file is put back by hand
	bitFlips   fault = "bitFlips"   // a bit of the data file changes
)

var allFaults = []fault{replies, kills, full, clocks, rights, twoServers, restores, oldFile, bitFlips}

// usual are the faults of the runs in every test run.
var usual = map[fault]bool{replies: true, kills: true, full: true, clocks: true, rights: true, twoServers: true, restores: true, oldFile: true, bitFlips: true}

// disturb lets one of this run's faults happen.
func (w *world) disturb(p *phone) {
	s := w.server(p)
	var may []fault
	for _, f := range allFaults {
		if w.faults[f] {
			may = append(may, f)
		}
	}
	if len(may) == 0 || s.store == nil {
		return
	}
	f := pick(w, may)
	w.note("fault at %s, server %d: %s", p.name, p.at, f)
	w.count(string(f))
	switch f {
	case replies:
		w.troubleWithReplies(p, s)
	case kills:
		w.event(p)
		w.sync(p, way{killed: true})
	case full:
		s.fill(s.size == 0)
	case clocks:
		jump := pick(w, []time.Duration{time.Second, -time.Minute, time.Hour, -time.Hour, 40 * 24 * time.Hour})
		if w.odds(2) {
			p.skew += jump
		} else {
			s.skew += jump
		}
	case rights:
		w.troubleWithRights(p, s)
	case twoServers:
		p.at = w.chance.IntN(len(w.servers))
		_, err := store.Open(w.server(p).path, store.Options{Timeout: time.Millisecond})
		if err == nil {
			w.fail("two servers have one data file open")
		}
	case restores:
		if !s.flipped {
			s.restore()
		}
	case oldFile:
		if !s.flipped {
			s.putBack()
		}
	case bitFlips:
		s.flip()
	}
}

func (w *world) troubleWithReplies(p *phone, s *server) {
	switch w.chance.IntN(3) {
	case 0:
		w.sync(p, way{lost: true})
	case 1:
		w.sync(p, way{twice: true})
	case 2: // an earlier request arrives once more, and nobody reads the reply
		if len(p.stale) > 0 {
			r := s.fromNetwork(request{method: "POST", path: "/api/sync", cookie: p.cookies[s], body: string(pick(w, p.stale))})
			w.checkReply(s, r.Code, r.Body.Bytes())
			w.checkIntake(s, p.ids[s], s.observe())
		}
	}
}

// troubleWithRights changes what a phone may do, at times while its request is on its way.
func (w *world) troubleWithRights(p *phone, s *server) {
	id := p.ids[s]
	if p == w.phones[0] || p.gone || s.roles[id] == "" || s.size != 0 || s.flipped {
		return // the first phone stays a cook's
	}
	change := func() {
		if w.odds(3) {
			r := s.command("DELETE", "/api/devices/"+id, "")
			w.equal(200, r.Code, "revoke: %s", r.Body)
			delete(s.roles, id)
			p.gone = w.odds(2)
			w.note("%s is revoked", p.name)
			return
		}
		role := pick(w, []string{"cook", "helper"})
		r := s.command("POST", "/api/devices/"+id+"/"+role, "")
		w.equal(200, r.Code, "role: %s", r.Body)
		s.roles[id] = role
		for _, other := range w.servers {
			if other != s && other.store != nil && other.roles[p.ids[other]] != "" && other.size == 0 {
				other.command("POST", "/api/devices/"+p.ids[other]+"/"+role, "")
				other.roles[p.ids[other]] = role
			}
		}
		p.role = role
		w.note("%s is a %s now", p.name, role)
	}
	switch w.chance.IntN(3) {
	case 0:
		change()
	case 1:
		w.event(p)
		w.sync(p, way{during: change})
	case 2: // the cook's own phone asks, and its rights end meanwhile
		w.manageWhile(p, s, change)
	}
	if !p.gone && s.roles[id] == "" && w.odds(2) {
		w.pair(p, s)
	}
}

// manageWhile lets a phone ask for a code while its rights change.
func (w *world) manageWhile(p *phone, s *server, change func()) {
	id := p.ids[s]
	was := s.roles[id]
	r := s.fromNetwork(request{method: "POST", path: "/api/devices", cookie: p.cookies[s], body: `{"role":"cook"}`, during: change})
	want := map[string]int{"": 401, "helper": 403, "cook": 200}[s.roles[id]]
	if was == "helper" {
		want = 403 // before the body was asked for, so nothing has changed
	}
	w.equal(want, r.Code, "a code for a %s that is now a %q: %s", was, s.roles[id], r.Body)
}

// kill runs a request during which the server is killed, at any write or sync of the
// data file, and starts the server again.
func (s *server) kill(request func()) {
	before, err := os.ReadFile(s.path)
	s.w.must(err, "read the data file")
	s.w.writeFile(s.path+".before-kill", before)
	request()
	after, err := os.ReadFile(s.path)
	s.w.must(err, "read the data file")
	s.stop()
	s.w.must(os.WriteFile(s.path, crashed(s.w.split(), before, after), 0o600), "write what the disk has")
	s.start()
}

// crashed returns what is on disk after a crash in the middle of one commit of bbolt. It
// writes the pages of data in the order of their numbers, syncs, writes one of the two meta
// pages and syncs again; a power cut before a sync may lose any page and tear one.
func crashed(chance *rand.Rand, before, after []byte) []byte {
	page := os.Getpagesize()
	var data, meta []int
	for at := 0; at < len(after); at += page {
		end := min(at+page, len(after))
		if at < len(before) && bytes.Equal(before[at:min(end, len(before))], after[at:end]) {
			continue
		}
		if at < 2*page {
			meta = append(meta, at)
		} else {
			data = append(data, at)
		}
	}
	if len(meta) != 1 { // no commit, or more than one: before the first or after the last
		if chance.IntN(2) == 0 {
			return before
		}
		return after
	}
	image := make([]byte, max(len(before), len(after)))
	copy(image, before)
	put := func(at, n int) { copy(image[at:min(at+n, len(after))], after[at:]) }
	switch chance.IntN(3) {
	case 0: // the process was killed after some of the writes
		n := chance.IntN(len(data) + 1)
		for _, at := range data[:n] {
			put(at, page)
		}
	case 1: // the power was cut before the first sync
		for _, at := range data {
			switch chance.IntN(3) {
			case 0:
				put(at, page)
			case 1:
				put(at, 512*chance.IntN(page/512))
			}
		}
	default: // everything is on disk, the meta page perhaps
		for _, at := range data {
			put(at, page)
		}
		put(meta[0], []int{0, 24, 40, page, page}[chance.IntN(5)])
	}
	return image
}

// fill takes the disk's room away, or gives it back.
func (s *server) fill(isFull bool) {
	s.size = 0
	if isFull {
		info, err := os.Stat(s.path)
		s.w.must(err, "look at the data file")
		s.size = int(info.Size())
	}
	s.restart()
}

// restore puts the newest backup in the data file's place.
func (s *server) restore() {
	if s.backup == "" {
		return
	}
	s.stop()
	_, err := store.Restore(context.Background(), s.backup, s.path, s.w.now, store.Options{})
	s.w.must(err, "restore")
	s.w.must(s.open(), "start the server on a backup")
	s.rolled = true
	s.forget()
	s.observe()
	s.devices()
}

// putBack puts an older copy of the data file in its place, or makes one.
func (s *server) putBack() {
	if s.old == "" {
		s.stop()
		s.old = s.path + ".copy"
		s.copyTo(s.old)
		s.start()
		return
	}
	s.stop()
	b, err := os.ReadFile(s.old)
	s.w.must(err, "read a copy")
	s.w.must(os.WriteFile(s.path, b, 0o600), "put a copy back")
	s.old = ""
	s.rolled = true
	s.start()
	s.forget()
	s.observe()
	s.devices()
}

// compact writes the data file anew, so that the seed alone decides where things are in it.
func (s *server) compact() {
	from, err := bolt.Open(s.path, 0o600, nil)
	s.w.must(err, "open the data file")
	to, err := bolt.Open(s.path+".compact", 0o600, nil)
	s.w.must(err, "make a data file")
	s.w.must(errors.Join(bolt.Compact(to, from, 0), from.Close(), to.Close(), os.Rename(s.path+".compact", s.path)), "compact the data file")
}

// flip changes one bit of the data file.
func (s *server) flip() {
	if s.flipped { // one at a time: it is found and repaired first
		s.w.repair(s)
		return
	}
	s.stop()
	s.compact()
	b, err := os.ReadFile(s.path)
	s.w.must(err, "read the data file")
	chance := s.w.split()
	at := chance.IntN(len(b))
	for n := 0; n < 50 && b[at] == 0; n++ { // most of the file is empty: seldom there
		at = chance.IntN(len(b))
	}
	bit := 8*at + chance.IntN(8)
	b[at] ^= 1 << (bit % 8)
	s.w.must(os.WriteFile(s.path, b, 0o600), "write the data file")
	s.w.note("bit %d of the data file changes", bit)
	s.flipped = true
	s.start()
}

// repair does what a person does whose data file is damaged: the newest backup is put in
// its place, or a new file begun. A file that only may be damaged is looked at first.
func (w *world) repair(s *server) {
	if !s.flipped {
		s.restart()
		return
	}
	if s.store != nil {
		w.checkDamage(s)
		s.stop()
	}
	s.size, s.flipped, s.rolled = 0, false, true
	if s.backup != "" {
		s.restore()
		return
	}
	w.must(os.Remove(s.path), "remove the damaged file")
	w.must(s.open(), "begin a new data file")
	s.forget()
	s.roles = map[string]string{}
}

// abuse is what somebody tries who may not.
func (w *world) abuse(s *server, p *phone) {
	if s.store == nil {
		return
	}
	stolen := pick(w, []string{"", "x", "0000000000000000000000000000000000000000000"})
	if s.roles[p.ids[s]] == "" && w.odds(2) {
		stolen = p.cookies[s]
	}
	ask := pick(w, [][3]string{
		{"POST", "/api/sync", fmt.Sprintf(`{"device":"stranger","after":"0","events":[{"id":%q,"dinner":"boathouse","device":"stranger","stamp":{"wall":1,"count":0},"kind":"tick","on":"stock#1/step/1","done":true}]}`, w.id("event"))},
		{"GET", "/api/stream", ""}, {"GET", "/api/devices", ""}, {"POST", "/api/devices", `{"role":"cook"}`}, {"GET", "/api/me", ""}, {"DELETE", "/api/me", ""},
		{"DELETE", "/api/devices/" + p.ids[s], ""}, {"POST", "/api/devices/" + p.ids[s], `{"role":"cook"}`}, {"POST", "/api/pair", `{"code":"12345678"}`}, {"GET", "/healthz", ""},
	})
	r := s.fromNetwork(request{method: ask[0], path: ask[1], cookie: stolen, body: ask[2]})
	w.checkStranger(s, ask, r.Code, r.Body.Bytes())
	if fresh := s.observe(); len(fresh) > 0 && !s.flipped {
		w.fail("a stranger wrote with %s %s", ask[0], ask[1])
	}
	w.count("strangers")
	if s.roles[p.ids[s]] == "helper" {
		w.helperAsks(s, p)
	}
}

// helperAsks lets a helper's phone try what only a cook may.
func (w *world) helperAsks(s *server, p *phone) {
	ask := pick(w, [][3]string{
		{"POST", "/api/devices", `{"role":"cook"}`}, {"POST", "/api/devices/" + p.ids[s], `{"role":"cook"}`}, {"GET", "/api/devices", ""},
		{"DELETE", "/api/devices/" + w.phones[0].ids[s], ""},
	})
	r := s.fromNetwork(request{method: ask[0], path: ask[1], cookie: p.cookies[s], body: ask[2]})
	if r.Code != 403 && !s.flipped {
		w.fail("a helper got %d for %s %s: %s", r.Code, ask[0], ask[1], r.Body)
	}
	forged := fmt.Sprintf(`{"device":"phone-0","after":"0","role":"cook","events":[{"id":%q,"dinner":"boathouse","device":"phone-0","who":"Nora","stamp":{"wall":1,"count":0},"kind":%q,"number":3,"on":"stock#1/step/1","done":true}],"files":[{"id":%q,"name":"stock.md","base":"","text":"forged"}]}`,
		w.id("event"), pick(w, []string{"covers", "tick"}), w.id("offer"))
	r = s.fromNetwork(request{method: "POST", path: "/api/sync", cookie: p.cookies[s], body: forged})
	w.checkReply(s, r.Code, r.Body.Bytes())
	w.checkIntake(s, p.ids[s], s.observe())
	w.count("helpers")
}

// writeFile writes a file.
func (w *world) writeFile(name string, b []byte) {
	w.must(os.WriteFile(name, b, 0o600), "write "+name)
}

// copyTo copies the data file.
func (s *server) copyTo(name string) {
	b, err := os.ReadFile(s.path)
	s.w.must(err, "read the data file")
	s.w.writeFile(name, b)
}

// sortedKeys returns the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
