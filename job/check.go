package job

import (
	"reflect"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
)

// checkRecord checks what the fields of a record say together.
func (w *walker) checkRecord(n *yaml.Node, v reflect.Value) {
	switch record := v.Addr().Interface().(type) {
	case *opening.Reading:
		w.checkReading(n, *record)
	case *opening.CloserSheet:
		w.checkPowers(n, record.Powers)
	}
}

// checkReading reports a value that does not fit its fact; an unknown fact is
// reported with the other references.
func (w *walker) checkReading(n *yaml.Node, r opening.Reading) {
	if r.Fact == "" || r.Value == "" {
		return
	}
	_, p := resolve(r)
	if p == nil || p.Field == "fact" {
		return
	}
	w.enter(p.Field)
	w.wrong(child(n, p.Field), p.Found, p.Needed, p.Hint)
	w.leave()
}

// checkPowers reports spring settings out of order: between two of them the
// spring is taken to lie between, which needs them sorted and apart.
func (w *walker) checkPowers(n *yaml.Node, powers []opening.Power) {
	list := child(n, "powers")
	for i := 1; i < len(powers); i++ {
		if powers[i].Size.Known && powers[i].Size.Value <= powers[i-1].Size.Value {
			w.enter("powers")
			w.wrong(list.Content[i], "size "+powers[i].Size.Text+" after "+powers[i-1].Size.Text, "sizes that grow", "sort the powers, weakest first")
			w.leave()
		}
	}
}
