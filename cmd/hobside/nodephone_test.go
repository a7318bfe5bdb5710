package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// A nodePhone runs the page's own sync under Node, see testdata/phone/phone.mjs.
type nodePhone struct {
	t     *testing.T
	in    io.Writer
	lines *bufio.Scanner
}

// A phoneState is what such a phone has on its disk.
type phoneState struct {
	Meta struct{ Device, Cursor, Epoch, Chain string }
	// Fetched counts the requests so far.
	Fetched int
	Events  []dinner.Event
	Names   []struct {
		Name, Revision string
		Beside         []string
	}
	Outbox []struct{ Type, ID string }
	Parked []json.RawMessage
}

func newNodePhone(t *testing.T, server string) *nodePhone {
	t.Helper()
	cmd := exec.Command("node", filepath.Join("..", "..", "testdata", "phone", "phone.mjs"))
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	cmd.Stderr = os.Stderr
	require.NoError(t, cmd.Start(), "the checks need node")
	t.Cleanup(func() { in.Close(); assert.NoError(t, cmd.Wait()) })
	p := &nodePhone{t: t, in: in, lines: bufio.NewScanner(out)}
	p.lines.Buffer(nil, 16<<20)
	p.at(server)
	return p
}

// do sends a command and returns the answer.
func (p *nodePhone) do(command map[string]any, into any) {
	p.t.Helper()
	b, err := json.Marshal(command)
	require.NoError(p.t, err)
	fmt.Fprintf(p.in, "%s\n", b)
	require.True(p.t, p.lines.Scan(), "the phone has ended")
	answer := struct {
		OK    json.RawMessage
		Error string
	}{}
	require.NoError(p.t, json.Unmarshal(p.lines.Bytes(), &answer))
	require.Empty(p.t, answer.Error)
	if into != nil {
		require.NoError(p.t, json.Unmarshal(answer.OK, into))
	}
}

func (p *nodePhone) at(server string) { p.do(map[string]any{"do": "server", "url": server}, nil) }
func (p *nodePhone) tick(step int) {
	p.do(map[string]any{"do": "tick", "on": fmt.Sprintf("stock#1/step/%d", step)}, nil)
}

// edit saves a text and returns its revision.
func (p *nodePhone) edit(name, base, text string, settles ...string) (revision string) {
	p.do(map[string]any{"do": "edit", "name": name, "base": base, "text": text, "settles": settles}, &revision)
	return revision
}

// sync makes requests until there is nothing more to do, and returns what the cook is told.
func (p *nodePhone) sync() (trouble string) {
	var answer struct{ Trouble string }
	p.do(map[string]any{"do": "sync"}, &answer)
	return answer.Trouble
}

func (p *nodePhone) state() (s phoneState) {
	p.do(map[string]any{"do": "state"}, &s)
	return s
}

// hear gives the phone a message of the stream and returns how often it asked to fetch.
func (p *nodePhone) hear(message string) int {
	var answer struct{ Asked int }
	p.do(map[string]any{"do": "hear", "data": message}, &answer)
	return answer.Asked
}

// ids returns the ids of a phone's events.
func (s phoneState) ids() (ids []string) {
	for _, ev := range s.Events {
		ids = append(ids, ev.ID)
	}
	return ids
}

// TestPhonesNoticeAnOldCopyOfTheDataFile: the file is put back by a plain copy while the
// server is stopped, and another phone writes first. Every tick of both is on both.
func TestPhonesNoticeAnOldCopyOfTheDataFile(t *testing.T) {
	data := filepath.Join(t.TempDir(), "hobside.db")
	r := start(t, "--data", data, "--empty")
	a, b := newNodePhone(t, r.url), newNodePhone(t, r.url)
	a.tick(1)
	for _, p := range []*nodePhone{a, b} {
		require.Empty(t, p.sync())
	}
	require.NoError(t, r.stop())
	before, err := os.ReadFile(data)
	require.NoError(t, err)

	r = start(t, "--data", data)
	a.at(r.url)
	a.tick(2)
	require.Empty(t, a.sync())
	assert.Equal(t, "2", a.state().Meta.Cursor)
	require.NoError(t, r.stop())
	require.NoError(t, os.WriteFile(data, before, 0o600))

	r = start(t, "--data", data)
	a.at(r.url)
	b.at(r.url)
	b.tick(3)
	b.tick(4)
	for _, p := range []*nodePhone{b, a, b} {
		require.Empty(t, p.sync())
	}
	assert.Len(t, a.state().Events, 4)
	assert.ElementsMatch(t, a.state().ids(), b.state().ids())
	assert.Empty(t, a.state().Outbox)
	assert.Equal(t, a.state().Meta.Chain, b.state().Meta.Chain)
}

