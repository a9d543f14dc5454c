package trust

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

type clock struct{ time.Time }

func (c *clock) now() time.Time { return c.Time }

func open(t *testing.T, dir string, c *clock, names ...string) *Authority {
	t.Helper()
	a, err := Open(dir, c.now, names)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// trusts asks a server as a phone would that trusts the authority and nobody else.
func trusts(t *testing.T, a *Authority, c *clock, config *tls.Config, name string) error {
	t.Helper()
	listener, err := tls.Listen("tcp", "127.0.0.1:0", config)
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	go func() {
		if conn, err := listener.Accept(); err == nil {
			conn.(*tls.Conn).Handshake()
			conn.Close()
		}
	}()
	pool := x509.NewCertPool()
	pool.AppendCertsFromPEM(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: a.Certificate()}))
	conn, err := tls.Dial("tcp", listener.Addr().String(), &tls.Config{RootCAs: pool, ServerName: name, Time: c.now})
	if err == nil {
		conn.Close()
	}
	return err
}

func TestAuthority(t *testing.T) {
	c := &clock{time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)}
	dir := filepath.Join(t.TempDir(), "trust")
	names := []string{"192.168.1.5", "fd00::5", "bench.local", "127.0.0.1"}
	a := open(t, dir, c, names...)
	if !a.Made() || len(a.Fingerprint()) != 95 {
		t.Error(a.Made(), a.Fingerprint())
	}
	if info, err := os.Stat(dir); err != nil || info.Mode().Perm() != 0o700 {
		t.Error(info.Mode(), err)
	}
	for _, name := range []string{authorityFile, leafFile} {
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", name, info.Mode(), err)
		}
	}
	config := a.Config(func() []string { return names })
	for _, name := range names {
		if err := trusts(t, a, c, config, name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, name := range []string{"192.168.1.6", "example.com", "other.local"} {
		if trusts(t, a, c, config, name) == nil {
			t.Errorf("the certificate is taken for %s", name)
		}
	}
	if days := a.leaf.cert.NotAfter.Sub(a.leaf.cert.NotBefore).Hours() / 24; days > 398 {
		t.Errorf("the certificate lasts %g days, and phones refuse that", days)
	}
	// opened again it is the same
	again := open(t, dir, c, names...)
	if again.Made() || again.Fingerprint() != a.Fingerprint() || again.leaf.cert.SerialNumber.Cmp(a.leaf.cert.SerialNumber) != 0 {
		t.Error("opening made it anew")
	}
	// a year on, the certificate is made anew while the server runs, and by the same authority
	before := a.leaf.cert.SerialNumber
	c.Time = c.AddDate(1, 0, 10)
	if err := trusts(t, a, c, config, "192.168.1.5"); err != nil || a.leaf.cert.SerialNumber.Cmp(before) == 0 {
		t.Error("it was not renewed before its end", err)
	}
	// in another network it has another address
	names = append(names, "10.1.2.3")
	c.Time = c.Add(2 * time.Minute)
	if err := trusts(t, a, c, config, "10.1.2.3"); err != nil {
		t.Error(err)
	}
	// the authority itself is made anew before its end
	c.Time = c.AddDate(4, 0, 0)
	if last := open(t, dir, c, names...); !last.Made() || last.Fingerprint() == a.Fingerprint() {
		t.Error("an authority at its end goes on")
	} else if err := trusts(t, last, c, last.Config(func() []string { return names }), "bench.local"); err != nil {
		t.Error(err)
	}
}

// A machine that was given another name meanwhile is served all the same, a name that somebody asks for is not left out.
func TestOtherNames(t *testing.T) {
	c, dir := &clock{time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)}, t.TempDir()
	first := open(t, dir, c, "laptop", "127.0.0.1")
	a := open(t, dir, c, "renamed.example", "10.0.0.9", "127.0.0.1")
	if a.Made() || a.Fingerprint() != first.Fingerprint() || a.leaf.cert.VerifyHostname("10.0.0.9") != nil || a.leaf.cert.VerifyHostname("renamed.example") == nil {
		t.Error(a.leaf.cert.DNSNames, a.leaf.cert.IPAddresses)
	}
	if _, err := Open(dir, c.now, []string{"doors.example.com"}, "Doors.example.com"); err == nil || !strings.Contains(err.Error(), "not made for doors.example.com; hint:") {
		t.Error(err)
	}
}

