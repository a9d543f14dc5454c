package tune

import (
	"errors"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
)

var errDoesNotClose = errors.New("with these springs, frictions and pressures the leaf does not close at any valve setting, but closings were measured: something among them is not as entered")

// A span is a stretch of a closing with the time that it took.
type span struct {
	run      int
	from, to float64 // rad
	time     float64 // s
	latch    bool    // below the latch zone, for the most part
}

// spans are the stretches that show each valve, from laps and curves.
func (w *work) spans(zone float64) (all []span) {
	for i := range w.record.Laps {
		l := &w.record.Laps[i]
		all = append(all, span{w.laps[i], float64(l.From), float64(l.To), float64(l.Time), float64(l.From+l.To)/2 < zone})
	}
	for _, c := range w.curves {
		add := func(from, to float64, latch bool) {
			if t := c.passes(to) - c.passes(from); from > to+degree && t > 0 {
				all = append(all, span{c.run, from, to, t, latch})
			}
		}
		end := c.rests()
		add(c.from-6*degree, max(zone+2*degree, end+2*degree), false)
		add(min(zone, c.from-6*degree), max(2*degree, end+degree), true)
	}
	return all
}

// Bounds of the first guess at resistances.
const (
	guesses  = 6
	stronger = 1.06 // spring, while the leaf does not close
	farOff   = 30   // how many times off a resistance may be
)

// begin brings the resistances near those with which the leaf closes as it was seen to,
// each by the times of its stretches, to which they go in proportion.
func (w *work) begin(p []float64) error {
	l := w.layout
	zone := w.zoneAngle(p)
	spans := w.spans(zone)
	for guess := 0; guess < guesses; {
		sum, n := make([]float64, len(p)), make([]float64, len(p))
		closes := true
		for _, s := range spans {
			r := w.runs[s.run]
			m := w.follow(r, p)
			took := m.passed(s.to)
			if s.from < r.from {
				took -= m.passed(s.from)
			}
			if math.IsNaN(took) {
				closes = false
				continue
			}
			i := l.firstSweep + r.sweep
			if s.latch {
				i = l.firstLatch + r.latch
			}
			sum[i] += math.Log(s.time / took)
			n[i]++
		}
		if !closes {
			i := l.of[spring]
			if i < 0 || p[i]*stronger > l.params[i].High {
				return errDoesNotClose
			}
			p[i] *= stronger
			continue
		}
		for i := range p {
			if n[i] > 0 {
				p[i] = clamp(p[i]*math.Exp(clamp(sum[i]/n[i], -2, 2)), l.params[i].Low*1.01, l.params[i].High/1.01)
			}
		}
		guess++
	}
	for i := l.firstSweep; i < l.resistances(); i++ {
		l.params[i].Low, l.params[i].High = p[i]/farOff, p[i]*farOff
	}
	return nil
}

// zoneAngle is the leaf angle at which the latch valve takes over, rad.
func (w *work) zoneAngle(p []float64) float64 {
	var v swing.Values
	w.layout.values(p, w.runs[0].power, 0, 0, 1, &v)
	m, err := swing.New(&v, w.known.Link)
	if err != nil {
		return 12 * degree
	}
	theta, ok := m.LeafAngle(quantity.Angle(v[swing.LatchZone]))
	if !ok {
		return 12 * degree
	}
	return float64(theta)
}
