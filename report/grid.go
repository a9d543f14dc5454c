package report

// Grid writes a table with its headings under a title; nothing but the title where
// there are no rows.
func (t *Text) Grid(title string, headings []string, rows [][]string) error {
	if title != "" {
		t.head(title)
	}
	tab := t.section(make([]int, len(headings))...)
	for i := range tab.least {
		tab.least[i] = 6
	}
	if len(headings) > 0 && len(rows) > 0 {
		tab.add(headings...)
	}
	for _, r := range rows {
		tab.add(r...)
	}
	t.put(tab)
	return t.flush()
}

// Say writes a paragraph.
func (t *Text) Say(text string) error {
	t.paragraph("", text)
	return t.flush()
}
