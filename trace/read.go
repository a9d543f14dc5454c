package trace

import (
	"bytes"
	"fmt"
	"math"
	"strings"
)

// Limits of what is read: an hour at 1000 Hz, with room to spare.
const (
	mostBytes = 256 << 20
	mostRows  = 4_000_000
	leastRows = 10
)

// file is a file being read.
type file struct {
	name     string
	mapped   []Assign
	lines    [][]byte
	layout   layout
	cols     []Column
	problems Problems
	accel    [3]float64 // the latest, NaN before the first
}

// Read reads a recording written as text, a row for each sample: parted by
// commas, semicolons, tabs, bars or blanks, with points or commas before
// decimals, in UTF-8 or UTF-16, with or without preamble, comments and a line of
// units. Columns are known by words of their names, such as "time (s)",
// "gyro_x (rad/s)", "gz" or "timestamp [ns]", or are assigned. A unit of rates
// or angles is never guessed. name stands in messages only.
//
// The error is of type Problems. Empty cells are no problem, they are counted;
// what is no number, where one belongs, is.
func Read(name string, data []byte, assign []Assign) (*Recording, error) {
	f := file{name: name, mapped: assign, accel: [3]float64{math.NaN(), math.NaN(), math.NaN()}}
	whole := func(found, needed, hint string) (*Recording, error) {
		return nil, Problems{{Place: Place{File: name}, Found: found, Needed: needed, Hint: hint}}
	}
	if len(data) > mostBytes {
		return whole(fmt.Sprintf("%d MB", len(data)>>20), fmt.Sprintf("at most %d MB", mostBytes>>20), "cut the recording into parts of a few swings")
	}
	f.lines = linesOf(plain(data))
	if len(f.lines) > mostRows {
		return whole(fmt.Sprintf("%d lines", len(f.lines)), fmt.Sprintf("at most %d", mostRows), "cut the recording into parts of a few swings")
	}
	var ok bool
	if f.layout, ok = sniff(f.lines); !ok {
		return whole("no rows of numbers", "a line for each sample, with time and rates or angle parted by commas, semicolons or tabs", "export the recording as CSV")
	}
	f.columns()
	if err := f.problems.err(); err != nil {
		return nil, err
	}
	r := f.rows()
	if len(r.t) < leastRows && len(f.problems) == 0 {
		return whole(fmt.Sprintf("%d rows that can be used", len(r.t)), fmt.Sprintf("at least %d", leastRows), "record from 3 s before the swing to 3 s after")
	}
	if err := f.problems.err(); err != nil {
		return nil, err
	}
	return r, nil
}

// rows reads all rows.
func (f *file) rows() *Recording {
	r := f.recording()
	used, into := f.used(r)
	var row [][]byte
	var header []byte
	if f.layout.header >= 0 {
		header = f.lines[f.layout.header]
	}
	values := make([]float64, len(used))
	first, days := math.NaN(), 0.0
	for i := f.layout.first; i < len(f.lines); i++ {
		line := f.lines[i]
		if comment(line) || header != nil && bytes.Equal(line, header) {
			continue
		}
		row = cells(line, f.layout.sep, row[:0])
		switch state := f.values(i, row, used, values); state {
		case rowCut:
			r.Cut = true
			continue
		case rowLeft:
			f.latest(values)
			r.Left++
			continue
		case rowBad:
			if len(f.problems) >= mostProblems {
				return r
			}
			continue
		}
		f.latest(values)
		at := values[0]
		if f.cols[used[0]].clock && len(r.t) > 0 {
			if last := r.t[len(r.t)-1] + first; at+days < last-43200 && at+days > last-86500 {
				days += 86400 // midnight
			}
		}
		if at += days; len(r.t) == 0 {
			first = at
		}
		for k, to := range into[1:] {
			to[len(r.t)] = values[k+1]
		}
		r.t = append(r.t, at-first)
		r.line = append(r.line, int32(i+1))
	}
	r.trim()
	return r
}

