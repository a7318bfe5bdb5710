package web

import (
	"log/slog"
	"net/http"
	"time"
)

// bodyWait is how long the whole of a request may take to arrive. A page of ticks is
// small, but a signal may be weak.
const bodyWait = 20 * time.Second

// newHTTPServer returns a server whose requests all have a deadline: headers after
// headerWait, the whole body after wait, 0 means bodyWait. It counts from a request's
// first byte, before anything of the request is looked at.
func newHTTPServer(h http.Handler, wait time.Duration, log *slog.Logger) *http.Server {
	if wait == 0 {
		wait = bodyWait
	}
	return &http.Server{
		Handler:           caught(log, h),
		ReadHeaderTimeout: min(headerWait, wait), // for the TLS handshake as well
		ReadTimeout:       wait,
		IdleTimeout:       idleWait,
		MaxHeaderBytes:    maxHeader,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelDebug),
	}
}

// onlyPostsHaveBodies refuses other requests that promise a body. Where none is to
// come, it ends the deadline for it: package net/http watches the connection while a
// handler works, and would cancel a stream at the deadline.
func onlyPostsHaveBodies(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.ContentLength == 0:
			http.NewResponseController(w).SetReadDeadline(time.Time{})
		case r.Method != http.MethodPost:
			turnAway(w, r, http.StatusBadRequest, "a "+r.Method+" has no body")
			return
		}
		next.ServeHTTP(w, r)
	})
}

// turnAway sends what is wrong, like fail, and closes the connection at once, without
// waiting for a body that the request promised: nobody who is not let in keeps a place.
func turnAway(w http.ResponseWriter, r *http.Request, status int, what string) {
	w.Header().Set("Connection", "close") // in HTTP/2 it ends the connection too
	http.NewResponseController(w).SetReadDeadline(time.Now())
	fail(w, r, status, what)
}
