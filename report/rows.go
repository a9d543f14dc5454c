package report

// Rows writes cells in columns, none narrower than its least width in characters
// while the page allows; the first row is the head. Nothing in a cell reaches the terminal as
// a control character.
func (t *Text) Rows(least []int, rows [][]string) error {
	tab := t.table(least...)
	for _, cells := range rows {
		tab.add(cells...)
	}
	t.put(tab)
	return t.flush()
}
