package web

import (
	"net"
	"net/http"
)

// policy is the Content-Security-Policy of every reply. The page may use files of
// this server and nothing else: no inline script, no frame, no form, no other
// server. 'wasm-unsafe-eval' lets it compile the engine (CSP Level 3, section 8.2,
// "Unsafe WebAssembly").
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; " +
	"font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded sets the headers that every reply has, and refuses requests for other
// hosts and from pages of other sites.
func guarded(a access, next http.Handler) http.Handler {
	var origin http.CrossOriginProtection
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")

		// Another name that points here is a sign of DNS rebinding: the browser
		// would take a foreign page for this server's own.
		if !a.host(hostname(r.Host)) {
			turnAway(w, r, http.StatusMisdirectedRequest, a.refusal)
			return
		}
		if err := origin.Check(r); err != nil {
			turnAway(w, r, http.StatusForbidden, "a page of another site may not write here")
			return
		}
		if from := r.Header.Get("Sec-Fetch-Site"); isAPI(r) && from != "" && from != "same-origin" && from != "none" {
			turnAway(w, r, http.StatusForbidden, "a page of another site may not read here") // nor keep streams open
			return
		}
		next.ServeHTTP(w, r)
	})
}

// hostname returns a Host header without its port.
func hostname(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		return name
	}
	if n := len(host); n > 1 && host[0] == '[' && host[n-1] == ']' {
		return host[1 : n-1]
	}
	return host
}
