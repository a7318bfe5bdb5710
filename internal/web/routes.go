package web

import (
	"net/http"
	"strings"

	"github.com/gorilla/mux"
)

// handler has every route there is. Paths are taken as they come: no slash is
// added, taken away or cleaned up, so nothing ever redirects.
func (s *Server) handler(d door) http.Handler {
	r := mux.NewRouter().SkipClean(true)
	r.HandleFunc("/api/sync", s.sync).Methods(http.MethodPost)
	r.HandleFunc("/api/stream", s.stream).Methods(http.MethodGet)
	if s.cfg.Gate != nil {
		r.HandleFunc("/api/pair", s.pair).Methods(http.MethodPost)
		r.HandleFunc("/api/me", s.me).Methods(http.MethodGet)
		r.HandleFunc("/api/me", s.leave).Methods(http.MethodDelete)
		r.HandleFunc("/api/devices", s.managing(s.devices)).Methods(http.MethodGet)
		r.HandleFunc("/api/devices", s.managing(s.newCode)).Methods(http.MethodPost)
		r.HandleFunc("/api/devices/{id:[0-9a-f]+}", s.managing(s.device)).Methods(http.MethodPost, http.MethodDelete)
		r.HandleFunc(authorityURL, s.authority).Methods(http.MethodGet, http.MethodHead)
	}
	r.HandleFunc("/healthz", s.health).Methods(http.MethodGet, http.MethodHead)
	r.MatcherFunc(notAPI).HandlerFunc(s.file).Methods(http.MethodGet, http.MethodHead)

	r.NotFoundHandler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fail(w, r, http.StatusNotFound, "there is nothing at "+r.URL.Path)
	})
	r.MethodNotAllowedHandler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fail(w, r, http.StatusMethodNotAllowed, r.Method+" is no way to ask for "+r.URL.Path)
	})
	return s.watched(guarded(d, s.signed(d, r)))
}

func notAPI(r *http.Request, _ *mux.RouteMatch) bool { return !isAPI(r) }

func isAPI(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, "/api/") }
