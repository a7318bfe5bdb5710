package lan

import (
	"crypto/tls"
	"errors"
	"fmt"
	"os"
	"slices"
	"sync"
	"time"
)

// FromFiles returns a TLS configuration with a certificate from elsewhere, and a
// function that returns the names and addresses it is for. The files are read again
// when they change, so that renewing them needs no restart. It fails when they
// can't be used, have expired or are for no name.
func FromFiles(certFile, keyFile string, now func() time.Time) (*tls.Config, func() []string, error) {
	if certFile == "" || keyFile == "" {
		return nil, nil, errors.New("a certificate needs its key: give both --cert and --key")
	}
	f := &files{cert: certFile, key: keyFile, now: now}
	c, err := f.current()
	if err != nil {
		return nil, nil, err
	}
	if now().After(c.Leaf.NotAfter) {
		return nil, nil, fmt.Errorf("the certificate in %s expired on %s", certFile, c.Leaf.NotAfter.Format("2 January 2006"))
	}
	if len(c.Leaf.DNSNames)+len(c.Leaf.IPAddresses) == 0 {
		return nil, nil, fmt.Errorf("the certificate in %s has no name or address: browsers refuse it", certFile)
	}
	return &tls.Config{GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return f.current() }}, f.hosts, nil
}

// files are a certificate's two files, and what was last read from them.
type files struct {
	cert, key string
	now       func() time.Time

	mu    sync.Mutex
	have  *tls.Certificate
	stamp [2]time.Time // when the files had last changed
	look  time.Time    // when that was last compared
}

// current returns the certificate. It looks for a change of the files once a
// minute.
func (f *files) current() (*tls.Certificate, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.now()
	if f.have != nil && now.Sub(f.look) >= 0 && now.Sub(f.look) < time.Minute {
		return f.have, nil
	}
	f.look = now
	var stamp [2]time.Time
	for i, name := range []string{f.cert, f.key} {
		if info, err := os.Stat(name); err == nil {
			stamp[i] = info.ModTime()
		}
	}
	if f.have != nil && stamp == f.stamp {
		return f.have, nil
	}
	c, err := tls.LoadX509KeyPair(f.cert, f.key)
	if err != nil {
		if f.have != nil { // the new one may be half written: keep the old one
			return f.have, nil
		}
		return nil, fmt.Errorf("the certificate can't be read: %w", err)
	}
	f.have, f.stamp = &c, stamp
	return f.have, nil
}

// hosts returns the names and addresses in the certificate.
func (f *files) hosts() []string {
	c, err := f.current()
	if err != nil {
		return nil
	}
	out := slices.Clone(c.Leaf.DNSNames)
	for _, ip := range c.Leaf.IPAddresses {
		out = append(out, ip.String())
	}
	return out
}
