package paper

import (
	"math"
	"slices"
)

// widths are the widths of the columns for a page so wide, mm. Every column has room for
// its longest word and for its head in two lines, and where the page is wide enough for
// its whole head and whole cells. Where it is not, columns share what it has so that the
// table comes out as low as can be.
func (t *Table) widths(page float64) []float64 {
	n := len(t.Columns)
	least, most := make([]float64, n), make([]float64, n)
	for i, c := range t.Columns {
		least[i] = max(5, cellHd.inLines(c.Head, 2))
		most[i] = max(5, cellHd.width(clean(c.Head)))
	}
	for _, r := range t.rows {
		if r.span {
			continue
		}
		for i := range r.cells {
			c := &r.cells[i]
			f := c.face()
			most[i] = max(most[i], f.width(clean(c.Text))+c.indent())
			least[i] = max(least[i], f.longest(c.Text)+c.indent())
			if c.written() {
				least[i], most[i] = max(least[i], 14), max(most[i], 18)
			}
		}
	}
	for i, c := range t.Columns {
		if c.Width > 0 {
			least[i], most[i] = c.Width, c.Width
		}
	}
	room := page - gutter*float64(n-1)
	w := slices.Clone(most)
	if sum(most) > room {
		if sum(least) > room { // words have to be broken
			narrow(least, make([]float64, n), room)
		}
		w = t.lowest(least, most, room)
	}
	t.grow(w, room)
	return w
}

func sum(w []float64) (s float64) {
	for _, x := range w {
		s += x
	}
	return s
}

// inLines is the least width at which a text takes no more than so many lines.
func (f Face) inLines(text string, lines int) float64 {
	low, high := f.longest(text), f.width(clean(text))
	if low >= high || len(f.Wrap(text, low)) <= lines {
		return low
	}
	for high-low > 0.2 {
		if mid := (low + high) / 2; len(f.Wrap(text, mid)) <= lines {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// narrow cuts the widest columns down to one width, so that the page has room for
// all, but none below its least width.
func narrow(w, least []float64, room float64) {
	at := func(level float64) (sum float64) {
		for i := range w {
			sum += min(w[i], max(level, least[i]))
		}
		return sum
	}
	if at(room) <= room {
		return
	}
	low, high := 0., room
	for range 60 { // halves the doubt each time; the sum rises with the level
		if mid := (low + high) / 2; at(mid) > room {
			high = mid
		} else {
			low = mid
		}
	}
	for i := range w {
		w[i] = min(w[i], max(low, least[i]))
	}
}

// lowest are the widths at which the table comes out lowest, as far as is found from two
// beginnings: all columns cut to one width, and each with a share of what it lacks.
func (t *Table) lowest(least, most []float64, room float64) (best []float64) {
	const sample = 40 // rows that are looked at; the rest of a long table is like them
	m := t.measured(sample)
	even, shared := slices.Clone(most), slices.Clone(least)
	narrow(even, least, room)
	if lacking := sum(most) - sum(least); lacking > 0 {
		for i := range shared {
			shared[i] += (most[i] - least[i]) * max(0, room-sum(least)) / lacking
		}
	}
	cost := math.Inf(1)
	for _, w := range [][]float64{even, shared} {
		if c := t.level(m, w, least); c < cost-1e-9 {
			best, cost = w, c
		}
	}
	return best
}

// level moves width from column to column as long as that makes the table lower, none
// below its least width, and gives its height in lines.
func (t *Table) level(m *measured, w, least []float64) float64 {
	best := m.cost(w)
	for _, step := range []float64{16, 8, 4, 2} {
		for better := true; better; {
			better = false
			for from := range w {
				if t.Columns[from].Width > 0 || w[from]-step < least[from] {
					continue
				}
				for to := range w {
					if to == from || t.Columns[to].Width > 0 || w[from]-step < least[from] {
						continue
					}
					w[from], w[to] = w[from]-step, w[to]+step
					if c := m.cost(w); c < best-1e-9 {
						best, better = c, true
						continue
					}
					w[from], w[to] = w[from]+step, w[to]-step
				}
			}
		}
	}
	return best
}

// measured are the widths of the words of cells, row by row, mm.
type measured struct {
	rows  [][]cellWords
	space float64
}

type cellWords struct {
	words  []float64
	indent float64
	least  int // lines
}

func (t *Table) measured(rows int) *measured {
	m := &measured{space: cell.advance(' ') * cell.Cap}
	head := make([]cellWords, len(t.Columns))
	for i := range t.Columns {
		for _, word := range words(t.Columns[i].Head) {
			head[i].words = append(head[i].words, cellHd.width(word))
		}
	}
	m.rows = append(m.rows, head)
	for _, r := range t.rows {
		if r.span || len(m.rows) > rows {
			continue
		}
		row := make([]cellWords, len(r.cells))
		for i := range r.cells {
			c := &r.cells[i]
			f := c.face()
			row[i] = cellWords{indent: c.indent(), least: 1}
			for _, word := range words(c.Text) {
				row[i].words = append(row[i].words, f.width(word))
			}
			if c.written() {
				row[i].least = 2 // as high as two lines
			}
		}
		m.rows = append(m.rows, row)
	}
	return m
}

// cost is the height of the rows, in lines, and a little for every line of every cell,
// so that of tables of one height the one with fewer broken cells is taken.
func (m *measured) cost(w []float64) float64 {
	high, all := 0, 0
	for _, row := range m.rows {
		most := 1
		for i := range row {
			n := row[i].lines(w[i], m.space)
			most, all = max(most, n), all+n
		}
		high += most
	}
	return float64(high) + 0.02*float64(all)
}

// lines are how many lines a cell takes at a width; a word that is too long takes as many
// as it is wide.
func (c *cellWords) lines(width, space float64) int {
	const slack = 1e-6
	width -= c.indent
	n, used := 0, width+1
	for _, w := range c.words {
		if n > 0 && used+space+w <= width+slack {
			used += space + w
			continue
		}
		n, used = n+1, w
		for ; used > width+slack && width > 1; used -= width {
			n++
		}
	}
	return max(n, c.least)
}
