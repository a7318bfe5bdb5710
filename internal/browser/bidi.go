package browser

import (
	"context"
	"encoding/json"
	"errors"
	"sync"

	"github.com/coder/websocket"
	"github.com/coder/websocket/wsjson"
)

// bidi is a connection that speaks WebDriver BiDi (https://www.w3.org/TR/webdriver-bidi/): JSON messages over a WebSocket,
// commands with a number each, and events.
type bidi struct {
	conn   *websocket.Conn
	events func(method string, params json.RawMessage)

	mu      sync.Mutex
	last    int
	waiting map[int]chan bidiMessage
	broken  error // why the connection has ended
}

// bidiMessage is what the browser sends: an answer, a refusal or an event (section 4.2).
type bidiMessage struct {
	Type    string
	ID      int
	Result  json.RawMessage
	Error   string
	Message string
	Method  string
	Params  json.RawMessage
}

// bidiError is a refusal.
type bidiError struct{ Code, Message string }

func (e *bidiError) Error() string { return e.Code + ": " + e.Message }

// largest bounds a message: a picture of a page is one.
const largest = 64 << 20

// dial connects to a browser. Events go to a function that must not call back.
func dial(ctx context.Context, url string, events func(method string, params json.RawMessage)) (*bidi, error) {
	conn, _, err := websocket.Dial(ctx, url, nil)
	if err != nil {
		return nil, err
	}
	conn.SetReadLimit(largest)
	b := &bidi{conn: conn, events: events, waiting: map[int]chan bidiMessage{}}
	go b.read()
	return b, nil
}

// read gives each answer to the call that waits for it, until the connection ends.
func (b *bidi) read() {
	for {
		var m bidiMessage
		if err := wsjson.Read(context.Background(), b.conn, &m); err != nil {
			b.mu.Lock()
			b.broken = errors.Join(errEnded, err)
			for id, answer := range b.waiting {
				close(answer)
				delete(b.waiting, id)
			}
			b.mu.Unlock()
			return
		}
		if m.Type == "event" {
			b.events(m.Method, m.Params)
			continue
		}
		b.mu.Lock()
		answer := b.waiting[m.ID]
		delete(b.waiting, m.ID)
		b.mu.Unlock()
		if answer != nil { // the caller has given up
			answer <- m
		}
	}
}

// call sends a command and waits for its answer; result may be nil.
func (b *bidi) call(ctx context.Context, method string, params, result any) error {
	answer := make(chan bidiMessage, 1)
	b.mu.Lock()
	if b.broken != nil {
		defer b.mu.Unlock()
		return b.broken
	}
	b.last++
	id := b.last
	b.waiting[id] = answer
	b.mu.Unlock()
	defer func() {
		b.mu.Lock()
		delete(b.waiting, id)
		b.mu.Unlock()
	}()
	// Not ctx: a write that is broken off ends the whole connection.
	if err := wsjson.Write(context.WithoutCancel(ctx), b.conn, map[string]any{"id": id, "method": method, "params": params}); err != nil {
		return err
	}
	select {
	case m, ok := <-answer:
		switch {
		case !ok:
			b.mu.Lock()
			defer b.mu.Unlock()
			return b.broken
		case m.Type != "success":
			return &bidiError{Code: m.Error, Message: m.Message}
		case result == nil:
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-ctx.Done():
		return ctx.Err()
	}
}
