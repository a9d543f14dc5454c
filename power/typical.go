package power

import (
	"math"

	"swingwright/opening"
	q "swingwright/quantity"
)

// between is a range in which a value commonly lies.
type between struct{ low, high float64 }

// middle is the middle of the range, and its relative standard uncertainty, as if
// every value in it were as likely (JCGM 100:2008, 4.3.7).
func (b between) middle() (value, u float64) {
	value = (b.low + b.high) / 2
	if value == 0 {
		return 0, 0
	}
	return value, (b.high - b.low) / math.Sqrt(12) / value
}

// A typical is what a kind of device commonly takes at 24 V, A, and how it behaves
// (label ranges, from memory; whatever a label or sheet says goes before).
type typical struct {
	idle, working, peak between
	peakTime            between // s
	// holding is what a drive takes while it holds the leaf.
	holding between
	// held is what a fail-safe lock takes while it locks; it takes nothing else.
	held between
	Behaviour
	// drop is the share of its voltage that the wires may take: 5 % to a lock, 10 % to
	// the rest (installers' guides use one or the other).
	drop q.Ratio
}

// logic is a relay or small board: what it takes, and one relay more while it works.
var logic = typical{idle: between{0.04, 0.08}, working: between{0.07, 0.11}, drop: 0.10}

var typicals = map[opening.DeviceKind]typical{
	opening.Drive: {idle: between{0.05, 0.15}, working: between{1, 3}, holding: between{0.3, 0.8}, peak: between{4, 6},
		peakTime: between{0.2, 0.4}, Behaviour: SteadyPower, drop: 0.10},
	opening.Receiver:       {idle: between{0.01, 0.05}, working: between{0.06, 0.10}, drop: 0.10},
	opening.TouchlessPlate: {idle: between{0.03, 0.08}, working: between{0.07, 0.12}, drop: 0.10},
	opening.ElectricStrike: {working: between{0.11, 0.5}, peak: between{0.5, 1}, peakTime: between{0.1, 0.3},
		held: between{0.2, 0.3}, Behaviour: Resistive, drop: 0.05},
	opening.ElectricLock: {working: between{0.25, 0.6}, peak: between{1, 1}, peakTime: between{0.1, 0.3},
		held: between{0.25, 0.25}, Behaviour: Resistive, drop: 0.05},
	opening.SolenoidExit: {working: between{0.3, 0.5}, peak: between{12, 16}, peakTime: between{0.3, 0.6}, Behaviour: Resistive, drop: 0.05},
	opening.MotorExit: {working: between{0.2, 0.4}, peak: between{0.5, 1}, peakTime: between{0.3, 1},
		Behaviour: SteadyPower, drop: 0.05},
	opening.Magnet:        {held: between{0.13, 0.35}, Behaviour: Resistive, drop: 0.05},
	opening.RequestToExit: {idle: between{0.02, 0.05}, working: between{0.02, 0.05}, drop: 0.10},
	// a reader and the controller behind it: 0.06 to 0.25 together, half each
	opening.Reader:         {idle: between{0.03, 0.125}, working: between{0.03, 0.125}, drop: 0.10},
	opening.AccessRelay:    {idle: between{0.03, 0.125}, working: between{0.03, 0.125}, drop: 0.10},
	opening.AlarmModule:    {idle: between{0.02, 0.1}, working: between{0.02, 0.1}, drop: 0.10},
	opening.AlarmSounder:   {idle: between{0.02, 0.1}, working: between{0.02, 0.1}, drop: 0.10},
	opening.DelayRelay:     logic,
	opening.Sequencer:      logic,
	opening.PlainRelay:     {working: between{0.02, 0.1}, Behaviour: Resistive, drop: 0.10},
	opening.PresenceSensor: {idle: between{0.1, 0.2}, working: between{0.1, 0.2}, drop: 0.10},
}

