package report

import (
	"swingwright/judge"
	"swingwright/quantity"
)

// advised is a verdict on what is common practice or a recommendation: it warns
// and fails nothing.
func advised(v judge.Verdict) string { return markOf(v, true) + noBreak + hold(v.String()) }

// markOf is a verdict's sign; soft marks a limit that does not fail an opening.
func markOf(v judge.Verdict, soft bool) string {
	switch v {
	case judge.Meets:
		return "ok"
	case judge.FallsShort:
		if soft {
			return "!" + noBreak
		}
		return "!!"
	case judge.TooClose:
		return "??"
	case judge.DoesNotApply:
		return "-" + noBreak
	}
	return ".."
}

// tintFor is a verdict's colour, beside its mark.
func tintFor(v judge.Verdict) tint {
	switch v {
	case judge.Meets:
		return green
	case judge.FallsShort:
		return red
	case judge.DoesNotApply:
		return grey
	}
	return yellow
}

// seconds is a time with twice its standard uncertainty; zero is left out.
func seconds(t, u quantity.Time) string {
	return hold(quantity.Display(quantity.DimTime, float64(t), float64(u), true, quantity.SI))
}

// tenths is a reckoned time, which nobody takes more closely.
func tenths(t quantity.Time) string { return hold(quantity.FormatValue(t, quantity.SI, 1)) }
