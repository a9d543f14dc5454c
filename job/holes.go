package job

import (
	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
	"swingwright/quantity"
)

// checkHole reports what the measures of one hole of a template cannot be together.
func (w *walker) checkHole(n *yaml.Node, h *opening.Hole) {
	if h.Pilot.Known && h.Diameter.Known && h.Pilot.Value > h.Diameter.Value {
		w.enter("pilot")
		w.wrong(child(n, "pilot"), quantity.Quote(h.Pilot.Text), "at most the diameter, "+h.Diameter.Text, "the two may be exchanged")
		w.leave()
	}
	if h.Fastener == opening.ThroughBolt && h.Depth.Known {
		w.enter("depth")
		w.wrong(child(n, "depth"), quantity.Quote(h.Depth.Text), "nothing, since a through-bolt's hole goes through", "leave it out, or name another fastener")
		w.leave()
	}
	if h.Fastener == opening.ThroughBolt && h.On != "" && h.On != opening.LeafFace {
		w.enter("fastener")
		w.wrong(child(n, "fastener"), quantity.Quote(string(h.Fastener)), "another one in the frame, which has no other face", "")
		w.leave()
	}
}

// checkOrder reports a span whose end lies before its beginning.
func (w *walker) checkOrder(n *yaml.Node, key string, from, to quantity.Measured[quantity.Length]) {
	if from.Known && to.Known && to.Value <= from.Value {
		w.enter(key + "_to")
		w.wrong(child(n, key+"_to"), quantity.Quote(to.Text), "more than "+from.Text, "the two may be exchanged")
		w.leave()
	}
}