// What nobody stated of a device or a cable is taken to be so (assumed).
const (
	usualVolts       q.Voltage     = 24
	statedCurrentU   q.Ratio       = 0.10     // of a current off a label or sheet
	supplyU          q.Ratio       = 0.01     // of a supply's voltage
	lengthU          q.Ratio       = 0.05     // of a length without ±
	resistanceU      q.Ratio       = 0.03     // of a resistance per length
	tableWarmthU     q.Temperature = 5        // of a stated temperature
	holdingOfWorking               = 0.55 / 2 // a drive's current at hold over that moving
	usualMoving      q.Time        = 4        // the trade's own example
	usualHolding     q.Time        = 7        // the same
	usualClosing     q.Time        = 6        // near the shortest that is allowed
	relockingTime    q.Time        = 0.2      //
)

// A Given is a value that something was reckoned with, and where it comes from.
type Given struct {
	Device  string // or cable
	What    string
	Dim     q.Dimension
	Value   float64 // in SI
	Source  string
	Assumed bool // whether nobody found it out
}

// currents collects what one device takes, and where that is from.
type currents struct {
	d      *opening.Device
	sheet  string // name and page of the sheet
	typ    typical
	givens *[]Given
}

func (c *currents) keep(what string, dim q.Dimension, value float64, source string, assumed bool) {
	*c.givens = append(*c.givens, Given{c.d.Name, what, dim, value, source, assumed})
}

const fromMemory = "assumed: middle of what such devices commonly take (from memory)"

// amount is a current with its relative standard uncertainty.
type amount struct {
	a q.Current
	u q.Ratio
}

// larger is the larger of two currents.
func larger(a, b amount) amount {
	if a.a > b.a {
		return a
	}
	return b
}

// current is a current as the device, its sheet or its kind says, in this order.
func (c *currents) current(what string, own, sheet q.Measured[q.Current], usual between) amount {
	for i, m := range []q.Measured[q.Current]{own, sheet} {
		if !m.Known {
			continue
		}
		u := float64(statedCurrentU)
		if m.Stated && m.Value > 0 {
			u = float64(m.U) / float64(m.Value)
		}
		c.keep(what, q.DimCurrent, float64(m.Value), [...]string{"wiring", c.sheet}[i], false)
		return amount{m.Value, q.Ratio(u)}
	}
	value, u := usual.middle()
	if value > 0 {
		c.keep(what, q.DimCurrent, value, fromMemory, true)
	}
	return amount{q.Current(value), q.Ratio(u)}
}

// put gives the load a current in some phases.
func (l *Load) put(a amount, in ...Phase) {
	for _, p := range in {
		l.Draws[p], l.U[p] = a.a, a.u
	}
}

// working are the phases from the press until the leaf closes.
var working = []Phase{Releasing, Colliding, Waiting, Starting, Moving, Holding}

// sheetValues are what a sheet says of a device's supply.
type sheetValues struct {
	volts                  q.Measured[q.Voltage]
	working, holding, peak q.Measured[q.Current]
	fails                  opening.FailMode
	release                q.Measured[q.Time]
	from                   string
}

// sheetOf finds a device's sheet among those of its sort.
func sheetOf(d *opening.Device, sheets *opening.Sheets) (v sheetValues) {
	cite := func(name, page string) {
		v.from = "sheet " + name
		if page != "" {
			v.from += ", " + page
		}
	}
	if d.Sheet == "" || sheets == nil {
		return v
	}
	switch d.Kind {
	case opening.Drive:
		if s := sheets.Operator(d.Sheet); s != nil {
			v.volts, v.working, v.holding = s.Volts, s.Moving, s.Holding
			cite(s.Name, s.Page)
		}
	case opening.ElectricStrike:
		if s := sheets.Strike(d.Sheet); s != nil {
			v.volts, v.working, v.peak, v.fails, v.release = s.Volts, s.Hold, s.Inrush, s.Fails, s.ReleaseTime
			cite(s.Name, s.Page)
		}
	case opening.ElectricLock, opening.SolenoidExit, opening.MotorExit, opening.Magnet:
		if s := sheets.Lock(d.Sheet); s != nil {
			v.volts, v.working, v.peak, v.fails, v.release = s.Volts, s.Hold, s.Inrush, s.Fails, s.ReleaseTime
			cite(s.Name, s.Page)
		}
	case opening.PushPlate, opening.TouchlessPlate, opening.Receiver:
		if s := sheets.Actuator(d.Sheet); s != nil {
			v.volts, v.working = s.Volts, s.Draw
			cite(s.Name, s.Page)
		}
	}
	return v
}

