package schedule

import (
	"cmp"
	"errors"
	"fmt"
	"hash/fnv"
	"iter"
	"slices"
	"strings"

	"swingwright/job/amend"
)

// asWritten is the note under which cells are kept that a field holds in other words,
// or that no field could take.
const asWritten = "as written"

// An Entry is one opening of a schedule.
type Entry struct {
	Place
	ID   string
	Part int // which job file it goes to, from 0, where there are more openings than one takes
	// Values are the fields and notes of the opening, its id first.
	Values []Value
}

// A Value is a field of an opening, or a note.
type Value struct {
	Path  []string // keys under the opening
	Text  string
	Place Place
	cell  string // as it stands in the schedule
}

// Changes are the values as they are given to a new opening: fields in the order of
// the record, then notes.
func (e *Entry) Changes() []amend.Change {
	slices.SortStableFunc(e.Values, func(a, b Value) int { return cmp.Compare(a.rank(), b.rank()) })
	all := make([]amend.Change, len(e.Values))
	for i, v := range e.Values {
		all[i] = amend.Change{Path: amend.Path(v.Path...), Value: amend.Text(v.Text)}
	}
	return all
}

// rank orders values in an opening.
func (v *Value) rank() int {
	if v.Path[0] == "survey" {
		return len(fields) + len(v.Path)
	}
	return order[strings.Join(v.Path, ".")]
}

var order = func() map[string]int {
	all := map[string]int{}
	for i := range fields {
		all[fields[i].Path] = i
	}
	return all
}()

// Told is something that a person should know of a schedule.
type Told struct {
	Place
	What, Hint string
}

// Kept is a row that is no opening.
type Kept struct {
	Sheet string
	Row   int
	Cells []string
	Why   string
}

// Count is what became of the rows of a sheet.
type Count struct {
	Rows     int // all of them
	Headings int // those with the headings
	Blank    int
	Openings int
	Kept     int // no openings, kept with the job
}

// Result is what was made of a file.
type Result struct {
	Mapping Mapping
	Counts  []Count // by sheet, as in Mapping
	Told    []Told  // the first of them
	Telling int     // how many there were
	Kept    []Kept
	Cells   struct{ Fields, Notes, Unread int } // what became of the cells of openings
}

const (
	mostTold = 200
	mostKept = 10_000
	// PerJob is how many openings go to one job file; more would not be read again.
	PerJob = 10_000
)

// Options say how to import.
type Options struct {
	Map      *Mapping             // nil where it shall be proposed
	Progress func(rows int)       // called now and then; may be nil
	Look     bool                 // only propose: rows after the first are not walked
	Stop     func() error         // asked now and then; may be nil
	WorkOut  bool                 // takes what formulas come to whose file holds no value of them, where that is worked out
	Taken    func(id string) bool // tells ids that stand for an opening that is not meant; may be nil
}

// Import walks all sheets of a file and hands every opening to each.
func (s *Source) Import(opt Options, each func(*Entry) error) (*Result, error) {
	m := &importer{opt: opt, each: each, out: new(Result), ids: map[string]int{}}
	for i := range s.Sheets {
		if err := m.sheet(&s.Sheets[i]); err != nil {
			return m.out, err
		}
	}
	if n := s.Strays(); n > 0 {
		m.tell(Place{}, fmt.Sprintf("%d bytes are no UTF-8, and were read as Windows-1252", n), "look at the special characters in the openings")
	}
	if opt.Map != nil {
		for i := range opt.Map.Sheets {
			if k := &opt.Map.Sheets[i]; k.Skip == "" && m.out.Mapping.sheet(k.Sheet) == nil {
				m.tell(Place{Sheet: k.Sheet}, "the mapping names this sheet, and the file has none of that name", "")
			}
		}
	}
	return m.out, nil
}

type importer struct {
	opt      Options
	each     func(*Entry) error
	out      *Result
	ids      map[string]int // how often each came, in this part
	before   [][]uint64     // fingerprints of the ids of parts that are full, each part's in order
	openings int
	rows     int
}

