package web_test

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"io"
	"io/fs"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/larder/composition"
	"hobside/internal/web"
	"hobside/static"
)

func TestFilesHaveTheirTypes(t *testing.T) {
	s := newSite(t, nil)
	for path, want := range map[string]string{
		"/": "text/html; charset=utf-8", "/app.css": "text/css; charset=utf-8", "/app/main.js": "text/javascript; charset=utf-8", "/sw.js": "text/javascript; charset=utf-8",
		"/engine.wasm": "application/wasm", "/manifest.webmanifest": "application/manifest+json", "/icons/icon.svg": "image/svg+xml", "/fonts/a.woff2": "font/woff2",
		"/vendor/licences/a.txt": "text/plain; charset=utf-8", "/app/with%20a%20space%20&%20.js": "text/javascript; charset=utf-8",
	} {
		res := s.do("GET", path, "")
		assert.Equal(t, 200, res.StatusCode, path)
		assert.Equal(t, want, res.Header.Get("Content-Type"), path)
		assert.Equal(t, "no-cache", res.Header.Get("Cache-Control"), path)
		assert.NotEmpty(t, text(t, res), path)
	}
	res := s.do("HEAD", "/app.css", "")
	assert.Equal(t, "4400", res.Header.Get("Content-Length"))
	assert.Empty(t, text(t, res))
}

func TestFilesAreSentInAnAcceptedCoding(t *testing.T) {
	s := newSite(t, nil)
	css := string(app()["style/layers.css"].Data)
	unzip := func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) }
	unbr := func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil }
	asIs := func(r io.Reader) (io.Reader, error) { return r, nil }
	for _, tt := range []struct {
		accept, want string
		read         func(io.Reader) (io.Reader, error)
	}{
		{"gzip, deflate, br, zstd", "br", unbr}, {"gzip, deflate", "gzip", unzip}, {"GZIP;q=0.5", "gzip", unzip}, {"br;q=0, gzip", "gzip", unzip},
		{"br;q=0,gzip;q=0", "", asIs}, {"identity", "", asIs}, {"", "", asIs}, {"brotli", "", asIs}, {"br;q=many", "", asIs}, {"br ; q=1.0", "br", unbr},
	} {
		res := s.do("GET", "/app.css", "", "Accept-Encoding: "+tt.accept)
		assert.Equal(t, tt.want, res.Header.Get("Content-Encoding"), tt.accept)
		assert.Equal(t, "Accept-Encoding", res.Header.Get("Vary"))
		r, err := tt.read(res.Body)
		require.NoError(t, err)
		b, err := io.ReadAll(r)
		require.NoError(t, err)
		assert.Equal(t, css, string(b), tt.accept)
	}
	large := s.do("GET", "/app/large.js", "", "Accept-Encoding: gzip")
	r, err := gzip.NewReader(large.Body)
	require.NoError(t, err)
	b, err := io.ReadAll(r)
	require.NoError(t, err)
	assert.Equal(t, string(app()["app/large.js"].Data), string(b))
	assert.Equal(t, string(app()["app/large.js"].Data), text(t, s.do("GET", "/app/large.js", "")))
	assert.Equal(t, "brotli of the build", text(t, s.do("GET", "/engine.wasm", "", "Accept-Encoding: br")), "the build compressed the engine")
	assert.Equal(t, "gzip of the build", text(t, s.do("GET", "/engine.wasm", "", "Accept-Encoding: gzip")))
	assert.Empty(t, s.do("GET", "/fonts/a.woff2", "", "Accept-Encoding: br").Header.Get("Content-Encoding"), "the format is compressed")
	assert.Empty(t, s.do("GET", "/", "", "Accept-Encoding: br").Header.Get("Content-Encoding"), "it is too small")
}

