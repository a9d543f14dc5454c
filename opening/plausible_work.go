package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// work doubts what was written of traffic, lock, power and frame.
func (ds *doubts) work(o *Opening) {
	const unit = "check the number and its unit"
	if o.Use.Powered() {
		span(ds, "use.cycles_per_day", o.Use.Cycles, 1, 3000, "it counts openings under power, a day")
	}
	ds.lock(&o.Lock)
	span(ds, "power.distance", o.Power.Distance, 0, 400*q.Foot, unit)
	span(ds, "frame.drift", o.Frame.Drift, 0, 90*q.Degree, "it is how far the leaf goes by itself, arm off")
	span(ds, "frame.binds_at", o.Frame.BindsAt, 0, 120*q.Degree, "it is the leaf's angle from closed")
	if o.Frame.Binds == "no" && o.Frame.BindsAt.Known {
		ds.add("frame.binds_at", written(o.Frame.BindsAt), "the leaf is said not to bind")
	}
}

func (ds *doubts) lock(l *Lock) {
	span(ds, "lock.release_delay", l.ReleaseDelay, 0, 3, "it is the time from the signal until the leaf is free")
	span(ds, "lock.preload", l.Preload, 0, 40*q.PoundForce, "check the number and its unit")
	if l.StaysLocked == "yes" && !l.Kind.Locks() && l.Kind != "" {
		ds.add("lock.stays_locked", string(l.StaysLocked), fmt.Sprintf("a lock of kind %s keeps nobody out", l.Kind))
	}
	if l.Release == "dogged" && l.Kind != "" && l.Kind != "exit-device" {
		ds.add("lock.release", string(l.Release), "only the bar of an exit device can be dogged")
	}
	if l.StaysLocked == "yes" && (l.Release == "dogged" || l.Release == "not-needed") {
		ds.add("lock.release", string(l.Release), "a leaf that has to stay locked needs something that frees it")
	}
}

// ImplausibleHardware lists the values that may be slips on the sheets that an
// opening names, where they feed, lock or start it. Other openings may name them
// too. The spans are from memory, as the trade finds such hardware.
func ImplausibleHardware(o *Opening, sheets *Sheets) []Doubt {
	var d doubts
	if s := find(sheets.Locks, o.Lock.Sheet); s != nil {
		at := "sheets.locks[" + s.Name + "]."
		d.electric(at, s.Volts, s.Hold, s.Inrush)
		span(&d, at+"release_time", s.ReleaseTime, 0, 3, "it is the time from the signal until the leaf is free")
	}
	if s := find(sheets.Strikes, o.Lock.Strike); s != nil {
		at := "sheets.strikes[" + s.Name + "]."
		d.electric(at, s.Volts, s.Hold, s.Inrush)
		span(&d, at+"release_time", s.ReleaseTime, 0, 3, "it is the time from the signal until the leaf is free")
		span(&d, at+"preload_max", s.PreloadMax, 0, 40*q.PoundForce, "check the number and its unit")
	}
	if s := find(sheets.Operators, o.Operator.Sheet); s != nil {
		at := "sheets.operators[" + s.Name + "]."
		span(&d, at+"volts", s.Volts, 6, 240, "check the number and its unit")
		span(&d, at+"current_moving", s.Moving, 0.05, 16, "it is the current while it moves the leaf")
		span(&d, at+"current_holding", s.Holding, 0, 16, "it is the current while it holds the leaf open")
	}
	return d
}

// electric doubts the voltage and the currents of a lock or a strike, whose
// inrush is at least its holding current.
func (ds *doubts) electric(at string, volts q.Measured[q.Voltage], hold, inrush q.Measured[q.Current]) {
	span(ds, at+"volts", volts, 6, 240, "check the number and its unit")
	span(ds, at+"current_hold", hold, 0.02, 16, "check the number and its unit")
	span(ds, at+"current_inrush", inrush, 0.02, 16, "check the number and its unit")
	if hold.Known && inrush.Known && inrush.Value < hold.Value {
		ds.add(at+"current_inrush", written(inrush), "it is below the holding current; are the two exchanged?")
	}
}
