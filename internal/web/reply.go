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

// send sends v as JSON.
func send(w http.ResponseWriter, status int, v any) {
	body, err := json.Marshal(v)
	if err != nil { // can't happen: our own types have a JSON form
		status, body = http.StatusInternalServerError, []byte(`{"error":"cannot write the reply"}`)
	}
	sendBytes(w, status, "application/json", body)
}

// sendCompressed is send with compression where that saves much: a page of a
// dinner shrinks to a tenth, and a weak signal is slow. Such a reply has no secret
// that its length could reveal.
func sendCompressed(w http.ResponseWriter, r *http.Request, status int, v any) {
	w.Header().Set("Vary", "Accept-Encoding")
	body, err := json.Marshal(v)
	if err != nil || len(body) < minCompressed || !accepts(r.Header.Get("Accept-Encoding"), "gzip") {
		send(w, status, v)
		return
	}
	z := gzipWriters.Get().(*gzip.Writer)
	defer gzipWriters.Put(z)
	var b bytes.Buffer
	z.Reset(&b)
	z.Write(body) // to memory: it can't fail
	z.Close()
	w.Header().Set("Content-Encoding", "gzip")
	sendBytes(w, status, "application/json", b.Bytes())
}

// gzipWriters are used again, because each needs far more memory than a reply.
var gzipWriters = sync.Pool{New: func() any {
	z, _ := gzip.NewWriterLevel(nil, gzip.BestSpeed)
	return z
}}

// fail sends what is wrong: as JSON to the app, as plain text to a person.
func fail(w http.ResponseWriter, r *http.Request, status int, what string) {
	if isAPI(r) {
		send(w, status, map[string]string{"error": what})
		return
	}
	sendBytes(w, status, "text/plain; charset=utf-8", []byte(what+"\n"))
}

// sendBytes sends a whole reply that browsers must not store.
func sendBytes(w http.ResponseWriter, status int, ctype string, body []byte) {
	h := w.Header()
	h.Set("Content-Type", ctype)
	h.Set("Content-Length", strconv.Itoa(len(body)))
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(body) // an error means that the browser has gone
}

// logged logs each request and its status. It never logs bodies and queries, which
// may have secrets.
func (s *Server) logged(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began := time.Now()
		out := &statusWriter{ResponseWriter: w}
		next.ServeHTTP(out, r)
		log := s.cfg.Log.Debug
		if out.status >= 500 {
			log = s.cfg.Log.Warn
		}
		log("request", "method", r.Method, "path", r.URL.Path, "status", out.status, "took", time.Since(began))
	})
}

// A statusWriter keeps the status of the reply, 0 while nothing of it was sent.
type statusWriter struct {
	http.ResponseWriter
	status int
}

func (w *statusWriter) Write(b []byte) (int, error) {
	if w.status == 0 {
		w.status = http.StatusOK
	}
	return w.ResponseWriter.Write(b)
}

func (w *statusWriter) WriteHeader(status int) {
	w.status = status
	w.ResponseWriter.WriteHeader(status)
}

// Unwrap gives http.ResponseController the connection.
func (w *statusWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }
