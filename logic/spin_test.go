package logic

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

// spin compiles a model and returns a run of it: the number of events to the
// first breach of one of the rules, -1 where there is none.
func spin(t *testing.T, model string) func(set rules) int {
	t.Helper()
	dir := t.TempDir()
	run := func(env string, name string, args ...string) string {
		cmd := exec.Command(name, args...)
		cmd.Dir, cmd.Env = dir, append(os.Environ(), env)
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%.3000s", name, err, out)
		}
		return string(out)
	}
	if err := os.WriteFile(filepath.Join(dir, "wiring.pml"), []byte(model), 0o644); err != nil {
		t.Fatal(err)
	}
	run("", "spin", "-a", "wiring.pml")
	run("", "gcc", "-O1", "-w", "-DBFS", "-DSAFETY", "-DNOREDUCE", "-DVECTORSZ=2048", "-o", "pan", "pan.c")
	return func(set rules) int {
		out := run(fmt.Sprintf("RULES=%d", set), "./pan", "-m1000000", "-w22", "-n")
		found := regexp.MustCompile(`assertion violated.*\(at depth (\d+)\)`).FindStringSubmatch(out)
		if found == nil {
			if !regexp.MustCompile(`errors: 0`).MatchString(out) {
				t.Fatalf("the checker came to no verdict:\n%.3000s", out)
			}
			return -1
		}
		n, _ := strconv.Atoi(found[1])
		return n
	}
}

// deep is spin's depth after so many events: each is three steps of its, after
// two for the beginning.
func deep(events int) int { return 3*events + 2 }

// TestSpin holds the verdicts, and the lengths of the shortest ways to a breach,
// against those of the model checker spin.
func TestSpin(t *testing.T) {
	if testing.Short() {
		t.Skip("spin and a C compiler take a minute")
	}
	if _, err := exec.LookPath("spin"); err != nil {
		t.Fatal("no spin found, which this test needs; install it (Debian: apt-get install spin) or pass -short")
	}
	for _, c := range trials() {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			tick := max(c.tick, 0.25)
			p, err := Prove(&c.rig.Wiring, c.doors, Effort{Tick: tick})
			if err != nil || !p.Complete {
				t.Fatal("not proved", err)
			}
			check := spin(t, promelaOf(&c.rig.Wiring, c.doors, p.Machine))
			var sound rules
			for _, v := range p.Verdicts {
				switch {
				case v.Rule == ComesToRest:
				case !v.Broken:
					sound |= 1 << v.Rule
				default:
					n := check(1 << v.Rule)
					if n != deep(v.Story.Events) {
						t.Errorf("%s is broken in %d events, depth %d; spin's shortest way has depth %d (-1: none)", v.Rule.Key(), v.Story.Events, deep(v.Story.Events), n)
					}
				}
			}
			if n := check(sound); n >= 0 {
				t.Errorf("a rule that holds is broken at spin's depth %d", n)
			}
		})
	}
}