func (m *importer) tell(p Place, what, hint string) {
	m.out.Telling++
	if len(m.out.Told) < mostTold {
		m.out.Told = append(m.out.Told, Told{p, what, hint})
	}
}

// keep keeps a row that is no opening.
func (m *importer) keep(s *Sheet, r *Row, c *Count, why string) error {
	c.Kept++
	if len(m.out.Kept) >= mostKept {
		return &Refused{fmt.Sprintf("more than %d rows are no openings, the last one row %d", mostKept, r.Number), "see with --look what the columns go with, and name the column with the openings' numbers in a mapping file"}
	}
	m.out.Kept = append(m.out.Kept, Kept{s.Name, r.Number, slices.Clone(r.Cells), why})
	return nil
}

// sheet imports one sheet.
func (m *importer) sheet(s *Sheet) error {
	pull, stop := iter.Pull2(s.Rows)
	defer stop()
	next := func() (*Row, error, bool) {
		r, err, ok := pull()
		if ok && err == nil && m.opt.WorkOut {
			r.workOut()
		}
		return r, err, ok
	}
	var first []*Row
	for len(first) < sampled {
		r, err, ok := next()
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		first = append(first, r)
	}
	plan := m.plan(s, first)
	m.out.Mapping.Sheets = append(m.out.Mapping.Sheets, *plan.SheetMap)
	m.out.Counts = append(m.out.Counts, Count{})
	count := &m.out.Counts[len(m.out.Counts)-1]
	if plan.Skip != "" && len(first) > 0 {
		m.tell(Place{Sheet: s.Name}, "this sheet is not read as a schedule: "+plan.Skip, "its rows are kept with the job")
	}
	for _, r := range first {
		if err := m.row(s, plan, r, count); err != nil {
			return err
		}
	}
	for !m.opt.Look && len(first) == sampled {
		r, err, ok := next()
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		if err := m.row(s, plan, r, count); err != nil {
			return err
		}
	}
	return nil
}

// sheetPlan is how the rows of a sheet are read.
type sheetPlan struct {
	*SheetMap
	targets []*target // by column, nil for notes
	id      int       // column
	data    int       // number of the first row of openings
	rated   bool      // another column tells whether it is fire rated
	head    []string
	section string // the title above the row in hand, empty where none stands
	titled  bool   // the row before was one
}

// plan finds out what the columns of a sheet go with, or takes what the mapping says.
func (m *importer) plan(s *Sheet, rows []*Row) *sheetPlan {
	p := &sheetPlan{SheetMap: &SheetMap{Sheet: s.Name}, id: -1}
	var said *SheetMap
	if m.opt.Map != nil {
		if said = m.opt.Map.sheet(s.Name); said == nil {
			p.Skip = "the mapping does not name it"
			return p
		}
		if said.Skip != "" {
			p.Skip = said.Skip
			return p
		}
	}
	at := headerOf(rows)
	if said != nil && said.Header > 0 {
		at = slices.IndexFunc(rows, func(r *Row) bool { return r.Number == said.Header })
	}
	if at < 0 {
		p.Skip = "no row of headings was found"
		return p
	}
	columns, first, used := columnsOf(s, rows, at)
	p.Header, p.First, p.head = rows[at].Number, rows[first].Number, rows[at].Cells
	last := at + used
	p.data = rows[last].Number + 1
	propose(columns, rows[last+1:])
	if said != nil {
		m.follow(s, said, columns)
	}
	p.Columns = columns
	p.targets = make([]*target, len(columns))
	for i := range columns {
		p.targets[i] = targets[columns[i].Field]
		switch columns[i].Field {
		case "id":
			p.id = i
		case "use.fire_rated":
			p.rated = true
		}
	}
	if p.id < 0 {
		p.Skip = "no column was found that holds the numbers of the openings"
	}
	return p
}

