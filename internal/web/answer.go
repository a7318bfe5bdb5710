package web

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"net/http"
	"strconv"
	"sync"
	"time"
)

// answer sends v as JSON.
func answer(w http.ResponseWriter, status int, v any) {
	body, err := json.Marshal(v)
	if err != nil { // our own types always have a JSON form
		status, body = http.StatusInternalServerError, []byte(`{"error":"cannot write the answer"}`)
	}
	send(w, status, "application/json", body)
}

// answerTo is answer, compressed where it is worth it: a page of a dinner is a
// tenth of its size, and a weak signal is slow. No secret is in such an answer
// that its length could tell of.
func answerTo(w http.ResponseWriter, r *http.Request, status int, v any) {
	w.Header().Set("Vary", "Accept-Encoding")
	body, err := json.Marshal(v)
	if err != nil || len(body) < smallest || !takes(r.Header.Get("Accept-Encoding"), "gzip") {
		answer(w, status, v)
		return
	}
	z := zippers.Get().(*gzip.Writer)
	defer zippers.Put(z)
	var b bytes.Buffer
	z.Reset(&b)
	z.Write(body) // into memory: it can't fail
	z.Close()
	w.Header().Set("Content-Encoding", "gzip")
	send(w, status, "application/json", b.Bytes())
}

// zippers are kept: each is as large as all else that a small reply takes.
var zippers = sync.Pool{New: func() any {
	z, _ := gzip.NewWriterLevel(nil, gzip.BestSpeed)
	return z
}}

// fail says what is wrong: to the app as JSON, to a person as plain text.
func fail(w http.ResponseWriter, r *http.Request, status int, what string) {
	if isAPI(r) {
		answer(w, status, map[string]string{"error": what})
		return
	}
	send(w, status, "text/plain; charset=utf-8", []byte(what+"\n"))
}

// send sends what must not be kept.
func send(w http.ResponseWriter, status int, ctype string, body []byte) {
	h := w.Header()
	h.Set("Content-Type", ctype)
	h.Set("Content-Length", strconv.Itoa(len(body)))
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(body) // who has gone away misses nothing
}

// watched logs what was asked and how it went. Bodies and queries never are.
func (s *Server) watched(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began := time.Now()
		seen := &statusWriter{ResponseWriter: w, status: http.StatusOK}
		next.ServeHTTP(seen, r)
		log := s.cfg.Log.Debug
		if seen.status >= 500 {
			log = s.cfg.Log.Warn
		}
		log("request", "method", r.Method, "path", r.URL.Path, "status", seen.status, "took", time.Since(began))
	})
}

// statusWriter remembers the status for the log.
type statusWriter struct {
	http.ResponseWriter
	status int
}

func (w *statusWriter) WriteHeader(status int) {
	w.status = status
	w.ResponseWriter.WriteHeader(status)
}

// Unwrap lets http.ResponseController reach the connection.
func (w *statusWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }
