package main

import (
	"bytes"
	"context"
	_ "embed"
	"fmt"
	"io"
	"io/fs"
	"log"
	"mime"
	"net/http"
	"net/http/httputil"
	"net/url"
	"path"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"

	"hobside/internal/web"
)

//go:embed live/reload.js
var reloadScript []byte

//go:embed live/sw.js
var liveWorker []byte

// A liveSite is what `dev serve` puts in front of a running server. It passes all
// requests on, and puts the files on disk in the place of the ones the server was
// built with: under the server's own headers, so that they meet the same policy.
type liveSite struct {
	disk  []fs.FS // the first that has a file wins
	proxy *httputil.ReverseProxy
	to    atomic.Pointer[url.URL] // the running server; nil while there is none

	mu    sync.Mutex
	pages map[chan string]bool // the open pages
}

func newLiveSite(disk ...fs.FS) *liveSite {
	s := &liveSite{disk: disk, pages: map[chan string]bool{}}
	s.proxy = &httputil.ReverseProxy{
		Rewrite:        s.rewrite,
		ModifyResponse: s.fromDisk,
		FlushInterval:  -1, // the stream of events must not wait
		Transport:      &http.Transport{DisableCompression: true},
		ErrorLog:       log.New(io.Discard, "", 0), // a stream breaks at each restart
		ErrorHandler: func(w http.ResponseWriter, _ *http.Request, err error) {
			http.Error(w, "dev: the server does not answer: "+err.Error(), http.StatusBadGateway)
		},
	}
	return s
}

// ServeHTTP answers the two addresses of its own and passes on the rest.
func (s *liveSite) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	switch {
	case r.URL.Path == "/dev/saved":
		s.stream(w, r)
	case s.to.Load() == nil:
		http.Error(w, "dev: the server is starting; load this again", http.StatusServiceUnavailable)
	default:
		s.proxy.ServeHTTP(w, r)
	}
}

// saved tells every open page what was saved: "style" or "page".
func (s *liveSite) saved(what string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for page := range s.pages {
		select {
		case page <- what:
		default: // the page has not read the message before this one, and will load anyway
		}
	}
}

// stream is the page's connection (WHATWG HTML, server-sent events).
func (s *liveSite) stream(w http.ResponseWriter, r *http.Request) {
	page := make(chan string, 4)
	s.mu.Lock()
	s.pages[page] = true
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		delete(s.pages, page)
		s.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	flush := http.NewResponseController(w)
	fmt.Fprint(w, ": open\n\n")
	for flush.Flush() == nil {
		select {
		case what := <-page:
			fmt.Fprintf(w, "data: %s\n\n", what)
		case <-r.Context().Done():
			return
		}
	}
}

type diskFile struct{}

// rewrite sends a request to the server. For a file on disk only the server's
// headers are wanted, and none that depend on what the browser has.
func (s *liveSite) rewrite(pr *httputil.ProxyRequest) {
	to := s.to.Load()
	pr.Out.URL.Scheme, pr.Out.URL.Host = to.Scheme, to.Host // Host itself stays: the server compares it with Origin
	if body, ok := s.read(pr.In); ok {
		pr.Out.Method = http.MethodHead
		pr.Out.Header.Del("If-None-Match")
		pr.Out.Header.Del("Accept-Encoding")
		pr.Out = pr.Out.WithContext(context.WithValue(pr.Out.Context(), diskFile{}, body))
	}
}

// read returns what a request asks for, as it is on disk.
func (s *liveSite) read(r *http.Request) (body []byte, ok bool) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		return nil, false
	}
	name := strings.TrimPrefix(r.URL.Path, "/")
	switch name {
	case "":
		name = "index.html"
	case "sw.js":
		return liveWorker, true
	case "dev/reload.js":
		return reloadScript, true
	}
	if !fs.ValidPath(name) || path.Ext(name) == ".go" {
		return nil, false
	}
	for _, disk := range s.disk {
		if name == "app.css" {
			if body, err := web.Style(disk); err == nil {
				return body, true
			}
		}
		if body, err := fs.ReadFile(disk, name); err == nil {
			if path.Ext(name) == ".html" {
				body = bytes.Replace(body, []byte("</head>"), []byte(`<script type="module" src="/dev/reload.js"></script></head>`), 1)
			}
			return body, true
		}
	}
	return nil, false
}

// fromDisk puts the file's bytes in the place of the server's answer.
func (s *liveSite) fromDisk(res *http.Response) error {
	body, ok := res.Request.Context().Value(diskFile{}).([]byte)
	if !ok {
		return nil
	}
	h := res.Header
	if res.StatusCode != http.StatusOK { // a file that the server doesn't have yet
		name := res.Request.URL.Path
		if strings.HasSuffix(name, "/") {
			name = "index.html"
		}
		h.Set("Content-Type", mime.TypeByExtension(path.Ext(name)))
	}
	for _, name := range []string{"Content-Encoding", "ETag", "Vary"} {
		h.Del(name)
	}
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Length", strconv.Itoa(len(body)))
	res.StatusCode, res.Status = http.StatusOK, "200 OK"
	res.Body, res.ContentLength = io.NopCloser(bytes.NewReader(body)), int64(len(body))
	return nil
}