func TestUnchangedFileIsNotSentAgain(t *testing.T) {
	s := newSite(t, nil)
	for _, accept := range []string{"", "br", "gzip"} {
		tag := s.do("GET", "/app.css", "", "Accept-Encoding: "+accept).Header.Get("ETag")
		require.Regexp(t, `^"[0-9a-f]{32}(-br|-gzip)?"$`, tag)
		for _, match := range []string{tag, "W/" + tag, `"other", ` + tag, "*"} {
			res := s.do("GET", "/app.css", "", "Accept-Encoding: "+accept, "If-None-Match: "+match)
			assert.Equal(t, 304, res.StatusCode, match)
			assert.Equal(t, tag, res.Header.Get("ETag"))
			assert.Empty(t, text(t, res))
		}
		assert.Equal(t, 200, s.do("GET", "/app.css", "", "If-None-Match: \"other\"").StatusCode)
	}
	one, other := s.do("GET", "/app.css", "", "Accept-Encoding: br").Header.Get("ETag"), s.do("GET", "/app.css", "").Header.Get("ETag")
	assert.NotEqual(t, one, other, "two codings need two ETags")
}

// build decodes the first line of the service worker.
func build(t *testing.T, worker string) (version string, files map[string]string, order []string) {
	t.Helper()
	line, rest, found := strings.Cut(worker, "\n")
	require.True(t, found)
	assert.Equal(t, string(app()["sw.js"].Data), rest)
	object, ok := strings.CutPrefix(line, "self.BUILD=")
	require.True(t, ok)
	object, ok = strings.CutSuffix(object, ";")
	require.True(t, ok)
	var b struct {
		Version string
		Files   map[string]string
	}
	require.NoError(t, json.Unmarshal([]byte(object), &b))
	dec := json.NewDecoder(strings.NewReader(object[strings.Index(object, `"files":`)+len(`"files":`):]))
	for i := 0; ; i++ {
		tok, err := dec.Token()
		if err != nil || tok == json.Delim('}') {
			return b.Version, b.Files, order
		}
		if i%2 == 1 {
			order = append(order, tok.(string))
		}
	}
}

func TestServiceWorkerListsAllFilesWithHashes(t *testing.T) {
	s := newSite(t, nil)
	version, files, order := build(t, text(t, s.do("GET", "/sw.js", "")))
	assert.Equal(t, s.srv.Version(), version)
	want := map[string]string{}
	for name, f := range app() {
		url := "/" + name
		switch name {
		case "index.html":
			url = "/"
		case "style/layers.css":
			url = "/app.css"
		}
		sum := sha256.Sum256(f.Data)
		want[url] = "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
	}
	for _, not := range []string{"/sw.js", "/engine.wasm.br", "/engine.wasm.gz", "/vendor/licences/a.txt", "/vendor/README.md", "/app/engine.d.ts", "/tsconfig.json", "/static.go"} {
		delete(want, not)
	}
	assert.Equal(t, want, files)
	assert.Equal(t, "/engine.wasm", order[len(order)-1], "the engine must come last")
	for url := range files { // each of them must be there, with these bytes
		res := s.do("GET", strings.ReplaceAll(url, " ", "%20"), "")
		require.Equal(t, 200, res.StatusCode, url)
		sum := sha256.Sum256([]byte(text(t, res)))
		assert.Equal(t, files[url], "sha256-"+base64.StdEncoding.EncodeToString(sum[:]))
	}
}

func TestVersionChangesExactlyWithTheFiles(t *testing.T) {
	version := func(change func(fstest.MapFS)) string {
		a := app()
		change(a)
		srv, err := web.New(web.Config{Static: a})
		require.NoError(t, err)
		return srv.Version()
	}
	seen := map[string]string{version(func(fstest.MapFS) {}): "as it is"}
	for what, change := range map[string]func(fstest.MapFS){
		"a byte":       func(a fstest.MapFS) { a["app/main.js"] = &fstest.MapFile{Data: []byte("export {};")} },
		"the page":     func(a fstest.MapFS) { a["index.html"] = &fstest.MapFile{Data: []byte("<p>")} },
		"a name":       func(a fstest.MapFS) { a["app/other.js"] = a["app/main.js"]; delete(a, "app/main.js") },
		"another file": func(a fstest.MapFS) { a["app/more.js"] = a["app/main.js"] },
		"the worker":   func(a fstest.MapFS) { a["sw.js"] = &fstest.MapFile{Data: []byte("1;\n")} },
		"the engine":   func(a fstest.MapFS) { a["engine.wasm"] = &fstest.MapFile{Data: []byte("\x00asm")} },
	} {
		v := version(change)
		assert.Empty(t, seen[v], "%s gives the same version", what)
		seen[v] = what
	}
	assert.Equal(t, "as it is", seen[version(func(a fstest.MapFS) { a["static.go"] = &fstest.MapFile{Data: []byte("package x")} })], "files that are not sent must not count")
}

