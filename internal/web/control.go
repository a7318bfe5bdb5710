package web

import (
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"io"
	"net/http"
	"strings"

	"github.com/gorilla/mux"

	"hobside/internal/hub"
	"hobside/internal/store"
)

// Control is what the command line asks of a server that runs: `hobside backup`,
// `verify`, `import`, `devices`. It is for a listener of its own on this
// machine, and for the one user who can read the token, which the server leaves
// in a file that nobody else can read.
func Control(s *store.Store, h *hub.Hub, g *Gate, token string) http.Handler {
	c := &control{store: s, hub: h, gate: g, token: sha256.Sum256([]byte(token))}
	r := mux.NewRouter()
	r.HandleFunc("/api/backup", c.backup).Methods(http.MethodGet)
	r.HandleFunc("/api/verify", c.verify).Methods(http.MethodGet)
	r.HandleFunc("/api/sync", c.sync).Methods(http.MethodPost)
	r.HandleFunc("/api/devices", c.devices).Methods(http.MethodGet)
	r.HandleFunc("/api/devices/code/{role}", c.code).Methods(http.MethodPost)
	r.HandleFunc("/api/devices/{id}", c.revoke).Methods(http.MethodDelete)
	r.HandleFunc("/api/devices/{id}/{role}", c.role).Methods(http.MethodPost)
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		given, ok := strings.CutPrefix(req.Header.Get("Authorization"), "Bearer ")
		sum := sha256.Sum256([]byte(given))
		if !ok || subtle.ConstantTimeCompare(sum[:], c.token[:]) != 1 || !isLoopback(hostname(req.Host)) {
			fail(w, req, http.StatusUnauthorized, "this is for the command line of the one who runs the server")
			return
		}
		r.ServeHTTP(w, req)
	})
}

type control struct {
	store *store.Store
	hub   *hub.Hub
	gate  *Gate
	token [sha256.Size]byte
}

// backup says at its end, in a trailer, that it is whole: what broke off in the
// middle has none.
func (c *control) backup(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Trailer", BackupWhole)
	w.Header().Set("Content-Type", "application/octet-stream")
	begun := &begunWriter{w: w}
	err := c.store.Backup(begun)
	switch {
	case err == nil:
		w.Header().Set(BackupWhole, "yes")
	case begun.begun:
		w.Header().Set(BackupWhole, "no: "+err.Error())
	default:
		w.Header().Del("Trailer")
		fail(w, r, http.StatusServiceUnavailable, err.Error())
	}
}

// BackupWhole is the trailer of a backup: "yes", or why it is not whole.
const BackupWhole = "Hobside-Whole"

type begunWriter struct {
	w     io.Writer
	begun bool
}

func (b *begunWriter) Write(p []byte) (int, error) {
	b.begun = true
	return b.w.Write(p)
}

func (c *control) verify(w http.ResponseWriter, r *http.Request) {
	if err := c.store.Check(r.Context()); err != nil {
		fail(w, r, http.StatusConflict, err.Error())
		return
	}
	counts, err := c.store.Counts()
	if err != nil {
		fail(w, r, http.StatusConflict, err.Error())
		return
	}
	answer(w, http.StatusOK, counts)
}

func (c *control) sync(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, 8<<20))
	if err != nil {
		fail(w, r, http.StatusBadRequest, "the request broke off")
		return
	}
	req, err := hub.ReadRequest(body)
	if err == nil {
		var reply hub.Reply
		if reply, err = c.hub.Sync(req); err == nil {
			answer(w, http.StatusOK, reply)
			return
		}
	}
	if errors.Is(err, hub.ErrRequest) {
		fail(w, r, http.StatusBadRequest, err.Error())
		return
	}
	fail(w, r, http.StatusServiceUnavailable, err.Error())
}

func (c *control) devices(w http.ResponseWriter, r *http.Request) {
	all, err := c.gate.Devices()
	c.answer(w, r, all, err)
}

func (c *control) code(w http.ResponseWriter, r *http.Request) {
	code, err := c.gate.NewCode(mux.Vars(r)["role"])
	c.answer(w, r, code, err)
}

func (c *control) revoke(w http.ResponseWriter, r *http.Request) {
	c.answer(w, r, struct{}{}, c.gate.Revoke(mux.Vars(r)["id"]))
}

func (c *control) role(w http.ResponseWriter, r *http.Request) {
	c.answer(w, r, struct{}{}, c.gate.SetRole(mux.Vars(r)["id"], mux.Vars(r)["role"]))
}

func (c *control) answer(w http.ResponseWriter, r *http.Request, v any, err error) {
	switch {
	case err == nil:
		answer(w, http.StatusOK, v)
	case errors.Is(err, store.ErrNoDevice):
		fail(w, r, http.StatusNotFound, err.Error())
	default:
		fail(w, r, http.StatusBadRequest, err.Error())
	}
}
