package rulebook

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/quantity"
)

// The JSON form of a book has every formula lowered, so that a program without
// the language of formulas can apply it. Facts, dimensions and operations stand by name.

type bookForm struct {
	ID      string      `json:"id"`
	Work    string      `json:"work"`
	Edition string      `json:"edition"`
	Title   string      `json:"title"`
	Place   string      `json:"place,omitempty"`
	From    Date        `json:"from,omitempty"`
	Until   Date        `json:"until,omitempty"`
	Note    string      `json:"note,omitempty"`
	Tables  []tableForm `json:"tables,omitempty"`
	Rules   []ruleForm  `json:"rules"`
}

type ruleForm struct {
	ID     string    `json:"id"`
	Title  string    `json:"title"`
	Of     string    `json:"of"`
	Side   Side      `json:"side"`
	Limit  *exprForm `json:"limit"`
	At     *exprForm `json:"at,omitempty"`
	When   *exprForm `json:"when,omitempty"`
	Sure   *exprForm `json:"sure,omitempty"`
	Advice bool      `json:"advice,omitempty"`
	Note   string    `json:"note,omitempty"`
	Source Source    `json:"source"`
}

type tableForm struct {
	ID          string     `json:"id"`
	Title       string     `json:"title,omitempty"`
	Dim         string     `json:"dim"`
	Unit        string     `json:"unit,omitempty"`
	Rows        axisForm   `json:"rows"`
	Columns     *axisForm  `json:"columns,omitempty"`
	Cells       []*float64 `json:"cells"` // null is a blank cell
	Unconfirmed []bool     `json:"unconfirmed,omitempty"`
	Note        string     `json:"note,omitempty"`
	Source      Source     `json:"source"`
}

type axisForm struct {
	Name   string    `json:"name,omitempty"`
	Dim    string    `json:"dim"`
	Unit   string    `json:"unit,omitempty"`
	At     []float64 `json:"at"`
	Pick   Pick      `json:"pick"`
	Within float64   `json:"within,omitempty"`
}

// MarshalJSON writes the book with its formulas lowered.
func (b *Book) MarshalJSON() ([]byte, error) {
	form := bookForm{
		ID: b.ID, Work: b.Work, Edition: b.Edition, Title: b.Title, Place: b.Place,
		From: b.From, Until: b.Until, Note: b.Note, Rules: []ruleForm{},
	}
	for _, t := range b.Tables {
		form.Tables = append(form.Tables, t.form())
	}
	for i := range b.Rules {
		form.Rules = append(form.Rules, b.Rules[i].form())
	}
	return json.Marshal(form)
}

// UnmarshalJSON reads what MarshalJSON wrote. The error joins all that is
// wrong with rules and tables; the book is changed only when there is none.
func (b *Book) UnmarshalJSON(text []byte) error {
	var form bookForm
	if err := json.Unmarshal(text, &form); err != nil {
		return err
	}
	book := Book{
		ID: form.ID, Work: form.Work, Edition: form.Edition, Title: form.Title, Place: form.Place,
		From: form.From, Until: form.Until, Note: form.Note,
	}
	var errs []error
	for i := range form.Tables {
		t, err := form.Tables[i].table()
		errs = append(errs, inRecord("table", form.Tables[i].ID, err))
		book.Tables = append(book.Tables, t)
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i := range form.Rules {
		r, err := form.Rules[i].rule(&book)
		errs = append(errs, inRecord("rule", form.Rules[i].ID, err))
		book.Rules = append(book.Rules, r)
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	*b = book
	return nil
}

func inRecord(kind, id string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s %q: %w", kind, id, err)
}

func (r *Rule) form() ruleForm {
	return ruleForm{
		ID: r.ID, Title: r.Title, Of: r.Of.String(), Side: r.Side,
		Limit: r.Limit.form(), At: r.At.form(), When: r.When.form(), Sure: r.Sure.form(),
		Advice: r.Advice, Note: r.Note, Source: r.Source,
	}
}

func (f *ruleForm) rule(b *Book) (Rule, error) {
	of, ok := fact.Lookup(f.Of)
	if !ok {
		return Rule{}, fmt.Errorf("found the fact %q, needed one of this program's facts", f.Of)
	}
	if f.Limit == nil {
		return Rule{}, errors.New("found no limit, needed one")
	}
	r := Rule{
		ID: f.ID, Title: f.Title, Of: of, Side: f.Side, Advice: f.Advice, Note: f.Note,
		Source: f.Source, Confirmed: f.Source.Confirmed(),
	}
	var errs [4]error
	for i, part := range []struct {
		form *exprForm
		into **Expr
	}{{f.Limit, &r.Limit}, {f.At, &r.At}, {f.When, &r.When}, {f.Sure, &r.Sure}} {
		*part.into, errs[i] = part.form.whole(b)
	}
	return r, errors.Join(errs[:]...)
}

func (t *Table) form() tableForm {
	f := tableForm{
		ID: t.ID, Title: t.Title, Dim: t.Dim.String(), Unit: t.Unit, Rows: t.Rows.form(),
		Unconfirmed: t.Unconfirmed, Note: t.Note, Source: t.Source, Cells: make([]*float64, len(t.Cells)),
	}
	for i := range t.Cells {
		if !math.IsNaN(t.Cells[i]) {
			f.Cells[i] = &t.Cells[i]
		}
	}
	if t.Keys() == 2 {
		columns := t.Columns.form()
		f.Columns = &columns
	}
	return f
}

func (f *tableForm) table() (*Table, error) {
	t := &Table{ID: f.ID, Title: f.Title, Unit: f.Unit, Unconfirmed: f.Unconfirmed, Note: f.Note, Source: f.Source}
	var errs [3]error
	t.Dim, errs[0] = dimension(f.Dim)
	t.Rows, errs[1] = f.Rows.axis()
	if f.Columns != nil {
		t.Columns, errs[2] = f.Columns.axis()
	}
	for _, c := range f.Cells {
		v := math.NaN()
		if c != nil {
			v = *c
		}
		t.Cells = append(t.Cells, v)
	}
	want := len(t.Rows.At) * max(1, len(t.Columns.At))
	if err := errors.Join(errs[:]...); err != nil {
		return t, err
	}
	if len(t.Cells) != want || len(t.Unconfirmed) != 0 && len(t.Unconfirmed) != want {
		return t, fmt.Errorf("found %d cells and %d marks, needed %d cells, and as many marks or none", len(t.Cells), len(t.Unconfirmed), want)
	}
	return t, nil
}

func (a *Axis) form() axisForm {
	return axisForm{Name: a.Name, Dim: a.Dim.String(), Unit: a.Unit, At: a.At, Pick: a.Pick, Within: a.Within}
}

func (f *axisForm) axis() (Axis, error) {
	d, err := dimension(f.Dim)
	return Axis{Name: f.Name, Dim: d, Unit: f.Unit, At: f.At, Pick: f.Pick, Within: f.Within}, err
}

func dimension(name string) (quantity.Dimension, error) {
	d, ok := quantity.DimensionOf(name)
	if !ok {
		return 0, fmt.Errorf("found the dimension %q, needed one of this program's", name)
	}
	return d, nil
}
