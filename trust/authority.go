// Package trust makes a small certificate authority for one book, so that phones on the
// same network can reach it over TLS, and tells how a phone comes to trust it. Browsers
// give no motion sensors and keep no app for where there is no network on a page that came without TLS, or
// whose certificate nobody vouches for.
package trust

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

// How long certificates last. Phones refuse those of servers that last longer than 398 days;
// some of them make no difference for authorities that were added by hand.
const (
	authorityLasts = 5 * 365 * 24 * time.Hour
	leafLasts      = 397 * 24 * time.Hour
	renewBefore    = 30 * 24 * time.Hour // a certificate is made anew so long before it ends
	clocksDiffer   = 24 * time.Hour      // and begins so long before it was made
)

// Its files, each a certificate with its key, which its owner alone can read.
const (
	authorityFile = "authority.pem"
	leafFile      = "leaf.pem"
)

// ranges are the addresses that the authority may vouch for: those that nobody has on the
// internet (RFC 1918; RFC 3927; RFC 4193; RFC 4291, 2.5.3 and 2.5.6). Its key, were it stolen, opens no
// other place for those who trust it.
var ranges = []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "169.254.0.0/16", "fc00::/7", "fe80::/10", "::1/128"}

// domains are the names that it may vouch for, beside those that it was made for: RFC 6762, 3;
// RFC 8375; RFC 6761, 6.3.
var domains = []string{"local", "home.arpa", "localhost"}

// An Authority vouches for one server.
type Authority struct {
	dir  string
	now  func() time.Time
	made bool
	own  pair
	mu   sync.Mutex
	leaf pair
}

// pair is a certificate with its key.
type pair struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

// Open opens the authority that is kept in a folder, and makes one where there is none, or
// where it is about to end. names are those that the server goes by, given ones and others; a new authority can vouch
// for all of them, later ones only where they are local. A given one that it cannot vouch for is an error, any other
// is left out.
func Open(dir string, now func() time.Time, names []string, given ...string) (*Authority, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	a := &Authority{dir: dir, now: now}
	own, err := a.read(authorityFile)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && now().Add(renewBefore).After(own.cert.NotAfter):
		if err := a.begin(names); err != nil {
			return nil, err
		}
	case err != nil:
		return nil, err
	default:
		a.own = own
	}
	if leaf, err := a.read(leafFile); err == nil {
		a.leaf = leaf
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, name := range given {
		if name = strings.ToLower(name); !permitted(a.own.cert, name) {
			return nil, a.stranger(name)
		}
	}
	return a, a.Renew(a.permitted(names))
}

// permitted are the names that the authority may vouch for.
func (a *Authority) permitted(names []string) (all []string) {
	for _, name := range names {
		if permitted(a.own.cert, name) {
			all = append(all, name)
		}
	}
	return all
}

func (a *Authority) stranger(name string) error {
	return fmt.Errorf("the certificate authority in %s was not made for %s; hint: move that folder away and have the phones trust a new one", a.dir, name)
}

// Made tells that the authority is new, so that phones do not trust it yet.
func (a *Authority) Made() bool { return a.made }

// Certificate is the authority's certificate, as phones take it.
func (a *Authority) Certificate() []byte { return a.own.cert.Raw }

// Fingerprint is the SHA-256 of the certificate, in pairs of digits, as phones show it.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.own.cert.Raw)
	return strings.ReplaceAll(strings.ToUpper(fmt.Sprintf("% x", sum[:])), " ", ":")
}

// Ends is when the authority ends.
func (a *Authority) Ends() time.Time { return a.own.cert.NotAfter }

// begin makes the authority.
func (a *Authority) begin(names []string) error {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	host, _ := os.Hostname()
	now := a.now()
	c := &x509.Certificate{
		SerialNumber:                serial(),
		Subject:                     pkix.Name{CommonName: strings.TrimSpace("Swingwright book " + host), Organization: []string{"made on this machine for one book"}},
		NotBefore:                   now.Add(-clocksDiffer),
		NotAfter:                    now.Add(authorityLasts),
		IsCA:                        true,
		BasicConstraintsValid:       true,
		MaxPathLenZero:              true,
		KeyUsage:                    x509.KeyUsageCertSign | x509.KeyUsageDigitalSignature,
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         slices.Clone(domains),
	}
	for _, r := range ranges {
		_, net, err := net.ParseCIDR(r)
		if err != nil {
			return err
		}
		c.PermittedIPRanges = append(c.PermittedIPRanges, net)
	}
	for _, name := range names {
		if ip := net.ParseIP(name); ip != nil && !permitted(c, name) {
			if four := ip.To4(); four != nil {
				ip = four
			}
			c.PermittedIPRanges = append(c.PermittedIPRanges, &net.IPNet{IP: ip, Mask: net.CIDRMask(len(ip)*8, len(ip)*8)})
		} else if !permitted(c, name) {
			c.PermittedDNSDomains = append(c.PermittedDNSDomains, name)
		}
	}
	a.own, err = a.write(authorityFile, c, key, c, key)
	a.made, a.leaf = err == nil, pair{}
	return err
}

