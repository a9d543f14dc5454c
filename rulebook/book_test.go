package rulebook

import "testing"

func TestDates(t *testing.T) {
	for _, good := range []string{"2026-11-25", "2002-08", "1997"} {
		if d, err := ParseDate(good); err != nil || string(d) != good {
			t.Errorf("%s: %v, %v", good, d, err)
		}
	}
	for _, bad := range []string{"", "25.11.2026", "2026-13", "2026-02-30", "97", "2026-11-25 ", "today"} {
		if _, err := ParseDate(bad); err == nil {
			t.Errorf("%q was taken for a date", bad)
		}
	}
}

// A year or month that stands for more than a day holds from its first day to its last.
func TestInForce(t *testing.T) {
	cases := []struct {
		from, until, on Date
		want            bool
	}{
		{"1997", "2002-08-24", "1996-12-31", false},
		{"1997", "2002-08-24", "1997-01-01", true},
		{"1997", "2002-08-24", "2002-08-24", true},
		{"1997", "2002-08-24", "2002-08-25", false},
		{"2002-08-25", "2006", "2006-12-31", true},
		{"2002-08-25", "2006", "2007-01-01", false},
		{"2002-08-25", "", "2002-08-24", false},
		{"", "", "1900-01-01", true},
		{"2007-06", "", "2007-05-31", false},
		{"2007-06", "", "2007-06-01", true},
		{"2007-06", "2007-06", "2007", true}, // some day of that year
	}
	for _, c := range cases {
		b := &Book{From: c.from, Until: c.until}
		if got := b.InForce(c.on); got != c.want {
			t.Errorf("from %s until %s, on %s: %v", c.from, c.until, c.on, got)
		}
		if got := len(InForce([]*Book{b}, c.on)) == 1; got != c.want {
			t.Errorf("the list says %v on %s", got, c.on)
		}
	}
}

// Which figures count as confirmed: those compared with published text, and
// those derived from such figures by a stated sum.
func TestConfirmed(t *testing.T) {
	checked := Source{CheckedBy: "somebody", CheckedOn: "2026-11-25"}
	for c, want := range map[Confidence]bool{
		FromMemory: false, CommonPractice: false, Derived: false,
		ReadSecondHand: true, ReadInStandard: true, ReadInLaw: true,
	} {
		s := checked
		s.Confidence = c
		if s.Confirmed() != want {
			t.Errorf("%v: %v", c, s.Confirmed())
		}
		s.CheckedBy = ""
		if s.Confirmed() {
			t.Errorf("%v counts as confirmed though nobody compared it", c)
		}
	}
	derived := checked
	derived.Confidence, derived.How, derived.Inputs = Derived, "the sum of two read figures", true
	if !derived.Confirmed() {
		t.Error("a figure derived from confirmed ones is confirmed")
	}
	derived.How = ""
	if derived.Confirmed() {
		t.Error("a figure derived nobody knows how is not")
	}
}
