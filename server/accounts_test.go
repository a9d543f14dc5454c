package server_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"swingwright/account"
)

// made is what an answer says of an account that was made or whose password was taken back.
type made struct {
	ID         int64
	Name, Code string
}

func (c *caller) made(status int, method, path, body string) made {
	c.t.Helper()
	var m made
	if err := json.Unmarshal([]byte(c.wants(status, method, path, body)), &m); err != nil || m.ID == 0 || len(m.Code) != 19 {
		c.t.Fatalf("%+v, %v", m, err)
	}
	return m
}

// Accounts are kept by people of the office, who gave their password lately; by no other role and no program.
func TestWhoKeepsAccounts(t *testing.T) {
	l := newLAN(t)
	ada, owen, olga := l.as("Ada"), l.as("Owen"), l.as("Olga")
	program, _ := l.program("Olga", "")
	patterns, needs := l.server.Needs()
	bodies := map[string]string{"POST /api/accounts": `{"name": "Eve", "role": "office"}`, "PUT /api/accounts/{account}/role": `{"role": "office"}`, "PUT /api/accounts/{account}/disabled": `{"disabled": false}`,
		"POST /api/tokens": `{"purpose": "theft"}`, "POST /api/password": `{"old": "` + sentence + `", "new": "another sentence of mine"}`}
	tried := 0
	for _, pattern := range patterns {
		method, path := filled(pattern, "clinic", "clinic.1", "")
		switch needs[pattern] {
		case "keeps":
			tried++
			ada.wants(403, method, path, bodies[pattern])
			owen.wants(403, method, path, bodies[pattern])
			program.wants(403, method, path, bodies[pattern])
		case "own":
			tried++
			program.wants(403, method, path, bodies[pattern])
		}
	}
	if tried < 14 {
		t.Errorf("only %d routes were tried", tried)
	}
	l.later(15*time.Minute + time.Second)
	for _, pattern := range patterns {
		if method, path := filled(pattern, "clinic", "clinic.1", ""); needs[pattern] == "keeps" {
			if status, text := olga.send(method, path, bodies[pattern]); (method == "GET") != (status == 200) || method != "GET" && !strings.Contains(text, "password once more") {
				t.Errorf("%s, with a password given long ago: %d %s", pattern, status, text)
			}
		}
	}
	ada.wants(403, "POST", "/api/tokens", `{"purpose": "theft"}`)
	if text := olga.wants(200, "GET", "/api/session", ""); !strings.Contains(text, `"keeps":true,"fresh":false`) {
		t.Error(text)
	}
	if text := ada.wants(200, "GET", "/api/session", ""); !strings.Contains(text, `"keeps":false`) {
		t.Error(text)
	}
	if all, err := l.accounts.List(t.Context()); err != nil || len(all) != 4 {
		t.Errorf("there are %d accounts now, %v", len(all), err)
	}
	if all, err := l.accounts.Tokens(t.Context()); err != nil || len(all) != 1 {
		t.Errorf("there are %d tokens now, %v", len(all), err)
	}
	if status, text := olga.signIn("Olga", sentence); status != 200 || !strings.Contains(text, `"fresh":true`) {
		t.Errorf("%d %s", status, text)
	}
	olga.made(200, "POST", "/api/accounts", `{"name": "Per", "role": "technician"}`)
}

