package paper

import (
	"slices"

	"swingwright/internal/draw"
)

// A Table is rows in columns. Columns are as wide as their widest cell; where the
// page is too narrow the widest give way first, and their cells wrap.
type Table struct {
	Columns []Column
	rows    []tableRow
}

// Column is one column of a table.
type Column struct {
	Head string
	// Width fixes the column's width, mm; 0 leaves it to what stands in it.
	Width float64
	// Grow is the column's share of room that is left over; where no column has
	// one, the last takes it.
	Grow float64
	// Right sets the cells to the right, as numbers.
	Right bool
}

// Cell is what stands in one column of a row.
type Cell struct {
	Text string
	Bold bool
	Tick bool // a box to tick, before the text
	Line bool // left open to write in, above the rule of the row
	// Blanks are so many short lines to write on side by side, three to a row.
	Blanks int
}

// written tells that the cell is written in.
func (c *Cell) written() bool { return c.Line || c.Blanks > 0 }

type tableRow struct {
	cells   []Cell
	span    bool // the only cell spans the row
	written int  // lines that are left to write on
}

// NewTable is a table with columns of these heads.
func NewTable(heads ...string) *Table {
	t := &Table{}
	for _, h := range heads {
		t.Columns = append(t.Columns, Column{Head: h})
	}
	return t
}

// Row adds a row of texts; one that is too short is filled up with empty cells.
func (t *Table) Row(texts ...string) {
	cells := make([]Cell, len(t.Columns))
	for i, text := range texts {
		cells[i].Text = text
	}
	t.rows = append(t.rows, tableRow{cells: cells})
}

// Cells adds a row of cells, high enough to write in where one is a line.
func (t *Table) Cells(cells ...Cell) {
	row := tableRow{cells: append(cells, make([]Cell, max(0, len(t.Columns)-len(cells)))...)}
	for i := range cells {
		if c := &cells[i]; c.written() {
			row.written = max(row.written, 1, (c.Blanks+perRow-1)/perRow)
		}
	}
	t.rows = append(t.rows, row)
}

// Part adds a row that heads the rows below it.
func (t *Table) Part(text string) {
	t.rows = append(t.rows, tableRow{cells: []Cell{{Text: text, Bold: true}}, span: true})
}

// Len is the number of rows.
func (t *Table) Len() int { return len(t.rows) }

// Measures of a table, mm.
const (
	gutter = 3.  // between columns
	tick   = 3.  // side of a box to tick
	beside = 1.8 // from the box to its text
	perRow = 3   // short lines to write on, side by side
)

// Table writes a table. Its head stands again at the top of every page; a row
// stays whole unless it is higher than a page.
func (d *Document) Table(t *Table) {
	if len(t.rows) == 0 {
		return
	}
	widths := t.widths(d.Width())
	head := d.heads(t, widths)
	for i := range t.rows {
		r := d.lay(&t.rows[i], widths)
		alone := r.height
		if t.leads(i) {
			alone += d.lay(&t.rows[i+1], widths).height
		}
		if i == 0 {
			d.need(head.height + alone)
			d.head(head, widths)
		} else if alone > d.Left() && d.y > d.top+head.height+1 {
			d.turn()
			d.room(head.height + alone)
			d.head(head, widths)
		}
		d.rows(r, head, widths)
	}
	d.Space(3)
}

// leads tells that the next row should be on the page of a row: because this one heads it,
// and so that neither the first nor the last row of four and more stands alone.
func (t *Table) leads(row int) bool {
	n := len(t.rows)
	return row+1 < n && (t.rows[row].span || n > 3 && (row == 0 || row == n-2))
}

// laid is a row broken into lines.
type laid struct {
	row    *tableRow
	lines  [][]string
	height float64
}

func (d *Document) heads(t *Table, widths []float64) laid {
	r := &tableRow{cells: make([]Cell, len(t.Columns))}
	l := laid{row: r, lines: make([][]string, len(t.Columns))}
	if !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Head != "" }) {
		return laid{}
	}
	most := 1
	for i := range t.Columns {
		r.cells[i] = Cell{Text: t.Columns[i].Head, Bold: true}
		l.lines[i] = cellHd.Wrap(t.Columns[i].Head, widths[i])
		most = max(most, len(l.lines[i]))
	}
	l.height = float64(most)*d.lead(cellHd) + 1.6
	return l
}

func (c *Cell) face() Face {
	f := cell
	f.Bold = c.Bold
	return f
}

