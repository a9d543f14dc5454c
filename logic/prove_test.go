package logic

import (
	"slices"
	"strings"
	"testing"
)

// TestTrials proves every trial and holds the rules that it breaks against those
// that it has to.
func TestTrials(t *testing.T) {
	for _, c := range trials() {
		t.Run(c.name, func(t *testing.T) {
			p, err := Prove(&c.rig.Wiring, c.doors, Effort{Tick: c.tick})
			if err != nil {
				t.Fatal(err)
			}
			var got []Rule
			for _, v := range p.Broken() {
				got = append(got, v.Rule)
			}
			want := slices.Clone(c.broke)
			slices.Sort(want)
			t.Logf("%d states, %d steps, tick %v, complete %v", p.States, p.Steps, p.Machine.Tick, p.Complete)
			if !p.Complete {
				t.Error("not every state was looked at")
			}
			if slices.Equal(got, want) {
				return
			}
			for _, v := range p.Broken() {
				t.Logf("%s: %s\n  %s\n  %s", v.Rule.Key(), v.Rule, v.Symptom, strings.Join(v.Story.Text(), "\n  "))
			}
			t.Errorf("broke %v, want %v", keys(got), keys(want))
		})
	}
}

func keys(rs []Rule) (s []string) {
	for _, r := range rs {
		s = append(s, r.Key())
	}
	return s
}
