package web_test

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/web"
	"hobside/static"
)

func TestStyleIsSentAsOneFile(t *testing.T) {
	parts := fstest.MapFS{
		"style/base.css":   {Data: []byte("/* why */\n@layer base { a { color: red } }\n")},
		"style/layers.css": {Data: []byte("@layer base, pass;\n")},
		"style/pass.css":   {Data: []byte("@layer pass { a { color: blue } }\n")},
	}
	const joined = "@layer base, pass;\n/* why */\n@layer base { a { color: red } }\n@layer pass { a { color: blue } }\n"
	got, err := web.Style(parts)
	require.NoError(t, err)
	assert.Equal(t, joined, string(got))

	s := newSite(t, func(c *web.Config) {
		files := app()
		for name, f := range parts {
			files[name] = f
		}
		c.Static = files
	})
	assert.Equal(t, strings.Replace(joined, "/* why */", "", 1), text(t, s.do("GET", "/app.css", "")))
	_, files, _ := build(t, text(t, s.do("GET", "/sw.js", "")))
	assert.Contains(t, files, "/app.css")
	for name := range parts {
		assert.Equal(t, 404, s.do("GET", "/"+name, "").StatusCode, name)
		assert.NotContains(t, files, "/"+name)
	}
}

func TestStyleWithoutItsLayersIsRefused(t *testing.T) {
	_, err := web.Style(fstest.MapFS{"style/base.css": {Data: []byte("a { color: red }")}})
	assert.ErrorContains(t, err, "style/layers.css")
}

// TestEachStyleFileIsOneLayer: layers.css names every file once, and a file has
// no rule outside its layer but those that can't be in one.
func TestEachStyleFileIsOneLayer(t *testing.T) {
	layers, err := fs.ReadFile(static.Files, "style/layers.css")
	require.NoError(t, err)
	order := regexp.MustCompile(`(?s)@layer ([^;]*);`).FindSubmatch(layers)
	require.NotNil(t, order)
	named := regexp.MustCompile(`[,\s]+`).Split(string(order[1]), -1)
	var found []string
	names, err := fs.Glob(static.Files, "style/*.css")
	require.NoError(t, err)
	comment := regexp.MustCompile(`(?s)/\*.*?\*/`)
	for _, name := range names {
		if name == "style/layers.css" {
			continue
		}
		layer := strings.TrimSuffix(path.Base(name), ".css")
		found = append(found, layer)
		body, err := fs.ReadFile(static.Files, name)
		require.NoError(t, err)
		for n, line := range strings.Split(comment.ReplaceAllString(string(body), ""), "\n") {
			if line == "" || line[0] == ' ' || line == "}" {
				continue // within a block
			}
			assert.Contains(t, []string{"@layer " + layer + " {", "@font-face {", "@page {"}, line, "%s, line %d without comments", name, n+1)
		}
	}
	assert.ElementsMatch(t, named, found)
}
