package packet

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the papers in testdata anew")

// The papers in testdata were looked at, as people see them, before their words were
// kept. Words must be the same; numbers within a hundredth of themselves or 0.02, which
// machines that round otherwise do not reach.
func TestDemoPapersSayWhatTheyDid(t *testing.T) {
	for _, id := range []string{"105", "108", "111"} {
		got := text(Make(made(t, id), usual))
		file := filepath.Join("testdata", id+".txt")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		kept, err := os.ReadFile(file)
		if err != nil {
			t.Fatalf("%v; write it with go test ./packet -update", err)
		}
		a, b := strings.Split(got, "\n"), strings.Split(string(kept), "\n")
		for i := range max(len(a), len(b)) {
			if i >= len(a) || i >= len(b) || !alike(a[i], b[i]) {
				t.Errorf("%s parts from the papers at line %d; look at the new pages, then go test ./packet -update\n got %q\nkept %q", file, i+1, at(a, i), at(b, i))
				break
			}
		}
	}
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "(nothing)"
}

var numbers = regexp.MustCompile(`\d+(\.\d+)?`)

// alike tells lines of the same words and nearly the same numbers.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	if numbers.ReplaceAllString(a, "#") != numbers.ReplaceAllString(b, "#") {
		return false
	}
	x, y := numbers.FindAllString(a, -1), numbers.FindAllString(b, -1)
	for i := range x {
		p, _ := strconv.ParseFloat(x[i], 64)
		r, _ := strconv.ParseFloat(y[i], 64)
		if math.Abs(p-r) > max(0.02, 0.01*math.Abs(r)) {
			return false
		}
	}
	return true
}

// The commissioning sheet has the trade's 26 measurements in their order, and those of
// the fire alarm and the lock only where there are any.
func TestMeasurementsAreThoseOfTheOpening(t *testing.T) {
	for i, m := range measurements {
		if want := "T" + strconv.Itoa(i+1); m.name != want {
			t.Errorf("measurement %d is %s, wants %s", i+1, m.name, want)
		}
	}
	for id, want := range map[string]map[string]bool{
		"108": {"T5": true, "T19": true, "T20": true},
		"101": {"T5": true, "T19": false, "T20": false},
		"112": {"T5": false, "T8": true, "T20": false},
	} {
		s := newSheet(made(t, id), usual)
		for i := range measurements {
			m := &measurements[i]
			if there, asked := want[m.name]; asked && m.where(s) != there {
				t.Errorf("opening %s: %s is there: %v, wants %v", id, m.name, !there, there)
			}
		}
	}
}
