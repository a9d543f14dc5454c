package schedule_test

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/job"
	"swingwright/job/amend"
	"swingwright/schedule"
)

// Files that are no schedule are refused, each with a reason and a way out.
func TestRefused(t *testing.T) {
	for name, test := range map[string]struct {
		file io.Reader
		want string
	}{
		"empty":          {strings.NewReader(" \n"), "empty"},
		"old workbook":   {strings.NewReader("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), "old binary"},
		"PDF":            {strings.NewReader("%PDF-1.7"), "PDF"},
		"no workbook":    {strings.NewReader("PK\x03\x04junk"), "no XLSX"},
		"bomb":           {bomb(t, 200<<20, false), "unpacks to more than"},
		"bomb that lies": {bomb(t, 200<<20, true), "no XLSX"},
		"open quotation": {io.MultiReader(strings.NewReader("DOOR,WIDTH,REMARKS\n1,36,\""), endless(5<<20)), "a row is longer than"},
		"too many kept":  {strings.NewReader("DOOR,WIDTH\n" + strings.Repeat(",36\n", 10_001)), "more than 10000 rows are no openings"},
		"too wide":       {strings.NewReader("DOOR,WIDTH\n" + strings.Repeat("1,", 1001)), "columns"},
	} {
		s, err := schedule.Open(test.file)
		if err == nil {
			_, err = s.Import(schedule.Options{}, func(*schedule.Entry) error { return nil })
		}
		var no *schedule.Refused
		if !errors.As(err, &no) || !strings.Contains(no.What, test.want) || no.Hint == "" {
			t.Errorf("%s: %v, want %q with a hint", name, err, test.want)
		}
	}
}

// bomb is a small workbook that unpacks to much; it lies where it says in its
// directory that it does not.
func bomb(t *testing.T, size int64, lies bool) io.Reader {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.CopyN(w, endless(size), size); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	packed := b.Bytes()
	if !lies {
		return bytes.NewReader(packed)
	}
	at := bytes.LastIndex(packed, []byte("PK\x01\x02")) // its size in the directory, APPNOTE 4.3.12
	copy(packed[at+24:at+28], []byte{100, 0, 0, 0})
	return bytes.NewReader(packed)
}

// letters are bytes of the same letter.
type letters struct{ left int64 }

func endless(n int64) io.Reader { return &letters{n} }

func (l *letters) Read(p []byte) (int, error) {
	if l.left == 0 {
		return 0, io.EOF
	}
	n := min(int64(len(p)), l.left)
	for i := range p[:n] {
		p[i] = 'a'
	}
	l.left -= n
	return int(n), nil
}

// long writes a schedule row by row as it is read.
type long struct {
	rows, next int
	buf        bytes.Buffer
}

func (l *long) Read(p []byte) (int, error) {
	for l.buf.Len() < len(p) && l.next <= l.rows {
		if l.next == 0 {
			l.buf.WriteString("DOOR NO,LOCATION,WIDTH (in),HEIGHT (in),RATING,HAND,REMARKS\n")
		} else {
			fmt.Fprintf(&l.buf, "D%07d,Room %d,35.75,83.75,%d MIN,LH,as built\n", l.next, l.next%977, 20+l.next%3*35)
		}
		l.next++
	}
	return l.buf.Read(p)
}

// A long schedule is read row by row: what is in use afterwards does not grow with it.
func TestLongSchedule(t *testing.T) {
	used := func(rows int) uint64 {
		s, err := schedule.Open(&long{rows: rows})
		if err != nil {
			t.Fatal(err)
		}
		n, most, parts := 0, uint64(0), 0
		_, err = s.Import(schedule.Options{}, func(e *schedule.Entry) error {
			if n++; n%20_000 == 0 {
				var m runtime.MemStats
				runtime.GC()
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapAlloc)
			}
			parts = e.Part
			return nil
		})
		if err != nil || n != rows || parts != (rows-1)/schedule.PerJob {
			t.Fatalf("%d of %d rows, %d parts: %v", n, rows, parts, err)
		}
		return most
	}
	if few, many := used(20_000), used(100_000); many > few+2<<20 {
		t.Errorf("%d bytes in use over 20 000 rows, %d over 100 000", few, many)
	}
}

// A title is carried to the openings below it, up to the next one, under a name that no
// column has.
func TestSections(t *testing.T) {
	for text, want := range map[string]string{
		"No.,Room,Width\n1,A,36\"\nEAST WING,,\nLEVEL 1,,\n2,B,36\"\nTotal,,2\n3,C,36\"\nLEVEL 2,,\n4,D,36\"\n": "|EAST WING / LEVEL 1|EAST WING / LEVEL 1|LEVEL 2",
		"No.,Room,Width,section\nLEVEL 1,,,\n1,A,36\",s\n2,B,36\",t\n":                                          "LEVEL 1|LEVEL 1",
	} {
		j, r := imported(t, strings.NewReader(text), nil)
		var got []string
		for i := range j.Openings {
			survey := j.Openings[i].Survey
			note := survey["section"]
			if title, ok := survey["section (title)"]; ok {
				note = title
			}
			got = append(got, fmt.Sprint(cmp.Or(note, any(""))))
		}
		if strings.Join(got, "|") != want {
			t.Errorf("%q, want %q\n%+v", got, want, r.Kept)
		}
	}
}

// A number that stands in a part already is told, with the part; a job of its own may have it.
func TestRepeatedInAnotherPart(t *testing.T) {
	var text strings.Builder
	text.WriteString("Door No.,Room,Weight (kg)\n")
	for i := range schedule.PerJob {
		fmt.Fprintf(&text, "D%d,x,50\n", i)
	}
	text.WriteString("D7,again,50\nD7,and again,50\nE7,new,50\n")
	s, err := schedule.Open(strings.NewReader(text.String()))
	if err != nil {
		t.Fatal(err)
	}
	var last []string
	r, err := s.Import(schedule.Options{}, func(e *schedule.Entry) error {
		if e.Part == 1 {
			last = append(last, e.ID)
		}
		return nil
	})
	if err != nil || strings.Join(last, ",") != "D7,D7 (2),E7" {
		t.Fatalf("%v, %v", last, err)
	}
	if len(r.Told) != 2 || r.Told[0].Row != schedule.PerJob+2 || !strings.Contains(r.Told[0].What, "D7 stands in part 1 already") {
		t.Errorf("%+v", r.Told)
	}
}

// A unit that nothing but the rest of the sheet tells, or nothing at all, is less sure
// than one that stands there, and the reason says so.
func TestGuessedUnits(t *testing.T) {
	sure := func(text string) (unit, reason string, confidence float64) {
		s, err := schedule.Open(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		r, err := s.Import(schedule.Options{Look: true}, func(*schedule.Entry) error { return nil })
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Mapping.Sheets[0].Columns {
			if c.Field == "leaf.weight" {
				return c.Unit, c.Reason, c.Confidence
			}
		}
		t.Fatalf("no weight in %s", text)
		return "", "", 0
	}
	_, _, named := sure("No.,Width,Weight (kg)\n1,900,50\n2,900,60\n")
	for text, want := range map[string]struct {
		unit, reason string
		factor       float64
	}{
		"No.,Width,Weight\n1,900,50\n2,900,60\n":                     {"kg", "which are metric, and less sure", 0.8},
		"No.,Width,Weight\n1,90 cm,50\n2,100 cm,60\n":                {"kg", "which are metric, and less sure", 0.8},
		"No.,Width,Weight\n1,36,110\n2,36,120\n":                     {"lb", "which are in inches and feet, and less sure", 0.8},
		"No.,Width,Weight\n1,\"3'-0\"\"\",110\n2,\"3'-0\"\"\",120\n": {"lb", "which are in inches and feet, and less sure", 0.8},
		"No.,Room,Weight\n1,A,110\n2,B,120\n":                        {"lb", "a guess, and less sure", 0.6},
	} {
		unit, reason, confidence := sure(text)
		if unit != want.unit || !strings.Contains(reason, want.reason) || math.Abs(confidence-max(named*want.factor, 0.5)) > 1e-12 {
			t.Errorf("%s: %s, %q, %v of %v", text, unit, reason, confidence, named)
		}
	}
}

// A text that a spread-sheet would take for a formula leaves guarded, and comes back
// as it was.
func TestFormulaGuard(t *testing.T) {
	notes := []string{"=1+1", "+49 40 1234", "-", "@SUM(A1)", "'=x", "''+y", "'tis", "\t=z", "-5", "＝1"}
	var file strings.Builder
	file.WriteString("job: x\nopenings:\n- id: a\n")
	for i, n := range notes {
		one, err := amend.OpeningOf([]amend.Change{{Path: "id", Value: fmt.Sprint(i)}, {Path: "survey.n", Value: amend.Text(n)}}, 0)
		if err != nil {
			t.Fatal(err)
		}
		file.WriteString(one)
	}
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(file.String())}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := schedule.Of(j.Openings, nil)
	var out bytes.Buffer
	if err := s.WriteCSV(&out, j.Openings); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(out.String()) {
		for _, cell := range strings.Split(strings.TrimSpace(line), ",") {
			if cell = strings.Trim(cell, `"`); cell != "-5" && cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("the cell %q is a formula", cell)
			}
		}
	}
	is, _ := imported(t, &out, exact(s, "CSV"))
	for i, n := range notes {
		if got := is.Openings[i+1].Survey["n"]; got != strings.TrimSpace(n) {
			t.Errorf("%q came back as %q", n, got)
		}
	}
}

