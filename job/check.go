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
	case *opening.OperatorSheet:
		w.checkSpeeds(n, record.Speeds)
	case *opening.UseLimits:
		w.checkSpan(n, "width", record.WidthMin.Known && record.WidthMax.Known && record.WidthMin.Value > record.WidthMax.Value)
		w.checkSpan(n, "weight", record.WeightMin.Known && record.WeightMax.Known && record.WeightMin.Value > record.WeightMax.Value)
		w.checkSpan(n, "power", record.PowerMin.Known && record.PowerMax.Known && record.PowerMin.Value > record.PowerMax.Value)
		w.checkSpan(n, "open", record.OpenMin.Known && record.OpenMax.Known && record.OpenMin.Value > record.OpenMax.Value)
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

// checkSpeeds reports speed settings out of order, for the same reason.
func (w *walker) checkSpeeds(n *yaml.Node, speeds []opening.SpeedSetting) {
	list := child(n, "speeds")
	for i := 1; i < len(speeds); i++ {
		a, b := &speeds[i-1], &speeds[i]
		if b.Setting.Known && b.Setting.Value <= a.Setting.Value {
			w.enter("speeds")
			w.wrong(list.Content[i], "setting "+b.Setting.Text+" after "+a.Setting.Text, "settings that grow", "sort the speeds, lowest setting first")
			w.leave()
		}
	}
}

// checkSpan reports a limit whose least value is above its largest.
func (w *walker) checkSpan(n *yaml.Node, what string, crossed bool) {
	if crossed {
		w.enter(what + "_min")
		low, high := child(n, what+"_min"), child(n, what+"_max")
		w.wrong(low, quote(low.Value), "at most "+high.Value, "the two may be exchanged")
		w.leave()
	}
}
