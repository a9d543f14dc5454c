package book_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/book"
	_ "swingwright/internal/steady"
	"swingwright/job/amend"
)

// model is a book as simple as can be: a list of states, each a map.
type model struct {
	states  []map[string]door // after each revision; the first is that of the import
	head    int64             // the revision of the last state
	touched map[string][]touch
	open    map[string][]touch // conflicts
	known   map[string]book.Receipt
	queue   map[string]int64 // numbers of the devices
}

type door struct {
	fields   map[string]string
	readings []string
	notes    []string
	state    book.State
}

type touch struct {
	n            int64
	path, device string
}

func (d door) clone() door {
	c := d
	c.fields = map[string]string{}
	for k, v := range d.fields {
		c.fields[k] = v
	}
	c.readings, c.notes = slices.Clone(d.readings), slices.Clone(d.notes)
	return c
}

func (m *model) now() map[string]door { return m.states[len(m.states)-1] }

// plainFields are the fields that the changes are about, none inside another.
var plainFields = []string{"name", "leaf.width", "leaf.weight", "closer.size", "survey.said"}

// said is the value of a field that people may have entered.
func said(t *rapid.T, path string) string {
	switch path {
	case "name", "survey.said":
		return amend.Text(rapid.StringMatching(`[\PCé½±"'#:,\[\]{}&*!|>%@~ -]{1,12}`).Draw(t, "text"))
	case "leaf.weight":
		return fmt.Sprint(rapid.IntRange(90, 93).Draw(t, "weight"), " lb")
	case "closer.size":
		return fmt.Sprint(rapid.IntRange(1, 3).Draw(t, "size"))
	}
	return fmt.Sprint(rapid.IntRange(30, 33).Draw(t, "width"), " in")
}

// carryOut says what the change has to come to, and makes the model so.
func (m *model) carryOut(c book.Change) book.Outcome {
	m.head++
	next := map[string]door{}
	for k, v := range m.now() {
		next[k] = v
	}
	m.states = append(m.states, next)
	d := next[c.Subject].clone()
	value, _ := amend.Get("v: "+c.Value+"\n", "v")
	scalar := amend.Plain("v: "+c.Value+"\n", "v")[0]
	unseen := func(meets func(touch) bool) bool {
		return slices.ContainsFunc(m.touched[c.Subject], func(o touch) bool {
			return o.n > c.Base && o.device != c.Device && meets(o)
		})
	}
	path := c.Path
	switch c.Kind {
	case book.Note:
		d.notes = append(d.notes, c.Value)
		next[c.Subject] = d
		return book.Kept
	case book.Set:
		switch {
		case d.fields[path] == scalar:
			return book.Same
		case unseen(func(o touch) bool { return o.path == path || o.path == "" }):
			m.open[c.Subject] = append(m.open[c.Subject], touch{n: m.head, path: path})
			return book.Conflict
		}
		d.fields[path] = scalar
	case book.Resolve:
		if unseen(func(o touch) bool { return o.path == path || o.path == "" }) {
			m.open[c.Subject] = append(m.open[c.Subject], touch{n: m.head, path: path})
			return book.Conflict
		}
		d.fields[path] = scalar
		m.open[c.Subject] = slices.DeleteFunc(slices.Clone(m.open[c.Subject]), func(o touch) bool { return o.path == path && o.n <= c.Base })
	case book.Add:
		if unseen(func(o touch) bool { return o.path == "" }) {
			m.open[c.Subject] = append(m.open[c.Subject], touch{n: m.head, path: path})
			return book.Conflict
		}
		d.readings = append(d.readings, value)
	case book.Withdraw, book.Restore:
		state := map[book.Kind]book.State{book.Withdraw: book.Withdrawn, book.Restore: book.Live}[c.Kind]
		switch {
		case d.state == state:
			return book.Same
		case unseen(func(touch) bool { return true }):
			m.open[c.Subject] = append(m.open[c.Subject], touch{n: m.head})
			return book.Conflict
		}
		d.state = state
	}
	next[c.Subject] = d
	m.touched[c.Subject] = append(m.touched[c.Subject], touch{m.head, path, c.Device})
	return book.Kept
}

