package browser

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
)

// wire is one session with a W3C WebDriver server: HTTP with JSON both ways (https://www.w3.org/TR/webdriver2/, section 6).
type wire struct {
	server  string // "http://127.0.0.1:4444"
	session string // "/session/ID", "" before there is one
}

// wireError is what the server answers when it can't; section 6.6 lists the codes.
type wireError struct {
	Code    string `json:"error"`
	Message string `json:"message"`
}

func (e *wireError) Error() string { return e.Code + ": " + e.Message }

// element is the key by which JSON refers to an element, section 12.
const element = "element-6066-11e4-a52e-4f735466cecf"

// open starts a session with what the browser must be able to do.
func (w *wire) open(ctx context.Context, capabilities map[string]any) error {
	var answer struct{ SessionID string }
	err := w.call(ctx, "POST", "/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": capabilities}}, &answer)
	if err == nil && answer.SessionID == "" {
		err = errors.New("the server gave the new session no name")
	}
	w.session = "/session/" + answer.SessionID
	return err
}

// do calls a command of the session; args and result may be nil.
func (w *wire) do(ctx context.Context, method, command string, args, result any) error {
	return w.call(ctx, method, w.session+command, args, result)
}

func (w *wire) call(ctx context.Context, method, path string, args, result any) error {
	var body io.Reader
	if method == http.MethodPost {
		if args == nil {
			args = struct{}{}
		}
		text, err := json.Marshal(args)
		if err != nil {
			return err
		}
		body = bytes.NewReader(text)
	}
	req, err := http.NewRequestWithContext(ctx, method, w.server+path, body)
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/json")
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(res.Body).Decode(&answer); err != nil {
		return fmt.Errorf("%s %s: status %d: %w", method, path, res.StatusCode, err)
	}
	if res.StatusCode != http.StatusOK {
		wrong := &wireError{}
		if err := json.Unmarshal(answer.Value, wrong); err != nil {
			return fmt.Errorf("%s %s: status %d: %s", method, path, res.StatusCode, answer.Value)
		}
		return wrong
	}
	if result == nil {
		return nil
	}
	return json.Unmarshal(answer.Value, result)
}

// run runs the body of an async function (section 13.2.2) and returns the text that it returns.
func (w *wire) run(ctx context.Context, body string) (string, error) {
	script := `const tell = arguments[arguments.length - 1];
		(async () => {` + body + `})().then((text) => tell({ text }), (err) => tell({ wrong: String(err) }));`
	var answer struct{ Text, Wrong string }
	err := w.do(ctx, "POST", "/execute/async", map[string]any{"script": script, "args": []any{}}, &answer)
	if err == nil && answer.Wrong != "" {
		err = &ScriptError{Message: answer.Wrong}
	}
	return answer.Text, err
}

// find returns the name of an element.
func (w *wire) find(ctx context.Context, selector string) (string, error) {
	var found map[string]string
	err := w.do(ctx, "POST", "/element", map[string]any{"using": "css selector", "value": selector}, &found)
	return found[element], err
}

// press moves a finger to a place of the viewport, puts it down and takes it up (section 15.4.3).
func (w *wire) press(ctx context.Context, x, y int) error {
	return w.act(ctx, map[string]any{"type": "pointer", "id": "finger", "parameters": map[string]any{"pointerType": "touch"}, "actions": []any{
		map[string]any{"type": "pointerMove", "duration": 0, "x": x, "y": y},
		map[string]any{"type": "pointerDown", "button": 0},
		map[string]any{"type": "pointerUp", "button": 0},
	}})
}

// keys presses and lets go the key of each character.
func (w *wire) keys(ctx context.Context, text string) error {
	return w.act(ctx, map[string]any{"type": "key", "id": "keyboard", "actions": strokes(text)})
}

func (w *wire) act(ctx context.Context, source map[string]any) error {
	return w.do(ctx, "POST", "/actions", map[string]any{"actions": []any{source}}, nil)
}

// strokes are the key actions that type a text; WebDriver BiDi writes them in the same way.
func strokes(text string) []any {
	var all []any
	for _, r := range text {
		all = append(all, map[string]any{"type": "keyDown", "value": string(r)}, map[string]any{"type": "keyUp", "value": string(r)})
	}
	return all
}