// A mapping that is edited and given again is followed; what is wrong in it is told
// with its line.
func TestMapFile(t *testing.T) {
	_, r := imported(t, open(t, "campus.csv"), nil)
	var text bytes.Buffer
	if err := schedule.WriteMap(&text, &r.Mapping, "campus.csv"); err != nil {
		t.Fatal(err)
	}
	edited := strings.Replace(text.String(), "leaf.nominal.width", "leaf.width", 1)
	edited = strings.Replace(edited, "leaf.nominal.height", "", 1)
	m, err := schedule.ReadMap(fstest.MapFS{"map.yaml": {Data: []byte(edited)}}, "map.yaml")
	if err != nil {
		t.Fatal(err)
	}
	j, _ := imported(t, open(t, "campus.csv"), m)
	if w := j.Openings[0].Leaf.Width.Text; w != `3'-0"` {
		t.Errorf("width %q", w)
	}
	if h := j.Openings[0].Survey["HEIGHT"]; h != `7'-0"` {
		t.Errorf("height %q as a note", h)
	}
	for text, want := range map[string]string{
		"sheets:\n- columns:\n  - {heading: A, field: id}\n  - {heading: B, field: leaf.widht}\n": "map.yaml:4:25",
		"sheets:\n- columns:\n  - {heading: A, field: name}\n":                                    "a column with field: id",
		"sheets:\n- columns:\n  - {heading: A, field: id}\n  - {heading: B, field: id}\n":         "id again",
		"sheets:\n- colums: []\n": "did you mean columns?",
		"sheets:\n- columns:\n  - {heading: A, field: id, unit: foo}\n": "a unit such as",
	} {
		_, err := schedule.ReadMap(fstest.MapFS{"map.yaml": {Data: []byte(text)}}, "map.yaml")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// A schedule that is merged into a job fills what is not given, adds openings, and
// leaves the rest; merged once more it changes nothing.
func TestMerge(t *testing.T) {
	text := `# our own
job: x
openings:
  - id: "102"   # the stair
    leaf: {thickness: 44 mm ± 1 mm}
    frame:
      # seen from the key side
      hand: LHR
    survey: {REMARKS: measured twice}
`
	merged, m := merge(t, text, "campus.csv")
	for _, want := range []string{"# our own\n", "- id: \"102\"   # the stair\n", "{thickness: 44 mm ± 1 mm, ", "# seen from the key side\n      hand: LHR\n", "{REMARKS: measured twice, ", "schedule says", "label_time: 90 MIN", "- id: 201\n"} {
		if !strings.Contains(merged, want) {
			t.Errorf("no %q in\n%s", want, merged)
		}
	}
	var told []string
	for _, one := range m.Told {
		told = append(told, one.What)
	}
	want := "102: the job has leaf.thickness 44 mm ± 1 mm, the schedule 1 3/4\"; 102: the job has frame.hand LHR, the schedule RHR"
	if got := strings.Join(told, "; "); got != want {
		t.Errorf("told %s, want %s", got, want)
	}
	again, _ := merge(t, merged, "campus.csv")
	if again != merged {
		t.Errorf("merged once more it became\n%s", again)
	}
}

func merge(t *testing.T, text, file string) (string, *schedule.Merge) {
	t.Helper()
	decode := func(text string) *job.Job {
		j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		return j
	}
	was := decode(text)
	m := schedule.NewMerge(was)
	s, err := schedule.Open(open(t, file))
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Import(schedule.Options{}, m.Add)
	if err != nil {
		t.Fatal(err)
	}
	out, err := m.Text(text, r, file)
	if err != nil {
		t.Fatal(err)
	}
	if err := job.Keeps(was, decode(out)); err != nil {
		t.Error(err)
	}
	return out, m
}

// FuzzImport holds that whatever bytes are read, every row is counted, every opening
// becomes one of a job that reads, and nothing panics.
func FuzzImport(f *testing.F) {
	for _, name := range []string{"campus.csv", "klinik.csv", "survey-utf16.txt", "ecole.csv", "nominal.txt", "hospital.xlsx"} {
		text, err := io.ReadAll(open(f, name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := schedule.Open(bytes.NewReader(text))
		if err != nil {
			return
		}
		defer s.Close()
		var file bytes.Buffer
		w := schedule.NewWriter(&file, "x", "x")
		r, err := s.Import(schedule.Options{}, w.Write)
		if err != nil {
			return
		}
		n := 0
		for _, c := range r.Counts {
			if c.Rows != c.Headings+c.Blank+c.Openings+c.Kept {
				t.Errorf("%+v do not add up", c)
			}
			n += c.Openings
		}
		if err := w.End(r, "x"); err != nil || n == 0 {
			return
		}
		j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: file.Bytes()}}, "job.yaml")
		if err != nil || len(j.Openings) != n {
			t.Fatalf("%d openings: %v\n%s", n, err, file.Bytes())
		}
		out := schedule.Of(j.Openings, nil)
		if err := out.WriteCSV(io.Discard, j.Openings); err != nil {
			t.Fatal(err)
		}
	})
}
