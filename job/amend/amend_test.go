package amend_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "swingwright/internal/steady"
	"swingwright/job/amend"
)

const front = `# A job
job: Harbour Street   # its name

# When
date: 2026-11-25
openings:
`

const door = `  # The first door.
  - id: "101"
    name: Corridor   # to the waiting room
    use: {place: interior, egress: yes}
    leaf:
      width: 35-3/4"
      # Taped twice.
      height: 83-3/4 in # at the latch edge

    closer:
    frame: { hand: RH }
    readings:
      - {fact: opening.force, value: 4 lbf} # one
      # the second one
      - {fact: opening.force, value: 5 lbf}
    survey:
      heard: |
        a knock
        # not a comment
      said: "to # be \" honest"
`

// Each change as it stands in the file afterwards: what was cut, what was put.
func TestChanges(t *testing.T) {
	set, add := amend.Set, amend.Add
	remove := func(text, path, _ string) (amend.Splice, error) { return amend.Remove(text, path) }
	for _, c := range []struct {
		do                func(text, path, value string) (amend.Splice, error)
		text, path, value string
		old, new          string // lines of the text before and after, as far as they differ
	}{
		{set, door, "name", "Hall", "name: Corridor   # to", "name: Hall   # to"},
		{set, door, "id", `"102"`, `id: "101"`, `id: 102`},
		{set, door, "leaf.width", amend.Text(`36"`), `width: 35-3/4"`, `width: 36"`},
		{set, door, "leaf.height", "84 in", "height: 83-3/4 in #", "height: 84 in #"},
		{set, door, "leaf.height", "", "height: 83-3/4 in # at", "height: # at"},
		{set, door, "leaf.weight", "118 lb ± 4 lb", "edge\n", "edge\n      weight: 118 lb ± 4 lb\n"},
		{set, door, "closer.size", "3", "closer:\n", "closer:\n      size: 3\n"},
		{set, door, "closer", "{size: 3, gauged: [{angle: 90 deg}]}", "closer:\n", "closer:\n      size: 3\n      gauged:\n        - {angle: 90 deg}\n"},
		{set, door, "use.place", "exterior", "interior", "exterior"},
		{set, door, "use.operation", "low-energy", "egress: yes}", "egress: yes, operation: low-energy}"},
		{set, door, "use.egress", "", "egress: yes}", "egress: }"},
		{set, door, "frame.proud", "1 in", "{ hand: RH }", "{ hand: RH, proud: 1 in }"},
		{set, door, "air.pressure", "3 Pa", "honest\"\n", "honest\"\n    air:\n      pressure: 3 Pa\n"},
		{set, door, "survey.heard", "nothing", "|\n        a knock\n        # not a comment\n", "nothing\n"},
		{set, door, "survey.said", amend.Text("#5: *"), `"to # be \" honest"`, `"#5: *"`},
		{set, door, "readings[1].value", "6 lbf", "5 lbf", "6 lbf"},
		{set, door, "leaf", "{width: 36 in}", "\n      width: 35-3/4\"\n      # Taped twice.\n      height: 83-3/4 in # at the latch edge\n", "\n      width: 36 in\n"},
		{add, door, "readings", "{fact: opening.force, value: 6 lbf}", "value: 5 lbf}\n", "value: 5 lbf}\n      - {fact: opening.force, value: 6 lbf}\n"},
		{add, door, "adjustments", "{size: 4}", "honest\"\n", "honest\"\n    adjustments:\n      - {size: 4}\n"},
		{add, door, "use.list", "a", "yes}", "yes, list: [a]}"},
		{remove, door, "readings[0]", "", "      - {fact: opening.force, value: 4 lbf} # one\n", ""},
		{set, front, "customer", "Clinic", "2026-11-25\n", "2026-11-25\ncustomer: Clinic\n"},
		{set, front, "job", "Quay", "Harbour Street   #", "Quay   #"},
		{add, "a: [x, y]\n", "a", "z", "y]", "y, z]"},
		{remove, "a: [x, y]\n", "a[0]", "", "x, ", ""},
		{remove, "a: [x, y]\n", "a[1]", "", ", y", ""},
		{remove, "a: [x]\n", "a[0]", "", "[x]", "[]"},
		{remove, "a:\n  - x\nb: c\n", "a[0]", "", "a:\n  - x\n", "a: []\n"},
		{set, "a:\r\n  b: c\r\n", "a.d", "e", "c\r\n", "c\r\n  d: e\r\n"},
		{set, "\ufeffa: é\nb: c\n", "a", "x", "é", "x"},
		{set, "a: one\n  two\nb: c\n", "a", "x", "one\n  two", "x"},
		{set, "a: b", "c", "d", "a: b", "a: b\nc: d"},
		{set, "a: {b: c\n  , d: 3'-0\"} # e\n", "a.d", "f", "3'-0\"", "f"},
	} {
		t.Run(fmt.Sprint(c.path, " ", c.value), func(t *testing.T) {
			if strings.Count(c.text, c.old) != 1 {
				t.Fatalf("the text holds %q %d times", c.old, strings.Count(c.text, c.old))
			}
			want := strings.Replace(c.text, c.old, c.new, 1)
			s, err := c.do(c.text, c.path, c.value)
			if err != nil {
				t.Fatal(err)
			}
			got, err := s.Apply(c.text)
			if err != nil || got != want {
				t.Errorf("got:\n%s\nwant:\n%s\n%v", got, want, err)
			}
			if back, err := s.Undo(got); err != nil || back != c.text {
				t.Errorf("undone: %v\n%s", err, back)
			}
		})
	}
}

