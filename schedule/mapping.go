package schedule

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"swingwright/quantity"
)

// A Column is one column of a sheet and what it goes with.
type Column struct {
	Number  int    // from 1
	Heading string // as it stands, under those above it: once in a sheet
	Field   string // what it goes with, such as leaf.width; empty where it is kept as a note
	Unit    string // of cells without one; empty where none is known or needed
	// Confidence is from 0 to 1, of what was proposed; 1 of what a mapping file says.
	Confidence float64
	Reason     string   // why it goes with that, or with nothing
	Examples   []string // some of its cells
	Filled     int      // cells with text among the first rows
	Read       int      // those of them that can be read as the field

	group, own string
}

// A SheetMap is what the columns of one sheet go with.
type SheetMap struct {
	Sheet   string
	Header  int // number of the row with the headings, the last of them; 0 where none was found
	First   int // number of the first row of headings, as groups may stand above
	Columns []Column
	Skip    string // why the sheet is not read as a schedule; empty where it is
}

// A Mapping says what the columns of a file go with.
type Mapping struct{ Sheets []SheetMap }

// sheet is the map of a sheet of a name, nil where there is none.
func (m *Mapping) sheet(name string) *SheetMap {
	for i := range m.Sheets {
		if m.Sheets[i].Sheet == name {
			return &m.Sheets[i]
		}
	}
	return nil
}

const (
	sampled      = 200 // rows that are looked at for headings and values
	searched     = 40  // rows among which the headings are looked for
	surelyEnough = 0.5 // least confidence with which a field is proposed
	byValues     = 0.6 // most confidence that values alone give
	shown        = 3   // examples
)

