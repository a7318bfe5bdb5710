package main

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"errors"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rsc.io/qr"

	"hobside/internal/control"
	"hobside/internal/store"
)

// onLAN is a server as `hobside serve --lan` starts it, on a port of this
// machine, and what it printed for phones.
type onLAN struct {
	running
	url, code string
	client    *http.Client
}

func startLAN(t testing.TB, args ...string) onLAN {
	t.Helper()
	data := filepath.Join(t.TempDir(), "hobside.db")
	l := onLAN{running: start(t, append([]string{"--data", data, "--lan", "--lan-listen", "127.0.0.1:0"}, args...)...)}
	out := l.out.String()
	port := regexp.MustCompile(`https://\S+:(\d+)/pair\.html`).FindStringSubmatch(out)
	require.NotNil(t, port, out)
	code := regexp.MustCompile(`code for one (cook|helper) is (\d{4} \d{4})`).FindStringSubmatch(out)
	require.NotNil(t, code, out)
	l.url, l.code = "https://localhost:"+port[1], code[2]
	roots := x509.NewCertPool()
	b, err := os.ReadFile(data + ".authority.pem")
	require.NoError(t, err)
	require.True(t, roots.AppendCertsFromPEM(b))
	l.client = &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}}
	return l
}

// pair pairs a phone and returns its cookie.
func (l onLAN) pair(t testing.TB, code string) *http.Cookie {
	t.Helper()
	res, err := l.client.Post(l.url+"/api/pair", "application/json", strings.NewReader(`{"code":"`+code+`","name":"Nora's phone"}`))
	require.NoError(t, err)
	defer res.Body.Close()
	require.Equal(t, 200, res.StatusCode)
	require.Len(t, res.Cookies(), 1)
	return res.Cookies()[0]
}

func (l onLAN) status(t testing.TB, cookie *http.Cookie) int {
	t.Helper()
	req, err := http.NewRequest("GET", l.url+"/api/me", nil)
	require.NoError(t, err)
	if cookie != nil {
		req.AddCookie(cookie)
	}
	res, err := l.client.Do(req)
	require.NoError(t, err)
	res.Body.Close()
	return res.StatusCode
}

// A phone is paired with the code from the server's screen, works, and is
// revoked.
func TestServeOnTheNetwork(t *testing.T) {
	l := startLAN(t)
	out := l.out.String()
	assert.Contains(t, out, "SHA-256 fingerprint is ")
	assert.Contains(t, out, "█", "a QR code")
	assert.Equal(t, 401, l.status(t, nil))
	phone := l.pair(t, l.code)
	assert.Equal(t, 200, l.status(t, phone))
	assert.Contains(t, good(t, "devices", "--data", l.data()), "Nora's phone  cook")

	said := good(t, "devices", "--data", l.data(), "code", "helper")
	code := regexp.MustCompile(`\d{4} \d{4}`).FindString(said)
	helper := l.pair(t, code)
	var all []store.Device
	h, err := control.Open(l.data(), false)
	require.NoError(t, err)
	all, err = h.Devices()
	require.NoError(t, err)
	require.Len(t, all, 2)
	for _, d := range all {
		if d.Role == "helper" {
			assert.Contains(t, good(t, "devices", "--data", l.data(), "cook", d.ID), "its role is now cook")
			assert.Contains(t, good(t, "devices", "--data", l.data(), "revoke", d.ID), "is revoked")
		}
	}
	assert.Equal(t, 401, l.status(t, helper))
	assert.Equal(t, 200, l.status(t, phone))
	require.NoError(t, l.stop())
	assert.Contains(t, good(t, "devices", "--data", l.data()), "Nora's phone", "with no server, too")
	for _, end := range []string{".authority.pem", ""} {
		info, err := os.Stat(l.data() + end)
		require.NoError(t, err)
		assert.Zero(t, info.Mode().Perm()&0o077, end)
	}
}

func TestServeWithGivenCertificate(t *testing.T) {
	dir := t.TempDir()
	from := startLAN(t) // its own leaf, with the authority's key: any certificate would do
	b, err := os.ReadFile(from.data() + ".authority.pem")
	require.NoError(t, err)
	crt, key := filepath.Join(dir, "a.crt"), from.data()+".authority.pem"
	require.NoError(t, os.WriteFile(crt, b, 0o600))
	block, _ := pem.Decode(b)
	require.NotNil(t, block)
	err = serve(t.Context(), []string{"--empty", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "x.db"), "--lan", "--lan-listen", "127.0.0.1:0", "--cert", crt, "--key", key}, &printed{})
	assert.ErrorContains(t, err, "has no name or address")
	assert.NoFileExists(t, filepath.Join(dir, "x.db.server"))
	err = serve(t.Context(), []string{"--empty", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "x.db"), "--lan", "--lan-listen", "127.0.0.1:0", "--cert", filepath.Join(dir, "none"), "--key", key}, &printed{})
	assert.ErrorContains(t, err, "can't be read")
	_, port, _ := strings.Cut(strings.TrimPrefix(from.url, "https://"), ":")
	err = serve(t.Context(), []string{"--empty", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "y.db"), "--lan", "--lan-listen", "127.0.0.1:" + port}, &printed{})
	assert.ErrorContains(t, err, "--lan-listen")
}

// The printed modules are those of the code, with a quiet zone around it.
func TestQRCode(t *testing.T) {
	const address = "https://192.168.1.7:8443/pair.html"
	var b strings.Builder
	require.NoError(t, printQR(&b, address))
	code, err := qr.Encode(address, qr.M)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	light := func(x, y int) bool {
		r := []rune(lines[(y+4)/2])[x+4]
		if y%2 == 0 {
			return r == '█' || r == '▀'
		}
		return r == '█' || r == '▄'
	}
	for y := range code.Size {
		for x := range code.Size {
			require.Equal(t, !code.Black(x, y), light(x, y), "%d,%d", x, y)
		}
	}
	for n := range code.Size {
		require.True(t, light(-1, n) && light(-4, n) && light(code.Size+3, n))
	}
	b.Reset()
	assert.Error(t, printQR(&b, strings.Repeat("x", 4000)))
}

// The pages that explain pairing are served, and need only the app's shell.
func TestPairingPagesAreServed(t *testing.T) {
	l := startLAN(t)
	for path, says := range map[string]string{"/pair.html": "eight digits", "/trust.html": "fingerprint", "/app/pair.js": "/api/pair"} {
		res, err := l.client.Get(l.url + path)
		require.NoError(t, err)
		body := new(strings.Builder)
		_, err = io.Copy(body, res.Body)
		require.NoError(t, errors.Join(err, res.Body.Close()))
		assert.Equal(t, 200, res.StatusCode, path)
		assert.Contains(t, body.String(), says)
		assert.NotContains(t, body.String(), "<script>", "nothing inline")
		assert.NotContains(t, body.String(), "style=", "nothing inline")
	}
	res, err := l.client.Get(l.url + "/api/devices")
	require.NoError(t, err)
	var said struct{ Error string }
	require.NoError(t, json.NewDecoder(res.Body).Decode(&said))
	res.Body.Close()
	assert.Contains(t, said.Error, "/pair.html")
}
