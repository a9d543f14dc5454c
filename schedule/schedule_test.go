package schedule_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	_ "swingwright/internal/steady"
	"swingwright/internal/workbook"
	"swingwright/job"
	"swingwright/job/amend"
	"swingwright/opening"
	"swingwright/schedule"
)

// imported reads a file into a job, as a mapping says or as it is proposed where that is nil.
func imported(t testing.TB, file io.Reader, m *schedule.Mapping) (*job.Job, *schedule.Result) {
	t.Helper()
	return importedBy(t, file, schedule.Options{Map: m})
}

// importedBy reads a file into a job.
func importedBy(t testing.TB, file io.Reader, opt schedule.Options) (*job.Job, *schedule.Result) {
	t.Helper()
	s, err := schedule.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var text bytes.Buffer
	w := schedule.NewWriter(&text, "x", "x")
	r, err := s.Import(opt, w.Write)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.End(r, "x"); err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: text.Bytes()}}, "job.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, text.Bytes())
	}
	return j, r
}

func open(t testing.TB, name string) io.Reader {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return bytes.NewReader(text)
}

// What the columns of awkward schedules go with. The files were made by hand; the
// workbook by another program, hospital.py.
func TestMappings(t *testing.T) {
	for _, test := range []struct {
		file, kind, mapping string
		counts              []schedule.Count
		told                []string // places
	}{
		{"campus.csv", "CSV UTF-8 ','", // US, feet and inches, groups over headings, a title between rows
			`NO. = id; LOCATION = name; WIDTH = leaf.nominal.width in; HEIGHT = leaf.nominal.height; THK = leaf.thickness; DOOR / MATL = fire.leaf_class; FRAME / MATL; TYPE; FIRE RATING = fire.label_time min; HDG = frame.hand; REMARKS`,
			[]schedule.Count{{Rows: 12, Headings: 2, Blank: 1, Openings: 6, Kept: 3}}, []string{"A9", "C11", "J11", "D11", "12"}},
		{"klinik.csv", "CSV Windows-1252 ';'", // German, decimal commas, units in headings
			`Tür-Nr. = id; Raum = name; Geschoss = work.floor; Breite (mm) = leaf.width mm; Höhe (mm) = leaf.height mm; Dicke (mm) = leaf.thickness mm; Gewicht, kg = leaf.weight kg; Bemerkung`,
			[]schedule.Count{{Rows: 7, Headings: 1, Blank: 1, Openings: 4, Kept: 1}}, []string{"G6"}},
		{"survey-utf16.txt", `CSV UTF-16, little end first '\t'`, // headings in two rows and a row of units
			`Opening ID = id; Building = work.building; Floor = work.floor; Leaf / width = leaf.width in; Leaf / height = leaf.height in; Leaf / weight = leaf.weight lb; Hand = frame.hand; Fire door = use.fire_rated; Closing; Notes`,
			[]schedule.Count{{Rows: 6, Headings: 3, Openings: 3}}, nil},
		{"ecole.csv", "CSV UTF-8 ';'", // French, metres, a first line that names the separator
			`Repère = id; Désignation = name; Niveau = work.floor; Largeur = leaf.width m; Hauteur = leaf.height m; Épaisseur = leaf.thickness m; Coupe-feu = use.fire_rated; Sens = frame.hand`,
			[]schedule.Count{{Rows: 4, Headings: 1, Openings: 3}}, []string{"H3"}},
		{"nominal.txt", "CSV UTF-8 '|'", // nominal sizes, old line ends, a number that comes twice, headings again
			`MARK = id; SIZE = leaf.nominal; DOOR MATERIAL = fire.leaf_class; LABEL = fire.label_time min; CLOSER; HANDING = frame.hand; HW SET`,
			[]schedule.Count{{Rows: 8, Headings: 1, Openings: 6, Kept: 1}}, []string{"5", "F6", "B8"}},
		{"hospital.xlsx", `XLSX  '\x00'`, // merged cells, formulas, units in number formats, several sheets
			`Level 1: identification / Door No. = id; identification / Bldg = work.building; identification / Room name = name; door / Width = leaf.nominal.width in; door / Height = leaf.nominal.height in; door / Thickness = leaf.thickness mm; frame / Width = frame.opening_width mm; frame / Material; fire / Rating (min) = fire.label_time min; Surveyed
Level 2: Door No. = id; Leaf width (in) = leaf.width in; Leaf height (in) = leaf.height in; Remarks
Legend: `,
			[]schedule.Count{{Rows: 9, Headings: 2, Blank: 1, Openings: 4, Kept: 2}, {Rows: 3, Headings: 1, Openings: 2}, {Rows: 2, Kept: 2}},
			[]string{"Level 1!B5", "Level 1!B6", "Level 1!E7", "Level 1!D7", "Level 1!A9", "Legend"}},
	} {
		t.Run(test.file, func(t *testing.T) {
			s, err := schedule.Open(open(t, test.file))
			if err != nil {
				t.Fatal(err)
			}
			if kind := fmt.Sprintf("%s %s %q", s.Kind, s.Encoding, s.Separator); kind != test.kind {
				t.Errorf("it is %s, want %s", kind, test.kind)
			}
			s.Close()
			j, r := imported(t, open(t, test.file), nil)
			if got := mappingText(&r.Mapping); got != test.mapping {
				t.Errorf("mapping\n%s\nwant\n%s", got, test.mapping)
			}
			if !slices.Equal(r.Counts, test.counts) {
				t.Errorf("counts %+v, want %+v", r.Counts, test.counts)
			}
			openings := 0
			for _, c := range r.Counts {
				if c.Rows != c.Headings+c.Blank+c.Openings+c.Kept {
					t.Errorf("%+v do not add up", c)
				}
				openings += c.Openings
			}
			if len(j.Openings) != openings {
				t.Errorf("%d openings of %d rows", len(j.Openings), openings)
			}
			var told []string
			for _, one := range r.Told {
				told = append(told, one.Place.String())
			}
			if !slices.Equal(told, test.told) {
				t.Errorf("told of %q, want %q", told, test.told)
			}
			checkCells(t, test.file, j, r)
			checkRound(t, test.file, j, r)
		})
	}
}

