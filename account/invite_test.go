package account

import (
	"errors"
	"strings"
	"sync"
	"testing"
	"time"
)

// told is the record of what happened, the latest first.
func told(t *testing.T, s *Accounts) string {
	t.Helper()
	events, err := s.Events(t.Context(), 100)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, e := range events {
		all = append(all, strings.TrimRight(strings.Join([]string{string(e.What), e.Name, e.Address, e.Detail}, "|"), "|"))
	}
	return strings.Join(all, "\n")
}

// Whoever is invited chooses a password once, until the code ends, and nobody else learns it.
func TestInvitation(t *testing.T) {
	s, c := accounts(t)
	ctx := t.Context()
	office := s.By(Keeper{"Olga", "192.168.1.7"})
	a, code, err := office.Invite(ctx, "Bo  Marsh", Technician, "")
	if err != nil || a.Name != "Bo Marsh" || len(code) != 19 || strings.Count(code, "-") != 3 {
		t.Fatal(a, code, err)
	}
	if ends, yes := a.Invited(); !yes || !ends.Equal(c.Add(InvitationLasts)) {
		t.Error(ends, yes)
	}
	if _, other, err := s.Invite(ctx, "Cy", Owner, "Clinic"); err != nil || other == code {
		t.Error("two codes are alike", err)
	}
	if _, _, err := s.Invite(ctx, "bo marsh", Office, ""); err == nil {
		t.Error("invited twice")
	}
	if _, _, err := s.Invite(ctx, "Di", Owner, ""); err == nil {
		t.Error("an owner of nothing")
	}
	never := func(name, code, password string, want error) {
		t.Helper()
		if a, err := s.Choose(ctx, name, code, password, "192.168.1.9"); err == nil || a != nil || want != nil && !errors.Is(err, want) {
			t.Errorf("%s, %s: %v, %v", name, code, a, err)
		}
	}
	for _, password := range []string{"", code, strings.ReplaceAll(code, "-", ""), sentence, a.hash} {
		if _, err := s.SignIn(ctx, "Bo Marsh", password, ""); !errors.Is(err, ErrRefused) {
			t.Errorf("signed in with %q before a password was chosen: %v", password, err)
		}
	}
	never("Bo Marsh", "aaaa-aaaa-aaaa-aaaa", sentence, ErrCode)
	never("Bo Marsh", "", sentence, ErrCode)
	never("Cy", code, sentence, ErrCode)
	never("Nobody", code, sentence, ErrCode)
	never("Bo Marsh", code, "short", nil) // and the code is as good as before
	c.Time = c.Add(InvitationLasts)
	never("Bo Marsh", code, sentence, ErrCode)
	c.Time = c.Add(-time.Second)
	if err := s.Disable(ctx, "Bo Marsh"); err != nil {
		t.Fatal(err)
	}
	never("Bo Marsh", code, sentence, ErrCode)
	if err := s.Enable(ctx, "Bo Marsh"); err != nil {
		t.Fatal(err)
	}
	before, _ := s.Named(ctx, "Bo Marsh")
	typed := strings.ToUpper(strings.ReplaceAll(code, "-", " ")) + " "
	got, err := s.Choose(ctx, "bo marsh", typed, sentence, "192.168.1.9")
	if err != nil || got.Epoch() == before.Epoch() {
		t.Fatal(got, err)
	}
	if _, yes := got.Invited(); yes {
		t.Error("still invited")
	}
	never("Bo Marsh", code, sentence+"!", ErrCode)
	if _, err := s.SignIn(ctx, "Bo Marsh", sentence, ""); err != nil {
		t.Error(err)
	}
	// a password that is taken back opens nothing from then on, and its code can be used once
	again, ends, err := office.Reset(ctx, "Bo Marsh")
	if err != nil || again == code || !ends.Equal(c.Add(InvitationLasts)) {
		t.Fatal(again, ends, err)
	}
	if _, err := s.SignIn(ctx, "Bo Marsh", sentence, ""); !errors.Is(err, ErrRefused) {
		t.Error("a password opens after it was taken back", err)
	}
	if after, _ := s.Named(ctx, "Bo Marsh"); after.Epoch() == got.Epoch() {
		t.Error("sessions go on after a password was taken back")
	}
	never("Bo Marsh", code, sentence, ErrCode)
	if _, err := s.Choose(ctx, "Bo Marsh", again, sentence+"!", ""); err != nil {
		t.Error(err)
	}
	all := told(t, s)
	for _, want := range []string{
		"account added, to be opened by a code|Bo Marsh|192.168.1.7|technician (by Olga)\n", "\naccount added, to be opened by a code|Cy||owner Clinic\n", "\nrefused|Bo Marsh|192.168.1.9|wrong code\n",
		"\nrefused|Bo Marsh|192.168.1.9|the code has ended\n", "\nrefused|Bo Marsh|192.168.1.9|disabled\n", "\nrefused||192.168.1.9|nobody has the name\n", "\npassword chosen|Bo Marsh|192.168.1.9\n",
		"\nrefused|Bo Marsh|192.168.1.9|a code, where a password opens the account\n", "\npassword taken back, to be chosen by a code|Bo Marsh|192.168.1.7|(by Olga)\n", "\nrefused|Bo Marsh||no password was chosen yet\n"} {
		if !strings.Contains(all+"\n", want) {
			t.Errorf("the record lacks %q:\n%s", want, all)
		}
	}
	if strings.Contains(all, code) || strings.Contains(all, again) {
		t.Error("the record holds a code")
	}
}

