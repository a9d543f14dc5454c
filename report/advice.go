package report

import (
	"swingwright/judge"
	"swingwright/quantity"
)

// advised is a verdict on what is common practice or a recommendation: it warns
// and fails nothing.
func advised(v judge.Verdict) string { return hold(markOf(v, true) + " " + v.String()) }

// seconds is a time with twice its standard uncertainty; zero is left out.
func seconds(t, u quantity.Time) string {
	return hold(quantity.Display(quantity.DimTime, float64(t), float64(u), true, quantity.SI))
}

// tenths is a reckoned time, which nobody takes more closely.
func tenths(t quantity.Time) string { return hold(quantity.FormatValue(t, quantity.SI, 1)) }
