package web

import (
	"net/http"
	"strings"

	"github.com/gorilla/mux"
)

// handler returns the handler of one listener, with every route. A path is taken
// exactly as it is sent, so that nothing redirects.
func (s *Server) handler(a access) http.Handler {
	r := mux.NewRouter().SkipClean(true)
	r.HandleFunc("/api/sync", s.sync).Methods(http.MethodPost)
	r.HandleFunc("/api/convert", s.convert).Methods(http.MethodPost)
	r.HandleFunc("/api/stream", s.stream).Methods(http.MethodGet)
	if s.cfg.Gate != nil {
		r.HandleFunc("/api/pair", s.pair).Methods(http.MethodPost)
		r.HandleFunc("/api/me", s.me).Methods(http.MethodGet)
		r.HandleFunc("/api/me", s.leave).Methods(http.MethodDelete)
		r.HandleFunc("/api/devices", s.managersOnly(s.devices)).Methods(http.MethodGet)
		r.HandleFunc("/api/devices", s.managersOnly(s.newCode)).Methods(http.MethodPost)
		r.HandleFunc("/api/devices/{id:[0-9a-f]+}", s.managersOnly(s.device)).Methods(http.MethodPost, http.MethodDelete)
		r.HandleFunc(authorityURL, s.authority).Methods(http.MethodGet, http.MethodHead)
	}
	r.HandleFunc("/healthz", s.health).Methods(http.MethodGet, http.MethodHead)
	r.MatcherFunc(notAPI).HandlerFunc(s.file).Methods(http.MethodGet, http.MethodHead)

	r.NotFoundHandler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fail(w, r, http.StatusNotFound, "there is nothing at "+r.URL.Path)
	})
	r.MethodNotAllowedHandler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fail(w, r, http.StatusMethodNotAllowed, r.URL.Path+" does not take "+r.Method)
	})
	return s.logged(guarded(a, s.authenticated(a, onlyPostsHaveBodies(r))))
}

func notAPI(r *http.Request, _ *mux.RouteMatch) bool { return !isAPI(r) }

func isAPI(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, "/api/") }
