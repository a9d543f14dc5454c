package job

import (
	"fmt"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/fact"
	"swingwright/quantity"
)

// A thing is something that has a name in a job: an opening, or a sheet of some
// sort. The sorts are those of the tags names and ref.
type thing struct{ sort, name string }

// A reference is the use of a thing's name.
type reference struct {
	thing
	place Place
	field string
}

// name notes that the text n names a thing.
func (w *walker) name(n *yaml.Node, t thing) {
	if first, again := w.names[t]; again {
		w.wrong(n, quantity.Quote(n.Value)+" again", "a name of its own for each "+t.sort, "the other one is at "+first.String())
		return
	}
	w.names[t] = w.place(n)
}

// checkReferences reports names that nothing has.
func (r *reader) checkReferences() {
	known := map[string][]string{"fact": fact.Names()}
	for t := range r.names {
		known[t.sort] = append(known[t.sort], t.name)
	}
	for _, names := range known {
		slices.Sort(names) // the nearest name must not depend on the order of a map
	}
	comparisons := 0
	for _, ref := range r.references {
		names := known[ref.sort]
		if _, found := slices.BinarySearch(names, ref.name); found || r.problems.full() {
			continue
		}
		if r.elsewhere != nil && r.elsewhere(ref.sort, ref.name) {
			continue
		}
		p := Problem{Place: ref.place, Field: ref.field, Found: quantity.Quote(ref.name), Needed: neededName(ref.sort)}
		if comparisons += len(names); comparisons <= mostComparisons {
			p.Hint = hintName(ref, names)
		}
		r.problems.add(p)
	}
}

// mostComparisons with names are made for hints, about a second's worth: the
// hundredth wrong name in a job of thousands needs no hint more.
const mostComparisons = 2_000_000

func neededName(sort string) string {
	switch sort {
	case "opening":
		return "the id of an opening of this job"
	case "fact":
		return "the name of a fact, such as closing.time_90_to_10"
	}
	return "the name of " + Article(sort) + " sheet"
}

func hintName(ref reference, known []string) string {
	if hint := DidYouMean(ref.name, known); hint != "" {
		return hint
	}
	const few = 8
	switch {
	case len(known) == 0:
		return "no sheet of this sort was read; write one under sheets, or list its file under sheet_files"
	case len(known) <= few:
		return "there are " + strings.Join(known, ", ")
	}
	return fmt.Sprintf("none of the %d names is near it", len(known))
}