// The key, in the hands of a thief, vouches for no other place.
func TestAuthorityIsLocal(t *testing.T) {
	c := &clock{time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)}
	a := open(t, t.TempDir(), c, "192.168.1.5", "doors.example.com", "8.8.8.8")
	for name, want := range map[string]bool{"192.168.1.5": true, "8.8.8.8": true, "8.8.8.9": false, "doors.example.com": true, "example.com": false, "bank.example": false, "localhost": true, "x.localhost": true, "notlocal": false} {
		if permitted(a.own.cert, name) != want {
			t.Errorf("%s: %v", name, !want)
		}
		if err := a.Renew([]string{name}); (err == nil) != want {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := a.Renew([]string{"8.8.8.8"}); err != nil {
		t.Fatal(err)
	}
	if err := trusts(t, a, c, a.Config(func() []string { return []string{"8.8.8.8"} }), "8.8.8.8"); err != nil {
		t.Error("a name that the authority was made for is not taken:", err)
	}
	// signed all the same, it is not trusted: the limit is in the certificate
	forged := *a.own.cert
	forged.PermittedDNSDomains, forged.PermittedIPRanges = append(forged.PermittedDNSDomains, "bank.example"), nil
	thief := &Authority{dir: t.TempDir(), now: c.now, own: pair{&forged, a.own.key}}
	if err := thief.Renew([]string{"bank.example"}); err != nil {
		t.Fatal(err)
	}
	config := &tls.Config{Certificates: []tls.Certificate{{Certificate: [][]byte{thief.leaf.cert.Raw, a.own.cert.Raw}, PrivateKey: thief.leaf.key}}}
	if err := trusts(t, a, c, config, "bank.example"); err == nil || !strings.Contains(err.Error(), "not permitted") {
		t.Error("a phone that trusts the authority takes it for a bank:", err)
	}
}

func TestDamagedKeys(t *testing.T) {
	c := &clock{time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)}
	for what, damage := range map[string]func(name string) error{
		"can read the key": func(name string) error { return os.Chmod(name, 0o644) },
		"damaged":          func(name string) error { return os.WriteFile(name, []byte("-----BEGIN"), 0o600) },
		"another's": func(name string) error {
			other := t.TempDir()
			open(t, other, c, "127.0.0.1")
			mine, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			theirs, err := os.ReadFile(filepath.Join(other, authorityFile))
			if err != nil {
				return err
			}
			cert, _ := pem.Decode(mine)
			_, key := pem.Decode(theirs)
			return os.WriteFile(name, append(pem.EncodeToMemory(cert), key...), 0o600)
		},
	} {
		dir := t.TempDir()
		open(t, dir, c, "127.0.0.1")
		if err := damage(filepath.Join(dir, authorityFile)); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(dir, c.now, []string{"127.0.0.1"}); err == nil || !strings.Contains(err.Error(), what) || !strings.Contains(err.Error(), "hint:") {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// The page without TLS gives the certificate, and nothing else.
func TestOffer(t *testing.T) {
	c := &clock{time.Now()}
	dir := t.TempDir()
	a := open(t, dir, c, "127.0.0.1")
	web := httptest.NewServer(a.Offer(8714))
	defer web.Close()
	get := func(method, path, host string) (int, string, http.Header) {
		t.Helper()
		r, err := http.NewRequest(method, web.URL+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		if host != "" {
			r.Host = host
		}
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		text, _ := io.ReadAll(answer.Body)
		return answer.StatusCode, string(text), answer.Header
	}
	status, page, h := get("GET", "/", "")
	if status != 200 || strings.Count(page, a.Fingerprint()) != 2 || !strings.Contains(page, `href="https://127.0.0.1:8714"`) || !strings.HasPrefix(h.Get("Content-Security-Policy"), "default-src 'none'") {
		t.Errorf("%d %s %v", status, page, h)
	}
	if _, page, _ := get("GET", "/", "bench.local:8715"); !strings.Contains(page, `"https://bench.local:8714"`) {
		t.Error(page)
	}
	for _, host := range []string{"evil.example", `"><script>`, "8.8.8.8"} {
		if status, _, _ := get("GET", "/", host); status != http.StatusMisdirectedRequest && status != http.StatusBadRequest {
			t.Errorf("%s: %d", host, status)
		}
	}
	status, cert, _ := get("GET", "/authority.crt", "")
	block, rest := pem.Decode([]byte(cert))
	if status != 200 || block == nil || string(block.Bytes) != string(a.Certificate()) || len(rest) != 0 || strings.Contains(cert, "PRIVATE") {
		t.Errorf("%d %s", status, cert)
	}
	for _, path := range []string{"/api/jobs", "/js/main.js", "/authority.pem", "/leaf.pem", "/..%2fbook.sqlite", "/o/x"} {
		if status, text, _ := get("GET", path, ""); status != 404 {
			t.Errorf("%s: %d %s", path, status, text)
		}
	}
	if status, _, _ := get("POST", "/", ""); status != http.StatusMethodNotAllowed {
		t.Error(status)
	}
	// another program reads the certificates, and finds the one vouched for by the other
	if _, err := exec.LookPath("openssl"); err != nil {
		t.Log("openssl is not here")
		return
	}
	name := filepath.Join(dir, "authority.crt")
	if err := os.WriteFile(name, []byte(cert), 0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command("openssl", "verify", "-x509_strict", "-CAfile", name, "-verify_ip", "127.0.0.1", filepath.Join(dir, leafFile)).CombinedOutput(); err != nil {
		t.Errorf("%v: %s", err, text)
	}
	if text, err := exec.Command("openssl", "x509", "-in", name, "-noout", "-fingerprint", "-sha256").Output(); err != nil || !strings.Contains(string(text), a.Fingerprint()) {
		t.Errorf("%v: %s, not %s", err, text, a.Fingerprint())
	}
}

func TestNames(t *testing.T) {
	names := Names("Doors.example.com", "localhost")
	if names[0] != "doors.example.com" || strings.Count(strings.Join(names, " ")+" ", "localhost ") != 1 {
		t.Error(names)
	}
	for _, name := range names {
		if ip := net.ParseIP(name); ip == nil && !dns(name) || ip != nil && !ip.IsPrivate() && !ip.IsLoopback() {
			t.Errorf("%q is no name for a certificate", name)
		}
	}
}
