package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
)

// kind is what a file is sent as.
type kind struct {
	ctype string
	dense bool // compressed already
	keep  bool // the phone keeps it for when there is no network
}

// kinds is the table of what is sent at all. The types are our own: the one of
// mime.TypeByExtension depends on the machine.
var kinds = map[string]kind{
	".html":        {"text/html; charset=utf-8", false, true},
	".css":         {"text/css; charset=utf-8", false, true},
	".js":          {"text/javascript; charset=utf-8", false, true},
	".wasm":        {"application/wasm", false, true},
	".webmanifest": {"application/manifest+json", false, true},
	".svg":         {"image/svg+xml", false, true},
	".png":         {"image/png", true, true},
	".woff2":       {"font/woff2", true, true},
	".txt":         {"text/plain; charset=utf-8", false, false}, // licences
}

const (
	workerURL = "/sw.js" // for ever: a browser that has it asks there for the next
	engineURL = "/engine.wasm"
	indexFile = "index.html"
)

// held is the size up to which a file is kept ready in memory. The engine is far
// over it: it lies in the program already, and a second copy of it would be most
// of the memory that the server takes.
const held = 256 << 10

// files is the app, by URL.
type files struct {
	static  fs.FS
	byURL   map[string]*file
	version string // hash over all of it
	built   bool   // whether the engine is there
}

// A file is one file as it can be sent.
type file struct {
	kind
	plain content
	sum   [sha256.Size]byte

	once   sync.Once
	br, gz content // from the build, or made when first asked for; empty when not worth it
}

// content is some bytes: here, or in a file to be read when they are sent.
type content struct {
	body []byte
	name string
	size int
}

// load reads the app's files, and puts into the service worker which they are.
func load(static fs.FS) (*files, error) {
	all := &files{static: static, byURL: map[string]*file{}}
	err := fs.WalkDir(static, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		k, ok := kinds[path.Ext(name)]
		if !ok {
			return nil
		}
		f := &file{kind: k}
		if f.plain, err = all.read(name); err != nil {
			return err
		}
		h := sha256.New()
		if err := all.write(h, f.plain); err != nil {
			return err
		}
		f.sum = [sha256.Size]byte(h.Sum(nil))
		f.br, _ = all.read(name + ".br") // the build leaves them beside the engine
		f.gz, _ = all.read(name + ".gz")
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
		var b bytes.Buffer
		b.WriteString(all.precache())
		if err := all.write(&b, worker.plain); err != nil {
			return nil, err
		}
		*worker = file{kind: worker.kind, plain: inMemory(b.Bytes()), sum: sha256.Sum256(b.Bytes())}
		worker.keep = false // it can't hold its own hash
	}
	return all, nil
}

// read takes a file in, when it is small, and else notes where it is.
func (all *files) read(name string) (content, error) {
	info, err := fs.Stat(all.static, name)
	if err != nil {
		return content{}, err
	}
	if info.Size() > held {
		return content{name: name, size: int(info.Size())}, nil
	}
	body, err := fs.ReadFile(all.static, name)
	return inMemory(body), err
}

// write sends content on.
func (all *files) write(w io.Writer, c content) error {
	if c.name == "" {
		_, err := w.Write(c.body)
		return err
	}
	f, err := all.static.Open(c.name)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(w, f)
	return err
}

func inMemory(body []byte) content { return content{body: body, size: len(body)} }

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