// Whatever is entered in whatever order, by devices that know more or less of each
// other, sent once or again: the book is as the model says, at every revision.
func TestModel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dir, err := tempDir(t)
		if err != nil {
			t.Fatal(err)
		}
		b, err := book.Create(background, dir)
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		const file = "job: x # a\nopenings:\n  # one\n  - id: a\n    leaf: {width: 1 in} # w\n  - id: b\n    readings:\n      - {fact: closing.time_90_to_10, value: 1 s}\n  # end\nnotes: {z: y}\n"
		if err := b.Import(background, noon, marlow, "j", &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": file}}); err != nil {
			t.Fatal(err)
		}
		m := &model{touched: map[string][]touch{}, open: map[string][]touch{}, known: map[string]book.Receipt{}, queue: map[string]int64{}}
		m.head, _, _ = b.Head(background)
		first := m.head
		m.states = []map[string]door{{
			"j.1": {fields: map[string]string{"leaf.width": "1 in"}, state: book.Live},
			"j.2": {fields: map[string]string{}, readings: []string{"{fact: closing.time_90_to_10, value: 1 s}"}, state: book.Live},
		}}
		var sent []book.Change
		for range rapid.IntRange(1, 30).Draw(t, "changes") {
			if len(sent) > 0 && rapid.IntRange(0, 3).Draw(t, "again") == 0 {
				c := rapid.SampledFrom(sent).Draw(t, "which")
				r, err := b.Apply(background, noon, c)
				want := m.known[c.ID]
				want.Again = true
				if err != nil || r[0] != want {
					t.Fatalf("again: %+v, want %+v, %v", r, want, err)
				}
				continue
			}
			device := rapid.SampledFrom([]string{"phone", "tablet"}).Draw(t, "device")
			c := whole(book.Change{
				ID:      fmt.Sprint("c", len(sent)),
				Kind:    rapid.SampledFrom([]book.Kind{book.Set, book.Set, book.Set, book.Add, book.Note, book.Resolve, book.Withdraw, book.Restore}).Draw(t, "kind"),
				Subject: rapid.SampledFrom([]string{"j.1", "j.2"}).Draw(t, "subject"),
				Device:  device, Seq: m.queue[device] + 1,
				Base: rapid.Int64Range(first, m.head).Draw(t, "base"),
			})
			switch c.Kind {
			case book.Set, book.Resolve:
				c.Path = rapid.SampledFrom(plainFields).Draw(t, "path")
				c.Value = said(t, c.Path)
			case book.Add:
				c.Path, c.Value = "readings", fmt.Sprintf("{fact: closing.time_90_to_10, value: %d s}", len(sent)+2)
			case book.Note:
				c.Value = "note " + c.ID
			}
			r, err := b.Apply(background, noon, c)
			if err != nil {
				t.Fatal(err)
			}
			sent, m.known[c.ID] = append(sent, c), r[0]
			m.queue[device]++
			if want := m.carryOut(c); r[0].Outcome != want || r[0].Revision != m.head {
				t.Fatalf("%+v became %+v, the model says %s at %d", c, r[0], want, m.head)
			}
		}
		for i, state := range m.states {
			same(t, b, first+int64(i), state)
		}
		for key, open := range m.open {
			list, err := b.Disputes(background, key, 100)
			if err != nil || len(list) != len(open) {
				t.Fatalf("%d conflicts are open, the model has %d, %v", len(list), len(open), err)
			}
			for i := range list {
				if list[i].Change.N != open[i].n || list[i].Against.N == 0 {
					t.Fatalf("%+v, %+v", list[i], open[i])
				}
			}
		}
		v, err := b.Verify(background, "")
		if err != nil || len(v.Faults) > 0 {
			t.Fatal(v, err)
		}
		if files, _, err := b.Export(background, "j", first); err != nil || files.Texts["job.yaml"] != file {
			t.Fatalf("the file that was imported is\n%s\n%v", files.Texts["job.yaml"], err)
		}
		files, _, err := b.Export(background, "j", 0)
		if err != nil || !strings.Contains(files.Texts["job.yaml"], "\nnotes: {z: y}\n") || !strings.HasPrefix(files.Texts["job.yaml"], "job: x # a\n") {
			t.Fatalf("%s\n%v", files.Texts["job.yaml"], err)
		}
	})
}

// same compares a state of the book with one of the model.
func same(t *rapid.T, b *book.Book, n int64, want map[string]door) {
	for key, d := range want {
		p, err := b.At(background, key, n)
		if err != nil {
			t.Fatal(err)
		}
		if p.State != d.state {
			t.Fatalf("revision %d: %s is %s, the model says %s", n, key, p.State, d.state)
		}
		for _, path := range plainFields {
			if got := amend.Plain(p.Text, path)[0]; got != d.fields[path] {
				t.Fatalf("revision %d: %s of %s is %q, the model says %q in\n%s", n, path, key, got, d.fields[path], p.Text)
			}
		}
		for i := range len(d.readings) + 1 {
			got, there := amend.Get(p.Text, fmt.Sprintf("readings[%d]", i))
			if there != (i < len(d.readings)) || there && got != d.readings[i] {
				t.Fatalf("revision %d: reading %d of %s is %q", n, i, key, got)
			}
		}
		if key == "j.1" && !strings.Contains(p.Text, "# one\n") || !strings.Contains(p.Text, map[string]string{"j.1": "# w\n", "j.2": "- id: b"}[key]) {
			t.Fatalf("a comment is gone:\n%s", p.Text)
		}
		list, err := b.Annotations(background, key)
		if err != nil {
			t.Fatal(err)
		}
		var notes []string
		for _, a := range list {
			if a.N <= n {
				notes = append(notes, a.Value)
			}
		}
		if !slices.Equal(notes, d.notes) {
			t.Fatalf("revision %d: the notes of %s are %q, the model says %q", n, key, notes, d.notes)
		}
	}
}
