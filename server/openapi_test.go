package server_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"swingwright/account"
	"swingwright/book"
)

// described is as much of the description as the test needs.
type described struct {
	OpenAPI string
	Paths   map[string]map[string]*operation
}

type operation struct {
	Needs       string `json:"x-needs"`
	Parameters  []struct{ Name, In string }
	RequestBody *struct{ Content map[string]any }
	Responses   map[string]struct{ Content map[string]any }
}

// schemaAt compiles the schema at a place of the description (OpenAPI 3.1 schemas are JSON Schema 2020-12).
func schemaAt(t *testing.T, doc any, place ...string) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	c.AssertFormat()
	if err := c.AddResource("http://test/openapi.json", doc); err != nil {
		t.Fatal(err)
	}
	pointer := ""
	for _, p := range place {
		pointer += "/" + strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D", "*", "%2A").Replace(p)
	}
	s, err := c.Compile("http://test/openapi.json#" + pointer)
	if err != nil {
		t.Fatalf("%s: %v", pointer, err)
	}
	return s
}

// The description names every route with its need and its parameters, and no other; answers, and what
// is sent, are as it says.
func TestDescribed(t *testing.T) {
	l := newLAN(t)
	ada := l.as("Ada")
	text := l.browser().wants(200, "GET", "/api/openapi.json", "")
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var d described
	if err := json.Unmarshal([]byte(text), &d); err != nil || !strings.HasPrefix(d.OpenAPI, "3.1.") {
		t.Fatal(err, d.OpenAPI)
	}
	patterns, needs := l.server.Needs()
	left := map[string]bool{}
	for path, methods := range d.Paths {
		for method := range methods {
			left[strings.ToUpper(method)+" "+path] = true
		}
	}
	for _, pattern := range patterns {
		method, path, _ := strings.Cut(pattern, " ")
		one := d.Paths[path][strings.ToLower(method)]
		if one == nil {
			t.Errorf("%s is not described", pattern)
			continue
		}
		delete(left, pattern)
		if one.Needs != needs[pattern] {
			t.Errorf("%s needs %q, and is described as %q", pattern, needs[pattern], one.Needs)
		}
		for _, p := range one.Parameters {
			if p.In == "path" && !strings.Contains(path, "{"+p.Name+"}") {
				t.Errorf("%s has no %s", pattern, p.Name)
			}
		}
	}
	if len(left) > 0 {
		t.Errorf("described, but not there: %v", left)
	}

	photo := string(picture(t, 4, 4))
	hash := book.Digest(photo)
	attach := fmt.Sprintf(`{"what": "photo", "name": "sill.png", "type": "image/png", "hash": %q, "size": %d}`, hash, len(photo))
	head, _, err := l.book.Head(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	changes := written(
		book.Change{ID: "d1", Kind: book.Attach, Subject: "clinic.1", Value: attach, Base: book.Latest, Who: "Ada", Made: l.now()},
		book.Change{ID: "d2", Kind: book.Set, Subject: "clinic.1", Path: "leaf.height", Value: `"84 in"`, Base: book.Latest, Device: "phone", Seq: 1, Who: "Ada", Instrument: "tape", Made: l.now()},
		book.Change{ID: "d3", Kind: book.Set, Subject: "clinic.1", Path: "leaf.height", Value: `"85 in"`, Base: head, Device: "tablet", Seq: 1, Who: "Bo", Made: l.now()},
		book.Change{ID: "d4", Kind: book.Sign, Subject: "clinic.1", Value: `{"name": "Ada", "text": "left as found"}`, Base: book.Latest, Who: "Ada", Made: l.now()},
		book.Change{ID: "d5", Kind: book.Set, Subject: "clinic.1", Path: "leaf.width", Value: "three elephants", Base: book.Latest, Who: "Ada", Made: l.now()})
	if err := l.book.SaveSummary(t.Context(), "clinic.2", head, book.Summary{State: "go", Missing: 1, Due: "2027-01-01"}); err != nil {
		t.Fatal(err)
	}
	var whole struct {
		Tree  json.RawMessage
		Rules []string
	}
	if err := json.Unmarshal([]byte(ada.wants(200, "GET", "/api/jobs/clinic", "")), &whole); err != nil {
		t.Fatal(err)
	}
	olga, other := l.as("Olga"), l.as("Ada")
	_, code, err := l.accounts.Invite(t.Context(), "Bo", account.Technician, "")
	if err != nil {
		t.Fatal(err)
	}
	session := other.session()
	asked, _ := json.Marshal(map[string]any{"job": whole.Tree, "rules": whole.Rules, "opening": "101", "units": "us"})
	const wrong = "0000000000000000000000000000000000000000000000000000000000000000"
	seen := map[string]bool{}
	for _, c := range []struct {
		who                   string
		pattern, query, body  string
		job, key, hash, needs string // needs: what the answer must hold for the test to mean something
		status                int
		one                   string // account, session or token that the path names
	}{
		{"Ada", "GET /api/session", "", "", "", "", "", `"Ada"`, 200, ""},
		{"", "GET /api/session", "", "", "", "", "", `"name":""`, 200, ""},
		{"", "POST /api/session", "", `{"name": "Olga", "password": "` + sentence + `"}`, "", "", "", "office", 200, ""},
		{"", "POST /api/session", "", `{"name": "Olga", "password": "no"}`, "", "", "", "", 401, ""},
		{"", "DELETE /api/session", "", "", "", "", "", "", 401, ""},
		{"Ada", "PUT /api/attachments/{hash}", "", photo, "", "", hash, "", 200, ""},
		{"Ada", "PUT /api/attachments/{hash}", "", photo, "", "", wrong, "", 422, ""},
		{"Owen", "PUT /api/attachments/{hash}", "", photo, "", "", hash, "", 403, ""},
		{"Ada", "POST /api/changes", "", changes, "", "", "", `"conflict"`, 200, ""},
		{"Ada", "POST /api/changes", "", "{", "", "", "", "", 400, ""},
		{"Ada", "GET /api/devices/{device}", "?seen=1", "", "", "", "", `{"seq":1,"rev":`, 200, ""},
		{"Ada", "GET /api/devices/{device}", "?seen=x", "", "", "", "", "", 400, ""},
		{"Owen", "GET /api/devices/{device}", "", "", "", "", "", "", 403, ""},
		{"Ada", "GET /api/attachments/{hash}", "", "", "", "", hash, "", 200, ""},
		{"Ada", "GET /api/attachments/{hash}", "", "", "", "", wrong, "", 404, ""},
		{"Ada", "GET /api/jobs", "", "", "", "", "", "clinic", 200, ""},
		{"", "GET /api/jobs", "", "", "", "", "", "", 401, ""},
		{"Ada", "GET /api/jobs/{job}", "", "", "clinic", "", "", `"records":{"clinic.1"`, 200, ""},
		{"Ada", "GET /api/jobs/{job}", "?at=3", "", "clinic", "", "", "no such file", 422, ""},
		{"Ada", "GET /api/jobs/{job}", "?at=3", "", "school", "", "", "", 404, ""},
		{"Ada", "GET /api/jobs/{job}", fmt.Sprint("?at=", head), "", "clinic", "", "", fmt.Sprintf(`{"rev":%d`, head), 200, ""},
		{"Ada", "GET /api/jobs/{job}", "?at=x", "", "clinic", "", "", "", 400, ""},
		{"Ada", "GET /api/jobs/{job}/changes", fmt.Sprint("?after=", head), "", "clinic", "", "", `"device":"tablet"`, 200, ""},
		{"Ada", "GET /api/jobs/{job}/changes", "", "", "clinic", "", "", "", 400, ""},
		{"Ada", "GET /api/jobs/{job}/changes", "?after=0", "", "nobody", "", "", "", 404, ""},
		{"Eva", "GET /api/jobs/{job}", "", "", "clinic", "", "", "", 404, ""},
		{"Ada", "GET /api/jobs/{job}/rules", "", "", "clinic", "", "", "", 200, ""},
		{"Ada", "GET /api/jobs/{job}/openings", "?limit=3", "", "clinic", "", "", `"due":"2027-01-01"`, 200, ""},
		{"Ada", "GET /api/jobs/{job}/openings", "?q=waiting&missing=1", "", "clinic", "", "", `"states":{`, 200, ""},
		{"Ada", "GET /api/jobs/{job}/part", "?opening=101", "", "clinic", "", "", `"places":{"clinic.1":`, 200, ""},
		{"Ada", "GET /api/jobs/{job}/part", "?opening=nobody", "", "clinic", "", "", "", 404, ""},
		{"Ada", "GET /api/jobs/{job}/openings", "?limit=x", "", "clinic", "", "", "", 400, ""},
		{"Ada", "POST /api/jobs/{job}/ask/{question}", "", string(asked), "clinic", "", "", "standing", 200, ""},
		{"Ada", "GET /api/search", "?q=waiting", "", "", "", "", `"clinic.1"`, 200, ""},
		{"Ada", "GET /api/openings/{key}", "", "", "", "clinic.1", "", `"now":{`, 200, ""},
		{"Ada", "GET /api/openings/{key}", "", "", "", "nobody", "", "", 404, ""},
		{"Ada", "GET /api/openings/{key}/history", "", "", "", "clinic.1", "", `"conflict"`, 200, ""},
		{"Ada", "GET /api/openings/{key}/packet.pdf", "?paper=letter&units=us", "", "", "clinic.1", "", "%PDF", 200, ""},
		{"Ada", "GET /api/openings/{key}/packet.pdf", "?paper=a9&units=us", "", "", "clinic.1", "", "", 400, ""},
		{"", "GET /api/openapi.json", "", "", "", "", "", "", 200, ""},
		{"Ada", "POST /api/password", "", `{"old": "no", "new": "another sentence of mine"}`, "", "", "", "", 401, ""},
		{"Owen", "POST /api/password", "", `{"old": "` + sentence + `", "new": "another sentence of mine"}`, "", "", "", "", 204, ""},
		{"Owen again", "DELETE /api/session", "", "", "", "", "", "", 204, ""},
		{"Bo", "POST /api/invitation", "", fmt.Sprintf(`{"name": "Bo", "code": %q, "password": "a sentence that Bo chose"}`, code), "", "", "", `"name":"Bo"`, 200, ""},
		{"Bo", "POST /api/invitation", "", fmt.Sprintf(`{"name": "Bo", "code": %q, "password": "a sentence that Bo chose"}`, code), "", "", "", "", 401, ""},
		{"Ada", "GET /api/sessions", "", "", "", "", "", `"this":true`, 200, ""},
		{"Ada", "DELETE /api/sessions/{session}", "", "", "", "", "", "", 204, session},
		{"Ada", "DELETE /api/sessions/{session}", "", "", "", "", "", "", 404, session},
		{"Ada", "DELETE /api/sessions", "", "", "", "", "", "", 204, ""},
		{"Ada", "POST /api/tokens", "", `{"purpose": "export", "role": "office", "days": 30}`, "", "", "", `"token":"swing_`, 200, ""},
		{"Ada", "POST /api/tokens", "", `{"purpose": ""}`, "", "", "", "", 422, ""},
		{"Ada", "GET /api/tokens", "", "", "", "", "", `"purpose":"export"`, 200, ""},
		{"Ada", "GET /api/accounts", "", "", "", "", "", "", 403, ""},
		{"Olga", "GET /api/accounts", "", "", "", "", "", `"name":"Bo"`, 200, ""},
		{"Olga", "POST /api/accounts", "", `{"name": "Cy", "role": "owner", "customer": "Elm School"}`, "", "", "", `"code":"`, 200, ""},
		{"Olga", "POST /api/accounts", "", `{"name": "Cy", "role": "office"}`, "", "", "", "", 422, ""},
		{"Olga", "GET /api/accounts/{account}", "", "", "", "", "", `"purpose":"export"`, 200, "1"},
		{"Olga", "GET /api/accounts/{account}", "", "", "", "", "", "", 404, "99"},
		{"Olga", "PUT /api/accounts/{account}/role", "", `{"role": "owner", "customer": "Elm School"}`, "", "", "", "", 204, "3"},
		{"Olga", "PUT /api/accounts/{account}/role", "", `{"role": "technician"}`, "", "", "", "", 409, "2"},
		{"Olga", "PUT /api/accounts/{account}/disabled", "", `{"disabled": true}`, "", "", "", "", 204, "3"},
		{"Olga", "PUT /api/accounts/{account}/disabled", "", `{"disabled": 1}`, "", "", "", "", 400, "3"},
		{"Olga", "POST /api/accounts/{account}/reset", "", "", "", "", "", `"code":"`, 200, "3"},
		{"Olga", "DELETE /api/accounts/{account}/sessions", "", "", "", "", "", "", 204, "4"},
		{"Olga", "DELETE /api/tokens/{token}", "", "", "", "", "", "", 204, "1"},
		{"Olga", "DELETE /api/tokens/{token}", "", "", "", "", "", "", 404, "1"},
		{"Olga", "GET /api/sign-ins", "?limit=200", "", "", "", "", `"what":"refused"`, 200, ""},
	} {
		from := map[string]func() *caller{"": l.browser, "Ada": func() *caller { return ada }, "Owen": func() *caller { return l.as("Owen") }, "Eva": func() *caller { return l.as("Eva") }, "Olga": func() *caller { return olga }, "Bo": l.browser, "Owen again": func() *caller {
			b := l.browser()
			b.signIn("Owen", "another sentence of mine")
			return b
		}}[c.who]()
		method, path := filled(strings.NewReplacer("{account}", c.one, "{session}", c.one, "{token}", c.one).Replace(c.pattern), c.job, c.key, c.hash)
		plain := strings.TrimPrefix(c.pattern, method+" ")
		one := d.Paths[plain][strings.ToLower(method)]
		if one == nil {
			t.Fatal(c.pattern)
		}
		if c.status < 300 {
			seen[c.pattern] = true
		}
		if one.RequestBody != nil && c.status < 300 && one.RequestBody.Content["application/json"] != nil {
			value, err := jsonschema.UnmarshalJSON(strings.NewReader(c.body))
			if err != nil {
				t.Fatal(err)
			}
			if err := schemaAt(t, doc, "paths", plain, strings.ToLower(method), "requestBody", "content", "application/json", "schema").Validate(value); err != nil {
				t.Errorf("%s: what is sent: %v", c.pattern, err)
			}
		}
		status, answer, h := from.do(method, path+c.query, c.body)
		if status != c.status || !strings.Contains(answer, c.needs) {
			t.Errorf("%s%s: %d, not %d, or without %q: %.300s", c.pattern, c.query, status, c.status, c.needs, answer)
			continue
		}
		said, ok := one.Responses[fmt.Sprint(status)]
		if !ok {
			t.Errorf("%s: the status %d is not described", c.pattern, status)
			continue
		}
		kind, _, _ := strings.Cut(h.Get("Content-Type"), ";")
		switch {
		case status == http.StatusNoContent:
			if answer != "" || said.Content != nil {
				t.Errorf("%s: a content where there is none", c.pattern)
			}
		case said.Content[kind] == nil && said.Content["*/*"] == nil:
			t.Errorf("%s: %d answers %s, which is not described", c.pattern, status, kind)
		case kind == "application/json":
			value, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(answer)))
			if err != nil {
				t.Fatal(err)
			}
			if err := schemaAt(t, doc, "paths", plain, strings.ToLower(method), "responses", fmt.Sprint(status), "content", kind, "schema").Validate(value); err != nil {
				t.Errorf("%s: %v\n%.400s", c.pattern, err, answer)
			}
		}
	}
	for _, pattern := range patterns {
		if !seen[pattern] {
			t.Errorf("%s: no answer was held against its description", pattern)
		}
	}
}
