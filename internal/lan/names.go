package lan

import (
	"net"
	"os"
	"slices"
	"strings"
)

// Names lists what this machine is called on the network now: its addresses,
// those that phones can most likely reach first, then its names.
func Names() []string {
	host, _ := os.Hostname()
	addrs, _ := net.InterfaceAddrs() // a machine that can't say has its name still
	return namesOf(host, addrs)
}

func namesOf(host string, addrs []net.Addr) []string {
	var four, six []string
	for _, a := range addrs {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast() || n.IP.IsMulticast() || n.IP.IsUnspecified() {
			continue // an address of the link needs a zone, which no certificate has
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

// rank puts the networks of homes before those that machines make inside
// themselves.
func rank(ip string) int {
	for i, p := range []string{"192.168.", "10.", "172."} {
		if strings.HasPrefix(ip, p) {
			return i
		}
	}
	return 3
}

// isName says whether a word can be a host's name in a certificate.
func isName(s string) bool {
	if s == "" || len(s) > 253 || s[0] == '-' || s[0] == '.' || strings.Contains(s, "..") {
		return false
	}
	return !strings.ContainsFunc(s, func(c rune) bool {
		return (c < '0' || c > '9') && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') && c != '-' && c != '.'
	})
}
