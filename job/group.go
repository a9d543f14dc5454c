package job

import (
	"fmt"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
	"swingwright/quantity"
)

// checkGroup checks that a group is of two different openings, and that nothing
// is said of it that only another kind of group has.
func (w *walker) checkGroup(n *yaml.Node, g *opening.Group) {
	if of := child(n, "of"); of != nil && of.Kind == yaml.SequenceNode && len(of.Content) > 0 {
		w.enter("of")
		w.checkTwo(of, g.Of)
		w.leave()
	}
	w.checkDevicesOf(n, g)
	for _, field := range foreign[g.Kind] {
		if at := child(n, field.key); at != nil && !isBlank(at) {
			w.enter(field.key)
			w.wrong(at, quantity.Quote(at.Value)+fmt.Sprintf(" at a %s", g.Kind), "nothing here: it belongs to "+field.of, "leave the line out, or mend kind")
			w.leave()
		}
	}
}

func (w *walker) checkTwo(of *yaml.Node, ids []string) {
	switch {
	case len(ids) != 2:
		w.wrong(of, describe(of), "two openings", "a group is two leaves of one frame or two doors in series; make more groups of more")
	case ids[0] != "" && ids[0] == ids[1]:
		w.enter("[1]")
		w.wrong(of.Content[1], quantity.Quote(ids[1])+" again", "another opening", "each leaf is an opening of its own; same_as takes fields over from one to the other")
		w.leave()
	}
}

// checkDevicesOf reports devices that belong to an opening outside the group.
func (w *walker) checkDevicesOf(n *yaml.Node, g *opening.Group) {
	devices := child(orBlank(child(n, "wiring")), "devices")
	for i := range g.Wiring.Devices {
		d := &g.Wiring.Devices[i]
		if devices == nil || i >= len(devices.Content) || d.Opening == "" || slices.Contains(g.Of, d.Opening) {
			continue
		}
		w.enter(fmt.Sprintf("wiring.devices[%d].opening", i))
		w.wrong(child(devices.Content[i], "opening"), quantity.Quote(d.Opening), "one of the openings of this group: "+strings.Join(g.Of, ", "), "")
		w.leave()
	}
}

// A misfit is a field that a kind of group has not, and which kinds have it.
type misfit struct{ key, of string }

// foreign are the fields that do not belong to a kind of group.
var foreign = map[opening.GroupKind][]misfit{
	opening.Pair:         ofVestibule,
	opening.DoubleEgress: append([]misfit{{"astragal", "a pair"}, {"coordinator", "a pair"}, {"close_after", "a pair"}}, ofVestibule...),
	opening.Vestibule: {
		{"opens", "a pair or double-egress"}, {"astragal", "a pair"}, {"coordinator", "a pair"},
		{"vertical_rods", "a pair or double-egress"}, {"stagger", "a pair or double-egress"}, {"close_after", "a pair"},
	},
}

var ofVestibule = []misfit{{"between", "a vestibule"}, {"swings_in", "a vestibule"}, {"delay", "a vestibule"}, {"actuator_inside", "a vestibule"}}

// orBlank is a node, or one without content where there is none.
func orBlank(n *yaml.Node) *yaml.Node {
	if n == nil {
		return new(yaml.Node)
	}
	return n
}
