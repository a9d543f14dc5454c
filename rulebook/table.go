package rulebook

import (
	"math"

	"swingwright/quantity"
)

// A Table is a printed table: cells by one or two keys.
type Table struct {
	ID    string             // also the name of its function in formulas
	Title string             // for people
	Dim   quantity.Dimension // of the cells
	Unit  string             // in which the cells were printed
	Rows  Axis
	// Columns has no entries where the table has one key only.
	Columns Axis
	// Cells holds the values in SI, row by row.
	Cells []float64
	// Unconfirmed marks the cells that were not read in published text; empty where all were.
	Unconfirmed []bool
	Note        string
	Source      Source
}

// An Axis is one key of a table.
type Axis struct {
	Name string // for people: leaf width
	Dim  quantity.Dimension
	Unit string    // in which the key is printed
	At   []float64 // printed keys in SI, rising
	Pick Pick      // which entry serves a key between two
	// Within is by how much, in SI, a key may lie past an entry and still be served by it.
	Within float64
}

// Pick is which printed entry serves a key that lies between two.
type Pick uint8

// The picks.
const (
	NextHigher Pick = iota // the first entry at or above the key
	NextLower              // the last entry at or below the key
	Exact                  // only the entry itself
)

var pickNames = [...]string{"next higher", "next lower", "exact"}

// Picks lists the picks as books write them.
func Picks() []string { return pickNames[:] }

// String is the pick as books write it.
func (p Pick) String() string { return nameOf(pickNames[:], int(p)) }

// Keys is how many keys the table has, 1 or 2.
func (t *Table) Keys() int {
	if len(t.Columns.At) == 0 {
		return 1
	}
	return 2
}

// Lookup finds the cell for the keys, in SI; column is ignored where the table has
// one key. ok is false where the table has no cell for them.
func (t *Table) Lookup(row, column float64) (value float64, confirmed, ok bool) {
	i, ok := t.place(row, column)
	if !ok {
		return math.NaN(), false, false
	}
	return t.Cells[i], t.sure(i), true
}

// LookupSure finds the confirmed cell nearest at or beyond the keys in the
// direction of their picks: rows first, then columns. With cells that rise in that direction its
// value is the least that is surely enough.
func (t *Table) LookupSure(row, column float64) (value float64, ok bool) {
	width := max(1, len(t.Columns.At))
	i, ok := t.place(row, column)
	for ok && !t.sure(i) {
		i, ok = t.beyond(i, width)
	}
	if !ok {
		return math.NaN(), false
	}
	return t.Cells[i], !math.IsNaN(t.Cells[i])
}

// beyond is the cell one row further on in the direction of the rows' pick.
func (t *Table) beyond(i, width int) (int, bool) {
	switch t.Rows.Pick {
	case NextHigher:
		i += width
	case NextLower:
		i -= width
	default:
		return 0, false
	}
	return i, i >= 0 && i < len(t.Cells)
}

func (t *Table) sure(i int) bool { return len(t.Unconfirmed) == 0 || !t.Unconfirmed[i] }

// place is the index of the cell that serves the keys; blank cells serve none.
func (t *Table) place(row, column float64) (int, bool) {
	i, ok := t.Rows.find(row)
	if !ok {
		return 0, false
	}
	if len(t.Columns.At) > 0 {
		j, ok := t.Columns.find(column)
		if !ok {
			return 0, false
		}
		i = i*len(t.Columns.At) + j
	}
	return i, i < len(t.Cells) && !math.IsNaN(t.Cells[i])
}

// slack forgives the rounding of unit conversion, as a share of the key.
const slack = 1e-9

// find is the index of the entry that serves the key.
func (a *Axis) find(key float64) (int, bool) {
	switch a.Pick {
	case NextHigher:
		for i, at := range a.At {
			if key <= at+a.give(at) {
				return i, true
			}
		}
	case NextLower:
		for i := len(a.At) - 1; i >= 0; i-- {
			if key >= a.At[i]-a.give(a.At[i]) {
				return i, true
			}
		}
	case Exact:
		for i, at := range a.At {
			if math.Abs(key-at) <= a.give(at) {
				return i, true
			}
		}
	}
	return 0, false
}

// give is by how much a key may miss an entry.
func (a *Axis) give(at float64) float64 { return a.Within + slack*math.Abs(at) }
