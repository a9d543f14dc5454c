package trace

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// columns finds what the columns hold: by the caller's assignments, else by
// their names. lines serve to tell a clock and the unit of bare stamps.
func (f *file) columns() {
	l := &f.layout
	f.cols = make([]Column, l.columns)
	for i := range f.cols {
		if l.names != nil {
			f.cols[i] = understand(l.names[i])
		} else {
			f.cols[i].Why = "the file has no header"
		}
	}
	if f.assign(); len(f.problems) > 0 {
		return
	}
	f.unique()
	f.prefer()
	f.stamps()
	f.complete()
}

// assign carries out the caller's assignments.
func (f *file) assign() {
	for _, a := range f.mapped {
		i, ok := a.at(f.layout.names, len(f.cols))
		if err := a.check(); err != nil || !ok {
			p := Problem{Place: f.headerPlace(0), Found: "no column " + a.Column, Needed: "the column that holds " + a.Role.String(), Hint: "name one of its columns " + f.listed() + ", or its number"}
			if ok {
				p.Found, p.Needed, p.Hint = "an assignment that does not work", "a role with its unit", err.Error()
			}
			f.problems = append(f.problems, p)
			continue
		}
		c := &f.cols[i]
		if a.Unit != "" {
			c.unit, _ = unitOf(a.Unit)
		} else if c.unit.of != a.Role.dimension() {
			c.unit = unit{}
		}
		for k := range f.cols { // an assigned role is taken from others
			if k != i && f.cols[k].Role == a.Role {
				f.cols[k].Role, f.cols[k].Why = Unused, "column "+a.Column+" was assigned its role"
			}
		}
		c.Role, c.Unit, c.Why = a.Role, c.unit.symbol, "assigned"
	}
}

// unique leaves each role to the first column that has it.
func (f *file) unique() {
	for i := range f.cols {
		c := &f.cols[i]
		if k := slices.IndexFunc(f.cols[:i], func(o Column) bool { return o.Role == c.Role }); c.Role != Unused && k >= 0 {
			c.Role, c.Why = Unused, fmt.Sprintf("column %d holds the same", k+1)
		}
	}
}

// onlyRate is why a lone axis is read.
const onlyRate = "the only rate, taken to be about the hinge"

// prefer chooses between three rates, one and an angle where there are several.
func (f *file) prefer() {
	three := f.axes(RateX) == 3
	if f.axes(RateX) == 1 && f.find(Rate) < 0 { // a lone axis is the hinge's
		for r := RateX; r <= RateZ; r++ {
			if i := f.find(r); i >= 0 {
				f.cols[i].Role, f.cols[i].Why = Rate, onlyRate
				break
			}
		}
	}
	drop := func(why string, roles ...Role) {
		for _, r := range roles {
			if i := f.find(r); i >= 0 {
				f.cols[i].Role, f.cols[i].Why = Unused, why
			}
		}
	}
	switch {
	case three:
		drop("rates about three axes are used instead", Rate, Angle)
	case f.find(Rate) >= 0:
		drop("a rate about the hinge is used instead", RateX, RateY, RateZ, Angle)
	case f.find(Angle) >= 0:
		drop("the angle is used instead", RateX, RateY, RateZ)
	}
}

// axes is for how many of three axes there is a column, the roles beginning with x.
func (f *file) axes(x Role) (n int) {
	for r := x; r < x+3; r++ {
		if f.find(r) >= 0 {
			n++
		}
	}
	return n
}

// find is the column that has a role, -1 for none.
func (f *file) find(r Role) int {
	return slices.IndexFunc(f.cols, func(c Column) bool { return c.Role == r })
}

// stamps finds how time is written where its unit is not told: as a clock, or
// as a number whose unit follows from a step between 1 ms and 1 s, since no
// recorder is slower or faster. The four units lie a thousand apart.
func (f *file) stamps() {
	i := f.find(Time)
	if i < 0 {
		return
	}
	c := &f.cols[i]
	var steps []float64
	last := math.NaN()
	var row [][]byte
	for _, line := range f.lines[f.layout.first:min(len(f.lines), f.layout.first+400)] {
		if row = cells(line, f.layout.sep, row[:0]); comment(line) || i >= len(row) {
			continue
		}
		if _, ok := clockIn(row[i]); ok {
			c.clock, c.unit, c.Unit = true, seconds, "time of day"
			return
		}
		if x, s := numberIn(row[i], f.layout.comma); s == number {
			if step := x - last; step > 0 {
				steps = append(steps, step)
			}
			last = x
		}
	}
	if c.unit.of == ofTime || len(steps) == 0 {
		return
	}
	slices.Sort(steps)
	step := steps[len(steps)/2]
	for _, u := range []unit{seconds, millis, micros, nanos} {
		if step*u.factor >= 0.9e-3 && step*u.factor < 0.9 {
			c.unit, c.Unit = u, u.symbol
			c.Why = strings.TrimPrefix(c.Why+"; "+u.symbol+", since its steps are about "+fmt.Sprintf("%.3g", step), "; ")
		}
	}
}

// complete tells what is missing for a recording of a swing.
func (f *file) complete() {
	have := f.find(Rate) >= 0 || f.find(Angle) >= 0 || f.axes(RateX) == 3
	need := func(what, example string) {
		hint := "say which column it is, such as " + example
		if f.layout.names == nil && f.layout.above > 0 {
			hint = fmt.Sprintf("the line above has %d cells and the rows have %d; decimal commas need semicolons or tabs between cells", f.layout.above, f.layout.columns)
		}
		f.problems = append(f.problems, Problem{Place: f.headerPlace(0), Found: f.listed(), Needed: what, Hint: hint})
	}
	if f.find(Time) < 0 {
		need("a column of time", "1=time:s")
	}
	if !have {
		need("rates about three axes, one rate about the hinge, or an angle", "2=rate-x:deg/s")
	}
	for i, c := range f.cols {
		if c.Role != Unused && c.Role.dimension() != ofAcceleration && c.unit.of != c.Role.dimension() {
			f.problems = append(f.problems, Problem{
				Place: f.headerPlace(i), Found: fmt.Sprintf("%s without a unit", f.nameOf(i)), Needed: unitsFor(c.Role),
				Hint: fmt.Sprintf("write it into the header, or say it: %d=%s:%s", i+1, c.Role, strings.Fields(strings.ReplaceAll(unitsFor(c.Role), ",", " "))[0]),
			})
		}
	}
}

// nameOf is a column for people.
func (f *file) nameOf(i int) string {
	if f.cols[i].Name != "" {
		return fmt.Sprintf("%.60q", f.cols[i].Name)
	}
	return fmt.Sprintf("column %d", i+1)
}

// listed are the names of all columns for people.
func (f *file) listed() string {
	if f.layout.names == nil {
		return fmt.Sprintf("%d columns without a header", f.layout.columns)
	}
	s := fmt.Sprintf("%.60q", f.layout.names)
	if len(s) > 300 {
		s = s[:300] + "…"
	}
	return s
}

// headerPlace is where the name of a column stands, or else its first value.
func (f *file) headerPlace(i int) Place {
	at := f.layout.header
	if at < 0 {
		at = f.layout.first
	}
	return Place{f.name, at + 1, column(f.lines[at], f.layout.sep, i)}
}