// follow puts what a mapping says in place of what was proposed.
func (m *importer) follow(s *Sheet, said *SheetMap, columns []Column) {
	found := map[string]bool{}
	for i := range columns {
		c := &columns[i]
		c.Field, c.Confidence, c.Reason, c.Read = "", 1, "the mapping does not name it", 0
		for k := range said.Columns {
			if d := &said.Columns[k]; d.Heading == c.Heading {
				found[c.Heading] = true
				c.Field, c.Unit, c.Reason = d.Field, d.Unit, "the mapping says so"
			}
		}
		if c.Reason != "the mapping says so" && c.Filled > 0 {
			m.tell(Place{s.Name, 0, c.Number}, "the mapping does not name the column "+c.Heading, "its cells are kept as notes")
		}
	}
	for _, d := range said.Columns {
		if !found[d.Heading] {
			m.tell(Place{Sheet: s.Name}, "the mapping names a column "+d.Heading+", and the sheet has none of that heading", "headings are compared letter by letter")
		}
	}
}

// row imports one row.
func (m *importer) row(s *Sheet, p *sheetPlan, r *Row, c *Count) error {
	c.Rows++
	if m.rows++; m.rows%1000 == 0 {
		if m.opt.Progress != nil {
			m.opt.Progress(m.rows)
		}
		if m.opt.Stop != nil {
			if err := m.opt.Stop(); err != nil {
				return err
			}
		}
	}
	switch {
	case r.blank():
		c.Blank++
		return nil
	case p.Skip != "":
		return m.keep(s, r, c, "the sheet is not read as a schedule")
	case r.Number >= p.First && r.Number < p.data:
		c.Headings++
		return nil
	case r.Number < p.First:
		return m.keep(s, r, c, "above the headings")
	case slices.Equal(r.Cells, p.head):
		return m.keep(s, r, c, "the headings again")
	case r.cell(p.id) == "":
		m.tell(Place{s.Name, r.Number, p.id + 1}, "this row has no number of an opening: "+summary(r), "it is kept with the job; give it a number where it is an opening")
		return m.keep(s, r, c, "no number of an opening")
	case isTotal(r.cell(p.id)):
		m.tell(Place{s.Name, r.Number, p.id + 1}, "this row is taken for a total: "+summary(r), "it is kept with the job")
		return m.keep(s, r, c, "a total")
	case slices.Contains(r.Merged, p.id) && only(r, p.id), only(r, p.id) && len(strings.Fields(r.cell(p.id))) > 1:
		m.tell(Place{s.Name, r.Number, p.id + 1}, "this row is taken for a title: "+summary(r), "it is kept with the job, and as a note of the openings below it")
		p.title(r.cell(p.id))
		return m.keep(s, r, c, "a title")
	}
	p.titled = false
	c.Openings++
	return m.opening(s, p, r)
}

// sectionNote is the note under which an opening keeps the title that stood above it.
const sectionNote = "section"

// title begins a section; a title straight below another is a part of that.
func (p *sheetPlan) title(text string) {
	if text = oneLine(text); p.titled {
		text = p.section + " / " + text
	}
	p.section, p.titled = text, true
}

// sectionPath is where under survey the title is kept: a column may have its name.
func (p *sheetPlan) sectionPath() []string {
	name := sectionNote
	if slices.ContainsFunc(p.Columns, func(c Column) bool { return c.Field == "" && c.Heading == name }) {
		name += " (title)"
	}
	return []string{"survey", name}
}

// isTotal tells the first cell of a row that adds up others.
func isTotal(text string) bool {
	switch plain(text) {
	case "total", "totals", "subtotal", "sub total", "grand total", "sum", "summe", "count":
		return true
	}
	return false
}

// only tells a row that has no text but in one column.
func only(r *Row, column int) bool {
	for i := range r.Cells {
		if i != column && r.cell(i) != "" {
			return false
		}
	}
	return true
}

// summary is the first texts of a row.
func summary(r *Row) string {
	var texts []string
	for i := range r.Cells {
		if t := oneLine(r.cell(i)); t != "" && len(texts) < 4 {
			texts = append(texts, t)
		}
	}
	return strings.Join(texts, " | ")
}

