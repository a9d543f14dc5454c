package plan
import ("testing";"os";"swingwright/job";"swingwright/rulebook/author";"swingwright/rulebook";"swingwright/quantity";"swingwright/fact";"fmt")
func TestTmp(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil { t.Fatal(err) }
	var books []*rulebook.Book
	for _, id := range []string{"a156.19-2007"} { b, err := author.BuiltinBook(id); if err!=nil {t.Fatal(err)}; books=append(books,b) }
	for i := range j.Openings {
		p := Make(&j.Openings[i], &j.Sheets, books, Options{})
		fmt.Println("=====", p.Opening.ID, p.Opening.Name, p.Problem, p.Resolved.Notes)
		s:=p.Swing
		fmt.Printf("%v %.2fs impact %.3f peak %.3f; worst %v %.2f° %v %v margin %.2f  a %.1f %.1f\n", s.From90.End, s.From90.Time, s.From90.Impact, s.From90.Energy, s.Worst90.End, float64(s.Worst90.Angle/quantity.Degree), s.Worst30.End, s.Worst5.End, s.Budget.Margin(), s.Sweep, s.Latch)
		for id,f := range p.Facts { if f.Known { ff:=fact.ID(id).Fact(); if ff.Kind==fact.Number {fmt.Println("  ", ff.Name, quantity.Display(ff.Dim,f.Value,f.U,true,quantity.US), f.Origin)} else {fmt.Println("  ",ff.Name,f.Value,f.Share)} } }
		for _,f := range p.Findings { fmt.Printf("  %-28s %-18v caution=%v v=%.3f lim=%.3f u=%.3f %s %v %v\n", f.Rule.ID, f.Verdict, f.Caution, f.Value, f.Limit, f.U, f.Why, f.Missing, f.Drivers) }
	}
}
func BenchmarkMake(b *testing.B) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil { b.Fatal(err) }
	bk, _ := author.BuiltinBook("a156.19-2007")
	var mk Maker
	for b.Loop() { mk.Make(&j.Openings[0], &j.Sheets, []*rulebook.Book{bk}, Options{}) }
}