// indent is how far a cell's text stands in from its column's left.
func (c *Cell) indent() float64 {
	if c.Tick {
		return tick + beside
	}
	return 0
}

func (d *Document) lay(r *tableRow, widths []float64) laid {
	l := laid{row: r, lines: make([][]string, len(r.cells))}
	most := 1
	for i := range r.cells {
		c, w := &r.cells[i], d.Width()
		if !r.span {
			w = widths[i]
		}
		l.lines[i] = c.face().Wrap(c.Text, w-c.indent())
		most = max(most, len(l.lines[i]))
	}
	l.height = max(float64(r.written)*d.set().row, d.filled(most))
	if r.span {
		l.height += 1.2
	}
	return l
}

// filled is the height of a row of so many lines.
func (d *Document) filled(lines int) float64 {
	return float64(lines)*d.lead(cell) + 2*d.set().padding - 0.8
}

// head writes the head of a table, with the rule below it.
func (d *Document) head(h laid, widths []float64) {
	if h.height == 0 {
		d.line(side, d.y, d.size.Width-side, d.y, draw.Style{Width: 0.35})
		return
	}
	x := float64(side)
	high := 0
	for i := range h.lines {
		high = max(high, len(h.lines[i]))
	}
	for i := range h.lines {
		down := float64(high-len(h.lines[i])) * d.lead(cellHd) // heads stand on the rule
		for k, line := range h.lines[i] {
			d.put(cellHd, x, d.y+down+float64(k)*d.lead(cellHd), draw.Start, line)
		}
		x += widths[i] + gutter
	}
	d.y += h.height - 0.6
	d.line(side, d.y, d.size.Width-side, d.y, draw.Style{Width: 0.35})
}

// rows writes a row, in pieces where it is higher than a page.
func (d *Document) rows(r, head laid, widths []float64) {
	for {
		room := int((d.Left() - 2*d.set().padding + 0.8 + 1e-6) / d.lead(cell))
		high := 0
		for i := range r.lines {
			high = max(high, len(r.lines[i]))
		}
		if high <= room || room < 1 && d.y <= d.top+head.height+1 {
			d.row(r, widths)
			return
		}
		piece, rest := r, r
		piece.lines, rest.lines = make([][]string, len(r.lines)), make([][]string, len(r.lines))
		for i, lines := range r.lines {
			n := min(len(lines), max(room, 1))
			piece.lines[i], rest.lines[i] = lines[:n], lines[n:]
		}
		piece.height = d.filled(room)
		rest.height = d.filled(high - room)
		d.row(piece, widths)
		d.turn()
		d.head(head, widths)
		r = rest
	}
}

func (d *Document) row(r laid, widths []float64) {
	x, top := float64(side), d.y+d.set().padding+0.55
	if r.row.span {
		top += 1.2
	}
	for i := range r.row.cells {
		c, w := &r.row.cells[i], d.Width()
		if !r.row.span {
			w = widths[i]
		}
		if c.Tick {
			d.box(x, top-0.4, tick)
		}
		if c.Line { // where to write is seen by the rules around it
			for _, at := range []float64{x - gutter/2, x + w + gutter/2} {
				if at > side && at < d.size.Width-side {
					d.line(at, d.y, at, d.y+r.height, draw.Style{Width: 0.12, Stroke: draw.Grey})
				}
			}
		}
		for k := range c.Blanks {
			const apart = 3.
			one := (w - apart*(perRow-1)) / perRow
			left, down := x+float64(k%perRow)*(one+apart), d.y+d.set().row*float64(k/perRow+1)-1.3
			d.line(left, down, left+one, down, draw.Style{Width: 0.2})
		}
		for k, line := range r.lines[i] {
			d.put(c.face(), x+c.indent(), top+float64(k)*d.lead(cell), draw.Start, line)
		}
		x += w + gutter
	}
	d.y += r.height
	d.line(side, d.y, d.size.Width-side, d.y, draw.Style{Width: 0.12, Stroke: draw.Grey})
}

// grow hands out the room that is left over.
func (t *Table) grow(w []float64, room float64) {
	left, shares := room, 0.
	for i, c := range t.Columns {
		left -= w[i]
		shares += c.Grow
	}
	if left <= 0 || len(w) == 0 {
		return
	}
	if shares == 0 {
		w[len(w)-1] += left
		return
	}
	for i, c := range t.Columns {
		w[i] += left * c.Grow / shares
	}
}
