package lan

import (
	"crypto/x509"
	"errors"
	"net"
	"os"
	"path/filepath"
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
	for _, end := range []string{".authority.key", ".authority.crt"} {
		info, err := os.Stat(path + end)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), end)
	}
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

func TestUnusableAuthorityIsRefused(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(t *testing.T, crt, key string)
		at    time.Time
		says  string
	}{
		{"the key is missing", func(t *testing.T, crt, key string) { require.NoError(t, os.Remove(key)) }, june, "one is missing"},
		{"the certificate is missing", func(t *testing.T, crt, key string) { require.NoError(t, os.Remove(crt)) }, june, "one is missing"},
		{"others can read the key", func(t *testing.T, crt, key string) { require.NoError(t, os.Chmod(key, 0o644)) }, june, "chmod 600"},
		{"the group can read the key", func(t *testing.T, crt, key string) { require.NoError(t, os.Chmod(key, 0o640)) }, june, "chmod 600"},
		{"the key is damaged", func(t *testing.T, crt, key string) { require.NoError(t, os.WriteFile(key, []byte("---"), 0o600)) }, june, "can't be used"},
		{"the certificate is damaged", func(t *testing.T, crt, key string) { require.NoError(t, os.WriteFile(crt, nil, 0o600)) }, june, "can't be used"},
		{"expired", func(*testing.T, string, string) {}, june.Add(authorityLife), "expires on"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hobside.db")
			_, err := OpenAuthority(path, Names, (&clock{june}).now)
			require.NoError(t, err)
			tt.spoil(t, path+".authority.crt", path+".authority.key")
			_, err = OpenAuthority(path, Names, (&clock{tt.at}).now)
			assert.ErrorContains(t, err, tt.says)
		})
	}
	_, err := OpenAuthority(filepath.Join(t.TempDir(), "none", "hobside.db"), Names, (&clock{june}).now)
	assert.Error(t, err)
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
		require.NoError(t, errors.Join(writeNew(crt, "CERTIFICATE", leaf.Certificate[0]), writeNew(key, "PRIVATE KEY", der)))
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
