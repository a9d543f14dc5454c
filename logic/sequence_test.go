package logic

import "testing"

func TestShow(t *testing.T) {
	r := office()
	ps, err := Sequence(&r.Wiring, fireDoor)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range ps {
		t.Log(p.When)
		for _, s := range p.Then {
			t.Log("   " + s)
		}
	}
	m, _ := Compile(&r.Wiring, fireDoor, 0.1)
	for _, x := range m.AlarmMatrix() {
		t.Log(x)
	}
	for _, x := range m.Connections() {
		t.Log(x)
	}
	for _, x := range m.Delays() {
		t.Log(x)
	}
	for _, x := range Faults(&r.Wiring) {
		t.Log(x)
	}
}