// A code that two people use at the same moment lets one of them choose.
func TestCodeOnce(t *testing.T) {
	s, _ := accounts(t)
	_, code, err := s.Invite(t.Context(), "Bo", Technician, "")
	if err != nil {
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	errs := make([]error, 4)
	for i := range errs {
		wait.Go(func() { _, errs[i] = s.Choose(t.Context(), "Bo", code, sentence+strings.Repeat("!", i), "") })
	}
	wait.Wait()
	good := 0
	for _, err := range errs {
		if err == nil {
			good++
		} else if !errors.Is(err, ErrCode) {
			t.Error(err)
		}
	}
	if good != 1 {
		t.Errorf("%d chose a password with one code", good)
	}
}

// Whoever keeps accounts from elsewhere can neither shut out the last one who does, nor make them
// something else; who is at the machine can.
func TestLastKeeper(t *testing.T) {
	s, _ := accounts(t)
	ctx := t.Context()
	add(t, s, "Ada", Technician, "")
	add(t, s, "Olga", Office, "")
	olga := s.By(Keeper{"Olga", "192.168.1.7"})
	last := func(by *Accounts, want error) {
		t.Helper()
		_, _, reset := by.Reset(ctx, "Olga")
		for what, err := range map[string]error{"disable": by.Disable(ctx, "Olga"), "role": by.SetRole(ctx, "Olga", Technician, ""), "reset": reset} {
			if !errors.Is(err, want) {
				t.Errorf("%s: %v, not %v", what, err, want)
			}
		}
	}
	last(olga, ErrLast)
	// one who cannot sign in does not count
	if _, _, err := olga.Invite(ctx, "Per", Office, ""); err != nil {
		t.Fatal(err)
	}
	last(olga, ErrLast)
	if a, err := s.SignIn(ctx, "Olga", sentence, ""); err != nil || a.Role != Office {
		t.Errorf("refused, and changed all the same: %v, %v", a, err)
	}
	if err := errors.Join(olga.SetPassword(ctx, "Olga", sentence), olga.EndSessions(ctx, "Olga"), olga.Disable(ctx, "Ada"), olga.Enable(ctx, "Ada"), olga.SetRole(ctx, "Ada", Office, "")); err != nil {
		t.Error(err)
	}
	if err := olga.Disable(ctx, "Olga"); err != nil { // Ada is left
		t.Error(err)
	}
	if err := s.By(Keeper{"Ada", ""}).SetRole(ctx, "Ada", Owner, "Clinic"); !errors.Is(err, ErrLast) {
		t.Error(err)
	}
	if err := s.Disable(ctx, "Ada"); err != nil {
		t.Error("who is at the machine is refused:", err)
	}
	// a book in which nobody keeps accounts from elsewhere goes on
	if err := s.By(Keeper{"Ada", ""}).SetPassword(ctx, "Ada", sentence+"!"); err != nil {
		t.Error(err)
	}
}

// Two who keep accounts and shut each other out at the same moment leave one.
func TestKeepersRace(t *testing.T) {
	for range 10 {
		s, _ := accounts(t)
		add(t, s, "Olga", Office, "")
		add(t, s, "Per", Office, "")
		var wait sync.WaitGroup
		var errs [2]error
		wait.Go(func() { errs[0] = s.By(Keeper{"Olga", ""}).Disable(t.Context(), "Per") })
		wait.Go(func() { errs[1] = s.By(Keeper{"Per", ""}).SetRole(t.Context(), "Olga", Technician, "") })
		wait.Wait()
		if (errs[0] == nil) == (errs[1] == nil) {
			t.Fatal(errs)
		}
	}
}

func TestSetRole(t *testing.T) {
	s, _ := accounts(t)
	ctx := t.Context()
	before := add(t, s, "Ada", Technician, "")
	text, _, err := s.NewToken(ctx, "Ada", "export", "", 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		role     Role
		customer string
	}{{"chief", ""}, {Owner, " "}, {Technician, "Clinic"}, {Owner, "a\x00b"}} {
		if err := s.SetRole(ctx, "Ada", c.role, c.customer); err == nil {
			t.Errorf("%+v", c)
		}
	}
	if err := s.SetRole(ctx, "Ada", Owner, "Clinic"); err != nil {
		t.Fatal(err)
	}
	if a, err := s.Numbered(ctx, before.ID); err != nil || a.Role != Owner || a.Customer != "Clinic" || a.Epoch() == before.Epoch() {
		t.Error(a, err)
	}
	if a, err := s.ByToken(ctx, text, ""); err != nil || a.Role != Owner || a.Customer != "Clinic" {
		t.Errorf("a token from before may do more than the account: %+v, %v", a, err)
	}
	if _, err := s.Numbered(ctx, 99); !errors.Is(err, ErrNone) {
		t.Error(err)
	}
}

// A session that was ended is not begun again by a request that was under way.
func TestEndedStaysEnded(t *testing.T) {
	s, c := accounts(t)
	st := s.Sessions()
	if err := errors.Join(st.Commit("h", []byte("one"), c.Add(time.Hour)), st.Commit("i", []byte("two"), c.Add(time.Hour)), st.Delete("h"), st.Commit("h", []byte("again"), c.Add(time.Hour)), st.Commit("i", []byte("three"), c.Add(time.Hour))); err != nil {
		t.Fatal(err)
	}
	if data, ok, err := st.Find("h"); ok || err != nil {
		t.Errorf("it goes on as %q, %v", data, err)
	}
	if data, _, err := st.Find("i"); string(data) != "three" || err != nil {
		t.Errorf("%q, %v", data, err)
	}
	if all, err := st.AllCtx(t.Context()); err != nil || len(all) != 1 || string(all["i"]) != "three" {
		t.Error(all, err)
	}
}
