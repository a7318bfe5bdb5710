package web_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

func TestControlRefusesWrongToken(t *testing.T) {
	s := storetest.New(t)
	h, err := hub.New(s, nil, nil)
	require.NoError(t, err)
	handler := web.Control(s, h, web.NewGate(s, nil, nil), "right").Handler
	for _, path := range []string{"/api/backup", "/api/verify", "/api/devices", "/none"} {
		for _, tt := range []struct {
			auth, host string
			want       int
		}{
			{"", "127.0.0.1:1", 401}, {"Bearer wrong", "127.0.0.1:1", 401}, {"right", "127.0.0.1:1", 401}, {"Bearer right", "evil.test", 401}, {"Bearer right ", "127.0.0.1:1", 401},
		} {
			req := httptest.NewRequest("GET", "http://"+tt.host+path, nil)
			if tt.auth != "" {
				req.Header.Set("Authorization", tt.auth)
			}
			w := httptest.NewRecorder()
			handler.ServeHTTP(w, req)
			assert.Equal(t, tt.want, w.Code, "%s %q %s", path, tt.auth, tt.host)
		}
	}
	req := httptest.NewRequest("GET", "http://127.0.0.1:1/api/verify", nil)
	req.Header.Set("Authorization", "Bearer right")
	w := httptest.NewRecorder()
	handler.ServeHTTP(w, req)
	assert.Equal(t, 200, w.Code)
}

// A whole backup has a trailer that says so, and a failed one has not.
func TestBackupTrailerSaysWhetherItIsWhole(t *testing.T) {
	s, err := store.Open(t.TempDir()+"/hobside.db", store.Options{})
	require.NoError(t, err)
	h, err := hub.New(s, nil, nil)
	require.NoError(t, err)
	srv := httptest.NewServer(web.Control(s, h, web.NewGate(s, nil, nil), "right").Handler)
	defer srv.Close()
	get := func() *http.Response {
		req, err := http.NewRequestWithContext(context.Background(), "GET", srv.URL+"/api/backup", nil)
		require.NoError(t, err)
		req.Header.Set("Authorization", "Bearer right")
		res, err := http.DefaultClient.Do(req)
		require.NoError(t, err)
		t.Cleanup(func() { res.Body.Close() })
		return res
	}
	res := get()
	body := text(t, res)
	assert.Equal(t, "yes", res.Trailer.Get(web.BackupWhole))
	assert.Greater(t, len(body), 4096)
	require.NoError(t, s.Close())
	res = get()
	assert.Equal(t, 503, res.StatusCode)
	assert.NotEqual(t, "yes", res.Trailer.Get(web.BackupWhole))
}

// FuzzPlace reads a phone's cursor from any query and Last-Event-ID. The message it
// leads to is JSON, and continues at the cursor only where that is valid.
func FuzzPlace(f *testing.F) {
	s := storetest.New(f)
	h, err := hub.New(s, nil, nil)
	require.NoError(f, err)
	f.Add("epoch="+s.Epoch()+"&after=0", "")
	f.Add("after=18446744073709551616", s.Epoch()+"-0")
	f.Add("epoch=%zz&after=-1", "-")
	f.Add("epoch="+s.Epoch()+"&after=1&chain=0000000000000000", s.Epoch()+"-0-0000000000000000")
	f.Fuzz(func(t *testing.T, query, id string) {
		r := &http.Request{URL: &url.URL{RawQuery: query}, Header: http.Header{"Last-Event-Id": {id}}}
		at := web.Place(r)
		_, message, _ := h.News(at)
		if !strings.HasPrefix(string(message), `{"epoch":"`+s.Epoch()+`","seq":"0"`) {
			t.Fatalf("%q", message)
		}
		if strings.Contains(string(message), `"from"`) && (at.Epoch != s.Epoch() || at.Seq != 0) {
			t.Fatalf("%q continues at %v", message, at)
		}
	})
}
