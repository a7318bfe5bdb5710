package web

import (
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"

	"hobside/internal/store"
)

// faulty answers a request at which the server itself made a mistake. What it was is in
// the log: it tells a person nothing.
const faulty = "the server made a mistake of its own, which its log describes; nothing that this device keeps is lost"

// caught answers requests whose handler panics with 500, and logs the panic with its
// stack. Where a part of the reply is sent already, it breaks the connection off, so
// that nobody takes that part for the whole.
func caught(log *slog.Logger, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		out := &statusWriter{ResponseWriter: w}
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if p == http.ErrAbortHandler {
				panic(p)
			}
			log.Error("panic", "method", r.Method, "path", r.URL.Path, "panic", p, "stack", string(debug.Stack()))
			if out.status != 0 {
				panic(http.ErrAbortHandler)
			}
			turnAway(w, r, http.StatusInternalServerError, faulty)
		}()
		next.ServeHTTP(out, r)
	})
}

// told returns an error's text for a person. Where a panic is behind it, told logs that
// with its stack.
func told(log *slog.Logger, err error) string {
	if p := (*store.Panic)(nil); errors.As(err, &p) {
		log.Error("panic", "panic", p.Cause, "stack", string(p.Stack))
	}
	return err.Error()
}
