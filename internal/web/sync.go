package web

import (
	"errors"
	"io"
	"net/http"

	"hobside/internal/hub"
	"hobside/internal/store"
)

// maxBody is the size in bytes of the request of one sync.
const maxBody = 1 << 20

// sync is POST /api/sync, see package hub. When it fails, nothing was acknowledged
// and the phone keeps what it has.
func (s *Server) sync(w http.ResponseWriter, r *http.Request) {
	if !isJSON(r) {
		fail(w, r, http.StatusUnsupportedMediaType, "send application/json")
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxBody))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		fail(w, r, http.StatusRequestEntityTooLarge, "the request is over 1 MiB: send it in parts")
		return
	}
	if err != nil {
		fail(w, r, http.StatusBadRequest, "the request broke off")
		return
	}
	if device := visitorOf(r).device.ID; device != "" {
		end := s.turns.take(r.Context(), device)
		if end == nil {
			fail(w, r, http.StatusTooManyRequests, "this device sends too much at once: it is asked to wait, and nothing is lost")
			return
		}
		defer end()
	}
	req, err := hub.ReadRequest(body)
	if err != nil {
		fail(w, r, http.StatusBadRequest, err.Error())
		return
	}
	req.From = visitorOf(r).lookup()
	reply, err := s.cfg.Hub.Sync(req)
	if errors.Is(err, store.ErrNoDevice) { // it was revoked while the body came
		turnAway(w, r, http.StatusUnauthorized, notPaired)
		return
	}
	if err != nil {
		s.cfg.Log.Error("sync failed", "device", req.Device, "error", told(s.cfg.Log, err))
		fail(w, r, http.StatusServiceUnavailable, diskTrouble(err))
		return
	}
	sendCompressed(w, r, http.StatusOK, reply)
}

// diskTrouble returns, for a cook, why the server could not save. The disk's own
// error is in the log.
func diskTrouble(err error) string {
	const kept = "; this phone keeps everything and tries again"
	switch {
	case errors.Is(err, store.ErrFull):
		return "the server's disk is full" + kept
	case errors.Is(err, store.ErrReplaced):
		return "the server's data file was deleted or replaced: somebody has to put it back, or restore a backup" + kept
	case errors.Is(err, store.ErrFailed), errors.Is(err, store.ErrDamaged):
		return "the server's disk has a fault: its log says which" + kept
	case errors.Is(err, store.ErrClosed):
		return "the server is stopping" + kept
	}
	return "the server cannot save just now" + kept
}

// health is GET /healthz: 200 when the data file can be read, else 503.
func (s *Server) health(w http.ResponseWriter, r *http.Request) {
	if err := s.cfg.Hub.Healthy(); err != nil {
		fail(w, r, http.StatusServiceUnavailable, told(s.cfg.Log, err))
		return
	}
	sendBytes(w, http.StatusOK, "text/plain; charset=utf-8", []byte("ok "+s.Version()+"\n"))
}
