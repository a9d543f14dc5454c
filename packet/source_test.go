package packet

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/takeoff"
)

// The papers of an opening rest on its part of the job alone: made from the whole job,
// they are the same to the bit.
func TestPartIsEnough(t *testing.T) {
	s := source()
	j := s.Job
	for i := range j.Openings {
		o := &j.Openings[i]
		if o.InPlaceOf != "" {
			continue
		}
		opt := plan.Options{Draws: quick.Draws, Climate: j.Climate, Groups: j.Groups, Openings: j.Openings, Wiring: true}
		p := maker.Make(o, &j.Sheets, s.Books, opt)
		d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
		all := &Opening{Job: j, Plan: p, Decision: d, Holes: p.Holes(&j.Sheets, opt.Policy), Feeding: p.Power(&j.Sheets, opt.Policy)}
		if w, err := p.HasWindow(&j.Sheets); err == nil {
			all.Window = w
		}
		if g := opening.Sharing(j.Groups, o.ID); g != nil && o.Wiring.None() {
			var members []*plan.Member
			for _, other := range among(j, g.Of) {
				members = append(members, maker.Make(other, &j.Sheets, s.Books, opt).Member(&j.Sheets))
			}
			all.Wired = maker.ProveGroup(g, among(j, g.Of), &j.Sheets, members...).Following(g, opt.Policy, members...)
		}
		counted, err := takeoff.Make(j, []takeoff.Item{takeoff.NewItem(o, d)})
		if err != nil {
			t.Fatal(err)
		}
		all.Takeoff = &counted.Openings[0]
		if !bytes.Equal(pdfOf(t, all, usual), pdfOf(t, complete(t, s, o), usual)) {
			t.Errorf("opening %s: its part of the job says something else than the whole", o.ID)
		}
	}
}

func among(j *job.Job, ids []string) (all []*opening.Opening) {
	for _, id := range ids {
		at := slices.IndexFunc(j.Openings, func(o opening.Opening) bool { return o.ID == id })
		all = append(all, &j.Openings[at])
	}
	return all
}

// A sheet that is changed concerns the openings that name it, and those that it is tried
// for; the stamps of the others stay, and so do their papers, to the bit.
func TestStampsAreOfWhatPapersRestOn(t *testing.T) {
	s := source()
	before, papers := map[string]string{}, map[string][]byte{}
	of := func(id string) *opening.Opening { return among(s.Job, []string{id})[0] }
	written := func(s *Source, id string) []byte {
		var b bytes.Buffer
		if _, err := s.Write(&b, complete(t, s, of(id)), usual); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	for i := range s.Job.Openings {
		id := s.Job.Openings[i].ID
		before[id] = stampOf(t, s, of(id))
	}
	concerned, tried := map[string]int{}, 0
	for _, sort := range sorts(&s.Job.Sheets) {
		for k := range sort.Len() {
			changed := *s.Job
			changed.Sheets = reflectCopy(s.Job.Sheets)
			sheet := sortOf(&changed.Sheets, sort.Type()).Index(k)
			name := sheet.FieldByName("Name").String()
			touch(sheet)
			after := &Source{Job: &changed, Books: s.Books, Draws: quick, Brief: true}
			for i := range s.Job.Openings {
				id := s.Job.Openings[i].ID
				same := stampOf(t, after, of(id)) == before[id]
				if !same {
					concerned[name]++
				} else if tried%41 == 0 && opening.Sharing(s.Job.Groups, id) == nil { // some of the hundreds that stay
					if papers[id] == nil {
						papers[id] = written(s, id)
					}
					if !bytes.Equal(papers[id], written(after, id)) {
						t.Errorf("%s: its stamp stayed and its papers did not, when %s was changed", id, name)
					}
				}
				tried++
			}
		}
	}
	t.Logf("openings concerned by each sheet, of %d: %v", len(before), concerned)
	for name, of := range map[string]func(o *opening.Opening) bool{
		"strike Q1":     func(o *opening.Opening) bool { return o.Lock.Strike == "strike Q1" },
		"fire latch L4": func(o *opening.Opening) bool { return o.Latch.Sheet == "fire latch L4" },
	} {
		want := 0
		for i := range s.Job.Openings {
			if of(&s.Job.Openings[i]) {
				want++
			}
		}
		if got := concerned[name]; got < want || got > want+2 { // those that share a wiring follow
			t.Errorf("%s concerns %d openings, and %d name it", name, got, want)
		}
	}
}

// Whatever of an opening's part is changed, its stamp changes.
func TestStampTellsEveryField(t *testing.T) {
	s := source()
	for _, id := range []string{"103"} {
		part := s.Part(among(s.Job, []string{id})[0])
		was, err := s.stamp(part, usual)
		if err != nil {
			t.Fatal(err)
		}
		fields := 0
		each(reflect.ValueOf(part).Elem(), func() {
			fields++
			if now, err := s.stamp(part, usual); err != nil || now == was {
				t.Errorf("opening %s: the stamp stays though field %d was changed (%v)", id, fields, err)
			}
		})
		if now, _ := s.stamp(part, usual); now != was || fields < 1000 {
			t.Errorf("opening %s: %d fields, and the stamp back: %v", id, fields, now == was)
		}
	}
}

func stampOf(t testing.TB, s *Source, o *opening.Opening) string {
	t.Helper()
	stamp, err := s.Stamp(o, usual)
	if err != nil {
		t.Fatal(err)
	}
	return stamp
}

// sorts are the lists of sheets.
func sorts(s *opening.Sheets) (all []reflect.Value) {
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		all = append(all, v.Field(i))
	}
	return all
}