func TestWrong(t *testing.T) {
	for _, c := range []struct{ path, value, want string }{
		{"leaf.width.deep", "1", "plain value"}, {"readings[7].value", "1", "no such item"}, {"", "1", "no path"},
		{"a[", "1", "without its ]"}, {"a[x]", "1", "no number"}, {"a[1]b", "1", "after a ]"}, {"name", "*x", "YAML"}, {"name", "!x y", "tag"}, {"name", "{", "YAML"},
	} {
		if _, err := amend.Set(door, c.path, c.value); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.path, err)
		}
	}
	for _, path := range []string{"name", "readings[2]", "none[0]"} {
		if _, err := amend.Remove(door, path); err == nil {
			t.Errorf("%s was removed", path)
		}
	}
	if _, err := (amend.Splice{At: 2, Cut: "x"}).Apply("abc"); err == nil {
		t.Error("a splice fits a text that it was not made for")
	}
}

func TestSplitDemo(t *testing.T) {
	text, err := os.ReadFile("../../demo/harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	j, err := amend.Split(string(text))
	if err != nil || j.String() != string(text) {
		t.Fatalf("%d openings, %v", len(j.Openings), err)
	}
	if n := strings.Count(string(text), "\n  - id: "); len(j.Openings) == 0 || len(j.Openings) > n {
		t.Errorf("%d openings of %d", len(j.Openings), n)
	}
	if !strings.HasPrefix(j.Openings[0], "  # A hollow metal leaf in good order") {
		t.Errorf("the comment of the first opening is elsewhere:\n%.80s", j.Openings[0])
	}
}

func TestSplit(t *testing.T) {
	for text, want := range map[string]int{
		"job: x\nopenings:\n- id: 1\n- id: 2\n":                                               2,
		"job: x\nopenings:\n  -\n    # c\n    id: 1\n  # d\n\n  - id: 2\nnotes: {a: b}\n":     2,
		"job: x\nopenings:\n  - id: 1\n    name: |\n      a\n      - b\n      # c\n  - id: 2": 2,
		"\ufeffjob: x\r\nopenings:\r\n  - id: 1\r\n  - id: 2\r\n# end\r\n":                    2,
		"job: x\nopenings:\n": 0,
		"job: x\n":            0,
		"job: x\nopenings:\n  - id: 1\n    name: \"a\n  # b\n  - c\"\n  - id: 2\n    leaf: {}\n": 2,
	} {
		j, err := amend.Split(text)
		if err != nil || len(j.Openings) != want || j.String() != text {
			t.Errorf("%q: %d openings, %v\n%q", text, len(j.Openings), err, j)
		}
	}
	if _, err := amend.Split("job: x\nopenings: [{id: 1}]\n"); err == nil {
		t.Error("openings between brackets are cut")
	}
}

// Whatever is set anywhere in the example, all comments stay and the text read
// again has the value; Set itself sees to it that nothing else has another one.
func TestCommentsStay(t *testing.T) {
	text, err := os.ReadFile("../../demo/harbour-street-clinic/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	j, err := amend.Split(string(text))
	if err != nil {
		t.Fatal(err)
	}
	paths := []string{"name", "use.place", "leaf.width", "leaf.weight", "closer.size", "closer.sweep_time", "frame.hand", "survey.bolts", "survey.new", "room.stops_at", "service.inspected", "air.pressure", "power.distance", "doorway.threshold.height"}
	rapid.Check(t, func(t *rapid.T) {
		opening := rapid.SampledFrom(j.Openings).Draw(t, "opening")
		now := opening
		var undo []amend.Splice
		for range 6 {
			path := rapid.SampledFrom(paths).Draw(t, "path")
			value := rapid.StringMatching(`[\PCé½±"'#:,\[\]{}&*!|>%@~ -]{1,20}`).Draw(t, "value")
			s, err := amend.Set(now, path, amend.Text(value))
			if err != nil {
				t.Fatal(err)
			}
			if now, err = s.Apply(now); err != nil {
				t.Fatal(err)
			}
			if got := amend.Plain(now, path)[0]; got != value {
				t.Fatalf("%s is %q, not %q", path, got, value)
			}
			undo = append(undo, s)
		}
		for line := range strings.Lines(opening) {
			if c := strings.TrimSpace(line); strings.HasPrefix(c, "#") && !strings.Contains(now, c) {
				t.Fatalf("the comment %q is gone:\n%s", c, now)
			}
		}
		for i := len(undo) - 1; i >= 0; i-- {
			if now, err = undo[i].Undo(now); err != nil {
				t.Fatal(err)
			}
		}
		if now != opening {
			t.Fatal("undone, the opening is another one")
		}
	})
}

// Every text is a value and a key, whatever it holds, and is read again as it was.
func TestAnyText(t *testing.T) {
	any := rapid.Custom(func(t *rapid.T) string {
		return rapid.StringOfN(rapid.OneOf(rapid.Rune(), rapid.RuneFrom([]rune("\x00\x7f\u0085\u009f\ufeff\ufffe\uffff\u2028\n\r\t <>&.[]\"'"))), 0, 30, -1).Draw(t, "text")
	})
	rapid.Check(t, func(t *rapid.T) {
		key, value := "k"+any.Draw(t, "key"), any.Draw(t, "value")
		path := amend.Path("survey", key)
		after, err := amend.Fill("id: 1\n", []amend.Change{{Path: path, Value: amend.Text(value)}})
		if err != nil {
			t.Fatal(err)
		}
		if got := amend.Plain(after, path)[0]; got != value {
			t.Fatalf("%s is %q, not %q", path, got, value)
		}
		if one, err := amend.OpeningOf([]amend.Change{{Path: path, Value: amend.Inline(value)}}, 2); err != nil || amend.Plain(one, path)[0] != value {
			t.Fatalf("%q, %v", one, err)
		}
	})
}

// No text makes the package panic, and what it splits it can put together.
func FuzzSplit(f *testing.F) {
	f.Add(front+door, "leaf.width", "36 in")
	f.Add("a: [x, {y: 'z'}]", "a[1].y", "{}")
	f.Fuzz(func(t *testing.T, text, path, value string) {
		if j, err := amend.Split(text); err == nil && j.String() != text {
			t.Errorf("%q became %q", text, j.String())
		}
		if after, err := amend.Fill(text, []amend.Change{{Path: path, Value: amend.Text(value)}, {Path: "fresh.list", Value: "{a: [b]}", Add: true}}); err == nil && utf8.ValidString(value) {
			if got := amend.Plain(after, path, "fresh.list[0].a[0]"); got[0] != value || got[1] != "b" {
				t.Errorf("%q under %s is %q in %q, made of %q", value, path, got, after, text)
			}
		}
		remove := func(text, path, _ string) (amend.Splice, error) { return amend.Remove(text, path) }
		for _, do := range []func(string, string, string) (amend.Splice, error){amend.Set, amend.Add, remove} {
			if s, err := do(text, path, value); err == nil {
				if after, err := s.Apply(text); err != nil {
					t.Errorf("%+v does not fit: %v", s, err)
				} else if back, err := s.Undo(after); err != nil || back != text {
					t.Errorf("%+v cannot be undone: %v", s, err)
				}
			}
		}
	})
}