func mappingText(m *schedule.Mapping) string {
	var sheets []string
	for _, s := range m.Sheets {
		var columns []string
		for _, c := range s.Columns {
			text := c.Heading
			if c.Field != "" {
				text = strings.TrimSpace(c.Heading + " = " + c.Field + " " + c.Unit)
			}
			columns = append(columns, text)
		}
		name := ""
		if s.Sheet != "" {
			name = s.Sheet + ": "
		}
		sheets = append(sheets, name+strings.Join(columns, "; "))
	}
	return strings.Join(sheets, "\n")
}

// everything is all text that a job holds of an opening.
func everything(o *opening.Opening) map[string]bool {
	all := map[string]bool{}
	for _, f := range job.OpeningFields() {
		all[f.Get(o)] = true
	}
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case string:
			all[v] = true
		case map[string]any:
			for _, one := range v {
				walk(one)
			}
		}
	}
	walk(map[string]any(o.Survey))
	return all
}

// checkCells holds that every cell of every row stands somewhere in the job.
func checkCells(t *testing.T, file string, j *job.Job, r *schedule.Result) {
	t.Helper()
	s, err := schedule.Open(open(t, file))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	kept, _ := j.Notes["schedule rows that are no openings"].(map[string]any)
	notes := fmt.Sprint(kept)
	at := 0
	for i := range s.Sheets {
		m := r.Mapping.Sheets[i]
		for row, err := range s.Sheets[i].Rows {
			if err != nil {
				t.Fatal(err)
			}
			isKept := slices.ContainsFunc(r.Kept, func(k schedule.Kept) bool { return k.Sheet == m.Sheet && k.Row == row.Number })
			var cells []string
			for _, c := range row.Cells {
				if c = strings.TrimSpace(c); c != "" {
					cells = append(cells, c)
				}
			}
			switch {
			case isKept:
				for _, c := range cells {
					if !strings.Contains(notes, c) {
						t.Errorf("row %d: %q is lost", row.Number, c)
					}
				}
			case len(cells) == 0 || row.Number <= m.Header || row.Number < headEnd(&m, row.Number):
			case at >= len(j.Openings):
			default:
				if row.Number > m.Header && cells[0] != strings.TrimSuffix(j.Openings[at].ID, " (2)") {
					continue // a row of headings below the header
				}
				all := everything(&j.Openings[at])
				at++
				for _, c := range cells {
					if !all[c] {
						t.Errorf("row %d: %q is lost in %v", row.Number, c, all)
					}
				}
			}
		}
	}
	if at != len(j.Openings) {
		t.Errorf("%d of %d openings were looked at", at, len(j.Openings))
	}
}