// permitted tells whether an authority may vouch for a name or an address.
func permitted(c *x509.Certificate, name string) bool {
	if ip := net.ParseIP(name); ip != nil {
		return slices.ContainsFunc(c.PermittedIPRanges, func(n *net.IPNet) bool { return n.Contains(ip) })
	}
	return slices.ContainsFunc(c.PermittedDNSDomains, func(d string) bool { return name == d || strings.HasSuffix(name, "."+d) })
}

// Renew makes another certificate for the server where it is about to end or lacks one of the names.
func (a *Authority) Renew(names []string) error {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	if c := a.leaf.cert; c != nil && c.CheckSignatureFrom(a.own.cert) == nil && now.Add(renewBefore).Before(c.NotAfter) && !now.Before(c.NotBefore) &&
		!slices.ContainsFunc(names, func(name string) bool { return c.VerifyHostname(name) != nil }) {
		return nil
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	c := &x509.Certificate{
		SerialNumber: serial(),
		Subject:      pkix.Name{CommonName: "Swingwright"},
		NotBefore:    now.Add(-clocksDiffer),
		NotAfter:     now.Add(leafLasts - clocksDiffer),
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	if end := a.own.cert.NotAfter; c.NotAfter.After(end) {
		c.NotAfter = end
	}
	for _, name := range names {
		if !permitted(a.own.cert, name) {
			return a.stranger(name)
		}
		if ip := net.ParseIP(name); ip != nil {
			c.IPAddresses = append(c.IPAddresses, ip)
		} else {
			c.DNSNames = append(c.DNSNames, name)
		}
	}
	a.leaf, err = a.write(leafFile, c, key, a.own.cert, a.own.key)
	return err
}

// Config is how a server that the authority vouches for speaks TLS. names are asked for again and
// again: a laptop goes from one network to another.
func (a *Authority) Config(names func() []string) *tls.Config {
	var mu sync.Mutex
	var asked time.Time
	return &tls.Config{MinVersion: tls.VersionTLS12, NextProtos: []string{"h2", "http/1.1"}, GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) {
		mu.Lock()
		if now := a.now(); now.Sub(asked) > time.Minute {
			asked = now
			// One that cannot be renewed serves until it ends.
			_ = a.Renew(a.permitted(names()))
		}
		mu.Unlock()
		a.mu.Lock()
		defer a.mu.Unlock()
		return &tls.Certificate{Certificate: [][]byte{a.leaf.cert.Raw, a.own.cert.Raw}, PrivateKey: a.leaf.key}, nil
	}}
}

// serial is a number that no other certificate has: 127 random bits (RFC 5280, 4.1.2.2).
func serial() *big.Int {
	b := make([]byte, 16)
	rand.Read(b)
	b[0] &= 0x7f
	return new(big.Int).SetBytes(b)
}

// write signs a certificate and puts it into a file with its key, whole or not at all.
func (a *Authority) write(name string, c *x509.Certificate, key *ecdsa.PrivateKey, by *x509.Certificate, byKey *ecdsa.PrivateKey) (pair, error) {
	der, err := x509.CreateCertificate(rand.Reader, c, by, &key.PublicKey, byKey)
	if err != nil {
		return pair{}, err
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return pair{}, err
	}
	text := append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret})...)
	f, err := os.CreateTemp(a.dir, ".new-*") // made with 0600
	if err != nil {
		return pair{}, err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(text)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return pair{}, err
	}
	if err := os.Rename(f.Name(), filepath.Join(a.dir, name)); err != nil {
		return pair{}, err
	}
	made, err := x509.ParseCertificate(der)
	return pair{made, key}, err
}

// read reads a certificate with its key, and refuses a key that others can read.
func (a *Authority) read(name string) (pair, error) {
	path := filepath.Join(a.dir, name)
	wrong := func(what string) (pair, error) {
		return pair{}, fmt.Errorf("%s: %s; hint: move it away, and it is made anew; phones then have to trust a new authority", path, what)
	}
	info, err := os.Stat(path)
	if err != nil {
		return pair{}, err
	}
	if info.Mode().Perm()&0o077 != 0 && runtime.GOOS != "windows" {
		return wrong("others on this machine can read the key, and may have")
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return pair{}, err
	}
	first, rest := pem.Decode(text)
	second, _ := pem.Decode(rest)
	if first == nil || second == nil {
		return wrong("it is damaged")
	}
	cert, err := x509.ParseCertificate(first.Bytes)
	if err != nil {
		return wrong("it is damaged")
	}
	key, err := x509.ParsePKCS8PrivateKey(second.Bytes)
	own, ok := key.(*ecdsa.PrivateKey)
	if err != nil || !ok || !own.PublicKey.Equal(cert.PublicKey) {
		return wrong("its key is damaged, or another's")
	}
	return pair{cert, own}, nil
}
