package lan

import (
	"net"
	"os"
	"slices"
	"strings"
)

// Names returns this machine's addresses and names on the network at this moment:
// addresses first, in the order in which phones are likely to reach them.
func Names() []string {
	host, _ := os.Hostname()
	addrs, _ := net.InterfaceAddrs() // without addresses the names are left
	return namesOf(host, addrs)
}

// namesOf is Names for a host name and a list of addresses.
func namesOf(host string, addrs []net.Addr) []string {
	var four, six []string
	for _, a := range addrs {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast() || n.IP.IsMulticast() || n.IP.IsUnspecified() {
			continue // a link-local address needs a zone, which a certificate can't have
		}
		if ip := n.IP.To4(); ip != nil {
			four = append(four, ip.String())
		} else {
			six = append(six, n.IP.String())
		}
	}
	slices.SortFunc(four, func(a, b string) int { return rank(a) - rank(b) })
	out := append(four, six...)
	if isName(host) {
		host = strings.ToLower(host)
		out = append(out, host)
		if !strings.Contains(host, ".") {
			out = append(out, host+".local") // by multicast DNS, RFC 6762
		}
	}
	return append(out, "localhost", "127.0.0.1", "::1")
}

// rank sorts addresses: networks that are usual in homes come before those that
// are usual for virtual machines.
func rank(ip string) int {
	for i, p := range []string{"192.168.", "10.", "172."} {
		if strings.HasPrefix(ip, p) {
			return i
		}
	}
	return 3
}

// isName reports whether s can be a host name in a certificate.
func isName(s string) bool {
	if s == "" || len(s) > 253 || s[0] == '-' || s[0] == '.' || strings.Contains(s, "..") {
		return false
	}
	return !strings.ContainsFunc(s, func(c rune) bool {
		return (c < '0' || c > '9') && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') && c != '-' && c != '.'
	})
}
