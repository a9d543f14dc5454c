package server_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/swing"
	"swingwright/trace"
)

// sensors are those whose readings make up a motion event.
var sensors = []emulation.SensorType{emulation.SensorTypeGyroscope, emulation.SensorTypeAccelerometer, emulation.SensorTypeLinearAcceleration}

// give gives the sensors of the browser their readings: rates in rad/s, acceleration in m/s².
func (p *phone) give(rate, accel [3]float64) {
	for _, sensor := range sensors {
		v := rate
		if sensor == emulation.SensorTypeAccelerometer {
			v = accel
		} else if sensor == emulation.SensorTypeLinearAcceleration {
			v = [3]float64{}
		}
		if _, err := chromedp.Call(p.ctx, emulation.SetSensorOverrideReadings, emulation.SetSensorOverrideReadingsParams{Type: sensor, Reading: &emulation.SensorReading{Xyz: &emulation.SensorReadingXYZ{X: v[0], Y: v[1], Z: v[2]}}}); err != nil {
			p.t.Fatal(err)
		}
	}
}

// sense switches the sensors on, at rest. It comes before the page listens to them.
func (p *phone) sense(accel [3]float64) {
	for _, sensor := range sensors {
		if _, err := chromedp.Call(p.ctx, emulation.SetSensorOverrideEnabled, emulation.SetSensorOverrideEnabledParams{Enabled: true, Type: sensor, Metadata: &emulation.SensorMetadata{Available: true}}); err != nil {
			p.t.Fatal(err)
		}
	}
	p.give([3]float64{}, accel)
}

// recording is a recording as the simulated recorder wrote it: seconds, deg/s, m/s².
func recording(t *testing.T, data []byte) (rows [][7]float64) {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range all[1:] {
		var r [7]float64
		for i := range r {
			if r[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, r)
	}
	return rows
}

// A phone on the leaf: the motion of a simulated recorder goes through the browser's own
// sensors, and the times that the app accepts are within 50 ms of the truth.
func TestPhoneOnLeaf(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m, err := plan.Make(&j.Openings[0], &j.Sheets, nil, plan.Options{Draws: 64}).Model()
	if err != nil {
		t.Fatal(err)
	}
	var c record.Course
	var mover swing.Mover
	c.Rest(6 * quantity.Second)
	c.Turn(trace.Opening, 92*quantity.Degree, 3*quantity.Second)
	c.Rest(4 * quantity.Second)
	closing := c.Lasts()
	c.Close(&mover, &m)
	c.Rest(5 * quantity.Second)
	data := record.Simulate(&c, record.Options{Seed: 7, Rate: 100, NoiseDensity: 0.008 * quantity.AngularSpeed(quantity.Degree), Bias: [3]quantity.AngularSpeed{0.2 * quantity.AngularSpeed(quantity.Degree), -0.1 * quantity.AngularSpeed(quantity.Degree), 0}})
	rows := recording(t, data)

	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.sense([3]float64{rows[0][4], rows[0][5], rows[0][6]})
	p.page("job/" + s.key + "/101/measure/phone")
	p.tap("#swings-1")
	p.tap("Start")
	p.wait(`document.querySelector('.dial')`)
	begin, seen, row, took, looked := time.Now(), map[string]bool{}, 0, 0, false
	for row < len(rows) {
		now := time.Since(begin).Seconds()
		if wait := rows[row][0] - now; wait > 0 {
			time.Sleep(time.Duration(wait * float64(time.Second)))
		}
		for row < len(rows) && rows[row][0] <= now {
			row++
		}
		if row == len(rows) {
			break
		}
		r := rows[row]
		const degree = math.Pi / 180
		p.give([3]float64{r[1] * degree, r[2] * degree, r[3] * degree}, [3]float64{r[4], r[5], r[6]})
		if took++; took%25 == 0 {
			phase := evaluate[string](p, `document.querySelector('.phase')?.innerText || ''`)
			if phase == "Following the leaf" && now > 7 && !looked {
				looked = true
				p.picture("following")
			}
			seen[phase] = true
			if phase == "" {
				break // it stopped by itself
			}
		}
	}
	p.wait(`document.querySelector('[data-fact]')`)
	p.look("recorded")
	for _, phase := range []string{"Keep it shut and still …", "Open it to 90°, hold, let go.", "Following the leaf"} {
		if !seen[phase] {
			t.Errorf("the app never said %q; it said %v", phase, seen)
		}
	}
	ms := evaluate[float64](p, `Number(document.querySelector('.stage').dataset.took)`)
	t.Logf("%d readings given in %v; the result took %.0f ms", took, time.Since(begin).Round(time.Second), ms)
	for _, want := range []struct {
		id       fact.ID
		from, to quantity.Angle
	}{
		{fact.CloseTime90To10, 90 * quantity.Degree, 10 * quantity.Degree},
		{fact.CloseTime90To12, 90 * quantity.Degree, 12 * quantity.Degree},
		{fact.CloseTime90ToClosed, 90 * quantity.Degree, 0.01 * quantity.Degree},
	} {
		truth := passes(&c, closing, want.to) - passes(&c, closing, want.from)
		got := evaluate[float64](p, fmt.Sprintf(`Number(document.querySelector('[data-fact=%q]')?.dataset.si || NaN)`, want.id))
		t.Logf("%s: %.3f s, truth %.3f s", want.id, got, truth)
		if !(math.Abs(got-truth) < 0.05) {
			t.Errorf("%s: %.3f s is not within 50 ms of %.3f s", want.id, got, truth)
		}
	}
	p.tap("Keep it")
	p.wait(`location.hash.endsWith('/101')`)
	p.synced()
	o := s.state().Openings[0]
	kept := false
	for _, r := range o.Readings {
		kept = kept || r.Fact == fact.CloseTime90To10.String() && r.Instrument == "phone on the leaf" && strings.Contains(r.Value, "±")
	}
	if !kept {
		t.Errorf("the reading is not in the book: %+v", o.Readings)
	}
}

// passes is when the closing leaf passes an angle.
func passes(c *record.Course, from quantity.Time, angle quantity.Angle) float64 {
	lo, hi := from, c.Lasts()
	for range 60 {
		mid := (lo + hi) / 2
		if at, _ := c.At(mid); at > angle {
			lo = mid
		} else {
			hi = mid
		}
	}
	return float64(lo)
}

// Where there is no sensor, or it is refused, the stopwatch is offered.
func TestNoSensor(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key + "/101/measure/phone"))
	p.tap("Start")
	p.wait(`document.querySelector('.problem')?.innerText.includes('stopwatch')`)
	p.accessible("no sensor")
	p.tap("Use the stopwatch")
	p.wait(`location.hash.endsWith('/measure') && document.querySelector('nav.rows')`)
}

