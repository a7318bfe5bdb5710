package lan

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"
)

const (
	authorityLife = 10 * 365 * 24 * time.Hour
	// leafLife is how long a server certificate (a leaf) is valid. It is short
	// because renewing costs nothing.
	leafLife  = 60 * 24 * time.Hour
	leafRenew = 30 * 24 * time.Hour // a leaf is renewed when less than this is left
	clockSlip = 24 * time.Hour      // how far a phone's clock may be behind
)

// private are the networks that the authority may sign for: those of RFC 1918,
// 3927, 4193, 4291 and 6598, and this machine itself.
var private = []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10", "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128"}

// local are the endings of names that are valid only in a local network (RFC 6761,
// 6762, 8375).
var local = []string{"localhost", "local", "home.arpa", "internal", "lan"}

// An Authority is a certificate authority that signs this machine's server
// certificates. It is safe for use by many goroutines.
type Authority struct {
	cert  *x509.Certificate
	key   *ecdsa.PrivateKey
	names func() []string // the machine's names at this moment
	now   func() time.Time
	word  string // see Word

	mu   sync.Mutex
	leaf *tls.Certificate
	of   []string  // the names in the leaf
	look time.Time // when the names were last compared
}

// OpenAuthority reads the authority's file beside the data file at path,
// path.authority.pem, and makes it when there is none. An earlier release kept two files,
// path.authority.crt and path.authority.key, which are read where they are. A power cut
// could leave a part of those: a new authority is made then, and [Authority.Word] says so.
// OpenAuthority fails when the files can't be used, or when other users can read the key.
// Names returns the machine's names and addresses at this moment.
func OpenAuthority(path string, names func() []string, now func() time.Time) (*Authority, error) {
	return openAuthority(system{}, path, names, now)
}

func openAuthority(d disk, path string, names func() []string, now func() time.Time) (*Authority, error) {
	a := &Authority{names: names, now: now}
	name := path + ".authority.pem"
	ours, err := readKept(d, name)
	if err != nil {
		return nil, err
	}
	if ours.there {
		return a, a.use(ours, ours)
	}
	crt, err := readKept(d, path+".authority.crt")
	if err != nil {
		return nil, err
	}
	key, err := readKept(d, path+".authority.key")
	if err != nil {
		return nil, err
	}
	if crt.isWhole() && key.isWhole() {
		return a, a.use(crt, key)
	}
	if crt.there || key.there {
		a.word = fmt.Sprintf("%s and %s are not whole, as after a power cut while they were made; a new authority was made in %s, and a phone that trusts the old one must be told to trust the new one", crt.name, key.name, name)
	}
	if ours.pem, err = makeAuthority(now()); err == nil {
		err = writeWhole(d, name, filepath.Dir(name), ours.pem)
	}
	if err != nil {
		return nil, fmt.Errorf("make an authority for this machine: %w", err)
	}
	ours.mode = 0o600
	return a, a.use(ours, ours)
}

// A kept is a file of the authority, which may not be there.
type kept struct {
	name  string
	there bool
	pem   []byte
	mode  fs.FileMode
}

// readKept reads a file. It is no error when there is none.
func readKept(d disk, name string) (k kept, err error) {
	k.name = name
	k.pem, k.mode, err = d.read(name)
	if errors.Is(err, fs.ErrNotExist) {
		return k, nil
	}
	k.there = err == nil
	return k, err
}

// isWhole reports whether the file has a PEM block to its end.
func (k kept) isWhole() bool {
	block, _ := pem.Decode(k.pem)
	return block != nil
}

// use checks a certificate and its key, which may be in one file, and uses them.
func (a *Authority) use(crt, key kept) error {
	again := "remove it to make a new authority, which every phone must then be told to trust"
	if crt.name != key.name {
		again = "remove both to make a new authority, which every phone must then be told to trust"
	}
	if runtime.GOOS != "windows" && key.mode.Perm()&0o077 != 0 {
		return fmt.Errorf("%s can be read by other users, and a person who has it can pass for this server; take their right to read it away (chmod 600 %s), or if they may have read it, %s", key.name, key.name, again)
	}
	pair, err := tls.X509KeyPair(crt.pem, key.pem) // fails when they do not belong together
	if err != nil {
		return fmt.Errorf("the authority in %s can't be used (%v): %s", crt.name, err, again)
	}
	cert, err := x509.ParseCertificate(pair.Certificate[0])
	private, ok := pair.PrivateKey.(*ecdsa.PrivateKey)
	if err != nil || !ok || !cert.IsCA {
		return fmt.Errorf("%s is not an authority that Hobside made: %s", crt.name, again)
	}
	if a.now().After(cert.NotAfter.Add(-leafLife)) {
		return fmt.Errorf("the authority in %s expires on %s: %s", crt.name, cert.NotAfter.Format("2 January 2006"), again)
	}
	a.cert, a.key = cert, private
	return nil
}

