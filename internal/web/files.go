package web

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
)

// kind is what a file is sent as.
type kind struct {
	ctype string
	plain bool // worth compressing
	keep  bool // the phone keeps it for when there is no network
}

// kinds is the table of what is sent at all. The types are our own: the one of
// mime.TypeByExtension depends on the machine.
var kinds = map[string]kind{
	".html":        {"text/html; charset=utf-8", true, true},
	".css":         {"text/css; charset=utf-8", true, true},
	".js":          {"text/javascript; charset=utf-8", true, true},
	".wasm":        {"application/wasm", true, true},
	".webmanifest": {"application/manifest+json", true, true},
	".svg":         {"image/svg+xml", true, true},
	".png":         {"image/png", false, true},
	".woff2":       {"font/woff2", false, true},
	".txt":         {"text/plain; charset=utf-8", true, false}, // licences
}

const (
	workerURL = "/sw.js" // for ever: a browser that has it asks there for the next
	engineURL = "/engine.wasm"
	indexFile = "index.html"
)

// files is the app, in memory, by URL.
type files struct {
	byURL   map[string]*file
	version string // hash over all of it
	built   bool   // whether the engine is there
}

// A file is one file as it can be sent.
type file struct {
	kind
	body []byte
	sum  [sha256.Size]byte

	once   sync.Once
	br, gz []byte // from the build, or made when first asked for; nil when not worth it
}

// load reads the app's files, and puts into the service worker which they are.
func load(static fs.FS) (*files, error) {
	all := &files{byURL: map[string]*file{}}
	err := fs.WalkDir(static, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		k, ok := kinds[path.Ext(name)]
		if !ok {
			return nil
		}
		body, err := fs.ReadFile(static, name)
		if err != nil {
			return err
		}
		f := &file{kind: k, body: body, sum: sha256.Sum256(body)}
		f.br, _ = fs.ReadFile(static, name+".br") // the build leaves them beside the engine
		f.gz, _ = fs.ReadFile(static, name+".gz")
		all.byURL[urlOf(name)] = f
		return nil
	})
	if err != nil {
		return nil, err
	}
	if all.byURL["/"] == nil {
		return nil, fmt.Errorf("%s is missing", indexFile)
	}
	all.built = all.byURL[engineURL] != nil
	all.version = all.sum()
	if worker := all.byURL[workerURL]; worker != nil {
		worker.body = append([]byte(all.precache()), worker.body...)
		worker.sum = sha256.Sum256(worker.body)
		worker.keep = false // it can't hold its own hash
		worker.br, worker.gz = nil, nil
	}
	return all, nil
}

func urlOf(name string) string {
	if name == indexFile {
		return "/"
	}
	return "/" + name
}

// sum hashes all that the phone keeps, and the worker that keeps it: it changes
// if and only if a byte or a name does.
func (all *files) sum() string {
	h := sha256.New()
	for _, url := range all.urls() {
		if f := all.byURL[url]; f.keep {
			fmt.Fprintf(h, "%s %x\n", url, f.sum)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// urls are sorted, the engine last: on a weak signal the page itself comes first.
func (all *files) urls() []string {
	urls := make([]string, 0, len(all.byURL))
	for url := range all.byURL {
		urls = append(urls, url)
	}
	slices.SortFunc(urls, func(a, b string) int {
		if (a == engineURL) != (b == engineURL) {
			if a == engineURL {
				return 1
			}
			return -1
		}
		return strings.Compare(a, b)
	})
	return urls
}

// precache is the line in front of the service worker: the version and each file
// that the phone keeps, with its integrity (W3C Subresource Integrity). It is
// written by hand because its order matters and a Go map has none.
func (all *files) precache() string {
	var b strings.Builder
	fmt.Fprintf(&b, `self.BUILD={"version":%q,"files":{`, all.version)
	first := true
	for _, url := range all.urls() {
		f := all.byURL[url]
		if !f.keep || url == workerURL {
			continue
		}
		if !first {
			b.WriteByte(',')
		}
		first = false
		name, _ := json.Marshal(url) // a string always has a JSON form
		fmt.Fprintf(&b, `%s:"sha256-%s"`, name, base64.StdEncoding.EncodeToString(f.sum[:]))
	}
	b.WriteString("}};\n")
	return b.String()
}
