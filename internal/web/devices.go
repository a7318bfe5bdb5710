package web

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"time"

	"github.com/gorilla/mux"

	"hobside/internal/store"
)

// maxAsk is what a question about devices may send.
const maxAsk = 4 << 10

// me is what a device may know of itself.
type me struct {
	ID    string `json:"id"` // "" on this machine
	Name  string `json:"name"`
	Role  string `json:"role"`  // "" on this machine
	Gated bool   `json:"gated"` // whether this server lets other devices in at all
	Now   int64  `json:"now"`
}

// read reads a small JSON body, or answers what is wrong with it.
func (s *Server) read(w http.ResponseWriter, r *http.Request, into any) bool {
	if !isJSON(r) {
		fail(w, r, http.StatusUnsupportedMediaType, "send application/json")
		return false
	}
	http.NewResponseController(w).SetReadDeadline(time.Now().Add(bodyWait))
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxAsk))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		fail(w, r, http.StatusRequestEntityTooLarge, "that is over 4 KiB")
		return false
	}
	if err == nil {
		err = json.Unmarshal(body, into)
	}
	if err != nil {
		fail(w, r, http.StatusBadRequest, "that can't be read")
		return false
	}
	return true
}

// pair is POST /api/pair: a code for a secret.
func (s *Server) pair(w http.ResponseWriter, r *http.Request) {
	var ask struct{ Code, Name string }
	if !s.read(w, r, &ask) {
		return
	}
	if r.TLS == nil { // the browser would not keep the cookie, and somebody might read the code
		fail(w, r, http.StatusNotFound, "this machine needs no code")
		return
	}
	secret, d, err := s.cfg.Gate.Pair(ask.Code, ask.Name)
	switch {
	case errors.Is(err, errCode), errors.Is(err, errCrowded):
		fail(w, r, http.StatusForbidden, err.Error())
	case err != nil:
		s.cfg.Log.Error("pair", "error", err)
		fail(w, r, http.StatusServiceUnavailable, troubleWith(err))
	default:
		if old, err := s.visitor(r); err == nil { // the same browser again: its old secret is of no more use
			s.cfg.Gate.Revoke(old.device.ID)
		}
		setCookie(w, secret)
		answer(w, http.StatusOK, me{ID: d.ID, Name: d.Name, Role: d.Role, Gated: true, Now: time.Now().UnixMilli()})
	}
}

// me is GET /api/me.
func (s *Server) me(w http.ResponseWriter, r *http.Request) {
	v := visitorOf(r)
	if v.secret != "" {
		setCookie(w, v.secret)
	}
	answer(w, http.StatusOK, me{ID: v.device.ID, Name: v.device.Name, Role: v.device.Role, Gated: s.gated != nil, Now: time.Now().UnixMilli()})
}

// leave is DELETE /api/me: a device shows itself the door.
func (s *Server) leave(w http.ResponseWriter, r *http.Request) {
	v := visitorOf(r)
	if v.device.ID == "" {
		fail(w, r, http.StatusNotFound, "this machine is always let in")
		return
	}
	if err := s.cfg.Gate.Revoke(v.device.ID); err != nil && !errors.Is(err, store.ErrNoDevice) {
		fail(w, r, http.StatusServiceUnavailable, troubleWith(err))
		return
	}
	setCookie(w, "")
	w.Header().Set("Clear-Site-Data", `"cookies"`)
	answer(w, http.StatusOK, struct{}{})
}

// managing lets only those through who may manage devices.
func (s *Server) managing(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !visitorOf(r).mayManage() {
			fail(w, r, http.StatusForbidden, "this phone is a helper's: letting others in is the cook's")
			return
		}
		next(w, r)
	}
}

// devices is GET /api/devices.
func (s *Server) devices(w http.ResponseWriter, r *http.Request) {
	all, err := s.cfg.Gate.Devices()
	if err != nil {
		fail(w, r, http.StatusServiceUnavailable, troubleWith(err))
		return
	}
	answer(w, http.StatusOK, map[string]any{"devices": all, "gated": s.gated != nil, "addresses": s.Addresses(), "authority": s.cfg.Authority != nil})
}

// newCode is POST /api/devices.
func (s *Server) newCode(w http.ResponseWriter, r *http.Request) {
	var ask struct{ Role string }
	if !s.read(w, r, &ask) {
		return
	}
	c, err := s.cfg.Gate.NewCode(ask.Role)
	if err != nil {
		fail(w, r, http.StatusBadRequest, err.Error())
		return
	}
	answer(w, http.StatusOK, c)
}

// device is POST and DELETE /api/devices/{id}.
func (s *Server) device(w http.ResponseWriter, r *http.Request) {
	id := mux.Vars(r)["id"]
	var err error
	if r.Method == http.MethodDelete {
		err = s.cfg.Gate.Revoke(id)
	} else {
		var ask struct{ Role string }
		if !s.read(w, r, &ask) {
			return
		}
		err = s.cfg.Gate.SetRole(id, ask.Role)
	}
	switch {
	case err == nil:
		answer(w, http.StatusOK, struct{}{})
	case errors.Is(err, store.ErrNoDevice):
		fail(w, r, http.StatusNotFound, err.Error())
	case errors.Is(err, store.ErrFull), errors.Is(err, store.ErrFailed), errors.Is(err, store.ErrClosed), errors.Is(err, store.ErrDamaged):
		fail(w, r, http.StatusServiceUnavailable, troubleWith(err))
	default:
		fail(w, r, http.StatusBadRequest, err.Error())
	}
}

// authority is GET /authority.crt: what a phone must trust, in the form that
// phones take.
func (s *Server) authority(w http.ResponseWriter, r *http.Request) {
	if s.cfg.Authority == nil {
		fail(w, r, http.StatusNotFound, "this server has a certificate from elsewhere: there is nothing to trust")
		return
	}
	w.Header().Set("Content-Disposition", `attachment; filename="hobside-authority.crt"`)
	send(w, http.StatusOK, "application/x-x509-ca-cert", s.cfg.Authority)
}