// opening makes an opening of a row.
func (m *importer) opening(s *Sheet, p *sheetPlan, r *Row) error {
	if m.openings > 0 && m.openings%PerJob == 0 {
		m.turn()
	}
	e := &Entry{Place: Place{s.Name, r.Number, 0}, Part: m.openings / PerJob}
	m.openings++
	e.ID = m.name(e.Place, r.cell(p.id))
	e.Values = append(e.Values, Value{Path: []string{"id"}, Text: e.ID, Place: Place{s.Name, r.Number, p.id + 1}, cell: r.cell(p.id)})
	if e.ID != r.cell(p.id) {
		e.written(p.Columns[p.id].Heading, r.cell(p.id))
	}
	var halves [2]Value
	for i := range p.Columns {
		cell := r.cell(i)
		if cell == "" || i == p.id {
			continue
		}
		if u, ok := r.unsaved[i]; ok && cell == strings.TrimSpace(u.formula) && p.targets[i] != nil {
			m.out.Cells.Notes++
			e.written(p.Columns[i].Heading, cell) // no value of a field
			continue
		}
		m.column(p, e, i, cell, &halves, Place{s.Name, r.Number, i + 1})
	}
	m.nominal(e, halves)
	if p.section != "" {
		e.Values = append(e.Values, Value{Path: p.sectionPath(), Text: p.section, Place: e.Place, cell: p.section})
	}
	for _, i := range r.Formulas {
		if u, ok := r.unsaved[i]; ok {
			value := u.value
			what, hint := "a formula stands here, and the file holds no value of it: "+oneLine(u.formula), "open the file in a spread-sheet program and save it again; the formula is kept as a note"
			switch {
			case value != "" && m.opt.WorkOut:
				if i < len(p.Columns) {
					e.written(p.Columns[i].Heading+" (formula)", u.formula)
				}
				what += "; it was worked out here, and " + oneLine(value) + " taken"
				hint = "look whether the spread-sheet program comes to the same; the formula is kept as a note"
			case value != "":
				what += "; worked out here it comes to " + oneLine(value)
				hint += "; --work-out takes what is worked out here"
			}
			m.tell(Place{s.Name, r.Number, i + 1}, what, hint)
		} else {
			m.tell(Place{s.Name, r.Number, i + 1}, "a formula stands here; its value, "+oneLine(r.cell(i))+", was taken", "look whether the file was saved after it was reckoned")
		}
	}
	for _, i := range r.Merged {
		if i < len(p.Columns) {
			m.tell(Place{s.Name, r.Number, i + 1}, "this cell is merged with one above, whose "+oneLine(r.cell(i))+" was taken", "")
		}
	}
	return m.each(e)
}

// name is the id of an opening: a number that comes again gets a count behind it.
func (m *importer) name(at Place, id string) string {
	id = oneLine(id)
	name := id
	for n := m.ids[id] + 1; m.ids[name] > 0; n++ {
		name = fmt.Sprintf("%s (%d)", id, n)
	}
	m.ids[name]++
	if name != id {
		m.ids[id]++
	} else if part := m.partOf(id); part > 0 {
		m.tell(at, fmt.Sprintf("the number %s stands in part %d already; both jobs have an opening of that name", id, part), "give one of them a number of its own before the jobs are put together")
	}
	if name != id {
		m.tell(at, "the number "+id+" comes again; this opening became "+name, "give the leaves of a pair numbers of their own")
	}
	return name
}

// turn begins another part. Of the ids of the one that is full eight bytes each stay,
// since a schedule may be long.
func (m *importer) turn() {
	full := make([]uint64, 0, len(m.ids))
	for id := range m.ids {
		full = append(full, print(id))
	}
	slices.Sort(full)
	m.before = append(m.before, full)
	clear(m.ids)
}

// partOf is the first part, from 1, that is full and has an opening of an id, or 0.
func (m *importer) partOf(id string) int {
	for i, full := range m.before {
		if _, found := slices.BinarySearch(full, print(id)); found {
			return i + 1
		}
	}
	return 0
}