// Whatever the browser answers, the page says what it means and offers the stopwatch, or begins. The browser that
// runs here asks nobody, so what others do is put in its place (Device Orientation and Motion, W3C Candidate Recommendation
// Draft: requestPermission gives "granted" or "denied", and is refused where no tap led to it).
func TestSensorAnswers(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	const moving = `setInterval(() => dispatchEvent(new DeviceMotionEvent('devicemotion', {rotationRate: {alpha: 0, beta: 0, gamma: 0}, accelerationIncludingGravity: {x: 0, y: 0, z: 9.8}, interval: 16})), 16);`
	for _, c := range []struct{ what, browser, says string }{
		{"without TLS", `Object.defineProperty(window, 'isSecureContext', {value: false, configurable: true})`, "begins with https"},
		{"does not know motion", `delete window.DeviceMotionEvent`, "no motion sensor"},
		{"is refused by its user", `DeviceMotionEvent.requestPermission = async () => 'denied'`, "browser’s settings"},
		{"says that no tap led to it", `DeviceMotionEvent.requestPermission = async () => { throw new DOMException('not by a tap', 'NotAllowedError'); }`, "browser’s settings"},
		{"allows it and sends nothing", `DeviceMotionEvent.requestPermission = async () => 'granted'`, "no motion sensor"},
		{"sends empty events", `setInterval(() => dispatchEvent(new DeviceMotionEvent('devicemotion', {})), 16)`, "no motion sensor"},
		{"asks nobody and sends", moving, ""},
		{"allows it and sends", `window.asks = []; DeviceMotionEvent.requestPermission = async () => { asks.push(navigator.userActivation.isActive); return 'granted'; }; ` + moving, ""},
	} {
		t.Run(c.what, func(t *testing.T) {
			p.t = t
			p.open(s.url("job/" + s.key))
			p.open(s.url("job/" + s.key + "/101/measure/phone"))
			evaluate[bool](p, `window.left = true; location.reload(); true`)
			p.wait(`!window.left && document.getElementById('main')?.dataset.ready && [...document.querySelectorAll('button')].some(b => b.innerText === 'Start')`)
			evaluate[bool](p, c.browser+"; true")
			p.touch(`[...document.querySelectorAll('button')].find(b => b.innerText === 'Start')`)
			if c.says == "" {
				p.wait(`document.querySelector('.phase')?.innerText.includes('still')`)
				if strings.Contains(c.browser, "asks") {
					if asked := evaluate[[]bool](p, `window.asks`); len(asked) != 1 || !asked[0] {
						t.Errorf("the browser was asked %v, and has to be once, in the tap", asked)
					}
				}
				return
			}
			p.wait(`document.querySelector('.problem')`)
			if said := evaluate[string](p, `document.querySelector('.problem').innerText`); !strings.Contains(said, c.says) || !strings.Contains(said, "stopwatch") {
				t.Errorf("it says %q", said)
			}
			p.accessible(c.what)
			if again := evaluate[bool](p, `[...document.querySelectorAll('button')].some(b => b.innerText === 'Try again')`); again == (c.what == "without TLS") {
				t.Errorf("to try again is offered: %v", again)
			}
			p.tap("Use the stopwatch")
			p.wait(`location.hash.endsWith('/measure') && document.querySelector('nav.rows')`)
		})
	}
}

// touch touches an element as a finger does: the browser takes it for its user's wish.
func (p *phone) touch(element string) {
	p.t.Helper()
	at := evaluate[[]float64](p, `(() => { const e = `+element+`; e.scrollIntoView({block: 'center'}); const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`)
	if err := chromedp.Do(p.ctx, chromedp.MouseClickXY(at[0], at[1])); err != nil {
		p.t.Fatal(err)
	}
}