// headerOf finds the row of headings among the first rows of a sheet: the one with
// most usual headings, two or more. -1 where there is none.
func headerOf(rows []*Row) int {
	best, most := -1, 1
	for i, r := range rows[:min(len(rows), searched)] {
		n := 0
		for k := range r.Cells {
			if headed(r.cell(k)) {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}

// columnsOf makes the columns under a row of headings, with the groups above it and
// the units below. Used are the rows that belong to the heading, below it.
func columnsOf(s *Sheet, rows []*Row, at int) (columns []Column, first, used int) {
	head, first := rows[at], at
	groups := make([]string, len(head.Cells))
	if at > 0 {
		if above, is := groupsOf(s, rows[at-1], len(head.Cells)); is {
			groups, first = above, at-1
		}
	}
	var units []string
	own := make([]string, len(head.Cells))
	for i := range own {
		own[i] = head.cell(i)
	}
	if at+1 < len(rows) && below(head, rows[at+1]) {
		used = 1
		groups = make([]string, len(own))
		for i := range own {
			sub := rows[at+1].cell(i)
			if sub == "" {
				continue
			}
			group := head.cell(i)
			for k := i; group == "" && k > 0; k-- {
				group = head.cell(k - 1)
			}
			groups[i], own[i] = group, sub
		}
	}
	if at+used+1 < len(rows) {
		if units = unitsRow(own, rows[at+used+1]); units != nil {
			used++
		}
	}
	width := len(head.Cells)
	for _, r := range rows[at:] {
		width = max(width, len(r.Cells))
	}
	seen, same := map[string]int{}, map[string]int{}
	for i := range head.Cells {
		same[plain(own[i])]++
	}
	for i := range width {
		c := Column{Number: i + 1}
		if i < len(own) {
			c.own = own[i]
		}
		if i < len(groups) {
			c.group = groups[i]
		}
		c.Heading = oneLine(c.own)
		// How far a group reaches is certain only where its cells are merged.
		if c.group != "" && (len(s.groups) > 0 || used > 0 || same[plain(c.own)] > 1) {
			c.Heading = strings.TrimSuffix(oneLine(c.group+" / "+c.own), " /")
		}
		if c.Heading == "" {
			c.Heading = "column " + columnName(i+1)
		}
		if _, c.Unit = cutUnit(c.own); c.Unit == "" && i < len(units) {
			c.Unit = units[i]
		}
		if seen[c.Heading]++; seen[c.Heading] > 1 {
			c.Heading = fmt.Sprintf("%s (%d)", c.Heading, seen[c.Heading])
		}
		columns = append(columns, c)
	}
	return columns, first, used
}

// below tells a row of headings that stand under those of a row: usual headings all of
// them, and some where that row has none.
func below(head, r *Row) bool {
	n, fresh := 0, 0
	for i := range r.Cells {
		switch t := r.cell(i); {
		case t == "":
		case !headed(t) || i >= len(head.Cells):
			return false
		default:
			n++
			if head.cell(i) == "" {
				fresh++
			}
		}
	}
	return n > 1 && fresh > 0
}

// oneLine is a text without line ends.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// groupsOf reads a row as headings above headings: each reaches over the empty cells
// to its right, or as far as its merged cell. It is none where it has but one text
// that is not merged over a part of the row, as a title has.
func groupsOf(s *Sheet, above *Row, width int) ([]string, bool) {
	texts, ofLeaf := 0, 0
	for i := range above.Cells {
		if t := above.cell(i); t != "" {
			texts++
			if headed(t) || slices.Contains(groupsOfLeaf, plain(t)) {
				ofLeaf++
			}
		}
	}
	spans := s.groups[above.Number]
	partly := len(spans) > 0 && !slices.ContainsFunc(spans, func(x [2]int) bool { return x[1]-x[0]+1 >= width })
	if texts < 2 && !(texts == 1 && partly) || ofLeaf == 0 {
		return nil, false
	}
	groups := make([]string, width)
	for i := 0; i < width; i++ {
		t := above.cell(i)
		if t == "" {
			continue
		}
		last := i
		if k := slices.IndexFunc(spans, func(x [2]int) bool { return x[0] == i }); k >= 0 {
			last = spans[k][1]
		} else if len(spans) == 0 {
			for last+1 < width && above.cell(last+1) == "" {
				last++
			}
		}
		for k := i; k <= min(last, width-1); k++ {
			groups[k] = t
		}
	}
	return groups, true
}

// unitsRow reads a row as units below headings; nil where it is none. Under the number
// of the opening stands no unit: an opening may be called A or M.
func unitsRow(own []string, r *Row) []string {
	units, n := make([]string, len(r.Cells)), 0
	for i := range r.Cells {
		text := strings.Trim(r.cell(i), "()[] ")
		if text == "" {
			continue
		}
		if i < len(own) {
			if score, _ := likeness("", own[i], "id"); score > 0 {
				return nil
			}
		}
		if units[i] = unitNamed(text); units[i] == "" {
			return nil
		}
		n++
	}
	if n == 0 {
		return nil
	}
	return units
}

// proposal is that a column goes with a field.
type proposal struct {
	column     int
	path       string
	unit       string
	confidence float64
	reason     string
	read       int
}

// propose finds what the columns of a sheet go with, from their headings and from the
// values of the first rows.
func propose(columns []Column, rows []*Row) {
	cells := make([][]string, len(columns))
	for i := range columns {
		c := &columns[i]
		for _, r := range rows {
			if t := r.cell(i); t != "" && t != c.own {
				cells[i] = append(cells[i], t)
				if len(c.Examples) < shown && !slices.Contains(c.Examples, t) {
					c.Examples = append(c.Examples, t)
				}
			}
		}
		c.Filled = len(cells[i])
	}
	system := systemOf(columns, cells)
	var all []proposal
	for i := range columns {
		for _, path := range Fields() {
			if p, ok := weigh(&columns[i], cells[i], path, system); ok {
				p.column = i
				all = append(all, p)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b proposal) int { return cmp.Compare(b.confidence, a.confidence) })
	taken := map[string]string{}
	for _, p := range all {
		c := &columns[p.column]
		switch {
		case c.Field != "":
		case taken[p.path] != "":
			if c.Reason == "" {
				c.Reason = p.path + " goes with " + taken[p.path] + " already"
			}
		default:
			taken[p.path] = quantity.Quote(c.Heading)
			c.Field, c.Unit, c.Confidence, c.Reason, c.Read = p.path, p.unit, p.confidence, p.reason, p.read
		}
	}
	for i := range columns {
		if c := &columns[i]; c.Field == "" && c.Reason == "" {
			c.Reason = "no field of an opening is like it"
			if c.Filled == 0 {
				c.Reason = "it is empty"
			}
		}
	}
}

// weigh tells how well a column goes with a field.
func weigh(c *Column, cells []string, path string, system string) (p proposal, ok bool) {
	t := targets[path]
	if strings.HasPrefix(c.Heading, writtenHead) {
		return p, false
	}
	score, why := likeness(c.group, c.own, path)
	if t.half { // takes the headings of the taped width and height
		score, why = likeness(c.group, c.own, strings.Replace(path, ".nominal", "", 1))
		score = min(score, 0.95) // a heading that names the field itself does not mean half of another
	}
	valuesTell := path == nominalField || path == "frame.hand"
	if score == 0 && !valuesTell {
		return p, false
	}
	p = proposal{path: path, unit: c.Unit, reason: why}
	sure := 1.0
	if dim, isQuantity := t.dimension(); isQuantity {
		p.unit, p.reason, sure = unitFor(t, dim, c.Unit, cells, system, why)
	} else if !t.field.Nominal() {
		p.unit = ""
	}
	said := 0
	for _, cell := range cells {
		if isBlank(cell) {
			continue
		}
		said++
		if _, err := t.read(cell, p.unit); err == nil {
			p.read++
		}
	}
	share := 0.5 // nothing speaks for or against it
	if said > 0 {
		share = float64(p.read) / float64(said)
	}
	switch {
	case path == "id":
		share = unlike(cells)
		p.reason += fmt.Sprintf("; %.0f %% of its texts stand once", 100*share)
		p.confidence = score * (0.5 + 0.5*share)
	case score == 0:
		p.confidence = byValues * share
		p.reason = fmt.Sprintf("%d of %d values are such", p.read, said)
		if said < shown || share < 0.9 {
			return p, false
		}
	default:
		p.confidence = score * (0.3 + 0.7*share)
		if !t.field.Text() {
			p.reason += fmt.Sprintf("; %d of %d values can be read", p.read, said)
		}
	}
	if t.half || path == "leaf.width" || path == "leaf.height" {
		if even := evenInches(t, cells, p.unit); even != t.half && (t.half || score < 1) {
			p.confidence *= 0.6
		} else if t.half {
			p.reason += "; even inches are the nominal size of the opening: write " + strings.Replace(path, ".nominal", "", 1) + " if the leaf was taped"
		}
		if c.own != "" && (strings.Contains(plain(c.own), "measured") || strings.Contains(plain(c.own), "actual")) == t.half {
			p.confidence *= 0.9
		}
	}
	if p.confidence >= surelyEnough { // a doubtful unit is told, and hides no field
		p.confidence = max(p.confidence*sure, surelyEnough)
	}
	return p, p.confidence >= surelyEnough
}

// unlike is the share of texts that stand once.
func unlike(cells []string) float64 {
	count := map[string]int{}
	for _, c := range cells {
		count[c]++
	}
	once := 0
	for _, n := range count {
		if n == 1 {
			once++
		}
	}
	if len(cells) == 0 {
		return 0
	}
	return float64(once) / float64(len(cells))
}

// evenInches tells lengths most of which are whole even inches, to a millimetre.
func evenInches(t *target, cells []string, unit string) bool {
	even, n := 0, 0
	for _, cell := range cells {
		text, err := t.read(cell, unit)
		if err != nil {
			continue
		}
		x, _, _, err := quantity.ParseAs(quantity.DimLength, text)
		if err != nil {
			continue
		}
		n++
		inches := x / float64(2*quantity.Inch)
		if off := inches - float64(int(inches+0.5)); off < 0.02 && off > -0.02 {
			even++
		}
	}
	return n > 0 && even*5 >= n*4
}

// likely are the lengths, in metres, that a field is likely to have: wide enough for
// any door, narrow enough to tell units apart (common practice).
var likely = map[string][2]float64{
	"leaf.width": {0.45, 1.6}, "leaf.height": {1.7, 3.3}, "leaf.thickness": {0.025, 0.09}, nominalWidth: {0.45, 1.6}, nominalHeight: {1.7, 3.3},
	"frame.opening_width": {0.45, 1.6}, "doorway.clear_width": {0.4, 1.6}, "doorway.clear_height": {1.7, 3.3}, "frame.face_width": {0.02, 0.3},
}

// usual are the units that bare numbers are tried with, US first.
var usual = map[quantity.Dimension][2]string{
	quantity.DimLength: {"in", "mm"}, quantity.DimMass: {"lb", "kg"}, quantity.DimForce: {"lbf", "N"}, quantity.DimTime: {"s", "s"}, quantity.DimPressure: {"inH2O", "Pa"}, quantity.DimAngle: {"deg", "deg"}, quantity.DimTemperature: {"°F", "°C"},
}

// How sure a unit is that nothing but the rest of the sheet, or nothing at all, tells
// (our choice).
const (
	likeTheRest = 0.8
	mereGuess   = 0.6
)

// unitFor tells the unit of a column's bare numbers, why, and how sure that is, from 0
// to 1. The system is that of the sheet.
func unitFor(t *target, dim quantity.Dimension, given string, cells []string, system, why string) (unit, reason string, sure float64) {
	switch {
	case dim == quantity.DimRatio:
		return "", why, 1
	case given != "":
		if d, _, _, ok := quantity.UnitFactor(given); ok && d == dim {
			return given, why + "; the heading names its unit", 1
		}
	case t.path == "fire.label_time":
		return "min", why, 1
	}
	bare := 0
	for _, cell := range cells {
		if t.check(cell) != nil && !isBlank(cell) {
			bare++
		}
	}
	if bare == 0 {
		return "", why, 1
	}
	if span, ok := likely[t.path]; ok && dim == quantity.DimLength {
		best, most := "", 0
		for _, u := range []string{"in", "mm", "cm", "ft", "m"} {
			in := 0
			for _, cell := range cells {
				text, err := t.read(cell, u)
				if x, _, _, bad := quantity.ParseAs(dim, text); err == nil && bad == nil && x >= span[0] && x <= span[1] {
					in++
				}
			}
			if in > most {
				best, most = u, in
			}
		}
		if best != "" {
			return best, why + "; taken as " + best + ", since no other unit makes doors of its numbers", 1
		}
	}
	choice := usual[dim]
	unit = choice[0]
	if system == metric {
		unit = choice[1]
	}
	switch {
	case unit == "":
		return "", why, 1
	case choice[0] == choice[1]:
		return unit, why + "; no unit stands there, taken as " + unit, 1
	case system == "":
		return unit, why + "; no unit stands there, and no width or height of the sheet tells which system it is in: " + unit + " is a guess, and less sure for it", mereGuess
	}
	return unit, why + "; no unit stands there: " + unit + " is guessed from the widths and heights of the sheet, which are " + system + ", and less sure for it", likeTheRest
}

// The systems of units that a sheet may be in.
const (
	metric = "metric"
	inches = "in inches and feet"
)

// systemOf tells the system that the widths and heights of a sheet are in, by the unit
// of their column or those that stand in their cells; empty where nothing tells.
func systemOf(columns []Column, cells [][]string) string {
	n := map[string]int{}
	for i := range columns {
		for _, path := range []string{"leaf.width", "leaf.height", "leaf.thickness"} {
			if score, _ := likeness(columns[i].group, columns[i].own, path); score == 0 {
				continue
			}
			unit, _, sure := unitFor(targets[path], quantity.DimLength, columns[i].Unit, cells[i], "", "")
			if unit != "" && sure == 1 {
				n[unitSystem[unit]]++
				continue
			}
			for _, cell := range cells[i] {
				if found := writtenUnit.FindString(strings.ToLower(cell)); found != "" {
					n[unitSystem[found]]++
					break
				}
			}
		}
	}
	switch {
	case n[metric] > n[inches]:
		return metric
	case n[inches] > 0:
		return inches
	}
	return ""
}

// writtenUnit finds a unit of length behind a number.
var writtenUnit = regexp.MustCompile(`mm|cm|m\b|in|ft|["']`)

var unitSystem = map[string]string{"mm": metric, "cm": metric, "m": metric, "in": inches, "ft": inches, `"`: inches, "'": inches}
