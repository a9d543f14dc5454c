package reference

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
)

// Page is the page that tells how well this project agrees with what comes from outside,
// as seen from a package one folder down.
const Page = "../docs/validation.md"

// others is the line of the page below which every section belongs to a test of its own.
const others = "<!-- Below, every section is written by a test of the package that it names. -->\n"

// Above is the part of a page that the test of package swing writes, with others' sections
// taken off.
func Above(page string) string {
	above, _, _ := strings.Cut(page, others)
	return above
}

// Below is the rest of it, with the line that parts them.
func Below(page string) string {
	if _, below, ok := strings.Cut(page, others); ok {
		return others + below
	}
	return others
}

var one sync.Mutex

// Section holds a section of the page against text, or writes it there if update: text
// begins with its heading, as "## Stopwatch". The error says that it is stale, or why the
// page cannot be used.
func Section(text, pkg string, update bool) error {
	one.Lock() // tests of a package run beside each other
	defer one.Unlock()
	page, err := os.ReadFile(Page)
	if err != nil {
		return err
	}
	heading, _, _ := strings.Cut(text, "\n")
	sections := strings.Split(strings.TrimPrefix(Below(string(page)), others), "\n## ")
	var kept []string
	found := ""
	for _, s := range sections {
		s = strings.Trim(s, "\n")
		switch {
		case s == "":
		case strings.HasPrefix("## "+s, heading+"\n"):
			found = "## " + s
		default:
			kept = append(kept, s)
		}
	}
	if !update {
		if found != strings.TrimSpace(text) {
			return fmt.Errorf("%s: the section %q is stale; run go test ./%s -run Validation -update", Page, heading, pkg)
		}
		return nil
	}
	kept = append(kept, strings.TrimPrefix(strings.TrimSpace(text), "## "))
	slices.Sort(kept)
	out := Above(string(page)) + others
	for _, s := range kept {
		out += "\n## " + s + "\n"
	}
	return os.WriteFile(Page, []byte(out), 0o644)
}

// StepUp is a figure rounded up to 1, 2 or 5 of its decade, so that a page does not change
// with the last bits.
func StepUp(x float64) string {
	step := 1e-9
	for {
		for _, m := range []float64{1, 2, 5} {
			if x <= step*m*(1+1e-9) {
				return fmt.Sprintf("%.2g", step*m)
			}
		}
		step *= 10
	}
}