// TestPhoneTakesOnlyMessagesThatFollow: a message of the stream is taken where the phone's
// place is in it, in the same log. For any other the phone fetches, and keeps its place.
func TestPhoneTakesOnlyMessagesThatFollow(t *testing.T) {
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"), "--empty")
	p := newNodePhone(t, r.url)
	p.tick(1)
	require.Empty(t, p.sync())
	place := p.state().Meta
	require.Equal(t, "1", place.Cursor)
	require.Len(t, place.Chain, 16)
	var at string
	p.do(map[string]any{"do": "listen"}, &at)
	assert.Equal(t, "/api/stream?epoch="+place.Epoch+"&after=1&chain="+place.Chain, at)

	news := func(seq int, chain, from, chains, id string) string {
		return fmt.Sprintf(`{"epoch":%q,"seq":"%d","chain":%q,%s"chains":[%s],"events":[{"id":%q,"dinner":"boathouse","device":"other","stamp":{"wall":1800000000000,"count":0},"kind":"tick","on":"stock#1/step/9","done":true}]}`,
			place.Epoch, seq, chain, from, chains, id)
	}
	end, other := "00000000000000bb", "00000000000000aa"
	for name, message := range map[string]string{
		"another log with the same numbers": news(2, end, `"from":"1",`, `"`+other+`","`+end+`"`, "event-other1"),
		"another log from further back":     news(2, end, `"from":"0",`, `"0000000000000000","`+other+`","`+end+`"`, "event-other2"),
		"another log, as long":              news(1, end, `"from":"0",`, `"0000000000000000","`+end+`"`, "event-other3"),
		"a gap":                             news(3, end, `"from":"2",`, `"`+other+`","`+end+`"`, "event-other4"),
		"no chains":                         news(2, end, `"from":"1",`, ``, "event-other5"),
		"no events":                         news(2, end, ``, ``, "event-other6"),
		"another epoch":                     `{"epoch":"other","seq":"1","chain":"` + place.Chain + `"}`,
	} {
		assert.Equal(t, 1, p.hear(message), name)
		assert.Equal(t, place, p.state().Meta, name)
		assert.Len(t, p.state().Events, 1, name)
	}
	for name, message := range map[string]string{
		"known":   news(1, place.Chain, `"from":"0",`, `"0000000000000000","`+place.Chain+`"`, "event-known1"),
		"earlier": news(0, "0000000000000000", `"from":"0",`, `"0000000000000000"`, "event-known2"),
	} {
		assert.Zero(t, p.hear(message), name)
		assert.Equal(t, place, p.state().Meta, name)
	}
	assert.Zero(t, p.hear(news(2, end, `"from":"0",`, `"0000000000000000","`+place.Chain+`","`+end+`"`, "event-000009")), "its own place is in the middle")
	assert.Contains(t, p.state().ids(), "event-000009")
	assert.Equal(t, "2", p.state().Meta.Cursor)
	assert.Equal(t, end, p.state().Meta.Chain)
}

// TestTwoPhonesChooseBetweenTwoVersions: two phones edit one line of a card with no network.
// Both then have the same newest text and the other beside it; one chooses, and no version
// waits on either.
func TestTwoPhonesChooseBetweenTwoVersions(t *testing.T) {
	for name, choose := range map[string]func(p *nodePhone, newest, other string) string{
		"the newest": func(p *nodePhone, newest, other string) string {
			return p.edit("stock.md", dinner.Revision(newest), newest, dinner.Revision(other))
		},
		"the other": func(p *nodePhone, newest, other string) string {
			return p.edit("stock.md", dinner.Revision(newest), other)
		},
	} {
		t.Run(name, func(t *testing.T) {
			data := filepath.Join(t.TempDir(), "hobside.db")
			r := start(t, "--data", data, "--empty")
			a, b := newNodePhone(t, r.url), newNodePhone(t, r.url)
			base := a.edit("stock.md", "", "# Stock\n\n- 3 kg bones\n")
			for _, p := range []*nodePhone{a, b} {
				require.Empty(t, p.sync())
			}
			four, two := "# Stock\n\n- 4 kg bones\n", "# Stock\n\n- 2 kg bones\n"
			a.edit("stock.md", base, four)
			b.edit("stock.md", base, two)
			for _, p := range []*nodePhone{a, b, a} {
				require.Empty(t, p.sync())
			}
			for _, p := range []*nodePhone{a, b} {
				entry := p.state().Names[0]
				assert.Equal(t, dinner.Revision(four), entry.Revision)
				assert.Equal(t, []string{dinner.Revision(two)}, entry.Beside)
			}
			chosen := choose(b, four, two)
			assert.Empty(t, b.state().Names[0].Beside, "at once, before the server knows")
			for _, p := range []*nodePhone{b, a} {
				require.Empty(t, p.sync())
			}
			// Both hand all they have to a new server, in either order.
			require.NoError(t, r.stop())
			require.NoError(t, os.Remove(data))
			r = start(t, "--data", data, "--empty")
			for _, p := range []*nodePhone{a, b, a} {
				p.at(r.url)
				require.Empty(t, p.sync())
			}
			for _, p := range []*nodePhone{a, b} {
				s := p.state()
				assert.Equal(t, chosen, s.Names[0].Revision)
				assert.Empty(t, s.Names[0].Beside)
				assert.Empty(t, s.Parked)
			}
		})
	}
}

