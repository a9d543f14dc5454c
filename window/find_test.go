package window

import "testing"

func TestPrint(t *testing.T) {
	var f Finder
	q := typical()
	q.Demands[1].Limit = 5 * 4.448
	for i := 2; i < 5; i++ {
		q.Demands[i].Limit = 14
	}
	q.Arms = []Arm{{"other", q.Values, q.Link}}
	a, err := f.Find(&q)
	if err != nil {
		t.Fatal(err)
	}
	for _, h := range a.Held {
		t.Logf("%-9s %.4f", h.Demand.Name, h.Span)
	}
	t.Logf("window %.4f", a.Window)
	for _, c := range a.Conflicts {
		for _, g := range c.Of {
			t.Logf("  conflict %s by %.3f %v", g.Demand.Name, g.By, g.Enough)
		}
		t.Log("--")
	}
	for _, c := range a.Changes {
		t.Logf("change %v %.3f → %.3f share %.4f opens %v window %.4f waived %v", c.Kind, c.From, c.To, c.Share, c.Opens, c.Window, c.Waived)
	}
}

func BenchmarkConflict(b *testing.B) {
	q := typical()
	q.Demands[1].Limit = 5 * 4.448
	for i := 2; i < 5; i++ {
		q.Demands[i].Limit = 14
	}
	var f Finder
	for b.Loop() {
		f.Find(&q)
	}
}
