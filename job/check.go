package job

import (
	"reflect"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
	"swingwright/quantity"
)

// checkRecord checks what the fields of a record say together.
func (w *walker) checkRecord(n *yaml.Node, v reflect.Value) {
	switch record := v.Addr().Interface().(type) {
	case *opening.Reading:
		w.checkReading(n, *record)
	case *opening.Group:
		w.checkGroup(n, record)
	case *opening.Wiring:
		w.checkWiring(n, record)
	case *opening.Hole:
		w.checkHole(n, record)
	case *opening.Inner:
		w.checkOrder(n, "along", record.Along, record.AlongTo)
		w.checkOrder(n, "across", record.Across, record.AcrossTo)
	case *opening.CloserSheet:
		w.checkRising(n, "powers", "size", "sort the powers, weakest first", len(record.Powers),
			func(i int) quantity.Measured[quantity.Ratio] { return record.Powers[i].Size })
	case *opening.OperatorSheet:
		w.checkRising(n, "speeds", "setting", "sort the speeds, lowest setting first", len(record.Speeds),
			func(i int) quantity.Measured[quantity.Ratio] { return record.Speeds[i].Setting })
	case *opening.Span:
		w.checkRange(n, record)
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
	if r.Fact == "" {
		return
	}
	if r.Value == "" && len(r.Values) == 0 {
		w.enter("value")
		w.wrong(n, "", "a text", "fill it in: what was read, or values where it was read several times")
		w.leave()
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

// checkRising reports the items of a list whose settings, named by their key, are
// out of order: between two of them what they set is taken to lie between, which
// needs them sorted and apart.
func (w *walker) checkRising(n *yaml.Node, list, key, hint string, count int, setting func(int) quantity.Measured[quantity.Ratio]) {
	items := child(n, list)
	for i := 1; i < count; i++ {
		if before, s := setting(i-1), setting(i); s.Known && s.Value <= before.Value {
			w.enter(list)
			w.wrong(items.Content[i], key+" "+s.Text+" after "+before.Text, key+"s that grow", hint)
			w.leave()
		}
	}
}

// checkSpan reports a limit whose least value is above its largest.
func (w *walker) checkSpan(n *yaml.Node, what string, crossed bool) {
	if crossed {
		w.enter(what + "_min")
		low, high := child(n, what+"_min"), child(n, what+"_max")
		w.wrong(low, quantity.Quote(low.Value), "at most "+high.Value, "the two may be exchanged")
		w.leave()
	}
}

// checkRange reports a range that says nothing, or whose numbers are not in order.
func (w *walker) checkRange(n *yaml.Node, s *opening.Span) {
	low, likely, high := s.Low, s.Likely, s.High
	if !likely.Known && !(low.Known && high.Known) {
		w.wrong(n, "a range without its middle", "likely, or low and high", "write {likely: 100}, or {low: 80, likely: 100, high: 130}")
		return
	}
	if low.Known && high.Known && low.Value > high.Value || low.Known && likely.Known && low.Value > likely.Value || likely.Known && high.Known && likely.Value > high.Value {
		w.wrong(n, "a range that is not in order", "low, likely and high, each at least the one before", "sort them")
	}
}