// loadOf is a device as a load, its node and sequence left out; the time is that of
// its peak. It adds to givens what it was reckoned with.
func loadOf(d *opening.Device, sheets *opening.Sheets, givens *[]Given) (Load, q.Time) {
	sheet := sheetOf(d, sheets)
	c := currents{d: d, sheet: sheet.from, typ: typicals[d.Kind], givens: givens}
	t := &c.typ
	l := Load{Name: d.Name, Behaviour: t.Behaviour, Rated: usualVolts}
	switch volts := d.Volts.Or(sheet.volts); {
	case volts.Known && volts.Value > 0:
		l.Rated = volts.Value
	default:
		c.keep("voltage", q.DimVoltage, float64(usualVolts), "assumed", true)
	}
	drop := t.drop
	if drop == 0 {
		drop = 0.10
	}
	if d.Least.Known {
		l.Least = d.Least.Value
		c.keep("least voltage", q.DimVoltage, float64(l.Least), "wiring", false)
	} else {
		l.Least = l.Rated * q.Voltage(1-drop)
		c.keep("least voltage", q.DimVoltage, float64(l.Least), share5or10(drop), true)
	}
	var none q.Measured[q.Current]
	peakTime := q.Time(0)
	if d.PeakTime.Known {
		peakTime = d.PeakTime.Value
	} else if value, _ := t.peakTime.middle(); value > 0 {
		peakTime = q.Time(value)
		c.keep("time of the largest current", q.DimTime, value, fromMemory, true)
	}
	switch {
	case d.Kind == opening.Drive:
		l.drive(&c, d, &sheet)
	case d.Kind == opening.Magnet, d.Kind.IsLock() && fails(d, &sheet) == "fail-safe":
		l.put(c.current("current while it locks", d.Working, sheet.working, t.held), Resting, Closing, Relocking)
	case d.Kind.IsLock():
		idle := c.current("current at rest", d.Idle, none, t.idle)
		hold := c.current("current while it is released", d.Working, sheet.working, t.working)
		peak := larger(hold, c.current("largest current", d.Peak, sheet.peak, t.peak))
		l.put(idle, Resting, Closing, Relocking)
		l.put(hold, working...)
		l.put(peak, Releasing, Colliding)
	default:
		idle := c.current("current at rest", d.Idle, none, t.idle)
		busy := larger(idle, c.current("current at work", d.Working, sheet.working, t.working))
		if !d.Idle.Known && sheet.working.Known { // a sheet that says one current means all the time
			idle = busy
		}
		l.put(idle, Resting, Closing, Relocking)
		l.put(busy, working...)
		if d.Peak.Known {
			l.put(larger(busy, c.current("largest current", d.Peak, none, between{})), Releasing)
		}
	}
	return l, peakTime
}

func share5or10(drop q.Ratio) string {
	if drop <= 0.05 {
		return "assumed: no more than 5 % lost on the way to a lock (common practice)"
	}
	return "assumed: no more than 10 % lost on the way (common practice)"
}

// fails is what a lock does without power, empty where nobody says.
func fails(d *opening.Device, sheet *sheetValues) opening.FailMode {
	if d.Fails != "" {
		return d.Fails
	}
	return sheet.fails
}

// drive puts in what a drive takes.
func (l *Load) drive(c *currents, d *opening.Device, sheet *sheetValues) {
	var none q.Measured[q.Current]
	idle := c.current("current at rest", d.Idle, none, c.typ.idle)
	moving := c.current("current while it moves the leaf", d.Working, sheet.working, c.typ.working)
	peak := larger(moving, c.current("largest current, starting and stalled", d.Peak, sheet.peak, c.typ.peak))
	holding := c.typ.holding
	if d.Working.Known || sheet.working.Known {
		holding = between{holdingOfWorking * float64(moving.a), holdingOfWorking * float64(moving.a)}
	}
	hold := c.current("current while it holds the leaf", d.Holding, sheet.holding, holding)
	if hold.u == 0 {
		hold.u = moving.u
	}
	l.put(idle, Resting, Releasing, Waiting, Closing, Relocking)
	l.put(peak, Colliding, Starting)
	l.put(moving, Moving)
	l.put(hold, Holding)
}
