package browser

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

// firefox is a Firefox without a window, which speaks WebDriver BiDi.
type firefox struct {
	program string
	options Options
	process *process
	*bidi
	page string // the browsing context

	mu   sync.Mutex
	said strings.Builder
}

// preferences make Firefox quiet, and let it write downloads without asking.
func (f *firefox) preferences() string {
	var text strings.Builder
	for name, value := range map[string]any{
		"app.update.disabledForTesting":                         true,
		"browser.download.dir":                                  f.downloads(),
		"browser.download.folderList":                           2,
		"browser.download.useDownloadDir":                       true,
		"browser.shell.checkDefaultBrowser":                     false,
		"browser.startup.page":                                  0,
		"datareporting.policy.dataSubmissionEnabled":            false,
		"network.connectivity-service.enabled":                  false,
		"network.captive-portal-service.enabled":                false,
		"privacy.reduceTimerPrecision":                          false,
		"security.sandbox.warn_unprivileged_namespaces":         false,
		"ui.useOverlayScrollbars":                               1, // as on a phone
		"toolkit.telemetry.reportingpolicy.firstRun":            false,
		"browser.download.always_ask_before_handling_new_types": false,
	} {
		v, _ := json.Marshal(value)
		fmt.Fprintf(&text, "user_pref(%q, %s);\n", name, v)
	}
	return text.String()
}

func startFirefox(ctx context.Context, program string, o Options) (*firefox, error) {
	f := &firefox{program: program, options: o}
	if err := os.MkdirAll(f.profile(), 0o755); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(f.downloads(), 0o755); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(f.profile(), "user.js"), []byte(f.preferences()), 0o644); err != nil {
		return nil, err
	}
	if err := f.start(ctx); err != nil {
		return nil, errors.Join(err, f.close())
	}
	return f, nil
}

func (f *firefox) start(ctx context.Context) (err error) {
	f.process, err = launch(nil, f.program, "--headless", "--no-remote", "--profile", f.profile(), "--remote-debugging-port=0")
	if err != nil {
		return err
	}
	address, err := f.process.says(ctx, `WebDriver BiDi listening on (ws://\S+)`)
	if err != nil {
		return err
	}
	if f.bidi, err = dial(ctx, address+"/session", f.hear); err != nil {
		return err
	}
	if err = f.call(ctx, "session.new", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{"acceptInsecureCerts": true}}}, nil); err != nil {
		return err
	}
	var tree struct{ Contexts []struct{ Context string } }
	if err = f.call(ctx, "browsingContext.getTree", map[string]any{"maxDepth": 0}, &tree); err != nil {
		return err
	}
	if len(tree.Contexts) == 0 {
		return errors.New("the browser opened no page")
	}
	f.page = tree.Contexts[0].Context
	if err = f.call(ctx, "session.subscribe", map[string]any{"events": []string{"log.entryAdded"}}, nil); err != nil {
		return err
	}
	return f.call(ctx, "browsingContext.setViewport", map[string]any{"context": f.page,
		"viewport": map[string]any{"width": f.options.Width, "height": f.options.Height}, "devicePixelRatio": 2}, nil)
}

// hear keeps what the console says.
func (f *firefox) hear(method string, params json.RawMessage) {
	var entry struct{ Level, Text string }
	if method != "log.entryAdded" || json.Unmarshal(params, &entry) != nil {
		return
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	fmt.Fprintf(&f.said, "%s: %s\n", entry.Level, entry.Text)
}

func (f *firefox) console() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.said.String()
}

func (f *firefox) open(ctx context.Context, url string) error {
	return f.call(ctx, "browsingContext.navigate", map[string]any{"context": f.page, "url": url, "wait": "complete"}, nil)
}

func (f *firefox) reload(ctx context.Context) error {
	return f.call(ctx, "browsingContext.reload", map[string]any{"context": f.page, "wait": "complete"}, nil)
}

func (f *firefox) run(ctx context.Context, body string) (string, error) {
	var answer struct {
		Type             string
		Result           struct{ Value string }
		ExceptionDetails struct{ Text string }
	}
	err := f.call(ctx, "script.evaluate", map[string]any{"expression": "(async () => {" + body + "})()", "awaitPromise": true,
		"target": map[string]any{"context": f.page}}, &answer)
	if err == nil && answer.Type == "exception" {
		err = &ScriptError{Message: answer.ExceptionDetails.Text}
	}
	return answer.Result.Value, err
}

func (f *firefox) press(ctx context.Context, x, y int) error {
	return f.act(ctx, map[string]any{"type": "pointer", "id": "finger", "parameters": map[string]any{"pointerType": "touch"}, "actions": []any{
		map[string]any{"type": "pointerMove", "x": x, "y": y},
		map[string]any{"type": "pointerDown", "button": 0},
		map[string]any{"type": "pointerUp", "button": 0},
	}})
}

func (f *firefox) keys(ctx context.Context, text string) error {
	return f.act(ctx, map[string]any{"type": "key", "id": "keyboard", "actions": strokes(text)})
}

func (f *firefox) act(ctx context.Context, source map[string]any) error {
	return f.call(ctx, "input.performActions", map[string]any{"context": f.page, "actions": []any{source}}, nil)
}

func (f *firefox) upload(ctx context.Context, selector, path string) error {
	var found struct{ Nodes []struct{ SharedID string } }
	err := f.call(ctx, "browsingContext.locateNodes", map[string]any{"context": f.page, "locator": map[string]any{"type": "css", "value": selector}}, &found)
	if err == nil && len(found.Nodes) != 1 {
		err = fmt.Errorf("%d elements match, not 1", len(found.Nodes))
	}
	if err != nil {
		return err
	}
	return f.call(ctx, "input.setFiles", map[string]any{"context": f.page, "element": map[string]any{"sharedId": found.Nodes[0].SharedID}, "files": []string{path}}, nil)
}

func (f *firefox) picture(ctx context.Context) ([]byte, error) {
	var shot struct{ Data string }
	if err := f.call(ctx, "browsingContext.captureScreenshot", map[string]any{"context": f.page}, &shot); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(shot.Data)
}

func (f *firefox) restart(ctx context.Context) error {
	if err := f.quit(ctx); err != nil {
		return err
	}
	return f.start(ctx)
}

// quit lets the browser close by itself, so that the profile is whole.
func (f *firefox) quit(ctx context.Context) error {
	err := f.call(ctx, "browser.close", map[string]any{}, nil)
	return errors.Join(err, f.process.wait(ctx))
}

func (f *firefox) profile() string { return filepath.Join(f.options.Dir, "profile") }

func (f *firefox) downloads() string { return filepath.Join(f.options.Dir, "downloads") }

func (f *firefox) close() error {
	if f.process == nil {
		return nil
	}
	return f.process.kill()
}