// latest keeps the acceleration of a row, and gives it to rows without: sensors
// that write in turn leave each other's cells empty. Accelerations stand behind
// the time and the rates.
func (f *file) latest(values []float64) {
	if len(values) < 7 {
		return
	}
	for k, a := range values[4:7] {
		if a == a {
			f.accel[k] = a
		} else {
			values[4+k] = f.accel[k]
		}
	}
}

// trim cuts the columns to the rows that were read.
func (r *Recording) trim() {
	cut := func(column *[]float64) {
		if *column != nil {
			*column = (*column)[:len(r.t)]
		}
	}
	for k := range 3 {
		cut(&r.rate[k])
		cut(&r.accel[k])
	}
	cut(&r.angle)
}

// recording is one without rows yet.
func (f *file) recording() *Recording {
	r := &Recording{File: f.name, Columns: f.cols, axes: 3}
	n := len(f.lines) - f.layout.first
	r.t, r.line = make([]float64, 0, n), make([]int32, 0, n)
	switch {
	case f.find(RateX) < 0 && f.find(Rate) >= 0:
		r.axes = 1
		if c := f.cols[f.find(Rate)]; c.Why == onlyRate {
			r.lone = strings.TrimSpace(c.Name)
		}
	case f.find(RateX) < 0:
		r.axes = 0
	default:
		r.greek = f.cols[f.find(RateX)].greek
	}
	return r
}

// used lists the columns to be read, time first, and where their values go.
// Acceleration is of use with all its axes, and with rates about three.
func (f *file) used(r *Recording) (used []int, into [][]float64) {
	add := func(role Role, to *[]float64) {
		used, into = append(used, f.find(role)), append(into, nil)
		if to != nil {
			*to = make([]float64, cap(r.t))
			into[len(into)-1] = *to
		}
	}
	add(Time, nil)
	switch r.axes {
	case 0:
		add(Angle, &r.angle)
		return used, into
	case 1:
		add(Rate, &r.rate[0])
		return used, into
	}
	for k := range 3 {
		add(RateX+Role(k), &r.rate[k])
	}
	if f.axes(AccelerationX) == 3 {
		r.unit = f.cols[f.find(AccelerationX)].unit.of == ofAcceleration
		for k := range 3 {
			add(AccelerationX+Role(k), &r.accel[k])
		}
	}
	return used, into
}

type rowState uint8

const (
	rowGood rowState = iota
	rowLeft          // a cell that is needed is empty
	rowCut           // the last line ends early
	rowBad           // a cell is no number, which has been told
)

// values reads the cells of a row that are used.
func (f *file) values(i int, row [][]byte, used []int, values []float64) rowState {
	last, state := i == len(f.lines)-1, rowGood
	for k, col := range used {
		c := &f.cols[col]
		if col >= len(row) {
			if last {
				return rowCut
			}
			return rowLeft
		}
		x, s := numberIn(row[col], f.layout.comma)
		if c.clock {
			at, ok := clockIn(row[col])
			if x = at; ok {
				s = number
			} else if s == number {
				s = strange
			}
		}
		switch {
		case s == number && math.Abs(x) < 1e25:
			values[k] = x * c.factor()
		case s == missing && c.Role.dimension() == ofAcceleration:
			values[k] = math.NaN()
		case s == missing:
			state = rowLeft
		case last:
			return rowCut
		default:
			f.problems = append(f.problems, Problem{
				Place: Place{f.name, i + 1, column(f.lines[i], f.layout.sep, col)},
				Found: fmt.Sprintf("%.40q", words(row[col])), Needed: "a number for " + c.Role.String(), Hint: f.mend(row),
			})
			return rowBad
		}
	}
	return state
}

// factor turns a column's numbers into SI; accelerations without a unit stay.
func (c *Column) factor() float64 {
	if c.unit.of == noDimension {
		return 1
	}
	return c.unit.factor
}

// mend is what to do about a row with a cell that is no number.
func (f *file) mend(row [][]byte) string {
	if len(row) > f.layout.columns {
		return fmt.Sprintf("the row has %d cells where others have %d; decimal commas need semicolons or tabs between cells", len(row), f.layout.columns)
	}
	return "leave a cell empty where there is no value"
}
