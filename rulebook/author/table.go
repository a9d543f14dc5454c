package author

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/quantity"
	"swingwright/rulebook"
)

const (
	mostCells   = 200 // along one key
	plainNumber = "number"
)

var tablePattern = regexp.MustCompile(`^[a-z][a-z0-9_]{0,39}$`)

// tables reads the book's tables, in the order of the file.
func (b *builder) tables(rec record) []*rulebook.Table {
	n := rec.values["tables"]
	if n == nil || !b.isMapping(n, "tables") {
		return nil
	}
	var list []*rulebook.Table
	for key, value := range pairs(n) {
		path := "tables." + key.Value
		switch {
		case !tablePattern.MatchString(key.Value) || b.taken(key.Value):
			b.wrong(key, path, "the name "+quantity.Quote(key.Value), "small letters, digits and _, and no name that formulas already know", "formulas call a table by its name")
		case slices.ContainsFunc(list, func(t *rulebook.Table) bool { return t.ID == key.Value }):
			b.wrong(key, path, "the name a second time", "a name of its own", "")
		case len(list) >= mostRules:
			b.wrong(key, path, "too many tables", "at most 2000", "")
			return list
		default:
			if t, ok := b.table(key.Value, value, path); ok {
				list = append(list, t)
			}
		}
	}
	return list
}

// taken tells names that formulas or their language already use.
func (b *builder) taken(name string) bool {
	reserved := []string{"in", "as", "if", "for", "let", "var", "void", "else", "loop", "true", "null", "false", "break", "const", "while", "import", "return", "package", "function", "continue", "namespace"}
	return slices.Contains(reserved, name) || slices.Contains(b.checker.functions, name) || factGroups[name]
}

func (b *builder) table(id string, n *yaml.Node, path string) (*rulebook.Table, bool) {
	rec := b.record(n, path, []string{"unit", "rows", "cells", "source"}, "title", "columns", "unconfirmed", "note")
	before := len(b.problems)
	t := &rulebook.Table{ID: id, Title: rec.text("title"), Unit: rec.text("unit"), Note: rec.text("note")}
	t.Dim = rec.unit("unit")
	if rec.values["rows"] != nil {
		t.Rows = b.axis(rec.values["rows"], rec.field("rows"))
	}
	if rec.values["columns"] != nil {
		t.Columns = b.axis(rec.values["columns"], rec.field("columns"))
	}
	if rec.values["source"] != nil {
		t.Source = b.source(rec.values["source"], rec.field("source"))
	}
	if len(b.problems) > before || rec.values["cells"] == nil {
		return nil, false
	}
	b.cells(rec, t)
	b.doubts(rec, t)
	return t, len(b.problems) == before
}

// unit is the dimension of a unit; a missing unit is that of a plain number.
func (rec record) unit(key string) quantity.Dimension {
	text := rec.text(key)
	if text == "" || text == plainNumber {
		return quantity.DimRatio
	}
	d, _, _, ok := quantity.UnitFactor(text)
	if !ok {
		rec.bad(key, "a unit such as in, lb, s, lbf or N·m, or number", "")
	}
	return d
}

// inSI reads a printed number of units.
func (r *reader) inSI(n *yaml.Node, path, unit string, d quantity.Dimension) (float64, bool) {
	text := r.scalar(n, path)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		r.wrong(n, path, quantity.Quote(text), "a number, in the unit given above", "")
		return 0, false
	}
	if unit == "" || unit == plainNumber {
		return v, true
	}
	si, err := quantity.FromUnit(d, v, unit)
	if err != nil {
		r.wrong(n, path, quantity.Quote(text), "a number of "+unit, err.Error())
	}
	return si, err == nil
}

