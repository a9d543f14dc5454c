package trace

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the expected outputs in testdata anew")

// golden compares a text with a file in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

// Every file of odd format holds one movement: 24 samples 0.1 s apart, at rest,
// then 10, 20 and 10 deg/s for 0.4 s each, at rest. All read alike.
func TestOddFormats(t *testing.T) {
	var understood strings.Builder
	names, err := filepath.Glob("testdata/*.[ct]*v")
	texts, err2 := filepath.Glob("testdata/*_stamps.txt")
	if err != nil || err2 != nil || len(names) < 14 {
		t.Fatal(err, err2, len(names))
	}
	for _, path := range append(names, texts...) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Read(filepath.Base(path), data, nil)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		fmt.Fprintf(&understood, "%s: %d rows, %d left out, cut short: %v\n", r.File, r.Rows(), r.Left, r.Cut)
		for _, c := range r.Columns {
			fmt.Fprintf(&understood, "\t%q is %v, %s; %s\n", c.Name, c.Role, c.Unit, c.Why)
		}
		checkMovement(t, r)
	}
	golden(t, "understood.golden", understood.String())
}

func checkMovement(t *testing.T, r *Recording) {
	t.Helper()
	want := []float64{0, 0, 0, 0, 0, 0, 10, 10, 10, 10, 20, 20, 20, 20, 10, 10, 10, 10, 0, 0, 0, 0, 0, 0}
	if r.Rows() != len(want) {
		t.Errorf("%s: %d rows, want %d", r.File, r.Rows(), len(want))
		return
	}
	turned := 0.0
	for i, w := range want {
		at, _, rates := r.Row(i)
		if math.Abs(float64(at)-0.1*float64(i)) > 1e-6 {
			t.Errorf("%s: row %d at %v s", r.File, i, at)
		}
		got := float64(rates[r.about()]) / degree
		if r.axes == 0 {
			if i > 0 {
				turned += 0.1 * (w + want[i-1]) / 2
			}
			d := r.angle[i] - r.angle[0]
			got, w = (d-2*math.Pi*math.Round(d/(2*math.Pi)))/degree, turned
		}
		if math.Abs(got-w) > 1e-4 {
			t.Errorf("%s: row %d: %v, want %v", r.File, i, got, w)
		}
	}
}

// about is the axis of the movement.
func (r *Recording) about() int { return max(0, r.axes-1) }

// What cannot be read is told with place, what was found, what is needed, and how
// to mend it.
func TestProblems(t *testing.T) {
	row := func(n int, format string) (s string) {
		for i := range n {
			s += fmt.Sprintf(format, float64(i)/50) + "\n"
		}
		return s
	}
	var all strings.Builder
	for _, c := range []struct {
		name, text string
		assign     []Assign
	}{
		{"empty", "", nil},
		{"prose", strings.Repeat("The door closes too fast, I think.\n", 30), nil},
		{"no_unit", "time (s),gx,gy,gz\n" + row(30, "%.2f,1,2,3.5"), nil},
		{"no_time", "gx (deg/s),gy (deg/s),gz (deg/s)\n" + row(30, "%.2f,1,2"), nil},
		{"no_rates", "time (s),acceleration x (m/s2),pressure\n" + row(30, "%.2f,1,2"), nil},
		{"two_axes", "time (s),gx (deg/s),gy (deg/s)\n" + row(30, "%.2f,1,2"), nil},
		{"no_header", row(30, "%.2f,1,2,3"), nil},
		{"garbage", "time (s),rate (deg/s)\n" + row(20, "%.2f,1") + "0.40,fast\n0.42,1.5.2\n" + row(20, "1%.2f,1"), nil},
		{"decimal_commas", "time (s),rate (deg/s)\n" + strings.ReplaceAll(row(30, "%.2f;1.5"), ".", ","), nil},
		{"commas_twice", "time (s),rate (deg/s)\n" + strings.NewReplacer(".", ",").Replace(row(30, "%.2f,1.5")), nil},
		{"short", "time (s),rate (deg/s)\n" + row(4, "%.2f,1"), nil},
		{"assigned_wrongly", "a,b\n" + row(30, "%.2f,1"), []Assign{{"a", Time, "deg"}, {"c", Rate, "deg/s"}}},
	} {
		r, err := Read(c.name+".csv", []byte(c.text), c.assign)
		if err == nil {
			if c.name != "decimal_commas" { // semicolons below a header with commas can be read
				t.Errorf("%s: read %d rows as %+v", c.name, r.Rows(), r.Columns)
			}
			continue
		}
		var ps Problems
		if !errors.As(err, &ps) || len(ps) == 0 {
			t.Errorf("%s: %T", c.name, err)
		}
		fmt.Fprintln(&all, err)
	}
	golden(t, "problems.golden", all.String())
}

func TestAssign(t *testing.T) {
	text := "a,b,c\n"
	for i := range 30 {
		text += fmt.Sprintf("%d,%d,7\n", i, 20*i)
	}
	var assign []Assign
	for _, s := range []string{"2=time:ms", "A=rate:deg/s", "c=unused"} {
		a, err := ParseAssign(s)
		if err != nil {
			t.Fatal(err)
		}
		assign = append(assign, a)
	}
	r, err := Read("x", []byte(text), assign)
	if err != nil {
		t.Fatal(err)
	}
	at, line, rates := r.Row(10)
	if math.Abs(float64(at)-0.2) > 1e-12 || line != 12 || math.Abs(float64(rates[0])-10*degree) > 1e-12 {
		t.Errorf("%v %v %v", at, line, rates)
	}
	for _, s := range []string{"", "time", "=time", "2=speed:m/s", "2=time:kg", "2=rate-x:s"} {
		if a, err := ParseAssign(s); err == nil {
			t.Errorf("%q is read as %+v", s, a)
		}
	}
}

// Numbers are read as strconv reads them.
func TestNumberIn(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "-0.1": -0.1, "+3.25": 3.25, "1700000000000000001": 1700000000000000001, "0.30000000000000004": 0.30000000000000004,
		"1e-3": 1e-3, "-2.5E+2": -250, ".5": 0.5, "5.": 5, "0.1": 0.1, "123456.789012345": 123456.789012345,
	} {
		if got, c := numberIn([]byte(text), false); c != number || got != want {
			t.Errorf("%s: %v, %v", text, got, c)
		}
		comma := strings.ReplaceAll(text, ".", ",")
		if got, c := numberIn([]byte(comma), true); c != number || got != want {
			t.Errorf("%s: %v, %v", comma, got, c)
		}
	}
	for text, want := range map[string]content{"": missing, "NaN": missing, "n/a": missing, "-": missing, "x": strange, "1.2.3": strange, "0x10": strange, "1_000": strange, ".": strange, "1,5": strange, "--5": strange, "1e999": strange} {
		if _, c := numberIn([]byte(text), false); c != want {
			t.Errorf("%q is %v, want %v", text, c, want)
		}
	}
}
