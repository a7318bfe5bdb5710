//go:build browser

package browser

import (
	"bytes"
	"context"
	"fmt"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// words is a page with one of each thing that a Page can be asked to do.
const words = `<!doctype html><meta name="viewport" content="width=device-width"><title>Words</title>
<button style="margin-top:200vh">Far</button><p id="pressed"></p><input id="field" value="before"><input id="file" type="file">
<div id="over" style="position:fixed;inset:0"></div>
<script>
	document.querySelector('button').onclick = (e) => { document.querySelector('#pressed').textContent = 'by hand: ' + e.isTrusted; };
	document.querySelector('#file').onchange = async (e) => { document.querySelector('#pressed').textContent = await e.target.files[0].text(); };
	localStorage.visits = Number(localStorage.visits ?? 0) + 1;
</script>`

// TestPage runs the same calls in every engine.
func TestPage(t *testing.T) {
	site := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, words)
	}))
	t.Cleanup(site.Close) // after the engines, which run side by side
	chosen, absent, err := Choose()
	require.NoError(t, err)
	for _, why := range absent {
		fmt.Println("NOT TESTED:", why)
	}
	for _, e := range chosen {
		t.Run(string(e), func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
			defer cancel()
			p, err := Start(ctx, e, Options{Dir: t.TempDir(), Width: 390, Height: 844})
			require.NoError(t, err)
			defer func() { assert.NoError(t, p.Close()) }()
			require.NoError(t, p.Open(ctx, site.URL))

			var size []int
			require.NoError(t, p.Eval(ctx, &size, `[innerWidth, innerHeight]`))
			assert.Equal(t, []int{390, 844}, size)
			var sum int
			require.NoError(t, p.Eval(ctx, &sum, `Promise.resolve(args[0] + args[1].n)`, 3, map[string]int{"n": 4}))
			assert.Equal(t, 7, sum)
			assert.ErrorContains(t, p.Eval(ctx, nil, `nothing.at.all`), "nothing", "the error names what is wrong")
			var wrong *ScriptError
			assert.ErrorAs(t, p.WaitFor(ctx, `(() => { throw new RangeError('too far'); })()`), &wrong)

			// What lies over a button is in the way of a finger.
			require.NoError(t, p.Eval(ctx, nil, `setTimeout(() => document.querySelector('#over').remove(), 100)`))
			require.NoError(t, p.Click(ctx, "button"))
			require.NoError(t, p.WaitFor(ctx, `document.querySelector('#pressed').textContent === 'by hand: true'`))

			require.NoError(t, p.Type(ctx, "#field", "Brühe, ½ l"))
			require.NoError(t, p.WaitFor(ctx, `document.querySelector('#field').value === args[0]`, "Brühe, ½ l"))

			file := filepath.Join(t.TempDir(), "a.txt")
			require.NoError(t, os.WriteFile(file, []byte("from a file"), 0o644))
			require.NoError(t, p.Upload(ctx, "#file", file))
			require.NoError(t, p.WaitFor(ctx, `document.querySelector('#pressed').textContent === 'from a file'`))

			shot, err := p.Screenshot(ctx)
			require.NoError(t, err)
			picture, err := png.Decode(bytes.NewReader(shot))
			require.NoError(t, err)
			assert.Zero(t, picture.Bounds().Dx()%390, "the picture is as wide as the page")

			require.NoError(t, p.Reload(ctx))
			require.NoError(t, p.WaitFor(ctx, `localStorage.visits === '2'`))
			// A page that leaves while it is looked at is looked at anew.
			require.NoError(t, p.Eval(ctx, nil, `setTimeout(() => location.reload(), 50)`))
			require.NoError(t, p.WaitFor(ctx, `localStorage.visits === '3'`))
			require.NoError(t, p.Restart(ctx))
			require.NoError(t, p.Open(ctx, site.URL))
			require.NoError(t, p.WaitFor(ctx, `localStorage.visits === '4'`))

			short, stop := context.WithTimeout(ctx, 10*time.Millisecond)
			defer stop()
			assert.ErrorContains(t, p.WaitFor(short, `document.querySelector('#none')`), "waited in vain for")
		})
	}
}

// TestChoose names engines as a developer would.
func TestChoose(t *testing.T) {
	for _, tt := range []struct{ name, list, path, says string }{
		{"no engine", "chromium,lynx", "", `"lynx" is not an engine`},
		{"named and absent", "webkit", "none", "webkit is not on this machine: there is no WebKitWebDriver (on Debian: apt-get install webkit2gtk-driver xvfb)"},
		{"none at all", "", "none", "no browser engine is on this machine"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Setenv(Variable, tt.list)
			if tt.path != "" {
				t.Setenv("PATH", t.TempDir())
			}
			_, _, err := Choose()
			assert.ErrorContains(t, err, tt.says)
		})
	}
}