func (b *builder) axis(n *yaml.Node, path string) rulebook.Axis {
	rec := b.record(n, path, []string{"name", "at"}, "unit", "pick", "within")
	a := rulebook.Axis{Name: rec.text("name"), Unit: rec.text("unit"), Dim: rec.unit("unit")}
	a.Pick = rulebook.Pick(rec.word("pick", rulebook.Picks()))
	if text := rec.text("within"); text != "" {
		v, ok := rec.amount(rec.values["within"], rec.field("within"), text, a.Dim)
		if ok && v < 0 {
			rec.bad("within", "a distance that is not below zero", "")
		}
		a.Within = v
	}
	entries := rec.list("at")
	if rec.values["at"] != nil && (len(entries) == 0 || len(entries) > mostCells) {
		rec.wrong(rec.values["at"], rec.field("at"), fmt.Sprint(len(entries), " entries"), "1 to 200 entries", "")
		return a
	}
	for i, e := range entries {
		v, ok := b.inSI(e, fmt.Sprintf("%s.at[%d]", path, i), a.Unit, a.Dim)
		if ok && i > 0 && len(a.At) == i && v <= a.At[i-1] {
			b.wrong(e, fmt.Sprintf("%s.at[%d]", path, i), quantity.Quote(e.Value), "entries that rise", "")
		}
		if ok {
			a.At = append(a.At, v)
		}
	}
	return a
}

// cells reads the table's cells: for two keys a list of rows, for one a plain
// list. The word none is a cell that is blank in print.
func (b *builder) cells(rec record, t *rulebook.Table) {
	rows := rec.list("cells")
	if len(rows) != len(t.Rows.At) {
		rec.wrong(rec.values["cells"], rec.field("cells"), fmt.Sprint(len(rows), " rows"), fmt.Sprint(len(t.Rows.At), ", one for each entry of rows"), "")
		return
	}
	for i, row := range rows {
		path := fmt.Sprintf("%s[%d]", rec.field("cells"), i)
		entries := []*yaml.Node{row}
		if t.Keys() == 2 {
			entries = b.entries(row, path)
			if len(entries) != len(t.Columns.At) {
				b.wrong(row, path, fmt.Sprint(len(entries), " cells"), fmt.Sprint(len(t.Columns.At), ", one for each entry of columns"), "")
				continue
			}
		}
		for j, cell := range entries {
			t.Cells = append(t.Cells, b.cell(cell, fmt.Sprintf("%s[%d]", path, j), t))
		}
	}
}

func (b *builder) cell(n *yaml.Node, path string, t *rulebook.Table) float64 {
	if n.Kind == yaml.ScalarNode && n.Value == "none" {
		return math.NaN()
	}
	v, _ := b.inSI(n, path, t.Unit, t.Dim)
	return v
}

// doubts marks the cells that nobody read in published text, each by its
// printed keys, [30, 100]; one key marks a whole row. Of a table that is itself
// not confirmed no cell is.
func (b *builder) doubts(rec record, t *rulebook.Table) {
	if !t.Source.Confirmed() {
		t.Unconfirmed = slices.Repeat([]bool{true}, len(t.Cells))
	}
	for i, n := range rec.list("unconfirmed") {
		path := fmt.Sprintf("%s[%d]", rec.field("unconfirmed"), i)
		keys := []*yaml.Node{n}
		if n.Kind == yaml.SequenceNode {
			keys = n.Content
		}
		if len(keys) < 1 || len(keys) > t.Keys() {
			b.wrong(n, path, fmt.Sprint(len(keys), " keys"), "the cell's keys as printed, such as [30, 100], or [30] for a row", "")
			continue
		}
		if t.Unconfirmed == nil {
			t.Unconfirmed = make([]bool, len(t.Cells))
		}
		b.doubt(t, keys, path)
	}
}

func (b *builder) doubt(t *rulebook.Table, keys []*yaml.Node, path string) {
	width := max(1, len(t.Columns.At))
	row, ok := b.entry(&t.Rows, keys[0], path)
	if !ok {
		return
	}
	from, to := row*width, (row+1)*width
	if len(keys) == 2 {
		column, ok := b.entry(&t.Columns, keys[1], path)
		if !ok {
			return
		}
		from, to = from+column, from+column+1
	}
	for i := from; i < min(to, len(t.Unconfirmed)); i++ {
		t.Unconfirmed[i] = true
	}
}

// entry is the place of a printed key on its axis.
func (b *builder) entry(a *rulebook.Axis, n *yaml.Node, path string) (int, bool) {
	v, ok := b.inSI(n, path, a.Unit, a.Dim)
	if !ok {
		return 0, false
	}
	i := slices.Index(a.At, v)
	if i < 0 {
		b.wrong(n, path, quantity.Quote(n.Value), "one of the printed keys", "")
	}
	return i, i >= 0
}
