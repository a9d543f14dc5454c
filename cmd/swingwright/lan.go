package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"golang.org/x/term"

	"swingwright/book"
	"swingwright/label"
	"swingwright/server"
	"swingwright/trust"
)

// trustFolder is where a book keeps its certificate authority. No backup takes it along.
const trustFolder = "trust"

// lan serves to other machines, over TLS, whoever has an account.
func (pr *program) lan(ctx context.Context, f *serveFlags, b *book.Book, s *server.Server) error {
	accounts, err := someAccount(ctx, b, f.what)
	if err != nil {
		return err
	}
	names := func() []string { return trust.Names(f.names...) }
	authority, err := trust.Open(filepath.Join(b.Dir(), trustFolder), time.Now, names(), f.names...)
	if err != nil {
		return hinted(err)
	}
	s.SignIn(accounts, func(host string) bool { return slices.Contains(names(), strings.ToLower(host)) })
	secure, err := net.Listen("tcp", fmt.Sprintf(":%d", f.port))
	if err != nil {
		return problem{what: err.Error(), hint: "choose another with --port, or 0 for any that is free"}
	}
	defer secure.Close()
	port := secure.Addr().(*net.TCPAddr).Port
	beside := 0
	if f.port != 0 {
		beside = port + 1
	}
	plain, err := net.Listen("tcp", fmt.Sprintf(":%d", beside))
	if err != nil {
		return problem{what: err.Error(), hint: "the port after that of --port is needed too; choose another"}
	}
	defer plain.Close()
	if err := pr.tellLAN(authority, names(), port, plain.Addr().(*net.TCPAddr).Port); err != nil {
		return err
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	offering := make(chan error, 1)
	go func() {
		defer cancel()
		offering <- listen(ctx, authority.Offer(port), plain)
	}()
	err = listen(ctx, s, tls.NewListener(secure, authority.Config(names)))
	cancel()
	return errors.Join(err, <-offering)
}

// tellLAN tells where the server is and how a phone comes to trust it.
func (pr *program) tellLAN(authority *trust.Authority, names []string, port, plain int) error {
	fmt.Fprintf(pr.out, "the site app, for whoever has an account:\n")
	for _, name := range names {
		if ip := net.ParseIP(name); ip == nil || !ip.IsLoopback() {
			fmt.Fprintf(pr.out, "  https://%s\n", net.JoinHostPort(name, fmt.Sprint(port)))
		}
	}
	first := "http://" + net.JoinHostPort(names[0], fmt.Sprint(plain))
	fmt.Fprintf(pr.out, "\nA phone that comes for the first time begins at %s, where it is told\nhow to trust the certificates of this book. Their authority%s has the SHA-256 fingerprint\n  %s\n  %s\nand lasts until %s. Compare it with what the phone shows.\n\n",
		first, map[bool]string{true: ", which is new,", false: ""}[authority.Made()], authority.Fingerprint()[:48], authority.Fingerprint()[48:], authority.Ends().Format(time.DateOnly))
	out, ok := pr.out.(*os.File)
	code, err := label.Terminal(first, ok && term.IsTerminal(int(out.Fd())))
	if err != nil {
		return err
	}
	_, err = fmt.Fprintln(pr.out, code+"\nCtrl-C ends it.")
	return err
}
