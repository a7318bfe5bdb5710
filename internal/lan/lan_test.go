package lan

import (
	"crypto/x509"
	"encoding/pem"
	"errors"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var june = time.Date(2027, 6, 12, 12, 0, 0, 0, time.UTC)

type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func verify(t *testing.T, a *Authority, host string, at time.Time) error {
	t.Helper()
	c, err := a.current()
	require.NoError(t, err)
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	_, err = c.Leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: host, CurrentTime: at})
	return err
}

func TestAuthorityIsMadeOnceAndKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	names := []string{"192.168.1.7", "kitchen.local", "localhost"}
	c := &clock{june}
	a, err := OpenAuthority(path, func() []string { return names }, c.now)
	require.NoError(t, err)
	info, err := os.Stat(path + ".authority.pem")
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	assert.Empty(t, a.Word())
	b, err := OpenAuthority(path, func() []string { return names }, c.now)
	require.NoError(t, err)
	assert.Equal(t, a.Fingerprint(), b.Fingerprint(), "phones that trust it must still do so")
	assert.Len(t, a.Fingerprint(), 32*3-1)
	for _, host := range names {
		assert.NoError(t, verify(t, a, host, june), host)
	}
	assert.Error(t, verify(t, a, "192.168.1.8", june), "an address of another machine")
	assert.True(t, a.cert.IsCA && a.cert.MaxPathLenZero)
}

func TestServerCertificateIsRenewed(t *testing.T) {
	names := []string{"192.168.1.7"}
	c := &clock{june}
	a, err := OpenAuthority(filepath.Join(t.TempDir(), "hobside.db"), func() []string { return append([]string(nil), names...) }, c.now)
	require.NoError(t, err)
	first, err := a.current()
	require.NoError(t, err)
	for range 20 { // every twenty days for a year
		c.at = c.at.Add(20 * 24 * time.Hour)
		assert.NoError(t, verify(t, a, "192.168.1.7", c.at), c.at)
	}
	last, err := a.current()
	require.NoError(t, err)
	assert.NotEqual(t, first.Leaf.SerialNumber, last.Leaf.SerialNumber)
	names = []string{"192.168.1.99"} // the laptop moved
	c.at = c.at.Add(2 * time.Minute)
	assert.NoError(t, verify(t, a, "192.168.1.99", c.at))
	assert.Error(t, verify(t, a, "192.168.1.7", c.at))
	c.at = june.Add(-time.Hour) // the server's clock was set back
	assert.NoError(t, verify(t, a, "192.168.1.99", c.at))
}

// Phones refuse what the authority signs for other networks, and it does not sign
// for them by itself.
func TestAuthorityIsLimitedToPrivateNetworks(t *testing.T) {
	a, err := OpenAuthority(filepath.Join(t.TempDir(), "hobside.db"), func() []string {
		return []string{"192.168.1.7", "bank.example", "8.8.8.8", "fd00::7", "kitchen.local", "notlocal"}
	}, (&clock{june}).now)
	require.NoError(t, err)
	assert.Equal(t, []string{"192.168.1.7", "fd00::7", "kitchen.local"}, a.Hosts())
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	for _, host := range []string{"bank.example", "8.8.8.8"} {
		forged, err := a.sign([]string{host}, june)
		require.NoError(t, err)
		_, err = forged.Leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: host, CurrentTime: june})
		assert.ErrorContains(t, err, "not permitted", host)
	}
}

// splitAuthority makes an authority's file into the two files of the earlier release.
func splitAuthority(t *testing.T, path string) (crt, key string) {
	t.Helper()
	b, err := os.ReadFile(path + ".authority.pem")
	require.NoError(t, err)
	first, rest := pem.Decode(b)
	require.NotNil(t, first)
	crt, key = path+".authority.crt", path+".authority.key"
	require.NoError(t, os.Remove(path+".authority.pem"))
	require.NoError(t, errors.Join(os.WriteFile(crt, pem.EncodeToMemory(first), 0o600), os.WriteFile(key, rest, 0o600)))
	return crt, key
}

// flipped returns PEM with the characters of one line of its base64 in reverse order.
func flipped(t *testing.T, name string) {
	t.Helper()
	b, err := os.ReadFile(name)
	require.NoError(t, err)
	lines := strings.Split(string(b), "\n")
	line := []byte(lines[1])
	slices.Reverse(line)
	lines[1] = string(line)
	require.NoError(t, os.WriteFile(name, []byte(strings.Join(lines, "\n")), 0o600))
}

func TestUnusableAuthorityIsRefused(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(t *testing.T, path string)
		at    time.Time
		says  string
	}{
		{"others can read the key", func(t *testing.T, path string) { require.NoError(t, os.Chmod(path+".authority.pem", 0o644)) }, june, "chmod 600"},
		{"the group can read the key", func(t *testing.T, path string) { require.NoError(t, os.Chmod(path+".authority.pem", 0o640)) }, june, "chmod 600"},
		{"damaged", func(t *testing.T, path string) { flipped(t, path+".authority.pem") }, june, "can't be used"},
		{"empty", func(t *testing.T, path string) {
			require.NoError(t, os.WriteFile(path+".authority.pem", nil, 0o600))
		}, june, "remove it to make a new authority"},
		{"expired", func(*testing.T, string) {}, june.Add(authorityLife), "expires on"},
		{"earlier release: the key is damaged", func(t *testing.T, path string) { _, key := splitAuthority(t, path); flipped(t, key) }, june, "remove both"},
		{"earlier release: the certificate is damaged", func(t *testing.T, path string) { crt, _ := splitAuthority(t, path); flipped(t, crt) }, june, "remove both"},
		{"earlier release: others can read the key", func(t *testing.T, path string) {
			_, key := splitAuthority(t, path)
			require.NoError(t, os.Chmod(key, 0o644))
		}, june, "chmod 600"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hobside.db")
			_, err := OpenAuthority(path, Names, (&clock{june}).now)
			require.NoError(t, err)
			tt.spoil(t, path)
			_, err = OpenAuthority(path, Names, (&clock{tt.at}).now)
			assert.ErrorContains(t, err, tt.says)
		})
	}
	_, err := OpenAuthority(filepath.Join(t.TempDir(), "none", "hobside.db"), Names, (&clock{june}).now)
	assert.Error(t, err)
}

