package job

import (
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/quantity"
)

// examples shows how each kind of quantity is written, in US units and in SI.
var examples = map[quantity.Dimension][2]string{
	quantity.DimRatio:          {"3.5", "60 %"},
	quantity.DimLength:         {"35-3/4 in", "908 mm"},
	quantity.DimArea:           {"20 ft²", "1.9 m²"},
	quantity.DimAngle:          {"90 deg", "1.57 rad"},
	quantity.DimMass:           {"120 lb", "55 kg"},
	quantity.DimTime:           {"5.5 s", "1 min"},
	quantity.DimForce:          {"5 lbf", "22 N"},
	quantity.DimTorque:         {"90 in-lbf", "10 N·m"},
	quantity.DimEnergy:         {"1.25 ft-lbf", "1.69 J"},
	quantity.DimPressure:       {"0.05 in wg", "12 Pa"},
	quantity.DimInertia:        {"400 lb·ft²", "17 kg·m²"},
	quantity.DimAngularSpeed:   {"20 deg/s", "0.35 rad/s"},
	quantity.DimTemperature:    {"68 °F", "20 °C"},
	quantity.DimDensity:        {"45 lb/ft³", "720 kg/m³"},
	quantity.DimArealDensity:   {"5 lb/ft²", "24 kg/m²"},
	quantity.DimTorsionRate:    {"0.5 in-lbf/deg", "3 N·m/rad"},
	quantity.DimDamping:        {"200 in-lbf·s/rad", "22 N·m·s/rad"},
	quantity.DimSquareDamping:  {"30 N·m·s²/rad²", "30 N·m·s²/rad²"},
	quantity.DimViscosity:      {"15 cSt", "15 mm²/s"},
	quantity.DimTurns:          {"1-1/4 turns", "2 turns"},
	quantity.DimSpeed:          {"15 mph", "7 m/s"},
	quantity.DimVoltage:        {"24 V", "12 V"},
	quantity.DimCurrent:        {"0.5 A", "250 mA"},
	quantity.DimResistance:     {"0.5 Ω", "0.5 Ω"},
	quantity.DimLineResistance: {"6.5 Ω/kft", "21 Ω/km"},
	quantity.DimPower:          {"60 W", "100 VA"},
	quantity.DimCharge:         {"7 A·h", "1200 mA·h"},
}

// quantityNoun is the kind of quantity with its article.
func quantityNoun(dim quantity.Dimension) string {
	switch dim {
	case quantity.DimTurns:
		return "a number of turns"
	case quantity.DimRatio:
		return "a number"
	}
	return Article(dim.String())
}

// Article is a noun with its indefinite article.
func Article(noun string) string {
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
	if w.problems.full() {
		return
	}
	if key.Kind != yaml.ScalarNode {
		w.wrong(key, "a key that is no word", "one of "+strings.Join(keysOf(s), ", "), "")
		return
	}
	needed, hint := "a key such as "+someKeys(s), hintKey(key.Value, s)
	if hint == "" {
		needed = "one of " + strings.Join(keysOf(s), ", ")
	}
	if note := "to keep it as a note, put it under survey"; strings.HasPrefix(w.field(), "openings[") {
		hint = strings.TrimPrefix(hint+" or, "+note, " or, ")
	}
	w.enter(printable(key.Value))
	w.wrong(key, "an unknown key", needed, hint)
	w.leave()
}

// hintKey guesses what was meant by a key that the record s does not have.
func hintKey(key string, s *shape) string {
	if hint := DidYouMean(key, keysOf(s)); hint != "" {
		return hint
	}
	if near := Nearest(key, allKeys); near != "" {
		return near + " belongs under " + strings.Join(homesOf(near), " or ")
	}
	return ""
}

// allKeys are the keys of all records, in alphabetical order.
var allKeys = func() []string {
	var keys []string
	eachField(jobShape, "", func(_ string, f *field) { keys = append(keys, f.key) })
	slices.Sort(keys)
	return slices.Compact(keys)
}()

// homesOf lists the records below the job that have such a key.
func homesOf(key string) []string {
	var homes []string
	eachField(jobShape, "", func(home string, f *field) {
		if f.key == key && home == "" {
			home = "the job itself"
		}
		if f.key == key && !slices.Contains(homes, home) {
			homes = append(homes, home)
		}
	})
	return homes
}

// eachField calls visit with every field below s and the path of its record.
func eachField(s *shape, path string, visit func(home string, f *field)) {
	if s.form == listForm {
		eachField(s.elem, path, visit)
	}
	for i := range s.fields {
		f := &s.fields[i]
		visit(path, f)
		eachField(f.shape, strings.TrimPrefix(path+"."+f.key, "."), visit)
	}
}
