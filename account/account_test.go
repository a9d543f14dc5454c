package account

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"
	"time"

	"swingwright/book"
)

const sentence = "the kettle sings at seven"

// clock is a clock that the test moves.
type clock struct{ time.Time }

func (c *clock) now() time.Time { return c.Time }

// accounts are those of a new book, with hashes that cost little.
func accounts(t *testing.T) (*Accounts, *clock) {
	t.Helper()
	b, err := book.Create(t.Context(), t.TempDir()+"/book")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	c := &clock{time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)}
	s := Of(b, c.now)
	s.cost = cost{memory: 64, passes: 1, lanes: 1}
	return s, c
}

func add(t *testing.T, s *Accounts, name string, role Role, customer string) *Account {
	t.Helper()
	a, err := s.Add(t.Context(), name, role, customer, sentence)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The reference implementation of Argon2, release 20190702, src/test.c: argon2id, version 19.
func TestHashIsArgon2id(t *testing.T) {
	const want = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"
	if got := (cost{memory: 65536, passes: 2, lanes: 1}).text("password", []byte("somesalt")); got != want {
		t.Errorf("got %s\nnot %s", got, want)
	}
	if !matches(want, "password") || matches(want, "passwore") {
		t.Error("the hash does not tell passwords apart")
	}
}

func TestHashesThatMatchNothing(t *testing.T) {
	for _, hash := range []string{"", "$", sentence, "$argon2i$v=19$m=64,t=1,p=1$c29tZXNhbHQ$AAAA", "$argon2id$v=16$m=64,t=1,p=1$c29tZXNhbHQ$AAAA",
		"$argon2id$v=19$m=4000000000,t=1,p=1$c29tZXNhbHQ$AAAA", "$argon2id$v=19$m=64,t=0,p=1$c29tZXNhbHQ$AAAA", "$argon2id$v=19$m=64,t=1,p=0$c29tZXNhbHQ$AAAA",
		"$argon2id$v=19$m=64,t=1,p=1$!!$AAAA", nobody} {
		if matches(hash, "") || matches(hash, sentence) {
			t.Errorf("%q matches", hash)
		}
	}
	if one, two := hashed(sentence, cost{64, 1, 1}), hashed(sentence, cost{64, 1, 1}); one == two {
		t.Error("two hashes of a password are the same: they have no salt of their own")
	}
	if usual.memory < 64<<10 || usual.passes < 3 || usual.lanes != 4 {
		t.Error("less than RFC 9106, section 4, recommends")
	}
}

func TestPasswords(t *testing.T) {
	for _, c := range []struct{ password, problem string }{
		{sentence, ""},
		{"short one", "too short"},
		{strings.Repeat("ab", 20), "repeats"},
		{"Ada Lovelace, 123456", "the name"},
		{strings.Repeat("long enough to be ", 20), "too long"},
		{"a tab\tin the sentence of it", "no character"},
		{"dreißig Türen, eine Klinke", ""},
	} {
		_, err := choose("Ada Lovelace", c.password)
		if (err == nil) != (c.problem == "") || err != nil && !strings.Contains(err.Error(), c.problem) {
			t.Errorf("%q: %v", c.password, err)
		}
	}
	one, _ := prepared("Tu\u0308ren ohne Klinken")
	two, _ := prepared("T\u00fcren ohne Klinken")
	if one != two {
		t.Error("a letter composed otherwise makes another password")
	}
}

func TestAdd(t *testing.T) {
	s, _ := accounts(t)
	add(t, s, "Ada  Marlow", Technician, "")
	for _, c := range []struct {
		name, customer string
		role           Role
		problem        string
	}{
		{"ada marlow", "", Office, "already"},
		{"", "", Office, "no name"},
		{"line\nbreak", "", Office, ""}, // blanks of any kind count once
		{"esc\x1b[31m", "", Office, "no name"},
		{strings.Repeat("x", 65), "", Office, "no name"},
		{"Bo", "", "chief", "no role"},
		{"Bo", "", Owner, "none is named"},
		{"Bo", "Clinic", Office, "for an owner only"},
	} {
		_, err := s.Add(t.Context(), c.name, c.role, c.customer, sentence)
		if (err == nil) != (c.problem == "") || err != nil && !strings.Contains(err.Error(), c.problem) {
			t.Errorf("%+v: %v", c, err)
		}
	}
	if info, err := os.Stat(s.book.Dir() + "/book.sqlite"); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others of this machine may read the hashes: %v, %v", info.Mode(), err)
	}
}

