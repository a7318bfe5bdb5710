package web_test

import (
	"bufio"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/web"
)

func event(n int) string {
	return fmt.Sprintf(`{"id":"event-%06d","dinner":"boathouse","device":"phone-a","stamp":{"wall":%d,"count":0},"kind":"tick","on":"stock#1/step/1","done":true}`, n, start.UnixMilli())
}

func push(device string, events ...string) string {
	return `{"device":"` + device + `","epoch":"","after":"0","events":[` + strings.Join(events, ",") + `],"files":[]}`
}

func (s *site) sync(body string) hub.Reply {
	s.t.Helper()
	res := s.do("POST", "/api/sync", body, "Content-Type: application/json")
	b := text(s.t, res)
	require.Equal(s.t, 200, res.StatusCode, b)
	assert.Equal(s.t, "application/json", res.Header.Get("Content-Type"))
	assert.Equal(s.t, "no-store", res.Header.Get("Cache-Control"))
	var reply hub.Reply
	require.NoError(s.t, json.Unmarshal([]byte(b), &reply))
	return reply
}

func TestSyncCanBeRepeated(t *testing.T) {
	s := newSite(t, nil)
	reply := s.sync(push("phone-a", event(1)))
	assert.Equal(t, []string{"event-000001"}, reply.Acked)
	assert.Equal(t, start.UnixMilli(), reply.Now)
	again := s.sync(push("phone-a", event(1)))
	assert.Equal(t, reply, again, "a repeat must get the same reply")
	assert.Len(t, s.sync(push("phone-b")).Events, 1)
	res := s.do("POST", "/api/sync", push("phone-c"), "Content-Type: application/json; charset=utf-8")
	assert.Equal(t, 200, res.StatusCode)
}

func TestWrongSyncRequestIsRefused(t *testing.T) {
	s := newSite(t, nil)
	for _, tt := range []struct {
		name, ctype, body string
		want              int
		says              string
	}{
		{"a form", "application/x-www-form-urlencoded", "device=a", 415, "send application/json"},
		{"text", "text/plain", push("phone-a"), 415, "send application/json"},
		{"no type", "", push("phone-a"), 415, "send application/json"},
		{"part of a request", "application/json", `{"device":"pho`, 400, "cannot read"},
		{"nothing", "application/json", "", 400, "cannot read"},
		{"no device", "application/json", "{}", 400, "its device"},
		{"2 MB", "application/json", `{"device":"` + strings.Repeat("x", 2<<20) + `"}`, 413, "1 MiB"},
		{"20,000 brackets", "application/json", `{"device":"a","events":` + strings.Repeat("[", 20_000), 400, "cannot read"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			headers := []string{}
			if tt.ctype != "" {
				headers = append(headers, "Content-Type: "+tt.ctype)
			}
			res := s.do("POST", "/api/sync", tt.body, headers...)
			assert.Equal(t, tt.want, res.StatusCode)
			var said struct{ Error string }
			require.NoError(t, json.Unmarshal([]byte(text(t, res)), &said))
			assert.Contains(t, said.Error, tt.says)
			assert.Less(t, len(said.Error), 500)
		})
	}
}

