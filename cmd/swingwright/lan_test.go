package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"swingwright/account"
	"swingwright/book"
)

const phrase = "the kettle sings at seven"

// The whole way of a phone: the page without TLS, the authority's certificate, the app over TLS, the
// sign-in; and nothing for whoever does not go it.
func TestServeLAN(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "clinic.book")
	var said bytes.Buffer
	for _, args := range [][]string{{"book", "new", dir}, {"book", "import", dir, "../../demo/harbour-street-clinic/job.yaml", "--by", "test"}} {
		if run(t.Context(), args, nil, &said, &said) != 0 {
			t.Fatal(said.String())
		}
	}
	if run(t.Context(), []string{"serve", dir, "--lan", "--port", "0"}, nil, &said, &said) != 2 || !strings.Contains(said.String(), "nobody has an account") {
		t.Fatalf("a book without accounts is opened to the network: %s", &said)
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := account.Of(b, time.Now).Add(t.Context(), "Ada", account.Technician, "", phrase); err != nil {
		t.Fatal(err)
	}
	b.Close()

	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	read, write := io.Pipe()
	done := make(chan int, 1)
	var wrong bytes.Buffer
	go func() {
		done <- run(ctx, []string{"serve", dir, "--lan", "--port", "0", "--name", "bench.home.arpa"}, nil, write, &wrong)
		write.Close()
	}()
	var told, secure, plain string
	lines := bufio.NewScanner(read)
	for lines.Scan() {
		told += lines.Text() + "\n"
		if rest, ok := strings.CutPrefix(lines.Text(), "  https://bench.home.arpa:"); ok {
			secure = rest
		}
		if _, rest, ok := strings.Cut(lines.Text(), "begins at http://bench.home.arpa:"); ok {
			plain, _, _ = strings.Cut(rest, ",")
		}
		if lines.Text() == "Ctrl-C ends it." {
			break
		}
	}
	go io.Copy(io.Discard, read)
	if secure == "" || plain == "" {
		t.Fatalf("serve said\n%s%s", told, &wrong)
	}
	// the network knows the machine by its name
	dial := func(ctx context.Context, network, address string) (net.Conn, error) {
		_, port, _ := net.SplitHostPort(address)
		return (&net.Dialer{}).DialContext(ctx, network, "127.0.0.1:"+port)
	}
	pool := x509.NewCertPool()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	phone := &http.Client{Jar: jar, Timeout: 20 * time.Second, Transport: &http.Transport{DialContext: dial, TLSClientConfig: &tls.Config{RootCAs: pool}, ForceAttemptHTTP2: true}}
	ask := func(method, url, body string) (int, string) {
		t.Helper()
		r, err := http.NewRequest(method, url, strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		if method != "GET" {
			r.Header.Set("Content-Type", "application/json")
			r.Header.Set("Origin", "https://bench.home.arpa:"+secure)
		}
		answer, err := phone.Do(r)
		if err != nil {
			return 0, err.Error()
		}
		defer answer.Body.Close()
		text, _ := io.ReadAll(answer.Body)
		return answer.StatusCode, string(text)
	}
	site := "https://bench.home.arpa:" + secure
	if status, text := ask("GET", site+"/", ""); status != 0 || !strings.Contains(text, "unknown authority") {
		t.Errorf("a phone that trusts nobody: %d %s", status, text)
	}
	if status, text := ask("GET", "http://bench.home.arpa:"+plain+"/api/jobs", ""); status != 404 {
		t.Errorf("without TLS: %d %s", status, text)
	}
	_, page := ask("GET", "http://bench.home.arpa:"+plain+"/", "")
	print := ""
	for _, line := range strings.Split(told, "\n") {
		if strings.Count(line, ":") == 15 || strings.Count(line, ":") == 16 {
			print += strings.TrimSpace(line)
		}
	}
	if len(print) != 95 || !strings.Contains(page, print) || !strings.Contains(page, site) {
		t.Errorf("the page shows another fingerprint than the terminal, %q:\n%s", print, page)
	}
	_, authority := ask("GET", "http://bench.home.arpa:"+plain+"/authority.crt", "")
	if !pool.AppendCertsFromPEM([]byte(authority)) {
		t.Fatal("no certificate:", authority)
	}
	phone.CloseIdleConnections()
	if status, text := ask("GET", site+"/", ""); status != 200 || !strings.Contains(text, "Swingwright") {
		t.Errorf("the app: %d %.200s", status, text)
	}
	if status, text := ask("GET", site+"/api/jobs", ""); status != 401 {
		t.Errorf("without a sign-in: %d %s", status, text)
	}
	if status, text := ask("POST", site+"/api/session", fmt.Sprintf(`{"name": "ada", "password": %q}`, phrase)); status != 200 {
		t.Errorf("%d %s", status, text)
	}
	if status, text := ask("GET", site+"/api/jobs", ""); status != 200 || !strings.Contains(text, "Harbour Street") {
		t.Errorf("%d %s", status, text)
	}
	if status, text := ask("GET", "https://127.0.0.1:"+secure+"/api/jobs", ""); status != 401 {
		t.Errorf("whoever is at this machine needs no account: %d %s", status, text)
	}
	cancel()
	if status := <-done; status != 0 {
		t.Errorf("serve ended with %d: %s", status, &wrong)
	}
	for _, name := range []string{"trust/authority.pem", "trust/leaf.pem", "book.sqlite"} {
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v %v", name, info, err)
		}
	}
	said.Reset()
	if run(t.Context(), []string{"account", "record", dir}, nil, &said, &said) != 0 || !strings.Contains(said.String(), "signed in      Ada      127.0.0.1") {
		t.Errorf("the record:\n%s", &said)
	}
	copied := filepath.Join(t.TempDir(), "copy.book")
	if run(t.Context(), []string{"book", "backup", dir, copied}, nil, &said, &said) != 0 {
		t.Fatal(said.String())
	}
	if _, err := os.Stat(filepath.Join(copied, "trust")); err == nil {
		t.Error("a backup takes the key of the authority along")
	}
}