// canned returns a server that gives the same reply to every request.
func canned(t *testing.T, reply hub.Reply) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		json.NewEncoder(w).Encode(reply)
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// TestPhoneKeepsWhatTheServerDoesNotTakeNow: a reply that acknowledges nothing and says why
// is shown, and everything waits.
func TestPhoneKeepsWhatTheServerDoesNotTakeNow(t *testing.T) {
	p := newNodePhone(t, canned(t, hub.Reply{Epoch: "e", Next: "0", Chain: "0000000000000000", Trouble: "this phone writes more than the server takes in a minute",
		Acked: []string{}, Refused: []hub.Refusal{}, Events: []dinner.Event{}, Files: []hub.FileRecord{}}))
	p.tick(1)
	p.edit("stock.md", "", "# Stock\n")
	assert.Contains(t, p.sync(), "in a minute")
	s := p.state()
	assert.Len(t, s.Outbox, 2)
	assert.Len(t, s.Events, 1)
	assert.Empty(t, s.Parked)
	assert.Equal(t, 1, s.Fetched, "the next request comes after a pause")
}

// TestEventDoesNotKeepAFileFromBeingOffered: a server that has lost its file gets every
// file, whatever the ids of the events are that it sends.
func TestEventDoesNotKeepAFileFromBeingOffered(t *testing.T) {
	id := "file-" + dinner.Revision("# Stock\n")
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"), "--empty")
	p := newNodePhone(t, r.url)
	p.edit("stock.md", "", "# Stock\n")
	require.Empty(t, p.sync())
	forged := dinner.Event{ID: id, Dinner: "boathouse", Device: "other", Kind: dinner.KindNote, Text: "x", Stamp: dinner.Stamp{Wall: 1}}
	p.at(canned(t, hub.Reply{Epoch: "e", Next: "1", Chain: "00000000000000aa", Reset: true, Trouble: "stop here",
		Acked: []string{}, Refused: []hub.Refusal{}, Events: []dinner.Event{forged}, Files: []hub.FileRecord{}}))
	assert.NotEmpty(t, p.sync())
	require.Len(t, p.state().Outbox, 1)
	assert.Equal(t, id, p.state().Outbox[0].ID)
	assert.Equal(t, "file", p.state().Outbox[0].Type)
}

// TestPhoneRemembersWhereItWasAcknowledged: while there is more to fetch, the phone sends the
// end of the log that a reply with an acknowledgement named, until it has fetched all.
func TestPhoneRemembersWhereItWasAcknowledged(t *testing.T) {
	var sent []hub.Request
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		var req hub.Request
		assert.NoError(t, json.NewDecoder(r.Body).Decode(&req))
		sent = append(sent, req)
		reply := hub.Reply{Epoch: "e", Next: fmt.Sprint(len(sent)), Chain: "00000000000000aa", More: len(sent) < 3,
			Acked: []string{}, Refused: []hub.Refusal{}, Events: []dinner.Event{}, Files: []hub.FileRecord{}}
		for _, raw := range req.Events {
			var ev dinner.Event
			assert.NoError(t, json.Unmarshal(raw, &ev))
			reply.Acked = append(reply.Acked, ev.ID)
		}
		if reply.More {
			reply.End = &hub.Position{Epoch: "e", Seq: uint64(100 * len(sent)), Chain: "00000000000000bb"}
		}
		json.NewEncoder(w).Encode(reply)
	}))
	t.Cleanup(s.Close)
	p := newNodePhone(t, s.URL)
	p.tick(1)
	require.Empty(t, p.sync())
	require.Empty(t, p.sync())
	require.Len(t, sent, 4)
	at := &hub.Position{Epoch: "e", Seq: 100, Chain: "00000000000000bb"}
	assert.Equal(t, []*hub.Position{nil, at, at, nil}, []*hub.Position{sent[0].Sure, sent[1].Sure, sent[2].Sure, sent[3].Sure})
}

// TestTapWhileTheOutboxIsCounted: the count began before the tap was on disk and ends after it. The
// screen must not say that nothing waits.
func TestTapWhileTheOutboxIsCounted(t *testing.T) {
	p := newNodePhone(t, "http://127.0.0.1:1")
	var waiting int
	p.do(map[string]any{"do": "tickWhileCounting", "on": "stock#1/step/1"}, &waiting)
	assert.Equal(t, 1, waiting)
	assert.Len(t, p.state().Outbox, 1)
}
