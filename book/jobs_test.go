package book_test

import (
	"fmt"
	"testing"

	"swingwright/book"
)

// Jobs are listed as they were begun, whatever their keys are, with their openings counted.
func TestJobs(t *testing.T) {
	b, err := book.Create(t.Context(), t.TempDir()+"/book")
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if jobs, err := b.Jobs(t.Context()); err != nil || len(jobs) != 0 {
		t.Fatal(jobs, err)
	}
	keys := []string{"m", "a", "z", "m1", "B"}
	for i, key := range keys {
		text := "job: " + key + "\nopenings:\n"
		for n := range i {
			text += fmt.Sprintf("  - id: \"%d\"\n", n)
		}
		if i == 0 {
			text = "job: m\n"
		}
		if err := b.Import(t.Context(), noon, marlow, key, &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": text, "sheets.yaml": "# none\n"}}); err != nil {
			t.Fatal(err)
		}
	}
	keep(t, b, book.Change{ID: "w1", Kind: book.Withdraw, Subject: "B.2"})
	keep(t, b, book.Change{ID: "w2", Kind: book.Withdraw, Subject: "z"})
	jobs, err := b.Jobs(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	counts, err := b.Openings(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, j := range jobs {
		got += fmt.Sprint(j.Key, " ", j.State, " ", counts[j.Key], "; ")
	}
	if want := "m live 0; a live 1; z withdrawn 2; m1 live 3; B live 3; "; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