// An account goes its whole way: invited, opened with the code, given another role, shut out, let in
// again, its password taken back; and the record tells who did it.
func TestAccountsKept(t *testing.T) {
	l := newLAN(t)
	olga, bo := l.as("Olga"), l.browser()
	m := olga.made(200, "POST", "/api/accounts", `{"name": "Bo", "role": "technician"}`)
	at := fmt.Sprint("/api/accounts/", m.ID)
	if text := olga.wants(200, "GET", at, ""); strings.Contains(text, m.Code) || !strings.Contains(text, `"invited":"`) {
		t.Error("the code is told again, or nobody is told that there is one:", text)
	}
	if status, _ := bo.signIn("Bo", m.Code); status != 401 {
		t.Errorf("a code is no password: %d", status)
	}
	choose := func(status int, code, password string) string {
		t.Helper()
		return bo.wants(status, "POST", "/api/invitation", fmt.Sprintf(`{"name": "Bo", "code": %q, "password": %q}`, code, password))
	}
	choose(401, "aaaa-aaaa-aaaa-aaaa", sentence)
	choose(422, m.Code, "short")
	if text := choose(200, m.Code, sentence); !strings.Contains(text, `"technician"`) {
		t.Error(text)
	}
	bo.wants(200, "GET", "/api/jobs/school", "")
	choose(401, m.Code, sentence+"!")

	olga.wants(204, "PUT", at+"/role", `{"role": "owner", "customer": "Harbour Street Clinic"}`)
	bo.wants(401, "GET", "/api/jobs/school", "") // put out, whatever it may do now
	if status, _ := bo.signIn("Bo", sentence); status != 200 {
		t.Fatal(status)
	}
	bo.wants(404, "GET", "/api/jobs/school", "")
	bo.wants(200, "GET", "/api/jobs/clinic", "")
	olga.wants(204, "PUT", at+"/disabled", `{"disabled": true}`)
	bo.wants(401, "GET", "/api/jobs/clinic", "")
	if status, _ := bo.signIn("Bo", sentence); status != 401 {
		t.Error(status)
	}
	olga.wants(204, "PUT", at+"/disabled", `{"disabled": false}`)
	if status, _ := bo.signIn("Bo", sentence); status != 200 {
		t.Error(status)
	}
	if text := olga.wants(200, "GET", at, ""); strings.Count(text, `"used":"`) != 1 {
		t.Error("the sessions that go on are not those that are told:", text)
	}
	olga.wants(204, "DELETE", at+"/sessions", "")
	bo.wants(401, "GET", "/api/jobs/clinic", "")
	again := olga.made(200, "POST", at+"/reset", "")
	if status, _ := bo.signIn("Bo", sentence); status != 401 {
		t.Error("a password that was taken back opens", status)
	}
	choose(200, again.Code, sentence+"!")

	l.later(2 * time.Minute)
	bo.wants(204, "POST", "/api/password", `{"old": "`+sentence+`!", "new": "another sentence of mine"}`)

	// nobody locks everybody out
	for path, body := range map[string]string{"/api/accounts/2/role": `{"role": "technician"}`, "/api/accounts/2/disabled": `{"disabled": true}`} {
		olga.wants(409, "PUT", path, body)
	}
	olga.wants(409, "POST", "/api/accounts/2/reset", "")
	olga.wants(200, "GET", "/api/accounts", "")

	text := olga.wants(200, "GET", "/api/sign-ins?limit=100", "")
	for _, want := range []string{`"what":"account added, to be opened by a code","name":"Bo","address":"127.0.0.1","detail":"technician (by Olga)"`, `"what":"password chosen","name":"Bo","address":"127.0.0.1"`,
		`"what":"role changed","name":"Bo","address":"127.0.0.1","detail":"owner Harbour Street Clinic (by Olga)"`, `"what":"account disabled","name":"Bo","address":"127.0.0.1","detail":"(by Olga)"`,
		`"what":"sessions ended","name":"Bo"`, `"what":"password changed","name":"Bo","address":"127.0.0.1","detail":""`, `"what":"password taken back, to be chosen by a code","name":"Bo"`, `"what":"refused","name":"Bo","address":"127.0.0.1","detail":"wrong code"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the record lacks %s:\n%s", want, text)
		}
	}
	if strings.Contains(text, m.Code) || strings.Contains(text, again.Code) || strings.Contains(text, sentence) {
		t.Error("the record holds a secret")
	}
}

// Codes are guessed as slowly as passwords.
func TestGuessedCodes(t *testing.T) {
	l := newLAN(t)
	if _, _, err := l.accounts.Invite(t.Context(), "Bo", account.Technician, ""); err != nil {
		t.Fatal(err)
	}
	b, looked := l.browser(), 0
	for i := range 14 {
		if status, text := b.send("POST", "/api/invitation", fmt.Sprintf(`{"name": "Bo", "code": "aaaa-aaaa-aaaa-aa%02d", "password": %q}`, i, sentence)); status == 401 {
			looked++
		} else if status != 429 {
			t.Fatal(status, text)
		}
	}
	if looked != 10 {
		t.Errorf("%d guesses were looked at", looked)
	}
}

// Everybody sees and ends their own sessions and tokens, and nobody else's.
func TestOwn(t *testing.T) {
	l := newLAN(t)
	phone, laptop, eva, olga := l.as("Ada"), l.as("Ada"), l.as("Eva"), l.as("Olga")
	held := laptop.session()
	text := phone.wants(200, "GET", "/api/sessions", "")
	if strings.Count(text, `"id"`) != 2 || strings.Count(text, `"this":true`) != 1 || !strings.Contains(text, `"from":"127.0.0.1","with":"Go-http-client`) || strings.Contains(text, laptop.cookie()) {
		t.Error(text)
	}
	eva.wants(404, "DELETE", "/api/sessions/"+held, "")
	eva.wants(204, "DELETE", "/api/sessions", "")
	laptop.wants(200, "GET", "/api/jobs", "")
	phone.wants(204, "DELETE", "/api/sessions/"+held, "")
	laptop.wants(401, "GET", "/api/jobs", "")
	phone.wants(404, "DELETE", "/api/sessions/"+held, "")
	phone.wants(404, "DELETE", "/api/sessions/", "")
	three, four := l.as("Ada"), l.as("Ada")
	phone.wants(204, "DELETE", "/api/sessions", "")
	three.wants(401, "GET", "/api/jobs", "")
	four.wants(401, "GET", "/api/jobs", "")
	phone.wants(204, "DELETE", "/api/sessions/"+phone.session(), "")
	phone.wants(401, "GET", "/api/jobs", "")

	token := func(c *caller, body string) (id int64, text string) {
		t.Helper()
		var got struct {
			ID    int64
			Token string
		}
		if err := json.Unmarshal([]byte(c.wants(200, "POST", "/api/tokens", body)), &got); err != nil {
			t.Fatal(err)
		}
		return got.ID, got.Token
	}
	ada := l.as("Ada")
	ada.wants(422, "POST", "/api/tokens", `{"purpose": "more", "role": "owner"}`)
	eva.wants(422, "POST", "/api/tokens", `{"purpose": "more", "role": "technician"}`)
	id, secret := token(ada, `{"purpose": "export", "role": "office", "days": 30}`)
	program := l.browser()
	program.token = secret
	program.wants(200, "GET", "/api/jobs", "")
	if list := ada.wants(200, "GET", "/api/tokens", ""); !strings.Contains(list, `"export"`) || strings.Contains(list, secret) {
		t.Error("a token is told twice, or not at all:", list)
	}
	if list := eva.wants(200, "GET", "/api/tokens", ""); list != "[]" {
		t.Error("another's tokens:", list)
	}
	eva.wants(404, "DELETE", fmt.Sprint("/api/tokens/", id), "")
	program.wants(200, "GET", "/api/jobs", "")
	ada.wants(204, "DELETE", fmt.Sprint("/api/tokens/", id), "")
	program.wants(401, "GET", "/api/jobs", "")
	id, program.token = token(ada, `{"purpose": "export"}`)
	program.wants(200, "GET", "/api/jobs", "")
	olga.wants(204, "DELETE", fmt.Sprint("/api/tokens/", id), "") // who keeps accounts ends anybody's
	program.wants(401, "GET", "/api/jobs", "")
}

// On the machine of the book itself there are no accounts to sign in with.
func TestNoAccountsHere(t *testing.T) {
	h, _, _ := shelf(t)
	for _, path := range []string{"/api/accounts", "/api/sessions", "/api/tokens", "/api/sign-ins"} {
		if status, text := send(h, "GET", path, ""); status != 404 || !strings.Contains(text, "the command account") {
			t.Errorf("%s: %d %s", path, status, text)
		}
	}
	if status, text := send(h, "POST", "/api/invitation", `{"name": "Bo", "code": "x", "password": "x"}`); status != 404 {
		t.Error(status, text)
	}
	if status, text := send(h, "GET", "/api/session", ""); status != 200 || text != `{"needed":false,"name":"","role":"technician","customer":"","keeps":false,"fresh":false}` {
		t.Error(status, text)
	}
}
