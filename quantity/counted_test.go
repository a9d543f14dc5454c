package quantity

import "testing"

func TestCounted(t *testing.T) {
	for n, want := range map[int]string{0: "0 rules are open", 1: "1 rule is open", 2: "2 rules are open"} {
		if got := Counted(n, "rule is open", "rules are open"); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}
