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

// FromFiles gives a TLS set-up of a certificate from elsewhere, and the names it
// is for. The files are read again when they change: whatever renews them need
// not stop the server.
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
		return nil, nil, fmt.Errorf("the certificate in %s ran out on %s", certFile, c.Leaf.NotAfter.Format("2 January 2006"))
	}
	if len(c.Leaf.DNSNames)+len(c.Leaf.IPAddresses) == 0 {
		return nil, nil, fmt.Errorf("the certificate in %s is for no name or address: browsers take none without", certFile)
	}
	return &tls.Config{GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return f.current() }}, f.hosts, nil
}

type files struct {
	cert, key string
	now       func() time.Time

	mu    sync.Mutex
	have  *tls.Certificate
	stamp [2]time.Time
	look  time.Time
}

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
		if f.have != nil { // half written, perhaps: the one from before is good still
			return f.have, nil
		}
		return nil, fmt.Errorf("the certificate can't be read: %w", err)
	}
	f.have, f.stamp = &c, stamp
	return f.have, nil
}

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