// The authority of an earlier release is used as it is; where a power cut left a part of
// it, a new one is made with a word.
func TestAuthorityOfEarlierRelease(t *testing.T) {
	cut := func(name string, part float64) func(t *testing.T) {
		return func(t *testing.T) {
			info, err := os.Stat(name)
			require.NoError(t, err)
			require.NoError(t, os.Truncate(name, int64(part*float64(info.Size()))))
		}
	}
	for _, tt := range []struct {
		name  string
		spoil func(crt, key string) func(t *testing.T)
		kept  bool
	}{
		{"whole", func(crt, key string) func(*testing.T) { return func(*testing.T) {} }, true},
		{"no certificate", func(crt, key string) func(*testing.T) {
			return func(t *testing.T) { require.NoError(t, os.Remove(crt)) }
		}, false},
		{"no key", func(crt, key string) func(*testing.T) {
			return func(t *testing.T) { require.NoError(t, os.Remove(key)) }
		}, false},
		{"an empty certificate", func(crt, key string) func(*testing.T) { return cut(crt, 0) }, false},
		{"half a certificate", func(crt, key string) func(*testing.T) { return cut(crt, 0.5) }, false},
		{"half a key", func(crt, key string) func(*testing.T) { return cut(key, 0.5) }, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hobside.db")
			first, err := OpenAuthority(path, Names, (&clock{june}).now)
			require.NoError(t, err)
			crt, key := splitAuthority(t, path)
			tt.spoil(crt, key)(t)
			again, err := OpenAuthority(path, Names, (&clock{june}).now)
			require.NoError(t, err)
			assert.Equal(t, tt.kept, again.Fingerprint() == first.Fingerprint())
			assert.Equal(t, tt.kept, again.Word() == "", again.Word())
			third, err := OpenAuthority(path, Names, (&clock{june}).now)
			require.NoError(t, err)
			assert.Equal(t, again.Fingerprint(), third.Fingerprint())
			assert.Empty(t, third.Word(), "it is said once")
		})
	}
}

func TestNamesAreInOrderOfUse(t *testing.T) {
	ip := func(s string) net.Addr {
		a, n, err := net.ParseCIDR(s)
		require.NoError(t, err)
		return &net.IPNet{IP: a, Mask: n.Mask}
	}
	got := namesOf("Kitchen", []net.Addr{ip("127.0.0.1/8"), ip("172.17.0.1/16"), ip("192.168.1.7/24"), ip("fe80::1/64"), ip("fd00::7/64"), ip("10.0.0.3/8")})
	assert.Equal(t, []string{"192.168.1.7", "10.0.0.3", "172.17.0.1", "fd00::7", "kitchen", "kitchen.local", "localhost", "127.0.0.1", "::1"}, got)
	assert.Equal(t, []string{"localhost", "127.0.0.1", "::1"}, namesOf("not a name", nil))
	assert.Equal(t, []string{"a.example", "localhost", "127.0.0.1", "::1"}, namesOf("a.example", nil))
}

func TestCertificateFilesAreReadAgainWhenTheyChange(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	c := &clock{june}
	a, err := OpenAuthority(path, Names, c.now)
	require.NoError(t, err)
	write := func(names ...string) (crt, key string) {
		leaf, err := a.sign(names, c.at)
		require.NoError(t, err)
		der, err := x509.MarshalPKCS8PrivateKey(leaf.PrivateKey)
		require.NoError(t, err)
		crt, key = path+".crt", path+".key"
		os.Remove(crt)
		os.Remove(key)
		block := func(kind string, der []byte) []byte { return pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}) }
		require.NoError(t, errors.Join(os.WriteFile(crt, block("CERTIFICATE", leaf.Certificate[0]), 0o600), os.WriteFile(key, block("PRIVATE KEY", der), 0o600)))
		return crt, key
	}
	crt, key := write("kitchen.example", "192.168.1.7")
	conf, hosts, err := FromFiles(crt, key, c.now)
	require.NoError(t, err)
	assert.Equal(t, []string{"kitchen.example", "192.168.1.7"}, hosts())
	write("kitchen2.example")
	later := time.Now().Add(time.Hour)
	require.NoError(t, os.Chtimes(crt, later, later))
	c.at = c.at.Add(2 * time.Minute)
	got, err := conf.GetCertificate(nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"kitchen2.example"}, got.Leaf.DNSNames, "the files changed")
	require.NoError(t, os.WriteFile(crt, []byte("half writ"), 0o600))
	c.at = c.at.Add(2 * time.Minute)
	_, err = conf.GetCertificate(nil)
	assert.NoError(t, err, "the old certificate stays")

	_, _, err = FromFiles(crt, key, c.now)
	assert.ErrorContains(t, err, "can't be read")
	_, _, err = FromFiles(crt, "", c.now)
	assert.ErrorContains(t, err, "both --cert and --key")
	crt, key = write()
	_, _, err = FromFiles(crt, key, c.now)
	assert.ErrorContains(t, err, "no name or address")
	crt, key = write("kitchen.example")
	c.at = c.at.Add(2 * leafLife)
	_, _, err = FromFiles(crt, key, c.now)
	assert.ErrorContains(t, err, "expired on")
}
