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

	"hobside/internal/larder/composition"
)

// A kind is how files with one ending are sent.
type kind struct {
	ctype      string
	compressed bool // the format itself is compressed
	precached  bool // the phone stores it, to work without a network
	later      bool // the phone stores it when it first uses it
}

// kinds lists the endings of the files that are sent. The types are fixed here,
// because those of mime.TypeByExtension depend on the machine.
var kinds = map[string]kind{
	".html":        {"text/html; charset=utf-8", false, true, false},
	".css":         {"text/css; charset=utf-8", false, true, false},
	".js":          {"text/javascript; charset=utf-8", false, true, false},
	".wasm":        {"application/wasm", false, true, false},
	".webmanifest": {"application/manifest+json", false, true, false},
	".svg":         {"image/svg+xml", false, true, false},
	".png":         {"image/png", true, true, false},
	".woff2":       {"font/woff2", true, true, false},
	".txt":         {"text/plain; charset=utf-8", false, false, false}, // licences
}

const (
	workerURL = "/sw.js" // must never change: browsers look there for the next release
	engineURL = "/engine.wasm"
	// compositionURL is where a phone fetches what foods consist of, when it is first asked for.
	compositionURL = "/composition.txt"
	indexFile      = "index.html"
)

// maxInMemory is the size in bytes up to which a file is copied to memory. The
// engine is far larger; it is embedded in the program, and a copy would be most of
// the memory that the server uses.
const maxInMemory = 256 << 10

// files are the app's files.
type files struct {
	static  fs.FS
	byURL   map[string]*file
	version string // changes when a file does
	built   bool   // the engine is among them
}

// A file is one of the app's files.
type file struct {
	kind
	plain content
	sum   [sha256.Size]byte // SHA-256 of plain

	once   sync.Once // of compress
	br, gz content   // made by the build, or when first asked for
}

// A content is bytes to send: in memory, or in a file that is read when they are
// sent.
type content struct {
	body []byte
	name string // of the file; "" when the bytes are in body
	size int
}

// load reads the app's files, and adds the list of them to the service worker.
func load(static fs.FS) (*files, error) {
	all := &files{static: static, byURL: map[string]*file{}}
	err := fs.WalkDir(static, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name == styleFolder {
				return fs.SkipDir
			}
			return nil
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
	if err := all.addStyle(); err != nil {
		return nil, err
	}
	all.add(compositionURL, kind{"text/plain; charset=utf-8", false, false, true}, []byte(composition.Text()))
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
		worker.precached = false // it can't contain its own hash
	}
	return all, nil
}

// addStyle adds the style sheet, when its parts are there.
func (all *files) addStyle() error {
	if _, err := fs.Stat(all.static, styleFolder); err != nil {
		return nil
	}
	body, err := Style(all.static)
	if err != nil {
		return err
	}
	all.add(styleURL, kinds[".css"], AsSent(styleURL, body))
	return nil
}

// add adds a file that is in memory.
func (all *files) add(url string, k kind, body []byte) {
	all.byURL[url] = &file{kind: k, plain: inMemory(body), sum: sha256.Sum256(body)}
}

// read returns the content of a file, in memory when it is small.
func (all *files) read(name string) (content, error) {
	info, err := fs.Stat(all.static, name)
	if err != nil {
		return content{}, err
	}
	if info.Size() > maxInMemory {
		return content{name: name, size: int(info.Size())}, nil
	}
	body, err := fs.ReadFile(all.static, name)
	return inMemory(AsSent(name, body)), err
}

// write writes content to w.
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

// sum returns a hash of the names and bytes of all files that the phone stores,
// the service worker included.
func (all *files) sum() string {
	h := sha256.New()
	for _, url := range all.urls() {
		if f := all.byURL[url]; f.precached || f.later {
			fmt.Fprintf(h, "%s %x\n", url, f.sum)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// urls returns the files' URLs, sorted, with the engine last: over a weak signal the
// page itself comes first.
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

// precache returns the first line of the service worker: the version and each file
// that the phone stores, with its integrity (W3C Subresource Integrity): at once, or later
// when it is first used.
func (all *files) precache() string {
	return fmt.Sprintf("self.BUILD={\"version\":%q,\"files\":{%s},\"later\":{%s}};\n", all.version,
		all.integrity(func(f *file) bool { return f.precached }), all.integrity(func(f *file) bool { return f.later }))
}

// integrity returns the members of a JSON object: files by URL, with their hashes. It is not
// made by json.Marshal, which would sort the files by name.
func (all *files) integrity(listed func(*file) bool) string {
	var members []string
	for _, url := range all.urls() {
		f := all.byURL[url]
		if !listed(f) || url == workerURL {
			continue
		}
		name, _ := json.Marshal(url) // a string has a JSON form
		members = append(members, fmt.Sprintf(`%s:"sha256-%s"`, name, base64.StdEncoding.EncodeToString(f.sum[:])))
	}
	return strings.Join(members, ",")
}
