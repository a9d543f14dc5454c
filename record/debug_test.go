package record

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

func TestDebug(t *testing.T) {
	seed, err := strconv.Atoi(os.Getenv("SEED"))
	if err != nil {
		t.Skip()
	}
	var mv swing.Mover
	d := diceOf(uint64(seed))
	c, _ := d.course(&mv)
	o := d.recorder(uint64(seed))
	fmt.Printf("%+v\n", o)
	rec, _ := trace.Read("x", Simulate(c, o), nil)
	tr := rec.Analyse(trace.Settings{})
	s := tr.Swings[0]
	fmt.Println(tr.Faults, s.Faults)
	for _, p := range s.Phases {
		fmt.Println(p.Kind, p.From, p.To, p.Start/deg, p.End/deg)
	}
	for _, p := range c.Phases() {
		fmt.Println("   true", p.Kind, p.From, p.To, p.Start/deg, p.End/deg)
	}
	fmt.Print(s.Between(10*deg, 0, true).Budget(quantity.SI), c.Between(10*deg, 0, true), "\n")
	fmt.Print(s.HoldTime().Budget(quantity.SI), c.HoldTime(), "\n")
	fmt.Print(s.ImpactRate().Budget(quantity.SI), c.ImpactRate()/quantity.AngularSpeed(deg), "\n")
	ph := c.Phases()
	for _, at := range []quantity.Time{ph[1].From, ph[1].To, ph[2].To, ph[len(ph)-1].From} {
		fmt.Println("---", at)
		for _, x := range s.Samples() {
			if x.Time > at-0.15 && x.Time < at+0.15 {
				a, r := c.At(x.Time)
				fmt.Printf("%.4f %.3f %.3f   true %.3f %.3f\n", x.Time, x.Angle/deg, x.Rate/quantity.AngularSpeed(deg), a/deg, r/quantity.AngularSpeed(deg))
			}
		}
	}
}
