package book_test

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"swingwright/book"
	"swingwright/job"
	"swingwright/job/amend"
)

const demo = "../demo/harbour-street-clinic"

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

var marlow = book.By{Who: "J. Marlow", Made: noon}

// newBook is an empty book in a folder of its own.
func newBook(t testing.TB) (*book.Book, string) {
	t.Helper()
	dir := t.TempDir() + "/a book?"
	b, err := book.Create(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b, dir
}

// clinic is a book that holds the example under the key c.
func clinic(t testing.TB) (*book.Book, *book.Files) {
	t.Helper()
	b, _ := newBook(t)
	files, err := book.ReadFiles(os.DirFS(demo), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(t.Context(), noon, marlow, "c", files); err != nil {
		t.Fatal(err)
	}
	return b, files
}

func keep(t testing.TB, b *book.Book, c book.Change) book.Receipt {
	t.Helper()
	r, err := b.Apply(t.Context(), noon, whole(c))
	if err != nil {
		t.Fatal(err)
	}
	return r[0]
}

// whole fills in what most changes of these tests have alike.
func whole(c book.Change) book.Change {
	if c.ID == "" {
		c.ID = book.NewID()
	}
	if c.Who == "" {
		c.Who = "J. Marlow"
	}
	if c.Made.IsZero() {
		c.Made = noon
	}
	if c.Base == 0 {
		c.Base = book.Latest
	}
	return c
}

func sound(t testing.TB, b *book.Book) *book.Verdict {
	t.Helper()
	v, err := b.Verify(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range v.Faults {
		t.Error(f)
	}
	return v
}

func text(t testing.TB, b *book.Book, key string) string {
	t.Helper()
	p, err := b.Part(t.Context(), key)
	if err != nil {
		t.Fatal(err)
	}
	return p.Text
}

// What was imported comes out to the byte, and an edit changes its own line alone.
func TestImportExport(t *testing.T) {
	b, files := clinic(t)
	out, n, err := b.Export(t.Context(), "c", 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(out.Texts) != len(files.Texts) {
		t.Errorf("%d files became %d", len(files.Texts), len(out.Texts))
	}
	for name, text := range files.Texts {
		if out.Texts[name] != text {
			t.Errorf("%s is another one", name)
		}
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.width", Value: "36 in"})
	keep(t, b, book.Change{Kind: book.Set, Subject: "c", Path: "customer", Value: amend.Text("Clinic: new owner")})
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.file2", Path: "arms[0].page", Value: "7"})
	changed, _, err := b.Export(t.Context(), "c", 0)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Replace(files.Texts["job.yaml"], "width: 35-3/4 in ± 1/16 in", "width: 36 in", 1)
	want = strings.Replace(want, "customer: Harbour Street Clinic", `customer: "Clinic: new owner"`, 1)
	if changed.Texts["job.yaml"] != want {
		t.Error("the job file differs in more than what was changed")
	}
	dir := t.TempDir() + "/out"
	if err := changed.Write(dir); err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode(os.DirFS(dir), "job.yaml")
	if err != nil || j.Customer != "Clinic: new owner" || j.Openings[0].Leaf.Width.Text != "36 in" {
		t.Fatal(j, err)
	}
	if err := changed.Write(dir); err == nil {
		t.Error("files were overwritten")
	}
	then, _, err := b.Export(t.Context(), "c", n)
	if err != nil || then.Texts["job.yaml"] != files.Texts["job.yaml"] {
		t.Error("the job as it was is not seen again", err)
	}
	sound(t, b)
}

// A value that a job file cannot have is refused, with its field, and leaves nothing behind.
func TestRefused(t *testing.T) {
	b, _ := clinic(t)
	head, _, _ := b.Head(t.Context())
	for _, c := range []struct {
		change book.Change
		want   string
	}{
		{book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.width", Value: "banana"}, `opening 101: leaf.width: found "banana", needed a length`},
		{book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.widht", Value: "36 in"}, "leaf.widht"},
		{book.Change{Kind: book.Set, Subject: "c.1", Path: "closer.sheet", Value: "no such"}, "closer.sheet"},
		{book.Change{Kind: book.Set, Subject: "c.1", Path: "id", Value: ""}, "id"},
		{book.Change{Kind: book.Set, Subject: "c.1", Path: "same_as", Value: amend.Text("101")}, "circle"},
		{book.Change{Kind: book.Set, Subject: "c", Path: "date", Value: "today"}, "date"},
		{book.Change{Kind: book.Set, Subject: "c", Path: "openings[0].name", Value: "x"}, "name an opening"},
		{book.Change{Kind: book.Add, Subject: "c.1", Path: "readings", Value: "{fact: opening.force}"}, "readings"},
		{book.Change{Kind: book.Remove, Subject: "c.1", Path: "readings[99]"}, "no such item"},
		{book.Change{Kind: book.Rewrite, Subject: "c.1", Value: "- id: {"}, "YAML"},
		{book.Change{Kind: book.Rewrite, Subject: "c.1", Value: "- id: 1\n- id: 2\n"}, "opening"},
		{book.Change{Kind: book.BeginOpening, Job: "c", Subject: "new", Value: "name: x"}, "id"},
		{book.Change{Kind: book.BeginOpening, Job: "c", Subject: "c.1", Value: "id: x"}, "key"},
		{book.Change{Kind: book.BeginOpening, Job: "none", Subject: "new", Value: "id: x"}, "job"},
		{book.Change{Kind: book.BeginFile, Job: "c", Subject: "new", Path: "../x", Value: "a: b"}, "file name"},
		{book.Change{Kind: book.BeginFile, Job: "c", Subject: "new", Path: "sheets/arms.yaml", Value: "a: b"}, "another file"},
		{book.Change{Kind: book.Attach, Subject: "c.1", Value: `{"what": "photo", "hash": "` + book.Digest("x") + `", "size": 1}`}, "not in the book"},
		{book.Change{Kind: book.Sign, Subject: "c.1", Value: "{}"}, "no statement"},
		{book.Change{Kind: book.Withdraw, Subject: "c.1", Path: "none"}, "no note"},
		{book.Change{Kind: "burn", Subject: "c.1"}, "the kind"},
		{book.Change{Kind: book.Note, Subject: "c.1", Value: " "}, "no text"},
		{book.Change{Kind: book.Note, Subject: "c.1", Value: "a\x00b"}, "UTF-8"},
		{book.Change{Kind: book.Note, Subject: "c.1", Value: "a", Base: 99999}, "the base"},
		{book.Change{Kind: book.Note, Subject: "c.1", Value: "a", Seq: 1}, "of no device"},
	} {
		_, err := b.Apply(t.Context(), noon, whole(book.Change{Kind: book.Note, Subject: "c.1", Value: "first"}), whole(c.change))
		invalid, ok := errors.AsType[*book.Invalid](err)
		if !ok || !strings.Contains(invalid.Error(), c.want) {
			t.Errorf("%s %s %s: %v", c.change.Kind, c.change.Path, c.change.Value, err)
		}
	}
	if _, err := b.Apply(t.Context(), noon, whole(book.Change{Kind: book.Note, Subject: "none", Value: "a"})); !errors.Is(err, book.ErrNone) {
		t.Error(err)
	}
	if now, _, _ := b.Head(t.Context()); now != head {
		t.Errorf("%d revisions of refused changes were kept", now-head)
	}
	sound(t, b)
}

// What was wrong before stands in nobody's way.
func TestWrongBefore(t *testing.T) {
	b, _ := clinic(t)
	keep(t, b, book.Change{Kind: book.Withdraw, Subject: "c.file2"}) // the arms
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "name", Value: "Hall"})
	if _, err := b.Decode(t.Context(), "c.1"); err == nil {
		t.Error("a job without its sheets is read")
	}
}

func TestDecode(t *testing.T) {
	b, _ := clinic(t)
	key, err := b.Find(t.Context(), "c", "109A")
	if err != nil {
		t.Fatal(err)
	}
	j, err := b.Decode(t.Context(), key)
	if err != nil {
		t.Fatal(err)
	}
	all, err := job.Decode(os.DirFS(demo), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i := range all.Openings {
		if o := &all.Openings[i]; o.ID == "109A" {
			if got, want := fmt.Sprintf("%+v", j.Openings[0]), fmt.Sprintf("%+v", *o); got != want {
				t.Errorf("one by one it is\n%s\nin the whole job\n%s", got, want)
			}
		}
	}
	if len(j.Openings) != 2 || len(j.Sheets.Arms) != len(all.Sheets.Arms) || len(j.Groups) != len(all.Groups) {
		t.Errorf("%d openings, %d arms, %d groups", len(j.Openings), len(j.Sheets.Arms), len(j.Groups))
	}
}

// A change that comes twice is kept once; one that comes too early waits.
func TestOnceInOrder(t *testing.T) {
	b, _ := clinic(t)
	base, _, _ := b.Head(t.Context())
	phone := func(seq int64, value string) book.Change {
		return book.Change{ID: fmt.Sprint("p-", seq), Kind: book.Set, Subject: "c.1", Path: "name", Value: value, Device: "phone", Seq: seq, Base: base, Who: "A", Made: noon}
	}
	if _, err := b.Apply(t.Context(), noon, phone(2, "Two")); err == nil || err.Error() != "device phone sent its change 2, but 1 is awaited; hint: send its changes in order" {
		t.Error(err)
	}
	for range 3 {
		r, err := b.Apply(t.Context(), noon, phone(1, "One"), phone(2, "Two"))
		if err != nil || r[0].Revision != base+1 || r[1].Revision != base+2 || r[1].Outcome != book.Kept {
			t.Fatal(r, err)
		}
	}
	if _, err := b.Apply(t.Context(), noon, phone(2, "Other")); err == nil || !strings.Contains(err.Error(), "identity of another change") {
		t.Error(err)
	}
	if head, _, _ := b.Head(t.Context()); head != base+2 {
		t.Errorf("%d revisions", head-base)
	}
	if got := amend.Plain(text(t, b, "c.1"), "name")[0]; got != "Two" {
		t.Error(got)
	}
}

// Two who did not know of each other: both are kept, shown, and one later change settles it.
func TestConflict(t *testing.T) {
	b, _ := clinic(t)
	base, _, _ := b.Head(t.Context())
	set := func(device, path, value string, base int64) book.Receipt {
		return keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: path, Value: value, Device: device, Base: base})
	}
	first := set("phone", "leaf.width", "36 in", base)
	if r := set("tablet", "leaf.width", "36 in", base); r.Outcome != book.Same {
		t.Error("who says the same is in conflict with nobody", r)
	}
	if r := set("tablet", "leaf.weight", "120 lb", base); r.Outcome != book.Kept {
		t.Error("another field", r)
	}
	second := set("tablet", "leaf.width", "37 in", base)
	if second.Outcome != book.Conflict || second.Against != first.Revision {
		t.Error(second)
	}
	if r := set("tablet", "leaf", "{width: 38 in}", base); r.Outcome != book.Conflict {
		t.Error("a record over one of its fields", r)
	}
	if r := set("phone", "leaf.width", "36-1/2 in", base); r.Outcome != book.Kept {
		t.Error("a device knows its own changes", r)
	}
	list, err := b.Disputes(t.Context(), "c.1", 10)
	if err != nil || len(list) != 2 || list[0].Change.Value != "37 in" || list[0].Against.Value != "36 in" {
		t.Fatalf("%+v, %v", list, err)
	}
	sound(t, b)
	head, _, _ := b.Head(t.Context())
	keep(t, b, book.Change{Kind: book.Resolve, Subject: "c.1", Path: "leaf.width", Value: "37 in", Base: head})
	if list, _ := b.Disputes(t.Context(), "c.1", 10); len(list) != 1 || list[0].Change.Path != "leaf" {
		t.Errorf("%+v", list)
	}
	keep(t, b, book.Change{Kind: book.Resolve, Subject: "c.1", Base: book.Latest})
	if list, _ := b.Disputes(t.Context(), "", 10); len(list) != 0 {
		t.Errorf("%+v", list)
	}
	if got := amend.Plain(text(t, b, "c.1"), "leaf.width")[0]; got != "37 in" {
		t.Error(got)
	}
	sound(t, b)
}

// Who resolves without having seen a later conflict leaves that open.
func TestResolvedUnseen(t *testing.T) {
	b, _ := clinic(t)
	base, _, _ := b.Head(t.Context())
	for _, device := range []string{"phone", "tablet", "watch"} {
		keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.width", Value: amend.Text("3" + fmt.Sprint(len(device)) + " in"), Device: device, Base: base})
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.width", Value: "40 in", Device: "glasses", Base: base})
	keep(t, b, book.Change{Kind: book.Resolve, Subject: "c.1", Path: "leaf.width", Value: "36 in", Base: base + 2})
	list, err := b.Disputes(t.Context(), "c.1", 9)
	if err != nil || len(list) != 1 || list[0].Change.Device != "glasses" {
		t.Errorf("%+v, %v", list, err)
	}
	sound(t, b)
}

func TestConflictKinds(t *testing.T) {
	set := func(path, value string) book.Change { return book.Change{Kind: book.Set, Path: path, Value: value} }
	reading := book.Change{Kind: book.Add, Path: "readings", Value: "{fact: closing.time_90_to_10, value: 6 s}"}
	for name, c := range map[string]struct {
		first, second book.Change
		want          book.Outcome
	}{
		"two readings":                      {reading, book.Change{Kind: book.Add, Path: "readings", Value: "{fact: closing.time_90_to_10, value: 7 s}"}, book.Kept},
		"a reading beside a field":          {reading, set("name", "x"), book.Kept},
		"an item gone, another set":         {book.Change{Kind: book.Remove, Path: "readings[0]"}, set("readings[1].by", "x"), book.Conflict},
		"an item gone, one added":           {book.Change{Kind: book.Remove, Path: "readings[0]"}, reading, book.Kept},
		"the list replaced, one added":      {set("readings", "[]"), reading, book.Conflict},
		"withdrawn, then changed":           {book.Change{Kind: book.Withdraw}, set("name", "x"), book.Conflict},
		"changed, then withdrawn":           {set("name", "x"), book.Change{Kind: book.Withdraw}, book.Conflict},
		"withdrawn twice":                   {book.Change{Kind: book.Withdraw}, book.Change{Kind: book.Withdraw}, book.Same},
		"withdrawn, then a note":            {book.Change{Kind: book.Withdraw}, book.Change{Kind: book.Note, Value: "x"}, book.Kept},
		"rewritten beside":                  {set("name", "x"), book.Change{Kind: book.Rewrite, Value: "  - id: \"101\"\n"}, book.Conflict},
		"signed after a change not seen":    {set("name", "x"), book.Change{Kind: book.Sign, Value: `{"name": "A", "text": "done"}`}, book.Conflict},
		"signed after a note":               {book.Change{Kind: book.Note, Value: "x"}, book.Change{Kind: book.Sign, Value: `{"name": "A", "text": "done"}`}, book.Kept},
		"signed another text":               {book.Change{Kind: book.Note, Value: "x"}, book.Change{Kind: book.Sign, Value: `{"name": "A", "text": "done"}`, Seen: book.Digest("other")}, book.Conflict},
		"names alike in letters only":       {set("use.place", "exterior"), set("use.operation", "manual"), book.Kept},
		"a value that fitted only then":     {book.Change{Kind: book.Rewrite, Value: "  - id: \"101\"\n"}, set("readings[0].by", "x"), book.Conflict},
		"an id that another took meanwhile": {set("name", "x"), set("id", `"102"`), book.Conflict},
	} {
		t.Run(name, func(t *testing.T) {
			b, _ := clinic(t)
			base, _, _ := b.Head(t.Context())
			c.first.Subject, c.first.Device, c.first.Base = "c.1", "phone", base
			c.second.Subject, c.second.Device, c.second.Base = "c.1", "tablet", base
			if r := keep(t, b, c.first); r.Outcome != book.Kept {
				t.Fatal(r)
			}
			if r := keep(t, b, c.second); r.Outcome != c.want {
				t.Error(r)
			}
			sound(t, b)
		})
	}
}

// Two who add an opening of the same id: the second is held, goes on being filled
// in, and counts once it has an id of its own.
func TestHeld(t *testing.T) {
	b, _ := clinic(t)
	add := func(key string) book.Receipt {
		return keep(t, b, book.Change{Kind: book.BeginOpening, Job: "c", Subject: key, Value: `{"id": "new", "name": "` + key + `", "leaf": {"width": "3'-0\""}}`})
	}
	one, two := add("one"), add("two")
	if one.Outcome != book.Kept || two.Outcome != book.Conflict || two.Against != one.Revision {
		t.Fatal(one, two)
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "two", Path: "leaf.height", Value: "84 in"})
	files, _, _ := b.Export(t.Context(), "c", 0)
	if strings.Contains(files.Texts["job.yaml"], "name: two") || !strings.Contains(files.Texts["job.yaml"], "    name: one\n    leaf:\n      width: 3'-0\"\n") {
		t.Error(files.Texts["job.yaml"][len(files.Texts["job.yaml"])-200:])
	}
	if _, err := b.Apply(t.Context(), noon, whole(book.Change{Kind: book.Resolve, Subject: "two", Path: "id", Value: "new"})); err == nil {
		t.Error("two openings of one id")
	}
	keep(t, b, book.Change{Kind: book.Resolve, Subject: "two", Value: "new-2", Path: "id"})
	if key, err := b.Find(t.Context(), "c", "new-2"); key != "two" || err != nil {
		t.Error(key, err)
	}
	if list, _ := b.Disputes(t.Context(), "two", 9); len(list) != 0 {
		t.Error(list)
	}
	sound(t, b)
}

func TestAnnotations(t *testing.T) {
	b, _ := clinic(t)
	digest, size, err := b.Store(strings.NewReader("a photo"), 100)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := b.Store(strings.NewReader("a photo"), 3); err == nil {
		t.Error("more than allowed was stored")
	}
	note := keep(t, b, book.Change{Kind: book.Note, Subject: "c.1", Value: "Hört sich an wie ein Quietschen"})
	keep(t, b, book.Change{Kind: book.Attach, Subject: "c.1", Value: fmt.Sprintf(`{"what": "photo", "name": "IMG.jpg", "type": "image/jpeg", "hash": %q, "size": %d, "caption": "scuffed sill"}`, digest, size)})
	sign := keep(t, b, book.Change{Kind: book.Sign, Subject: "c.1", Value: `{"name": "J. Marlow", "text": "left as found"}`, Seen: book.Digest(text(t, b, "c.1"))})
	list, err := b.Annotations(t.Context(), "c.1")
	if err != nil || len(list) != 3 || list[1].Attachment.Hash != digest || list[2].Outdated || list[2].Statement.Name != "J. Marlow" {
		t.Fatalf("%+v, %v", list, err)
	}
	if content, err := b.Content(digest); string(content) != "a photo" || err != nil {
		t.Error(content, err)
	}
	seal := list[2].Seal()
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "name", Value: "Elsewhere"})
	keep(t, b, book.Change{Kind: book.Withdraw, Subject: "c.1", Path: note.ID})
	list, _ = b.Annotations(t.Context(), "c.1")
	if !list[0].Withdrawn || list[1].Withdrawn || !list[2].Outdated {
		t.Errorf("%+v", list)
	}
	v, err := b.Verify(t.Context(), seal[:20])
	if err != nil || v.SealAt != sign.Revision || len(v.Faults) != 0 || v.Attachments != 1 {
		t.Errorf("%+v, %v", v, err)
	}
	if v, _ := b.Verify(t.Context(), strings.Repeat("0", 64)); len(v.Faults) != 1 {
		t.Errorf("%+v", v)
	}
	for words, want := range map[string]int{"quietschen": 0, "SCUFFED si": 1, "sill scuffed": 1, "horts": 0, `") *`: 0, "": 0, "Elsewhere": 1, "101": 1} {
		found, err := b.Search(t.Context(), "c", words, 10)
		if err != nil || (want == 1) != (len(found) > 0 && found[0].Key == "c.1") {
			t.Errorf("%s: %+v, %v", words, found, err)
		}
	}
}

func TestListAndSummaries(t *testing.T) {
	b, _ := clinic(t)
	all, err := b.List(t.Context(), book.Filter{Job: "c", Limit: 1000})
	if err != nil || len(all) < 10 || all[0].ID != "101" {
		t.Fatal(len(all), err)
	}
	var paged []book.Entry
	for after := ""; ; after = paged[len(paged)-1].Key {
		page, err := b.List(t.Context(), book.Filter{After: after, Limit: 3})
		if err != nil {
			t.Fatal(err)
		}
		if paged = append(paged, page...); len(page) < 3 {
			break
		}
	}
	if fmt.Sprint(paged) != fmt.Sprint(all) {
		t.Error("page by page the list is another one")
	}
	head, _, _ := b.Head(t.Context())
	stale, err := b.Stale(t.Context(), "c", 1000)
	if err != nil || len(stale) != len(all) {
		t.Error(len(stale), err)
	}
	for i, e := range all {
		s := book.Summary{State: []string{"go", "wait"}[i%2], Missing: i, Due: fmt.Sprintf("2027-01-%02d", i+1)}
		if err := b.SaveSummary(t.Context(), e.Key, head, s); err != nil {
			t.Fatal(err)
		}
	}
	if stale, _ := b.Stale(t.Context(), "", 1000); len(stale) != 0 {
		t.Error(len(stale))
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.2", Path: "name", Value: "x"})
	if stale, _ := b.Stale(t.Context(), "", 1000); len(stale) != 1 || stale[0].Key != "c.2" {
		t.Error(stale)
	}
	waiting, _ := b.List(t.Context(), book.Filter{Summary: "wait", DueBefore: "2027-01-05"})
	if len(waiting) != 2 || waiting[0].Key != "c.2" || !waiting[0].Stale || waiting[1].Stale || waiting[1].Summary.Missing != 3 {
		t.Errorf("%+v", waiting)
	}
	keep(t, b, book.Change{Kind: book.Set, Subject: "c", Path: "customer", Value: "x"})
	if counts, _ := b.Count(t.Context(), ""); counts["go"]+counts["wait"] != len(all) {
		t.Error(counts)
	}
	if jobs, _ := b.Jobs(t.Context()); len(jobs) != 1 || jobs[0].Name != "Harbour Street Clinic, street floor" {
		t.Error(jobs)
	}
}

// What lists count follows every change, and verify finds where it does not.
func TestCounted(t *testing.T) {
	b, _ := clinic(t)
	counts := func(want map[string]int) {
		t.Helper()
		if got, err := b.Count(t.Context(), "c"); err != nil || !maps.Equal(got, want) {
			t.Errorf("%v, not %v: %v", got, want, err)
		}
		sum := 0
		for _, n := range want {
			sum += n
		}
		if jobs, err := b.Openings(t.Context()); err != nil || jobs["c"] != sum {
			t.Errorf("%v, not %d: %v", jobs, sum, err)
		}
		sound(t, b)
	}
	stale := func(want ...string) {
		t.Helper()
		list, err := b.Stale(t.Context(), "c", 1000)
		var keys []string
		for _, e := range list {
			keys = append(keys, e.Key)
		}
		if err != nil || !slices.Equal(keys, want) {
			t.Errorf("%v, not %v: %v", keys, want, err)
		}
	}
	counts(map[string]int{"": 22})
	save := func(key, state string) {
		t.Helper()
		head, _, _ := b.Head(t.Context())
		if err := b.SaveSummary(t.Context(), key, head, book.Summary{State: state}); err != nil {
			t.Fatal(err)
		}
	}
	for i := range 22 {
		save(fmt.Sprint("c.", i+1), "go")
	}
	stale()
	counts(map[string]int{"go": 22})
	keep(t, b, book.Change{Kind: book.Note, Subject: "c.3", Value: "a note"}) // what is due may turn on it
	stale("c.3")
	save("c.3", "wait")
	stale()
	counts(map[string]int{"go": 21, "wait": 1})
	keep(t, b, book.Change{Kind: book.Withdraw, Subject: "c.3"})
	counts(map[string]int{"go": 21})
	keep(t, b, book.Change{Kind: book.Restore, Subject: "c.3"})
	counts(map[string]int{"go": 21, "wait": 1})
	stale("c.3")
	keep(t, b, book.Change{Kind: book.BeginOpening, Job: "c", Subject: "new", Value: `{"id": "N"}`})
	counts(map[string]int{"": 1, "go": 21, "wait": 1})
	stale("c.3", "new")
	save("c.3", "wait")
	save("new", "go")
	keep(t, b, book.Change{Kind: book.Set, Subject: "c", Path: "customer", Value: "x"})
	if list, err := b.Stale(t.Context(), "", 1000); err != nil || len(list) != 23 {
		t.Error("what all share was changed:", len(list), err)
	}
	for _, statement := range []string{"UPDATE tally SET n = n + 1 WHERE state = 'wait'", "UPDATE standing SET stale = 0 WHERE part = (SELECT n FROM part WHERE key = 'c.5')", "DELETE FROM standing WHERE part = (SELECT n FROM part WHERE key = 'c.6')"} {
		if _, err := b.Database().Exec(statement); err != nil {
			t.Fatal(err)
		}
		if v, err := b.Verify(t.Context(), ""); err != nil || len(v.Faults) == 0 {
			t.Errorf("%s: nobody finds it: %v", statement, err)
		}
	}
}

// A list narrows to what a search finds, and to what something is missing of.
func TestListNarrows(t *testing.T) {
	b, _ := clinic(t)
	head, _, _ := b.Head(t.Context())
	if err := b.SaveSummary(t.Context(), "c.2", head, book.Summary{State: "go", Missing: 2}); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		f    book.Filter
		want int
	}{{book.Filter{Job: "c", Words: "corridor toil"}, 2}, {book.Filter{Job: "c", Words: "no-such-word"}, 0}, {book.Filter{Job: "c", Words: "?!"}, 0}, {book.Filter{Missing: true}, 1}, {book.Filter{Missing: true, Words: "stair quay"}, 0}} {
		if list, err := b.List(t.Context(), c.f); err != nil || len(list) != c.want {
			t.Errorf("%+v: %d, %v", c.f, len(list), err)
		}
	}
}

func TestUpdate(t *testing.T) {
	b, files := clinic(t)
	base, _, _ := b.Head(t.Context())
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.1", Path: "leaf.width", Value: "36 in"})
	keep(t, b, book.Change{Kind: book.Set, Subject: "c.2", Path: "name", Value: "Another"})
	text := files.Texts["job.yaml"]
	text = strings.Replace(text, "width: 35-3/4 in ± 1/16 in", "width: 35 in", 1)
	text = strings.Replace(text, "site: 12 Harbour Street", "site: 14 Harbour Street", 1) + "  - id: last # new\n"
	edited := &book.Files{Name: "job.yaml", Texts: map[string]string{}}
	for name, t := range files.Texts {
		edited.Texts[name] = t
	}
	edited.Texts["job.yaml"] = text
	got, err := b.Update(t.Context(), noon, marlow, "c", base, edited)
	if err != nil || len(got) != 3 || got[0].Outcome != book.Kept || got[1].Outcome != book.Conflict || got[2].Outcome != book.Kept {
		t.Fatalf("%+v, %v", got, err)
	}
	if _, err := b.Find(t.Context(), "c", "last"); err != nil {
		t.Error(err)
	}
	sound(t, b)
}

func TestOpenWrong(t *testing.T) {
	ctx := context.Background()
	if _, err := book.Open(ctx, t.TempDir()); err == nil || !strings.Contains(err.Error(), "no book") {
		t.Error(err)
	}
	b, dir := newBook(t)
	if _, err := book.Create(ctx, dir); err == nil || !strings.Contains(err.Error(), "not empty") {
		t.Error(err)
	}
	b.Close()
	if err := os.WriteFile(dir+"/book.sqlite", []byte(strings.Repeat("no book at all\n", 1000)), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := book.Open(ctx, dir); !errors.Is(err, book.ErrDamaged) {
		t.Error(err)
	}
}