// print is a fingerprint of an id: two of a million are alike by chance in fewer than
// one of ten million schedules.
func print(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id))
	return h.Sum64()
}

// written keeps a cell as it stands.
func (e *Entry) written(heading, cell string) {
	e.Values = append(e.Values, Value{Path: []string{"survey", asWritten, heading}, Text: cell})
}

// column puts one cell where it belongs.
func (m *importer) column(p *sheetPlan, e *Entry, i int, cell string, halves *[2]Value, at Place) {
	c, t := &p.Columns[i], p.targets[i]
	if t == nil {
		m.out.Cells.Notes++
		e.Values = append(e.Values, Value{Path: append([]string{"survey"}, notePath(c.Heading)...), Text: cell, Place: at, cell: cell})
		return
	}
	text, err := t.read(cell, c.Unit)
	if isBlank(cell) && err != nil {
		m.out.Cells.Notes++
		e.written(c.Heading, cell)
		if c.Field == "fire.label_time" && !p.rated && len(cell) > 1 && !strings.HasPrefix(strings.ToLower(cell), "n/") && cell != "--" && cell != "---" && !strings.EqualFold(cell, "tbd") && !strings.EqualFold(cell, "na") {
			e.Values = append(e.Values, Value{Path: []string{"use", "fire_rated"}, Text: "no", Place: at, cell: cell})
		}
		return
	}
	if err != nil {
		m.out.Cells.Unread++
		e.written(c.Heading, cell)
		m.tell(at, fmt.Sprintf("%s: %s was not understood as %s: %s", e.ID, shortQuote(cell), c.Field, err), "it is kept as a note; write it into the job")
		return
	}
	m.out.Cells.Fields++
	v := Value{Path: strings.Split(c.Field, "."), Text: text, Place: at, cell: cell}
	switch {
	case c.Field == nominalWidth:
		halves[0] = v
		e.written(c.Heading, cell)
		return
	case c.Field == nominalHeight:
		halves[1] = v
		e.written(c.Heading, cell)
		return
	case text != cell:
		e.written(c.Heading, cell)
	}
	e.Values = append(e.Values, v)
	if c.Field == "fire.label_time" && !p.rated {
		rated := "yes"
		if strings.HasPrefix(text, "0 ") {
			rated = "no"
		}
		e.Values = append(e.Values, Value{Path: []string{"use", "fire_rated"}, Text: rated, Place: at, cell: cell})
	}
}

// writtenHead begins the heading of a column that holds cells as they stood in another
// schedule, under the heading that follows.
const writtenHead = asWritten + " / "

// notePath is where under survey the cells of a column are kept: under its heading,
// apart from the name under which cells are kept as they stand.
func notePath(heading string) []string {
	if rest, ok := strings.CutPrefix(heading, writtenHead); ok && rest != "" {
		return []string{asWritten, rest}
	}
	if heading == asWritten {
		return []string{heading + " (column)"}
	}
	return []string{heading}
}

func shortQuote(text string) string { return "“" + oneLine(text) + "”" }

// nominal puts a nominal size together from its halves.
func (m *importer) nominal(e *Entry, halves [2]Value) {
	w, h := halves[0], halves[1]
	if w.Text == "" && h.Text == "" {
		return
	}
	if w.Text == "" || h.Text == "" {
		m.tell(Place{e.Sheet, e.Row, w.Place.Column + h.Place.Column}, e.ID+": a nominal size has a width and a height, and one of them is not known", "it is kept as a note")
		return
	}
	text := w.Text + " x " + h.Text
	if err := targets[nominalField].check(text); err != nil {
		m.tell(w.Place, fmt.Sprintf("%s: %s makes no nominal size: %v", e.ID, shortQuote(text), err), "it is kept as a note; a nominal size has a width and a height")
		return
	}
	e.Values = append(e.Values, Value{Path: strings.Split(nominalField, "."), Text: text, Place: w.Place, cell: text})
}

// ErrNothing is a file of which no row is an opening.
var ErrNothing = errors.New("no opening was found")