func sortOf(s *opening.Sheets, t reflect.Type) reflect.Value {
	return sorts(s)[slices.IndexFunc(sorts(s), func(v reflect.Value) bool { return v.Type() == t })]
}

// reflectCopy copies the lists of sheets, so that one can be changed.
func reflectCopy(s opening.Sheets) opening.Sheets {
	for _, v := range sorts(&s) {
		v.Set(reflect.AppendSlice(reflect.MakeSlice(v.Type(), 0, v.Len()), v))
	}
	return s
}

// touch changes what a sheet says of its page, and its first number that is known by a
// hundredth.
func touch(sheet reflect.Value) {
	sheet.FieldByName("Page").SetString("another page")
	for i := range sheet.NumField() {
		f := sheet.Field(i)
		if f.Kind() == reflect.Struct && f.FieldByName("Known").IsValid() && f.FieldByName("Known").Bool() {
			f.FieldByName("Value").SetFloat(1.01 * f.FieldByName("Value").Float())
			return
		}
	}
}

// each changes every text, number and answer in a value, one after another, and calls
// then each time before it is changed back.
func each(v reflect.Value, then func()) {
	was := reflect.New(v.Type()).Elem()
	was.Set(v)
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			each(v.Field(i), then)
		}
		return
	case reflect.Slice:
		for i := range v.Len() {
			each(v.Index(i), then)
		}
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	default:
		return
	}
	then()
	v.Set(was)
}

// Letters that the font lacks are told of on the papers, and to whoever writes them.
func TestPapersTellOfLetters(t *testing.T) {
	s := source()
	o := *among(s.Job, []string{"105"})[0]
	o.Name = "大門"
	one := complete(t, s, &o)
	lacking, err := Write(&bytes.Buffer{}, one, usual)
	if err != nil || string(lacking) != "大門" {
		t.Errorf("lacking %q, %v", string(lacking), err)
	}
	const told = "stand as ?: U+5927, U+9580."
	if all := text(Make(one, usual)); !strings.Contains(strings.ReplaceAll(all, "\n", " "), told) {
		t.Errorf("the papers do not say %q", told)
	}
}