func TestSignIn(t *testing.T) {
	s, _ := accounts(t)
	add(t, s, "Ada", Technician, "")
	ctx := t.Context()
	if a, err := s.SignIn(ctx, " ADA ", sentence, "192.168.1.7"); err != nil || a.Name != "Ada" || a.Role != Technician {
		t.Fatal(a, err)
	}
	refused := func(name, password string) {
		t.Helper()
		if a, err := s.SignIn(ctx, name, password, "192.168.1.8"); !errors.Is(err, ErrRefused) || a != nil || strings.TrimSpace(err.Error()) != ErrRefused.Error() {
			t.Errorf("%s, %s: %v, %v", name, password, a, err)
		}
	}
	refused("Ada", "the kettle sings at eight")
	refused("Ada", "")
	refused("Ada", strings.Repeat("x", 300))
	refused("my secret password", sentence)
	refused("' OR 1=1 --", sentence)
	before, _ := s.Named(ctx, "Ada")
	if err := s.Disable(ctx, "Ada"); err != nil {
		t.Fatal(err)
	}
	refused("Ada", sentence)
	if _, err := s.ByID(ctx, before.ID); !errors.Is(err, ErrNone) {
		t.Error("a disabled account is found", err)
	}
	if err := errors.Join(s.Enable(ctx, "Ada"), s.SetPassword(ctx, "ada", sentence+"!")); err != nil {
		t.Fatal(err)
	}
	refused("Ada", sentence)
	after, err := s.SignIn(ctx, "Ada", sentence+"!", "")
	if err != nil || after.Epoch() == before.Epoch() {
		t.Error("sessions from before another password go on", err)
	}
	events, err := s.Events(ctx, 100)
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, e := range events {
		told = append(told, strings.TrimRight(strings.Join([]string{string(e.What), e.Name, e.Address, e.Detail}, "|"), "|"))
	}
	want := `signed in|Ada
refused|Ada|192.168.1.8|wrong password
password changed|Ada
account enabled|Ada
refused|Ada|192.168.1.8|disabled
account disabled|Ada
refused||192.168.1.8|nobody has the name
refused||192.168.1.8|nobody has the name
refused|Ada|192.168.1.8|wrong password
refused|Ada|192.168.1.8|wrong password
refused|Ada|192.168.1.8|wrong password
signed in|Ada|192.168.1.7
account added|Ada||technician`
	if got := strings.Join(told, "\n"); got != want {
		t.Errorf("got\n%s\nnot\n%s", got, want)
	}
}

