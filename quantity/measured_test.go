package quantity

import "testing"

func TestMeasured(t *testing.T) {
	blank := Measured[Mass]{}
	weighed := Give(50*Kilogram, 1*Kilogram)
	entered := Measured[Mass]{Value: 50, Known: true}

	if got := blank.Or(weighed); got != weighed {
		t.Errorf("a blank falls back to %+v, want the fallback", got)
	}
	if got := weighed.Or(blank); got != weighed {
		t.Errorf("a known value falls back to %+v, want itself", got)
	}
	if got := entered.WithSpread(4); got.U != 4 || got.Stated {
		t.Errorf("a value without spread becomes %+v, want U 4, still not stated", got)
	}
	for _, m := range []Measured[Mass]{weighed, blank, Exactly[Mass](50)} {
		if got := m.WithSpread(4); got != m {
			t.Errorf("%+v becomes %+v, want no change", m, got)
		}
	}
}
