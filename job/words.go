package job

import (
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/quantity"
)

// examples shows how each kind of quantity is written, in US units and in SI.
var examples = map[quantity.Dimension][2]string{
	quantity.DimRatio:         {"3.5", "60 %"},
	quantity.DimLength:        {"35-3/4 in", "908 mm"},
	quantity.DimArea:          {"20 ft²", "1.9 m²"},
	quantity.DimAngle:         {"90 deg", "1.57 rad"},
	quantity.DimMass:          {"120 lb", "55 kg"},
	quantity.DimTime:          {"5.5 s", "1 min"},
	quantity.DimForce:         {"5 lbf", "22 N"},
	quantity.DimTorque:        {"90 in-lbf", "10 N·m"},
	quantity.DimEnergy:        {"1.25 ft-lbf", "1.69 J"},
	quantity.DimPressure:      {"0.05 in wg", "12 Pa"},
	quantity.DimInertia:       {"400 lb·ft²", "17 kg·m²"},
	quantity.DimAngularSpeed:  {"20 deg/s", "0.35 rad/s"},
	quantity.DimTemperature:   {"68 °F", "20 °C"},
	quantity.DimDensity:       {"45 lb/ft³", "720 kg/m³"},
	quantity.DimArealDensity:  {"5 lb/ft²", "24 kg/m²"},
	quantity.DimTorsionRate:   {"0.5 in-lbf/deg", "3 N·m/rad"},
	quantity.DimDamping:       {"200 in-lbf·s/rad", "22 N·m·s/rad"},
	quantity.DimSquareDamping: {"30 N·m·s²/rad²", "30 N·m·s²/rad²"},
	quantity.DimViscosity:     {"15 cSt", "15 mm²/s"},
	quantity.DimTurns:         {"1-1/4 turns", "2 turns"},
}

// quantityNoun is the kind of quantity with its article.
func quantityNoun(dim quantity.Dimension) string {
	switch dim {
	case quantity.DimTurns:
		return "a number of turns"
	case quantity.DimRatio:
		return "a number"
	}
	return article(dim.String())
}

func article(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

// kindOf says what is wanted of a value of shape s.
func (w *walker) kindOf(s *shape) string {
	switch s.form {
	case quantityForm:
		e := examples[s.dim]
		return quantityNoun(s.dim) + " such as " + e[0] + " or " + e[1]
	case choiceForm:
		return "one of " + strings.Join(s.choices, ", ")
	case wholeForm:
		return "a whole number"
	case nominalForm:
		return "a nominal size such as 3070 or 3-0 x 7-0"
	case recordForm:
		return "fields such as " + someKeys(s)
	case listForm:
		return "a list"
	}
	return "a text"
}

// someKeys names the fields of a record that a person is likeliest to want.
func someKeys(s *shape) string {
	const some = 4
	keys := keysOf(s)
	return strings.Join(keys[:min(some, len(keys))], ", ")
}

func keysOf(s *shape) []string {
	keys := make([]string, len(s.fields))
	for i := range s.fields {
		keys[i] = s.fields[i].key
	}
	return keys
}

// unknownKey reports a key that the record does not have: with the key that
// was most likely meant, or the record to which it belongs.
func (w *walker) unknownKey(key *yaml.Node, s *shape) {
	if key.Kind != yaml.ScalarNode {
		w.wrong(key, "a key that is no word", "one of "+strings.Join(keysOf(s), ", "), "")
		return
	}
	hint := didYouMean(nearest(key.Value, keysOf(s)))
	if homes := homesOf(key.Value); hint == "" && len(homes) > 0 {
		hint = key.Value + " belongs under " + strings.Join(homes, " or ")
	}
	if strings.HasPrefix(w.field(), "openings[") {
		hint = strings.TrimPrefix(hint+"; to keep it as a note put it under survey", "; ")
	}
	w.enter(key.Value)
	w.wrong(key, "an unknown key", "one of "+strings.Join(keysOf(s), ", "), hint)
	w.leave()
}

// homesOf lists the records that have such a key.
func homesOf(key string) []string {
	var homes []string
	var look func(s *shape, path string)
	look = func(s *shape, path string) {
		if s.form == listForm {
			look(s.elem, path)
		}
		for i := range s.fields {
			f := &s.fields[i]
			if f.key == key && path != "" && !slices.Contains(homes, path) {
				homes = append(homes, path)
			}
			look(f.shape, strings.TrimPrefix(path+"."+f.key, "."))
		}
	}
	look(jobShape, "")
	return homes
}
