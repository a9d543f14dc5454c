package logic

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// spin compiles a model with more flags and returns a run of it, with more
// arguments: what it printed. The rules in the upper half of the set are those asked
// for as the standby battery runs low.
func spin(t *testing.T, model string, flags ...string) func(set rules, args ...string) string {
	t.Helper()
	dir := t.TempDir()
	run := func(env []string, name string, args ...string) string {
		cmd := exec.Command(name, args...)
		cmd.Dir, cmd.Env = dir, append(os.Environ(), env...)
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%.3000s", name, err, out)
		}
		return string(out)
	}
	if err := os.WriteFile(filepath.Join(dir, "wiring.pml"), []byte(model), 0o644); err != nil {
		t.Fatal(err)
	}
	run(nil, "spin", "-a", "wiring.pml")
	run(nil, "gcc", append(flags, "-w", "-DNOREDUCE", "-DVECTORSZ=2048", "-o", "pan", "pan.c")...)
	return func(set rules, args ...string) string {
		return run([]string{fmt.Sprintf("RULES=%d", uint32(set)), fmt.Sprintf("RULESLOW=%d", set>>sagShift)}, "./pan", append(args, "-m1000000", "-w22", "-n")...)
	}
}

var (
	violated = regexp.MustCompile(`assertion violated.*\(at depth (\d+)\)`)
	noErrors = regexp.MustCompile(`errors: 0`)
	unrest   = regexp.MustCompile(`non-progress cycle`)
)

// shortest is spin's depth of the first breach of one of the rules, -1 where there is none.
func shortest(t *testing.T, out string) int {
	t.Helper()
	if found := violated.FindStringSubmatch(out); found != nil {
		n, _ := strconv.Atoi(found[1])
		return n
	}
	if !noErrors.MatchString(out) {
		t.Fatalf("the checker came to no verdict:\n%.3000s", out)
	}
	return -1
}

// deep is spin's depth after so many events: each is three steps of its, after
// two for the beginning.
func deep(events int) int { return 3*events + 2 }

// needsSpin skips or fails a test where spin is not to be run, or missing.
func needsSpin(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("spin and a C compiler take some minutes")
	}
	if _, err := exec.LookPath("spin"); err != nil {
		t.Fatal("no spin found, which this test needs; install it (Debian: apt-get install spin) or pass -short")
	}
}

// TestSpin holds the verdicts, and the lengths of the shortest ways to a breach,
// against those of the model checker spin.
func TestSpin(t *testing.T) {
	needsSpin(t)
	for _, c := range trials() {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := provedFor(t, c)
			check := spin(t, promelaOf(&c.rig.Wiring, c.doors, p.Machine, false), "-O0", "-DBFS", "-DSAFETY")
			var sound rules
			for _, v := range p.Verdicts {
				if v.Applies && !v.Broken && v.Rule != ComesToRest && v.Rule != LowBattery {
					sound |= 1 << v.Rule
				}
			}
			low := sound << sagShift
			for _, v := range p.Verdicts {
				set := rules(1) << v.Rule
				switch {
				case v.Rule == ComesToRest, !v.Broken && !v.Undone:
					continue
				case v.Rule == LowBattery:
					set, low = low, 0
				}
				if n := shortest(t, check(set)); n != deep(v.Story.Events) {
					t.Errorf("%s is broken in %d events, depth %d; spin's shortest way has depth %d (-1: none)", v.Rule.Key(), v.Story.Events, deep(v.Story.Events), n)
				}
			}
			if n := shortest(t, check(sound|low)); n >= 0 {
				t.Errorf("a rule that holds is broken at spin's depth %d", n)
			}
		})
	}
}

// TestSpinComesToRest holds the verdict that all comes to rest against spin's: once
// people have withdrawn for good, no run may go on for ever without coming to rest
// (no non-progress cycle, Holzmann, The SPIN Model Checker, 2003, chapter 4); one that
// stands still elsewhere goes on so for ever.
func TestSpinComesToRest(t *testing.T) {
	needsSpin(t)
	for _, c := range trials() {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := provedFor(t, c)
			out := spin(t, promelaOf(&c.rig.Wiring, c.doors, p.Machine, true), "-O1", "-DNP")(0, "-l")
			rests := noErrors.MatchString(out)
			if !rests && !unrest.MatchString(out) || strings.Contains(out, "max search depth too small") {
				t.Fatalf("the checker came to no verdict:\n%.3000s", out)
			}
			if rests == p.Verdicts[ComesToRest].Broken {
				t.Errorf("comes to rest: %v; by spin: %v", !p.Verdicts[ComesToRest].Broken, rests)
			}
		})
	}
}

// provedFor is the proof of a trial with a step of time that spin can follow, too.
func provedFor(t *testing.T, c trial) *Proof {
	t.Helper()
	p, err := Prove(&c.rig.Wiring, c.doors, Effort{Tick: max(c.tick, 0.25)})
	if err != nil || !p.Complete {
		t.Fatal("not proved", err)
	}
	return p
}
