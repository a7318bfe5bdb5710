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

// maxAsk is the size in bytes of a request about devices.
const maxAsk = 4 << 10

// A me is what a device may know about itself.
type me struct {
	ID    string `json:"id"` // "" on this machine
	Name  string `json:"name"`
	Role  string `json:"role"`  // "" on this machine
	Gated bool   `json:"gated"` // the server listens to the network
	Now   int64  `json:"now"`   // Unix milliseconds
}

// readJSON decodes a small JSON body. When it can't, it sends why and returns
// false.
func (s *Server) readJSON(w http.ResponseWriter, r *http.Request, into any) bool {
	if !isJSON(r) {
		fail(w, r, http.StatusUnsupportedMediaType, "send application/json")
		return false
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxAsk))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		fail(w, r, http.StatusRequestEntityTooLarge, "the request is over 4 KiB")
		return false
	}
	if err == nil {
		err = json.Unmarshal(body, into)
	}
	if err != nil {
		fail(w, r, http.StatusBadRequest, "the request can't be read as JSON")
		return false
	}
	return true
}

// pair is POST /api/pair: it pairs a device that sends a code.
func (s *Server) pair(w http.ResponseWriter, r *http.Request) {
	var ask struct{ Code, Name string }
	if !s.readJSON(w, r, &ask) {
		return
	}
	if r.TLS == nil { // the browser would not store the cookie, and others could read the code
		fail(w, r, http.StatusNotFound, "this machine needs no code")
		return
	}
	secret, d, err := s.cfg.Gate.Pair(ask.Code, ask.Name, secretOf(r))
	switch {
	case errors.Is(err, errCode), errors.Is(err, errTooMany):
		turnAway(w, r, http.StatusForbidden, err.Error())
	case err != nil:
		s.cfg.Log.Error("pairing failed", "error", err)
		fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
	default:
		setCookie(w, secret)
		send(w, http.StatusOK, me{ID: d.ID, Name: d.Name, Role: d.Role, Gated: true, Now: time.Now().UnixMilli()})
	}
}

// me is GET /api/me: it tells a device about itself and renews its cookie.
func (s *Server) me(w http.ResponseWriter, r *http.Request) {
	v := visitorOf(r)
	if v.secret != "" {
		setCookie(w, v.secret)
	}
	send(w, http.StatusOK, me{ID: v.device.ID, Name: v.device.Name, Role: v.device.Role, Gated: s.lanServer != nil, Now: time.Now().UnixMilli()})
}

// leave is DELETE /api/me: a device revokes itself.
func (s *Server) leave(w http.ResponseWriter, r *http.Request) {
	v := visitorOf(r)
	if v.device.ID == "" {
		fail(w, r, http.StatusNotFound, "this machine needs no pairing")
		return
	}
	if err := s.cfg.Gate.Revoke(v.device.ID); err != nil && !errors.Is(err, store.ErrNoDevice) {
		fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
		return
	}
	setCookie(w, "")
	w.Header().Set("Clear-Site-Data", `"cookies"`)
	send(w, http.StatusOK, struct{}{})
}

// managersOnly passes on requests of visitors who may manage devices.
func (s *Server) managersOnly(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !visitorOf(r).mayManage() {
			fail(w, r, http.StatusForbidden, errHelper.Error())
			return
		}
		next(w, r)
	}
}

// devices is GET /api/devices: the paired devices and the server's addresses.
func (s *Server) devices(w http.ResponseWriter, r *http.Request) {
	all, err := s.cfg.Gate.Devices()
	if err != nil {
		fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
		return
	}
	send(w, http.StatusOK, map[string]any{"devices": all, "gated": s.lanServer != nil, "addresses": s.Addresses(), "authority": s.cfg.Authority != nil})
}

// newCode is POST /api/devices: it makes a pairing code.
func (s *Server) newCode(w http.ResponseWriter, r *http.Request) {
	var ask struct{ Role string }
	if !s.readJSON(w, r, &ask) {
		return
	}
	c, err := s.cfg.Gate.newCode(visitorOf(r).lookup(), ask.Role)
	s.answer(w, r, c, err)
}

// device is POST and DELETE /api/devices/{id}: it changes a role or revokes.
func (s *Server) device(w http.ResponseWriter, r *http.Request) {
	id, from := mux.Vars(r)["id"], visitorOf(r).lookup()
	if r.Method == http.MethodDelete {
		s.answer(w, r, struct{}{}, s.cfg.Gate.revoke(from, id))
		return
	}
	var ask struct{ Role string }
	if s.readJSON(w, r, &ask) {
		s.answer(w, r, struct{}{}, s.cfg.Gate.setRole(from, id, ask.Role))
	}
}

// answer sends v, or why the devices were not changed.
func (s *Server) answer(w http.ResponseWriter, r *http.Request, v any, err error) {
	switch {
	case err == nil:
		send(w, http.StatusOK, v)
	case errors.Is(err, errRevoked):
		turnAway(w, r, http.StatusUnauthorized, notPaired)
	case errors.Is(err, errHelper):
		fail(w, r, http.StatusForbidden, err.Error())
	case errors.Is(err, store.ErrNoDevice):
		fail(w, r, http.StatusNotFound, err.Error())
	case errors.Is(err, errNotARole):
		fail(w, r, http.StatusBadRequest, err.Error())
	default:
		s.cfg.Log.Error("devices not changed", "error", err)
		fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
	}
}

// authority is GET /authority.crt: the certificate that a phone must trust, in the
// form that phones import.
func (s *Server) authority(w http.ResponseWriter, r *http.Request) {
	if s.cfg.Authority == nil {
		fail(w, r, http.StatusNotFound, "this server has a certificate from elsewhere: phones need not trust another")
		return
	}
	w.Header().Set("Content-Disposition", `attachment; filename="hobside-authority.crt"`)
	sendBytes(w, http.StatusOK, "application/x-x509-ca-cert", s.cfg.Authority)
}
