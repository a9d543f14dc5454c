package trust

import (
	"net"
	"os"
	"slices"
	"strings"
)

// Names are the names and addresses that this machine goes by in its own network, those that a
// phone would use first, and further ones that are given.
func Names(more ...string) []string {
	var names []string
	addresses, _ := net.InterfaceAddrs()
	for _, a := range addresses {
		// An address of one link alone needs the name of the link beside it, which no certificate has.
		if n, ok := a.(*net.IPNet); ok && n.IP.IsPrivate() {
			names = append(names, n.IP.String())
		}
	}
	slices.SortStableFunc(names, func(a, b string) int { return strings.Count(a, ":") - strings.Count(b, ":") }) // IPv4 first
	if host, err := os.Hostname(); err == nil {
		if host = strings.ToLower(host); dns(host) {
			names = append(names, host)
			if !strings.Contains(host, ".") {
				names = append(names, host+".local")
			}
		}
	}
	names = append(append(slices.Clone(more), names...), "localhost", "127.0.0.1", "::1")
	var once []string
	for _, n := range names {
		if n = strings.ToLower(n); !slices.Contains(once, n) {
			once = append(once, n)
		}
	}
	return once
}

// dns tells a name that may stand in a certificate.
func dns(name string) bool {
	return name != "" && len(name) < 254 && !strings.ContainsFunc(name, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '.')
	})
}