func TestTokens(t *testing.T) {
	s, c := accounts(t)
	add(t, s, "Ada", Office, "")
	add(t, s, "Owen", Owner, "Clinic")
	ctx := t.Context()
	text, id, err := s.NewToken(ctx, "ada", "nightly export", "", 30)
	if err != nil || !strings.HasPrefix(text, tokenMark) || len(text) != len(tokenMark)+26 {
		t.Fatal(text, err)
	}
	for _, c := range []struct {
		name, purpose string
		role          Role
	}{{"Ada", "x", Technician}, {"Ada", "x", Owner}, {"Ada", " ", ""}, {"Owen", "x", Office}, {"Nobody", "x", ""}, {"Ada", "x", "chief"}} {
		if _, _, err := s.NewToken(ctx, c.name, c.purpose, c.role, 0); err == nil {
			t.Errorf("%+v: a token that may do more", c)
		}
	}
	opens := func(want bool) {
		t.Helper()
		a, err := s.ByToken(ctx, text, "10.0.0.2")
		if want != (err == nil) || !want && !errors.Is(err, ErrRefused) || want && (a.Name != "Ada" || a.Role != Office) {
			t.Errorf("%v, %v", a, err)
		}
	}
	opens(true)
	opens(true)
	if events, _ := s.Events(ctx, 100); len(events) != 4 {
		t.Errorf("two uses on a day: %v", events)
	}
	s.Disable(ctx, "Ada")
	opens(false)
	s.Enable(ctx, "Ada")
	c.Time = c.AddDate(0, 0, 29)
	opens(true)
	c.Time = c.AddDate(0, 0, 1)
	opens(false)
	c.Time = c.AddDate(0, 0, -1)
	if err := s.Withdraw(ctx, id); err != nil {
		t.Fatal(err)
	}
	opens(false)
	if err := s.Withdraw(ctx, id); err == nil {
		t.Error("withdrawn twice")
	}
	if _, err := s.ByToken(ctx, text+"a", ""); !errors.Is(err, ErrRefused) {
		t.Error(err)
	}
	if all, err := s.Tokens(ctx); err != nil || len(all) != 1 || all[0].Withdrawn.IsZero() || all[0].Account != "Ada" {
		t.Error(all, err)
	}
}

// What a thief of the file finds opens nothing.
func TestNothingKeptOpens(t *testing.T) {
	s, _ := accounts(t)
	add(t, s, "Ada", Office, "")
	text, _, err := s.NewToken(t.Context(), "Ada", "x", "", 0)
	if err != nil {
		t.Fatal(err)
	}
	files, _ := os.ReadDir(s.book.Dir())
	for _, f := range files {
		data, err := os.ReadFile(s.book.Dir() + "/" + f.Name())
		if err == nil && (strings.Contains(string(data), sentence) || strings.Contains(string(data), text)) {
			t.Errorf("%s holds a secret", f.Name())
		}
	}
}

func TestSessions(t *testing.T) {
	s, c := accounts(t)
	st := s.Sessions()
	if err := st.Commit("h1", []byte("one"), c.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if data, ok, err := st.Find("h1"); err != nil || !ok || string(data) != "one" {
		t.Error(data, ok, err)
	}
	if _, ok, err := st.Find("h2"); ok || err != nil {
		t.Error(ok, err)
	}
	c.Time = c.Add(time.Hour)
	if _, ok, _ := st.Find("h1"); ok {
		t.Error("a session goes on after its end")
	}
	if err := errors.Join(st.Commit("h3", []byte("three"), c.Add(time.Hour)), st.Delete("h3")); err != nil {
		t.Fatal(err)
	}
	if _, ok, _ := st.Find("h3"); ok {
		t.Error("a session goes on after its end")
	}
}

// Who waits too long for a turn is told, and what waits takes no memory.
func TestInTurn(t *testing.T) {
	for range cap(checking) {
		checking <- struct{}{}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := inTurn(ctx, func() { t.Error("hashed out of turn") }); !errors.Is(err, ErrBusy) {
		t.Error(err)
	}
	for range cap(checking) {
		<-checking
	}
	done := false
	if err := inTurn(t.Context(), func() { done = true }); err != nil || !done {
		t.Error(err)
	}
}

// A book from before there were accounts is given them, after a copy was made.
func TestOldBook(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../book/testdata/schema-2")); err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	s := Of(b, time.Now)
	s.cost = cost{64, 1, 1}
	if _, err := s.Add(t.Context(), "Ada", Technician, "", sentence); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(dir + "/before-schema-3.sqlite"); err != nil {
		t.Error(err)
	}
	if v, err := b.Verify(t.Context(), ""); err != nil || len(v.Faults) > 0 {
		t.Error(v, err)
	}
}
