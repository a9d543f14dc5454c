package server_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"swingwright/book"
)

// shownEntry is an opening of a list.
type shownEntry struct {
	ID, Key, Name string
	InPlaceOf     string `json:"in_place_of"`
	Summary       *book.Summary
	Stale         bool
}

// shownPage is a page of a list.
type shownPage struct {
	Openings []shownEntry
	After    string
	Job      struct {
		Name     string
		Openings int
		States   map[string]int
		Stale    bool
	}
}

// A list tells how openings stand as the app would reckon it, reckons what nobody reckoned yet while it is looked at, and
// again what was changed, and when the yearly inspection is due.
func TestStandings(t *testing.T) {
	h, b, key := shelf(t)
	list := func(query string) (p shownPage) {
		t.Helper()
		status, text := send(h, "GET", "/api/jobs/"+key+"/openings?"+query, "")
		if err := json.Unmarshal([]byte(text), &p); err != nil || status != 200 {
			t.Fatalf("%d, %v: %.300s", status, err, text)
		}
		return p
	}
	reckoned := func() shownPage {
		t.Helper()
		for end := time.Now().Add(2 * time.Minute); ; time.Sleep(50 * time.Millisecond) {
			if p := list("limit=100"); !p.Job.Stale {
				return p
			}
			if time.Now().After(end) {
				t.Fatal("the openings are not reckoned")
			}
		}
	}
	first := list("limit=5")
	if len(first.Openings) != 5 || first.Openings[0].ID != "101" || first.After == "" || first.Job.Openings != 22 || first.Job.Name != "Harbour Street Clinic, street floor" {
		t.Errorf("%+v", first)
	}
	all := reckoned()
	sum := 0
	for state, n := range all.Job.States {
		if slices.Contains([]string{"in-order", "falls-short", "undecided", "unknown"}, state) {
			sum += n
		}
	}
	if sum != 22 {
		t.Errorf("%v", all.Job.States)
	}
	_, text := send(h, "GET", "/api/jobs/"+key, "")
	var job struct {
		Tree  json.RawMessage
		Rules []string
	}
	if err := json.Unmarshal([]byte(text), &job); err != nil {
		t.Fatal(err)
	}
	for _, e := range all.Openings {
		if e.Stale || e.Summary == nil {
			t.Fatalf("%+v", e)
		}
		if !slices.Contains([]string{"101", "103", "115"}, e.ID) {
			continue
		}
		asked, _ := json.Marshal(map[string]any{"job": job.Tree, "rules": job.Rules, "opening": e.ID, "units": "si"})
		if _, answer := send(h, "POST", fmt.Sprintf("/api/jobs/%s/ask/state", key), string(asked), kind, asJSON); answer != e.Summary.Detail || !strings.Contains(answer, fmt.Sprintf("%q", e.Summary.State)) {
			t.Errorf("%s stands as %s in the list and as %s by itself", e.ID, e.Summary.Detail, answer)
		}
	}
	for state, n := range all.Job.States {
		if got := list("limit=100&state=" + state); len(got.Openings) != n {
			t.Errorf("%d are %s, not %d", len(got.Openings), state, n)
		}
	}
	if !slices.ContainsFunc(all.Openings, func(e shownEntry) bool { return e.ID == "112-P" && e.InPlaceOf == "112" }) {
		t.Error("no alternative is told as one")
	}
	if got := list("q=accessible+toilet"); len(got.Openings) != 2 {
		t.Errorf("%+v", got)
	}

	made := time.Date(2026, 11, 26, 9, 0, 0, 0, time.UTC)
	for _, c := range []book.Change{
		{ID: "s1", Kind: book.Set, Subject: key + ".1", Path: "leaf.width", Value: "20 in", Base: book.Latest, Who: "Ada", Made: made},
		{ID: "s2", Kind: book.Sign, Subject: key + ".2", Value: `{"name": "Ada", "text": "in order"}`, Base: book.Latest, Who: "Ada", Made: made},
	} {
		if _, err := b.Apply(t.Context(), made, c); err != nil {
			t.Fatal(err)
		}
	}
	if p := list("limit=2"); !p.Openings[0].Stale || !p.Openings[1].Stale || !p.Job.Stale {
		t.Errorf("after changes nothing is old: %+v", p)
	}
	again := reckoned()
	if again.Openings[0].Summary.State == all.Openings[0].Summary.State || again.Openings[1].Summary.Due != "2027-11-26" {
		t.Errorf("%+v, %+v", again.Openings[0].Summary, again.Openings[1].Summary)
	}
	if due := list("due=2027-12-01"); len(due.Openings) != 1 || due.Openings[0].ID != again.Openings[1].ID {
		t.Errorf("%+v", due)
	}
	if due := list("due=2027-11-01"); len(due.Openings) != 0 {
		t.Errorf("%+v", due)
	}
}

// A part of a job answers every question about its opening as the whole does.
func TestPartAnswersAsTheWhole(t *testing.T) {
	h, b, key := shelf(t)
	type shown struct {
		Rev     int64
		Tree    map[string]any
		Rules   []string
		Keys    map[string]string
		Places  map[string]int64
		Records map[string][]any
		Version string `json:"rulesVersion"`
	}
	get := func(path string) (s shown) {
		t.Helper()
		status, text := send(h, "GET", path, "")
		if err := json.Unmarshal([]byte(text), &s); err != nil || status != 200 {
			t.Fatalf("%s: %d, %v: %.300s", path, status, err, text)
		}
		return s
	}
	if _, err := b.Apply(t.Context(), time.Now(), book.Change{ID: "n1", Kind: book.Note, Subject: key + ".3", Value: "a note", Base: book.Latest, Who: "Ada", Made: time.Now()}); err != nil {
		t.Fatal(err)
	}
	whole := get("/api/jobs/" + key)
	var places []int64
	for _, one := range whole.Tree["openings"].([]any) {
		places = append(places, whole.Places[whole.Keys[one.(map[string]any)["id"].(string)]])
	}
	if !slices.IsSorted(places) || places[0] == 0 {
		t.Errorf("the places are not in order: %v", places)
	}
	for _, id := range []string{"101", "103", "115", "112-P"} {
		part := get("/api/jobs/" + key + "/part?opening=" + id)
		if n := len(part.Tree["openings"].([]any)); n < 1 || n > 4 || part.Keys[id] != whole.Keys[id] || part.Version != whole.Version || part.Rev != whole.Rev {
			t.Errorf("%s: %d openings, %+v", id, n, part.Keys)
		}
		if id == "103" && len(part.Records[part.Keys[id]]) != 1 {
			t.Errorf("records of %s: %v", id, part.Records)
		}
		for _, question := range []string{"state", "survey", "opening"} {
			var answers []string
			for _, s := range []shown{whole, part} {
				delete(s.Tree, "groups")
				asked, _ := json.Marshal(map[string]any{"job": s.Tree, "rules": s.Rules, "opening": id, "units": "us"})
				_, answer := send(h, "POST", fmt.Sprintf("/api/jobs/%s/ask/%s", key, question), string(asked), kind, asJSON)
				answers = append(answers, answer)
			}
			if answers[0] != answers[1] || strings.Contains(answers[0], `"problems"`) {
				t.Errorf("%s of %s: %.300s and %.300s", question, id, answers[0], answers[1])
			}
		}
	}
	if next := get("/api/jobs/" + key + "/part"); len(next.Tree["openings"].([]any)) < 1 || len(next.Keys) > 3 {
		t.Errorf("what an opening yet to be begun needs: %v", next.Keys)
	}
}
