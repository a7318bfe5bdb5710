package web

import (
	"io/fs"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/static"
)

func TestWholeLineCommentsAreNotSent(t *testing.T) {
	for _, tt := range []struct{ name, file, in, want string }{
		{"a line", "a.js", "// why\nf();\n", "\nf();\n"},
		{"an indented line", "a.js", "{\n  // why\n}\n", "{\n\n}\n"},
		{"a comment after code", "a.js", "f(); // why\n", "f(); // why\n"},
		{"a block", "a.js", "/**\n * why\n */\nf();\n", "\n\n\nf();\n"},
		{"a block on one line", "a.js", "/** why */\nf();", "\nf();"},
		{"code after a block", "a.js", "/** @type {string[]} */ const a = [];\n", "/** @type {string[]} */ const a = [];\n"},
		{"code after a longer block", "a.js", "/* a\n b */ f();\n", "\n f();\n"},
		{"the last line", "a.js", "f();\n// why", "f();\n"},
		{"a rule of CSS", "a.css", "/* why */\na { b: c; }\n", "\na { b: c; }\n"},
		{"another file", "a.html", "<!-- why -->\n// text\n", "<!-- why -->\n// text\n"},
	} {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, string(AsSent(tt.file, []byte(tt.in)))) })
	}
}

// TestNoTemplateLosesALine looks for what AsSent would damage: a line of a
// template literal that begins as a comment. Backquotes are counted outside
// comments; every file has an even number of them, so none was miscounted.
func TestNoTemplateLosesALine(t *testing.T) {
	var templates int
	require.NoError(t, fs.WalkDir(static.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".js" || strings.HasPrefix(name, "vendor/") {
			return err
		}
		body, err := fs.ReadFile(static.Files, name)
		require.NoError(t, err)
		source, sent := strings.Split(string(body), "\n"), strings.Split(string(AsSent(name, body)), "\n")
		require.Len(t, sent, len(source), name)
		open := 0
		for i, line := range source {
			if sent[i] != line {
				assert.Zero(t, open%2, "%s:%d: a line of a template is lost: %s", name, i+1, line)
				continue
			}
			open += strings.Count(line, "`")
		}
		templates += open / 2
		assert.Zero(t, open%2, "%s: an odd number of backquotes", name)
		return nil
	}))
	assert.Greater(t, templates, 100)
}
