package web

import (
	"bytes"
	"compress/gzip"
	"encoding/hex"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/andybalholm/brotli"
)

// minCompressed is the least size in bytes that is compressed: less fits into one
// packet.
const minCompressed = 1000

// unbuilt is the page that a server without the phone's engine sends.
const unbuilt = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Hobside is not built yet</title></head>
<body><h1>Hobside is not built yet</h1>
<p>This server was compiled without the phone's engine. In the project's folder run</p>
<pre>go run ./cmd/dev build</pre>
<p>and start <code>bin/hobside serve</code>, or do both at once with</p>
<pre>go run ./cmd/dev serve</pre>
</body></html>
`

// file sends one of the app's files. Only the files that load found exist, so no
// path can lead anywhere else.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	url := r.URL.Path
	if !s.files.built && (url == "/" || url == workerURL) {
		// No service worker either: it would store an app that can't run.
		sendBytes(w, http.StatusServiceUnavailable, kinds[".html"].ctype, []byte(unbuilt))
		return
	}
	f := s.files.byURL[url]
	if f == nil {
		fail(w, r, http.StatusNotFound, "there is nothing at "+url)
		return
	}
	body, coding, err := s.files.encoded(f, r.Header.Get("Accept-Encoding"))
	if err != nil {
		fail(w, r, http.StatusInternalServerError, "cannot read "+url)
		return
	}
	tag := hex.EncodeToString(f.sum[:16])
	h := w.Header()
	h.Set("Content-Type", f.ctype)
	h.Set("Cache-Control", "no-cache") // stored, but checked each time by its ETag
	h.Set("Vary", "Accept-Encoding")
	if coding != "" {
		h.Set("Content-Encoding", coding)
		h.Set("ETag", `"`+tag+"-"+coding+`"`)
	} else {
		h.Set("ETag", `"`+tag+`"`)
	}
	if hasTag(r.Header.Get("If-None-Match"), tag) {
		h.Del("Content-Encoding")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Length", strconv.Itoa(body.size))
	if r.Method != http.MethodHead {
		// The engine takes longer over a weak signal than other replies may.
		http.NewResponseController(w).SetWriteDeadline(time.Now().Add(fileWait))
		s.files.write(w, body) // an error means that the browser has gone
	}
}

// encoded returns a file in the best coding that the browser accepts, "" for none.
// It compresses the file when it is first asked for.
func (all *files) encoded(f *file, accept string) (body content, coding string, err error) {
	if f.compressed || f.plain.size < minCompressed {
		return f.plain, "", nil
	}
	f.once.Do(func() { err = all.compress(f) })
	switch {
	case f.br.size > 0 && accepts(accept, "br"):
		return f.br, "br", err
	case f.gz.size > 0 && accepts(accept, "gzip"):
		return f.gz, "gzip", err
	}
	return f.plain, "", err
}

// compress makes the codings that the build did not make.
func (all *files) compress(f *file) error {
	if f.br.size == 0 {
		var b bytes.Buffer
		w := brotli.NewWriterLevel(&b, 10) // takes half a second once, and saves every phone six kilobytes
		if err := errors.Join(all.write(w, f.plain), w.Close()); err != nil {
			return err
		}
		f.br = inMemory(b.Bytes())
	}
	if f.gz.size == 0 {
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		if err := errors.Join(all.write(w, f.plain), w.Close()); err != nil {
			return err
		}
		f.gz = inMemory(b.Bytes())
	}
	return nil
}

// accepts reports whether an Accept-Encoding header names a coding with a weight
// above 0 (RFC 9110, section 12.5.3).
func accepts(accept, coding string) bool {
	for part := range strings.SplitSeq(accept, ",") {
		name, weight, weighted := strings.Cut(part, ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		if !weighted {
			return true
		}
		q, ok := strings.CutPrefix(strings.TrimSpace(weight), "q=")
		v, err := strconv.ParseFloat(q, 64)
		return ok && err == nil && v > 0
	}
	return false
}

// hasTag reports whether an If-None-Match header names this content, in any coding.
func hasTag(match, tag string) bool {
	for part := range strings.SplitSeq(match, ",") {
		t := strings.Trim(strings.TrimPrefix(strings.TrimSpace(part), "W/"), `"`)
		if t == "*" || strings.HasPrefix(t, tag) {
			return true
		}
	}
	return false
}
