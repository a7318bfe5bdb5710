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

// An access is the rules of one listener: this machine's, which everyone may use,
// or the network's, which only paired devices may use. The rules depend on the
// listener that took the connection and never on an address in the request,
// because a proxy on this machine would make strangers look local.
type access struct {
	paired  bool                   // only paired devices may use it
	host    func(name string) bool // reports whether a Host header names this server
	refusal string                 // for a request with another Host header
}

// cookieName begins with a prefix that makes browsers keep the cookie to this host,
// over TLS, for all paths (RFC 6265bis, section 4.1.3.2).
const cookieName = "__Host-hobside"

// cookieLife is the longest time for which browsers keep a cookie. The cookie is
// renewed whenever the app asks for /api/me.
const cookieLife = 400 * 24 * time.Hour

// A visitor is who sent a request. The zero visitor is this machine.
type visitor struct {
	device store.Device
	secret string
}

func (v visitor) role() hub.Role { return hub.Role(v.device.Role) }

// lookup returns a function that looks the visitor up again in a transaction, nil for
// this machine. The visitor may have been revoked, or got another role, since its
// request began.
func (v visitor) lookup() lookup {
	if v.device.ID == "" {
		return nil
	}
	return func(tx *store.Tx) (store.Device, error) { return tx.DeviceBy(v.secret) }
}

// mayManage reports whether a visitor may pair and revoke devices.
func (v visitor) mayManage() bool { return v.device.ID == "" || v.role() == hub.Cook }

// notPaired answers a device that is not paired, or not any more.
const notPaired = "this device is not paired: ask the cook for a code and open /pair.html"

type visitorKey struct{}

// visitorOf returns who sent a request, as authenticated found out.
func visitorOf(r *http.Request) visitor {
	v, _ := r.Context().Value(visitorKey{}).(visitor)
	return v
}

// isPublic reports whether a request from the network needs no pairing: the pairing
// itself, and the app's files, which are the same for everyone and have no data.
func (s *Server) isPublic(r *http.Request) bool {
	switch r.URL.Path {
	case "/api/pair", authorityURL:
		return true
	}
	return s.files.byURL[r.URL.Path] != nil && (r.Method == http.MethodGet || r.Method == http.MethodHead)
}

// authenticated passes on requests of paired devices, and those that need no
// pairing. It answers any other with 401 and closes its connection.
func (s *Server) authenticated(a access, next http.Handler) http.Handler {
	if !a.paired {
		return next
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Strict-Transport-Security", "max-age=31536000")
		place, public := placeOf(r), s.isPublic(r)
		if public && (place.isKnown() || secretOf(r) == "") {
			next.ServeHTTP(w, r)
			return
		}
		v, err := s.visitor(r)
		if err == nil {
			place.admit()
		}
		switch {
		case public:
			next.ServeHTTP(w, r)
		case errors.Is(err, store.ErrNoDevice):
			turnAway(w, r, http.StatusUnauthorized, notPaired)
		case err != nil:
			s.cfg.Log.Error("device lookup failed", "error", err)
			fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
		default:
			next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), visitorKey{}, v)))
		}
	})
}

// visitor returns the device whose secret is in a request's cookie. It fails with
// store.ErrNoDevice when there is none.
func (s *Server) visitor(r *http.Request) (visitor, error) {
	secret := secretOf(r)
	d, err := s.cfg.Gate.Who(secret)
	return visitor{device: d, secret: secret}, err
}

// secretOf returns the secret in a request's cookie, "" when there is none.
func secretOf(r *http.Request) string {
	// Two cookies of one name mean that another site planted one: accept neither.
	if cookies := r.CookiesNamed(cookieName); len(cookies) == 1 {
		return cookies[0].Value
	}
	return ""
}

// setCookie sets a browser's cookie to a secret, or deletes it when that is "".
func setCookie(w http.ResponseWriter, secret string) {
	c := &http.Cookie{Name: cookieName, Value: secret, Path: "/", Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode, MaxAge: int(cookieLife.Seconds())}
	if secret == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, c)
}

// isJSON reports whether a request's body is JSON, which an HTML form can't send.
func isJSON(r *http.Request) bool {
	t, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	return err == nil && t == "application/json"
}
