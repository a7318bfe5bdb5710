package web

import (
	"context"
	"errors"
	"mime"
	"net/http"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
)

// A door is one way in: the one of this machine, open, or the one of the
// network, where everybody must have been let in before. Which it is depends on
// the listener that took the connection, never on an address in the request: a
// proxy on this machine must not make strangers look like neighbours.
type door struct {
	gated bool
	host  func(name string) bool // whether a Host header is one of ours
	says  string                 // to who came by another name
}

// cookieName has the prefix that makes browsers keep it to this host, over TLS,
// for all paths (RFC 6265bis, section 4.1.3.2).
const cookieName = "__Host-hobside"

// cookieLife is as long as browsers keep a cookie at all; it is renewed whenever
// the app asks who it is.
const cookieLife = 400 * 24 * time.Hour

// visitor is who sent a request. The zero visitor is this machine.
type visitor struct {
	device store.Device
	secret string
}

func (v visitor) role() hub.Role { return hub.Role(v.device.Role) }

// mayManage says whether a visitor may let others in and show them the door.
func (v visitor) mayManage() bool { return v.device.ID == "" || v.role() == hub.Cook }

type visitorKey struct{}

func visitorOf(r *http.Request) visitor {
	v, _ := r.Context().Value(visitorKey{}).(visitor)
	return v
}

// open lists what anybody may ask for at the gated door: how to get in, and the
// app's files, which are the same for all and hold nothing of the house.
func (s *Server) open(r *http.Request) bool {
	switch r.URL.Path {
	case "/api/pair", authorityURL:
		return true
	}
	return s.files.byURL[r.URL.Path] != nil && (r.Method == http.MethodGet || r.Method == http.MethodHead)
}

// signed lets through who is let in, and what is open to all.
func (s *Server) signed(d door, next http.Handler) http.Handler {
	if !d.gated {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Strict-Transport-Security", "max-age=31536000")
		if s.open(r) {
			next.ServeHTTP(w, r)
			return
		}
		v, err := s.visitor(r)
		switch {
		case errors.Is(err, store.ErrNoDevice):
			fail(w, r, http.StatusUnauthorized, "this device is not let in: ask the cook for a code and open /pair.html")
		case err != nil:
			s.cfg.Log.Error("who is let in", "error", err)
			fail(w, r, http.StatusServiceUnavailable, troubleWith(err))
		default:
			next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), visitorKey{}, v)))
		}
	})
}

func (s *Server) visitor(r *http.Request) (visitor, error) {
	// Two cookies of one name are a sign that somebody planted one: neither is good.
	cookies := r.CookiesNamed(cookieName)
	if len(cookies) != 1 {
		return visitor{}, store.ErrNoDevice
	}
	d, err := s.cfg.Gate.Who(cookies[0].Value)
	return visitor{device: d, secret: cookies[0].Value}, err
}

// setCookie gives a browser its secret, or takes it away when that is "".
func setCookie(w http.ResponseWriter, secret string) {
	c := &http.Cookie{Name: cookieName, Value: secret, Path: "/", Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: int(cookieLife.Seconds())}
	if secret == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, c)
}

// isJSON says whether a request sends JSON, which no form can.
func isJSON(r *http.Request) bool {
	t, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	return err == nil && t == "application/json"
}