func headEnd(m *schedule.SheetMap, _ int) int { return m.Header }

// checkRound holds that a job is the same in every field after it went through a
// schedule, CSV or XLSX, with and without the owner's headings.
func checkRound(t testing.TB, file string, was *job.Job, r *schedule.Result) {
	t.Helper()
	flat := r.Mapping // one table: what comes of several sheets goes under the first heading of each field
	for _, m := range []*schedule.Mapping{nil, &flat} {
		if m != nil && len(m.Sheets) > 1 {
			continue // two sheets may have one field under two headings
		}
		s := schedule.Of(was.Openings, m)
		var csv, xlsx bytes.Buffer
		if err := s.WriteCSV(&csv, was.Openings); err != nil {
			t.Fatal(err)
		}
		if err := workbook.Write(&xlsx, []workbook.Sheet{s.Sheet(was.Openings)}); err != nil {
			t.Fatal(err)
		}
		for kind, text := range map[string][]byte{"CSV": csv.Bytes(), "XLSX": xlsx.Bytes()} {
			var again *schedule.Mapping
			if m != nil {
				again = exact(s, kind)
			}
			is, _ := imported(t, bytes.NewReader(text), again)
			if len(is.Openings) != len(was.Openings) {
				t.Errorf("%s as %s: %d openings became %d", file, kind, len(was.Openings), len(is.Openings))
				continue
			}
			for i := range was.Openings {
				a, b := &was.Openings[i], &is.Openings[i]
				for _, f := range job.OpeningFields() {
					if f.Get(a) != f.Get(b) {
						t.Errorf("%s as %s: %s of %s was %q and is %q\n%s", file, kind, f.Path, a.ID, f.Get(a), f.Get(b), csv.Bytes())
					}
				}
			}
		}
	}
}

// exact is the mapping of a schedule that was written with headings of the owner's.
func exact(s *schedule.Schedule, kind string) *schedule.Mapping {
	m := schedule.SheetMap{Header: 1}
	if kind == "XLSX" {
		m.Sheet = "Schedule"
	}
	for i := range s.Headings {
		m.Columns = append(m.Columns, schedule.Column{Heading: s.Headings[i], Field: s.Fields[i], Unit: s.Units[i]})
	}
	return &schedule.Mapping{Sheets: []schedule.SheetMap{m}}
}

// A schedule that goes through a job comes out with every cell as it was.
func TestScheduleJobSchedule(t *testing.T) {
	for _, file := range []string{"campus.csv", "klinik.csv", "survey-utf16.txt", "ecole.csv", "nominal.txt"} {
		j, r := imported(t, open(t, file), nil)
		s := schedule.Of(j.Openings, &r.Mapping)
		source, err := schedule.Open(open(t, file))
		if err != nil {
			t.Fatal(err)
		}
		var rows [][]string
		for row, err := range source.Sheets[0].Rows {
			if err != nil {
				t.Fatal(err)
			}
			kept := slices.ContainsFunc(r.Kept, func(k schedule.Kept) bool { return k.Row == row.Number })
			if !kept && row.Number > r.Mapping.Sheets[0].Header && strings.TrimSpace(row.Cells[0]) != "" && !strings.HasPrefix(row.Cells[0], "(") {
				rows = append(rows, row.Cells)
			}
		}
		if len(rows) != len(j.Openings) {
			t.Errorf("%s: %d rows, %d openings", file, len(rows), len(j.Openings))
			continue
		}
		for i, row := range rows {
			out := s.Row(&j.Openings[i])
			for k := range row {
				if strings.TrimSpace(row[k]) != out[k] {
					t.Errorf("%s, row %d: %q under %s came out as %q", file, i, row[k], s.Headings[k], out[k])
				}
			}
		}
	}
}

