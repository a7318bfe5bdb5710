package main

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMissingProgramsLeaveOutTheirEngine(t *testing.T) {
	find := func(name string) program {
		for _, p := range programs {
			if p.names[0] == name {
				return p
			}
		}
		t.Fatal(name)
		return program{}
	}
	for _, tt := range []struct {
		missing []string
		want    []string
		says    string
		err     string
	}{
		{nil, []string{"chromium", "webkit", "firefox"}, "", ""},
		{[]string{"WebKitWebDriver"}, []string{"chromium", "firefox"}, "NOT tested in webkit: this machine has no WebKitWebDriver (on Debian: apt-get install webkit2gtk-driver)", ""},
		{[]string{"Xvfb", "WebKitWebDriver", "firefox-esr"}, []string{"chromium"}, "NOT tested in firefox", ""},
		{[]string{"pdftotext", "node"}, nil, "", "pdftotext for reading the printed pages (on Debian: apt-get install poppler-utils)\n  node for"},
		{[]string{"chromium"}, nil, "", "chromium for the browser tests"},
	} {
		var missing []program
		for _, name := range tt.missing {
			missing = append(missing, find(name))
		}
		var out bytes.Buffer
		got, err := testable(&out, missing)
		if tt.err != "" {
			assert.ErrorContains(t, err, tt.err)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, tt.want, got)
		assert.Contains(t, out.String(), tt.says)
	}
}

func TestLongLinesAreFound(t *testing.T) {
	line := strings.Repeat("é", longestLine)
	got, err := longLines(fstest.MapFS{
		"static/app/a.js":     {Data: []byte("// short\n" + line + "\n" + line + "x\n")},
		"static/style/b.css":  {Data: []byte(line + "x")},
		"static/vendor/b.js":  {Data: []byte(line + "x")},
		"static/wasm_exec.js": {Data: []byte(line + "x")},
		"static/engine.wasm":  {Data: []byte(line + "x")},
	})
	require.NoError(t, err)
	assert.Equal(t, []string{"static/app/a.js:3", "static/style/b.css:1"}, got)
}

// TestDeadInOneProgramIsNotDead: the phone's engine calls what the server doesn't,
// and the other way round.
func TestDeadInOneProgramIsNotDead(t *testing.T) {
	native := &reach{packages: map[string]bool{"a": true, "b": true}, dead: map[string]string{"a.go:1: Both": "a", "a.go:2: Phone": "a", "b.go:1: OnlyHere": "b"}}
	phone := &reach{packages: map[string]bool{"a": true}, dead: map[string]string{"a.go:1: Both": "a", "a.go:3: Server": "a"}}
	assert.Equal(t, []string{"a.go:1: Both", "b.go:1: OnlyHere"}, deadEverywhere([]*reach{native, phone}))
}

func TestDeadCodeReportIsRead(t *testing.T) {
	r := &reach{dead: map[string]string{}}
	require.NoError(t, r.read([]byte(`[{"Name":"a","Path":"x/a","Funcs":[
		{"Name":"T.Gone","Position":{"File":"a/a.go","Line":7,"Col":1},"Generated":false},
		{"Name":"Made","Position":{"File":"a/b.go","Line":1,"Col":1},"Generated":true}]},
		{"Name":"dinner","Path":"hobside/internal/dinner","Funcs":[{"Name":"Kinds","Position":{"File":"c.go","Line":1}}]}]`)))
	assert.Equal(t, map[string]string{"a/a.go:7: T.Gone": "x/a"}, r.dead)
	require.NoError(t, r.read([]byte("null")), "nothing is dead")
	assert.Error(t, r.read([]byte("no JSON")))
}

func TestShellIsWhatAFirstVisitFetches(t *testing.T) {
	var random [300]byte
	rand.NewChaCha8([32]byte{}).Read(random[:])
	got, later, err := shellSize(fstest.MapFS{
		"index.html":       {Data: []byte(strings.Repeat("a", 1000))},
		"icons/icon.png":   {Data: make([]byte, 700)},
		"style/layers.css": {Data: []byte("@layer base;")},
		"style/base.css":   {Data: random[:]},
		"engine.wasm":      {Data: make([]byte, 5000)},
		"tsconfig.json":    {Data: make([]byte, 5000)},
		"static.go":        {Data: make([]byte, 5000)},
	})
	require.NoError(t, err)
	assert.Greater(t, got, 1000, "the picture and the style sheet, which hardly shrink")
	assert.Less(t, got, 1100, "and the page compressed")
	assert.Zero(t, later)
}

// TestModulesOnDemandAreNoShell counts a module that the page does not preload apart: it is
// imported when its screen is first shown.
func TestModulesOnDemandAreNoShell(t *testing.T) {
	page := func(preload string) (shell, later int) {
		shell, later, err := shellSize(fstest.MapFS{
			"index.html":       {Data: []byte(preload)},
			"style/layers.css": {Data: []byte("@layer base;")},
			"app/worker.js":    {Data: []byte("self.onmessage = () => {};")},
			"app/food.js":      {Data: []byte("export const Food = () => null;")},
		})
		require.NoError(t, err)
		return shell, later
	}
	shell, later := page("<p>x</p>")
	assert.NotZero(t, later)
	whole, none := page(`<link rel="modulepreload" href="/app/food.js" />`)
	assert.Zero(t, none)
	assert.Greater(t, whole, shell)
}