func TestIncompleteBodyChangesNothing(t *testing.T) {
	s := newSite(t, nil)
	body := push("phone-a", event(1))
	conn := dial(t, s, fmt.Sprintf("POST /api/sync HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(body)+10, body))
	require.NoError(t, conn.(interface{ CloseWrite() error }).CloseWrite())
	res, err := http.ReadResponse(bufio.NewReader(conn), nil)
	require.NoError(t, err)
	assert.Equal(t, 400, res.StatusCode)
	assert.Empty(t, s.sync(push("phone-b")).Events)
}

// A stream is an open stream, read message by message.
type stream struct {
	t     *testing.T
	lines *bufio.Scanner
	res   *http.Response
}

func (s *site) stream(t *testing.T) *stream {
	t.Helper()
	res := s.do("GET", "/api/stream", "", "Accept: text/event-stream")
	require.Equal(t, 200, res.StatusCode)
	st := &stream{t: t, lines: bufio.NewScanner(res.Body), res: res}
	require.Equal(t, "retry: 2000", st.next())
	return st
}

// next returns the lines of the next message, "" at the end.
func (s *stream) next() string {
	var lines []string
	for s.lines.Scan() && s.lines.Text() != "" {
		lines = append(lines, s.lines.Text())
	}
	return strings.Join(lines, "\n")
}

// at reads messages until the log's end is at seq.
func (s *stream) at(seq int) {
	s.t.Helper()
	for {
		message := s.next()
		_, data, ok := strings.Cut(message, "\ndata: ")
		if !ok || !strings.HasPrefix(message, "event: changed\nid: ") {
			if s.lines.Err() != nil || message == "" {
				s.t.Fatal("the stream ended")
			}
			continue
		}
		var at hub.Position
		require.NoError(s.t, json.Unmarshal([]byte(data), &at))
		if at.Seq == uint64(seq) {
			return
		}
		require.Less(s.t, at.Seq, uint64(seq))
	}
}

func TestStreamReportsEachChange(t *testing.T) {
	s := newSite(t, nil)
	one, other := s.stream(t), s.stream(t)
	assert.Equal(t, "text/event-stream", one.res.Header.Get("Content-Type"))
	assert.Equal(t, "no", one.res.Header.Get("X-Accel-Buffering"))
	assert.Empty(t, one.res.Header.Get("Content-Encoding"))
	one.at(0)
	other.at(0)
	s.sync(push("phone-a", event(1)))
	one.at(1)
	other.at(1)
	s.sync(push("phone-a", event(2), event(3)))
	one.at(3)
	s.stream(t).at(3) // a new stream gets the end of the log at once
	s.stop()
	require.NoError(t, <-s.done)
	assert.Empty(t, one.next(), "the stop must end it")
}

func TestManyChangesAreOneMessage(t *testing.T) {
	s := newSite(t, func(c *web.Config) { c.Gap = time.Hour })
	one := s.stream(t)
	one.at(0)
	for n := range 5 {
		s.sync(push("phone-a", event(n)))
	}
	s.stop() // within the gap no message was sent
	<-s.done
	assert.Empty(t, one.next())
	assert.NoError(t, one.lines.Err(), "the stop must end a stream that waits for the gap, not break it off")
}

func TestQuietStreamSendsSignsOfLife(t *testing.T) {
	s := newSite(t, func(c *web.Config) { c.KeepAlive = time.Millisecond })
	one := s.stream(t)
	one.at(0)
	assert.Equal(t, ":", one.next())
	assert.Equal(t, ":", one.next())
}

func TestStreamsAreLimited(t *testing.T) {
	s := newSite(t, func(c *web.Config) { c.MaxStreams = 1 })
	one := s.stream(t)
	one.at(0)
	res := s.do("GET", "/api/stream", "")
	assert.Equal(t, 503, res.StatusCode)
	assert.Equal(t, "60", res.Header.Get("Retry-After"))
	one.res.Body.Close() // leaves room for another
	assert.Eventually(t, func() bool {
		res := s.do("GET", "/api/stream", "")
		defer res.Body.Close()
		return res.StatusCode == 200
	}, time.Minute, time.Millisecond)
}

// FuzzSync sends bodies of any type. Every reply must be JSON and none may be an
// error of the server.
func FuzzSync(f *testing.F) {
	s := newSite(f, nil)
	f.Add([]byte(push("phone-a", event(1))), "application/json")
	f.Add([]byte("device=a"), "application/x-www-form-urlencoded")
	f.Fuzz(func(t *testing.T, body []byte, ctype string) {
		req, err := http.NewRequest("POST", s.url+"/api/sync", strings.NewReader(string(body)))
		require.NoError(t, err)
		req.Header["Content-Type"] = []string{strings.Map(func(r rune) rune {
			if r < ' ' || r > '~' {
				return -1
			}
			return r
		}, ctype)}
		res, err := plain.Do(req)
		require.NoError(t, err)
		defer res.Body.Close()
		b, err := io.ReadAll(res.Body)
		require.NoError(t, err)
		if !json.Valid(b) || res.StatusCode >= 500 {
			t.Fatalf("%d %s", res.StatusCode, b)
		}
	})
}

// A large reply is compressed for browsers that accept it, a small one is not.
func TestLargeRepliesAreCompressed(t *testing.T) {
	s := newSite(t, nil)
	events := []string{}
	for n := range 100 {
		events = append(events, event(n))
	}
	want := s.sync(push("phone-a", events...))
	ask := func(accept string) *http.Response {
		return s.do("POST", "/api/sync", push("phone-b"), "Content-Type: application/json", "Accept-Encoding: "+accept)
	}
	res := ask("gzip, br")
	assert.Equal(t, "gzip", res.Header.Get("Content-Encoding"))
	assert.Equal(t, "Accept-Encoding", res.Header.Get("Vary"))
	assert.Less(t, res.ContentLength, int64(len(strings.Join(events, "")))/4)
	z, err := gzip.NewReader(res.Body)
	require.NoError(t, err)
	var reply hub.Reply
	require.NoError(t, json.NewDecoder(z).Decode(&reply))
	assert.Equal(t, want.Events, reply.Events)
	for _, accept := range []string{"", "identity", "gzip;q=0", "br"} {
		res := ask(accept)
		assert.Empty(t, res.Header.Get("Content-Encoding"), accept)
		require.NoError(t, json.Unmarshal([]byte(text(t, res)), &reply))
		assert.Equal(t, want.Events, reply.Events)
	}
	res = s.do("POST", "/api/sync", fmt.Sprintf(`{"device":"phone-b","epoch":%q,"after":"100"}`, want.Epoch), "Content-Type: application/json", "Accept-Encoding: gzip")
	assert.Empty(t, res.Header.Get("Content-Encoding"), "a small reply is not compressed")
}

// A message has the new events for a phone that tells its cursor. A phone that
// connects again tells it by the id of the last message.
func TestStreamBringsNewEvents(t *testing.T) {
	s := newSite(t, nil)
	first := s.sync(push("phone-a", event(1)))
	epoch, one1 := first.Epoch, first.Chain
	open := func(query, id string) *stream {
		headers := []string{"Accept: text/event-stream"}
		if id != "" {
			headers = append(headers, "Last-Event-ID: "+id)
		}
		res := s.do("GET", "/api/stream"+query, "", headers...)
		require.Equal(t, 200, res.StatusCode)
		st := &stream{t: t, lines: bufio.NewScanner(res.Body), res: res}
		st.next() // retry
		return st
	}
	one := open("?epoch="+epoch+"&after=1&chain="+one1, "")
	assert.Equal(t, "event: changed\nid: "+epoch+"-1-"+one1+"\ndata: {\"epoch\":\""+epoch+"\",\"seq\":\"1\",\"chain\":\""+one1+"\",\"from\":\"1\",\"chains\":[\""+one1+"\"],\"events\":[]}", one.next())
	two := s.sync(push("phone-a", event(2))).Chain
	news := `"from":"1","chains":["` + one1 + `","` + two + `"],"events":[{"id":"event-000002"`
	assert.Contains(t, one.next(), `"seq":"2","chain":"`+two+`",`+news)
	assert.Contains(t, open("?epoch="+epoch+"&after=0", epoch+"-1-"+one1).next(), news, "Last-Event-ID must come before the query")
	for _, query := range []string{"", "?epoch=other&after=1", "?epoch=" + epoch + "&after=9", "?epoch=" + epoch + "&after=x",
		"?epoch=" + epoch + "&after=1", "?epoch=" + epoch + "&after=1&chain=" + two} {
		assert.NotContains(t, open(query, "").next(), "from", query)
	}
	lost := open("", "")
	lost.next()
	s.sync(push("phone-a", event(3)))
	assert.Regexp(t, `"seq":"3","chain":"[0-9a-f]{16}","from":"2"`, lost.next(), "after one message without events the next has them")
}
