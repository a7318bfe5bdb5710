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

// Control returns the control endpoint: what `hobside backup`, `verify`, `import`
// and `devices` ask of a running server. It is for a listener of its own on this
// machine. Every request must carry the token, which the server writes to a file
// that only its user can read.
func Control(s *store.Store, h *hub.Hub, g *Gate, token string) *http.Server {
	return newHTTPServer(controlled(s, h, g, token), 0, g.log)
}

// controlled returns the handler of the control endpoint.
func controlled(s *store.Store, h *hub.Hub, g *Gate, token string) http.Handler {
	c := &control{store: s, hub: h, gate: g, token: sha256.Sum256([]byte(token))}
	r := mux.NewRouter()
	r.HandleFunc("/api/backup", c.backup).Methods(http.MethodGet)
	r.HandleFunc("/api/verify", c.verify).Methods(http.MethodGet)
	r.HandleFunc("/api/sync", c.sync).Methods(http.MethodPost)
	r.HandleFunc("/api/devices", c.devices).Methods(http.MethodGet)
	r.HandleFunc("/api/devices/code/{role}", c.code).Methods(http.MethodPost)
	r.HandleFunc("/api/devices/{id}", c.revoke).Methods(http.MethodDelete)
	r.HandleFunc("/api/devices/{id}/{role}", c.role).Methods(http.MethodPost)
	routes := onlyPostsHaveBodies(r)
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		given, ok := strings.CutPrefix(req.Header.Get("Authorization"), "Bearer ")
		sum := sha256.Sum256([]byte(given))
		if !ok || subtle.ConstantTimeCompare(sum[:], c.token[:]) != 1 || !isLoopback(hostname(req.Host)) {
			turnAway(w, req, http.StatusUnauthorized, "this is for the command line of the user who runs the server")
			return
		}
		routes.ServeHTTP(w, req)
	})
}

// A control serves the control endpoint.
type control struct {
	store *store.Store
	hub   *hub.Hub
	gate  *Gate
	token [sha256.Size]byte
}

// backup sends the backup and, in a trailer, whether it is whole: a backup that
// broke off has no trailer.
func (c *control) backup(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Trailer", BackupWhole)
	w.Header().Set("Content-Type", "application/octet-stream")
	out := &countingWriter{w: w}
	err := c.store.Backup(out)
	switch {
	case err == nil:
		w.Header().Set(BackupWhole, "yes")
	case out.n > 0:
		w.Header().Set(BackupWhole, "no: "+told(c.gate.log, err))
	default:
		w.Header().Del("Trailer")
		fail(w, r, http.StatusServiceUnavailable, told(c.gate.log, err))
	}
}

// BackupWhole is the trailer of a backup: "yes", or why it is not whole.
const BackupWhole = "Hobside-Whole"

// A countingWriter counts the bytes that were given to it.
type countingWriter struct {
	w io.Writer
	n int
}

func (c *countingWriter) Write(p []byte) (int, error) {
	c.n += len(p)
	return c.w.Write(p)
}

// verify checks the whole data file and sends what is in it.
func (c *control) verify(w http.ResponseWriter, r *http.Request) {
	if err := c.store.Check(r.Context()); err != nil {
		fail(w, r, http.StatusConflict, told(c.gate.log, err))
		return
	}
	counts, err := c.store.Counts()
	if err != nil {
		fail(w, r, http.StatusConflict, told(c.gate.log, err))
		return
	}
	send(w, http.StatusOK, counts)
}

// maxImport is the size in bytes of a request of an import.
const maxImport = 8 << 20

// sync is a sync without roles, for imports.
func (c *control) sync(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxImport))
	if err != nil {
		fail(w, r, http.StatusBadRequest, "the request broke off")
		return
	}
	req, err := hub.ReadRequest(body)
	if err == nil {
		var reply hub.Reply
		if reply, err = c.hub.Sync(req); err == nil {
			send(w, http.StatusOK, reply)
			return
		}
	}
	if errors.Is(err, hub.ErrRequest) {
		fail(w, r, http.StatusBadRequest, told(c.gate.log, err))
		return
	}
	fail(w, r, http.StatusServiceUnavailable, told(c.gate.log, err))
}

func (c *control) devices(w http.ResponseWriter, r *http.Request) {
	all, err := c.gate.Devices()
	c.reply(w, r, all, err)
}

func (c *control) code(w http.ResponseWriter, r *http.Request) {
	code, err := c.gate.NewCode(mux.Vars(r)["role"])
	c.reply(w, r, code, err)
}

func (c *control) revoke(w http.ResponseWriter, r *http.Request) {
	c.reply(w, r, struct{}{}, c.gate.Revoke(mux.Vars(r)["id"]))
}

func (c *control) role(w http.ResponseWriter, r *http.Request) {
	c.reply(w, r, struct{}{}, c.gate.SetRole(mux.Vars(r)["id"], mux.Vars(r)["role"]))
}

// reply sends v, or why there is an error.
func (c *control) reply(w http.ResponseWriter, r *http.Request, v any, err error) {
	switch {
	case err == nil:
		send(w, http.StatusOK, v)
	case errors.Is(err, store.ErrNoDevice):
		fail(w, r, http.StatusNotFound, told(c.gate.log, err))
	default:
		fail(w, r, http.StatusBadRequest, told(c.gate.log, err))
	}
}