func TestPageWithoutEngineTellsHowToBuild(t *testing.T) {
	bare := app()
	maps.DeleteFunc(bare, func(name string, _ *fstest.MapFile) bool { return strings.HasPrefix(name, "engine.wasm") })
	s := newSite(t, func(c *web.Config) { c.Static = bare })
	res := s.do("GET", "/", "")
	assert.Equal(t, 503, res.StatusCode)
	assert.Contains(t, text(t, res), "go run ./cmd/dev build")
	assert.False(t, s.srv.Built())
	assert.Equal(t, 503, s.do("GET", "/sw.js", "").StatusCode, "a service worker would store an app that can't run")
	assert.Equal(t, 200, s.do("GET", "/healthz", "").StatusCode)
}

// TestProjectsOwnFilesAreServed uses the files in static, with a replacement for
// the engine when that is not built.
func TestProjectsOwnFilesAreServed(t *testing.T) {
	s := newSite(t, func(c *web.Config) { c.Static = withEngine{static.Files} })
	page := text(t, s.do("GET", "/", ""))
	assert.Contains(t, page, "<!doctype html>")
	worker := text(t, s.do("GET", "/sw.js", ""))
	assert.True(t, strings.HasPrefix(worker, "self.BUILD={"))
	assert.Contains(t, worker, `"/app/main.js":"sha256-`)
	for _, not := range []string{".go\"", ".ts\"", ".md\"", "tsconfig", ".br\"", "licences"} {
		line, _, _ := strings.Cut(worker, "\n")
		assert.NotContains(t, line, not)
	}
	assert.Equal(t, 200, s.do("GET", "/vendor/licences/preact.txt", "").StatusCode, "licences must be served")
}

// TestCompositionsAreNotOfTheFirstVisit: what foods consist of is served, and the service
// worker stores it, with its hash, when it is first used and not before.
func TestCompositionsAreNotOfTheFirstVisit(t *testing.T) {
	s := newSite(t, nil)
	line, _, _ := strings.Cut(text(t, s.do("GET", "/sw.js", "")), "\n")
	var b struct{ Files, Later map[string]string }
	require.NoError(t, json.Unmarshal([]byte(strings.TrimSuffix(strings.TrimPrefix(line, "self.BUILD="), ";")), &b))
	res := s.do("GET", "/composition.txt", "")
	require.Equal(t, 200, res.StatusCode)
	body := text(t, res)
	sum := sha256.Sum256([]byte(body))
	assert.Equal(t, map[string]string{"/composition.txt": "sha256-" + base64.StdEncoding.EncodeToString(sum[:])}, b.Later)
	assert.NotContains(t, b.Files, "/composition.txt")
	assert.Equal(t, composition.Rows(), larder.ReadCompositions(body))
	sent, err := io.ReadAll(s.do("GET", "/composition.txt", "", "Accept-Encoding: br").Body)
	require.NoError(t, err)
	assert.Less(t, len(sent), 60_000, "bytes over the wire")
}

// withEngine adds an engine to files that have none.
type withEngine struct{ fs.FS }

func (w withEngine) Open(name string) (fs.File, error) {
	f, err := w.FS.Open(name)
	if err != nil && name == "engine.wasm" {
		return fstest.MapFS{name: {Data: bytes.Repeat([]byte("\x00asm"), 1000)}}.Open(name)
	}
	return f, err
}

func (w withEngine) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(w.FS, name)
	if _, miss := fs.Stat(w.FS, "engine.wasm"); name == "." && miss != nil {
		d, _ := fs.ReadDir(fstest.MapFS{"engine.wasm": {}}, ".")
		list = append(list, d...)
	}
	return list, err
}