// Word returns what a person must know about how the authority was made, "" when there
// is nothing to say.
func (a *Authority) Word() string { return a.word }

// makeAuthority returns a new certificate and its key in PEM.
func makeAuthority(now time.Time) ([]byte, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	host, _ := os.Hostname()
	template := &x509.Certificate{
		SerialNumber:          serial(),
		Subject:               pkix.Name{CommonName: "Hobside on " + orThis(host), Organization: []string{"made by this machine for itself"}},
		NotBefore:             now.Add(-clockSlip),
		NotAfter:              now.Add(authorityLife),
		IsCA:                  true,
		BasicConstraintsValid: true,
		MaxPathLenZero:        true, // it may sign server certificates and no further authorities
		KeyUsage:              x509.KeyUsageCertSign,
		ExtKeyUsage:           []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},

		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         local,
	}
	if isName(host) {
		template.PermittedDNSDomains = append(slices.Clone(local), host)
	}
	for _, p := range private {
		_, n, err := net.ParseCIDR(p)
		if err != nil {
			return nil, err
		}
		template.PermittedIPRanges = append(template.PermittedIPRanges, n)
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		return nil, err
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	return append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: keyDER})...), nil
}

// serial returns a random serial number, greater than 0, of at most 121 bits.
func serial() *big.Int {
	n, _ := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 120)) // rand.Reader never returns an error
	return n.Add(n, big.NewInt(1))
}

func orThis(host string) string {
	if host == "" {
		return "this machine"
	}
	return host
}

// DER returns the authority's certificate in the form that phones import.
func (a *Authority) DER() []byte { return a.cert.Raw }

// Fingerprint returns the fingerprint of the authority's certificate, which
// phones and the server both show, so that a person can compare them.
func (a *Authority) Fingerprint() string { return Fingerprint(a.cert.Raw) }

// Fingerprint returns the SHA-256 of a certificate as pairs of hexadecimal digits,
// with colons between them.
func Fingerprint(der []byte) string {
	sum := sha256.Sum256(der)
	var b strings.Builder
	for i, c := range sum {
		if i > 0 {
			b.WriteByte(':')
		}
		fmt.Fprintf(&b, "%02X", c)
	}
	return b.String()
}

// Config returns a TLS configuration whose certificate is always valid and for the
// machine's names at this moment.
func (a *Authority) Config() *tls.Config {
	return &tls.Config{GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return a.current() }}
}

// Hosts returns those of the machine's names that the authority may sign for.
func (a *Authority) Hosts() []string {
	return slices.DeleteFunc(a.names(), func(n string) bool { return !a.may(n) })
}

// may reports whether the authority's certificate lets it sign for a name.
func (a *Authority) may(name string) bool {
	if ip := net.ParseIP(name); ip != nil {
		return slices.ContainsFunc(a.cert.PermittedIPRanges, func(n *net.IPNet) bool { return n.Contains(ip) })
	}
	return slices.ContainsFunc(a.cert.PermittedDNSDomains, func(d string) bool {
		return strings.EqualFold(name, d) || strings.HasSuffix(strings.ToLower(name), "."+strings.ToLower(d))
	})
}

// current returns the leaf. It makes a new one when less than half its life is
// left or the machine's names have changed. It compares the names once a minute,
// because a laptop gets another address when it moves.
func (a *Authority) current() (*tls.Certificate, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	if a.leaf != nil && now.Sub(a.look) >= 0 && now.Sub(a.look) < time.Minute {
		return a.leaf, nil
	}
	names := a.Hosts()
	slices.Sort(names)
	if a.leaf == nil || !slices.Equal(names, a.of) || a.leaf.Leaf.NotAfter.Sub(now) < leafRenew || now.Before(a.leaf.Leaf.NotBefore) {
		leaf, err := a.sign(names, now)
		if err != nil {
			return nil, err
		}
		a.leaf, a.of = leaf, names
	}
	a.look = now
	return a.leaf, nil
}

// sign makes a leaf for names and addresses, valid from now on.
func (a *Authority) sign(names []string, now time.Time) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		SerialNumber: serial(),
		Subject:      pkix.Name{CommonName: "Hobside"},
		NotBefore:    now.Add(-clockSlip),
		NotAfter:     now.Add(leafLife),
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	for _, n := range names {
		if ip := net.ParseIP(n); ip != nil {
			template.IPAddresses = append(template.IPAddresses, ip)
		} else {
			template.DNSNames = append(template.DNSNames, n)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.cert, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{der, a.cert.Raw}, PrivateKey: key, Leaf: leaf}, nil
}