// Any job goes through a schedule and comes back the same in every field. Only the
// space within a heading does not last: it may be a line end in a spread-sheet.
func TestJobScheduleJob(t *testing.T) {
	all := job.OpeningFields()
	text := rapid.StringMatching(`[ -~é½±—€]{1,12}`).Filter(func(s string) bool { return strings.TrimSpace(s) == s })
	rapid.Check(t, func(t *rapid.T) {
		var file strings.Builder
		file.WriteString("job: x\nopenings:\n- id: first\n  leaf: {width: 900 mm}\n")
		for i := range rapid.IntRange(1, 5).Draw(t, "openings") {
			adds := []amend.Change{{Path: "id", Value: amend.Text(fmt.Sprintf("%d-%s", i, rapid.StringMatching(`[A-Z0-9./-]{1,6}`).Draw(t, "id")))}}
			for range rapid.IntRange(0, 8).Draw(t, "fields") {
				f := rapid.SampledFrom(all).Draw(t, "field")
				v := value(&f, text).Draw(t, f.Path)
				if f.Path != "id" && f.Check(v) == nil {
					adds = append(adds, amend.Change{Path: f.Path, Value: amend.Text(v)})
				}
			}
			for _, name := range rapid.SliceOfNDistinct(rapid.StringMatching(`[A-Z][a-z]{0,6}( [a-z]{1,3})?`), 0, 3, rapid.ID).Draw(t, "notes") {
				adds = append(adds, amend.Change{Path: amend.Path("survey", "note "+name), Value: amend.Text(text.Draw(t, name))})
			}
			one, err := amend.OpeningOf(adds, 0)
			if err != nil {
				t.Fatal(err)
			}
			file.WriteString(one)
		}
		was, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(file.String())}}, "job.yaml")
		if err != nil {
			t.Fatalf("%v\n%s", err, file.String())
		}
		s := schedule.Of(was.Openings, nil)
		var csv bytes.Buffer
		if err := s.WriteCSV(&csv, was.Openings); err != nil {
			t.Fatal(err)
		}
		is, _ := importedRapid(t, csv.Bytes(), exact(s, "CSV"))
		if len(is.Openings) != len(was.Openings) {
			t.Fatalf("%d openings became %d\n%s", len(was.Openings), len(is.Openings), csv.Bytes())
		}
		for i := range was.Openings {
			a, b := &was.Openings[i], &is.Openings[i]
			for _, f := range all {
				if f.Get(a) != f.Get(b) {
					t.Fatalf("%s of %s was %q and is %q\n%s", f.Path, a.ID, f.Get(a), f.Get(b), csv.Bytes())
				}
			}
			for k, v := range a.Survey {
				if b.Survey[k] != v {
					t.Fatalf("note %q was %q and is %q\n%s", k, v, b.Survey[k], csv.Bytes())
				}
			}
		}
	})
}

func importedRapid(t *rapid.T, text []byte, m *schedule.Mapping) (*job.Job, *schedule.Result) {
	s, err := schedule.Open(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	w := schedule.NewWriter(&file, "x", "x")
	r, err := s.Import(schedule.Options{Map: m}, w.Write)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.End(r, "x"); err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: file.Bytes()}}, "job.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, file.Bytes())
	}
	return j, r
}

// value draws a text that the field may take.
func value(f *job.Field, text *rapid.Generator[string]) *rapid.Generator[string] {
	if f.Choices != nil {
		return rapid.SampledFrom(f.Choices)
	}
	if f.Text() {
		return text
	}
	return rapid.SampledFrom([]string{`35-3/4"`, "3'-0 1/2\" ± 1/8 in", "914,4 mm", "3070", "3-0 x 7-0", "118 lb ± 4 lb", "5 lbf", "90 min", "1.5", "3", "0 deg", "-5 Pa", "20 ± 2 °C", "2 %", "1-1/4 turns", "3 mph"})
}
