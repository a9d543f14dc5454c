package schedule

import (
	"fmt"
	"regexp"
	"strings"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/quantity"
)

// Two names of the mapping that are no fields of their own: a nominal size whose
// width and height stand in two columns.
const (
	nominalWidth  = "leaf.nominal.width"
	nominalHeight = "leaf.nominal.height"
	nominalField  = "leaf.nominal"
)

// A target is what a column may go with: a field of an opening, or half of a nominal size.
type target struct {
	path  string
	field *job.Field
	half  bool
}

var (
	fields  = job.OpeningFields()
	targets = func() map[string]*target {
		all := map[string]*target{}
		for i := range fields {
			all[fields[i].Path] = &target{path: fields[i].Path, field: &fields[i]}
		}
		for _, half := range []string{nominalWidth, nominalHeight} {
			all[half] = &target{half, all["leaf.width"].field, true}
		}
		return all
	}()
)

// Fields lists what a mapping may name, in the order of the record.
func Fields() (paths []string) {
	for i := range fields {
		paths = append(paths, fields[i].Path)
		if fields[i].Path == nominalField {
			paths = append(paths, nominalWidth, nominalHeight)
		}
	}
	return paths
}

// dimension is that of the target's quantity, if it holds one.
func (t *target) dimension() (quantity.Dimension, bool) { return t.field.Dimension() }

// get is what an opening says of the target, as it is written.
func (t *target) get(o *opening.Opening) string {
	switch {
	case !t.half:
		return t.field.Get(o)
	case o.Leaf.Nominal.Text == "":
		return ""
	case t.path == nominalWidth:
		return quantity.ByTape(o.Leaf.Nominal.Width, quantity.US)
	}
	return quantity.ByTape(o.Leaf.Nominal.Height, quantity.US)
}

// same tells that two texts are one value of the target.
func (t *target) same(a, b string) bool {
	if !t.half {
		return t.field.Same(a, b)
	}
	x, _, _, errA := quantity.ParseAs(quantity.DimLength, a)
	y, _, _, errB := quantity.ParseAs(quantity.DimLength, b)
	return errA == nil && errB == nil && x-y < 1e-4 && y-x < 1e-4
}

// blanks are texts that stand for nothing.
var blanks = map[string]bool{"": true, "-": true, "--": true, "---": true, "–": true, "—": true, "n/a": true, "na": true, "none": true, "tbd": true, "?": true, "nr": true, "n.r.": true, "non-rated": true, "unrated": true, "no label": true, "not known": true}

// isBlank tells a text that says that nothing is said.
func isBlank(text string) bool { return blanks[strings.ToLower(text)] }

// synonyms are words of schedules for choices (common practice).
var synonyms = map[string]map[string]string{
	"frame.hand":      {"l.h.": "LH", "r.h.": "RH", "left": "LH", "right": "RH", "left hand": "LH", "right hand": "RH", "lhrb": "LHR", "rhrb": "RHR", "lh rev": "LHR", "rh rev": "RHR", "left hand reverse": "LHR", "right hand reverse": "RHR", "l.h.r.": "LHR", "r.h.r.": "RHR", "lh reverse": "LHR", "rh reverse": "RHR", "lhr": "LHR", "rhr": "RHR", "lh": "LH", "rh": "RH"},
	"use.place":       {"int": "interior", "int.": "interior", "inside": "interior", "ext": "exterior", "ext.": "exterior", "outside": "exterior"},
	"use.operation":   {"power": "low-energy", "low energy": "low-energy", "le": "low-energy", "power assist": "power-assist", "full energy": "full-power", "by hand": "manual"},
	"fire.leaf_class": {"hm": "steel", "h.m.": "steel", "hollow metal": "steel", "stl": "steel", "metal": "steel", "wd": "wood", "wd.": "wood", "scwd": "wood", "solid core wood": "wood", "al": "aluminium", "alum": "aluminium", "alum.": "aluminium", "aluminum": "aluminium", "gl": "glass", "frp": "composite"},
	"lock.kind":       {"panic": "exit-device", "panic device": "exit-device", "exit device": "exit-device", "push/pull": "push-pull", "push pull": "push-pull", "passage set": "passage", "maglock": "magnet", "mag lock": "magnet"},
}

var answers = map[string]string{"y": "yes", "x": "yes", "✓": "yes", "✔": "yes", "true": "yes", "ja": "yes", "oui": "yes", "n": "no", "false": "no", "nein": "no", "non": "no"}

var (
	feetDash   = regexp.MustCompile(`^(\d{1,2})-(\d{1,2})$`)
	hourLabel  = regexp.MustCompile(`(?i)^(?:[A-E] ?-? ?)?([\d./½¾ ]+) ?-? ?(hours?|hrs?|h)\.?$`)
	timeLabel  = regexp.MustCompile(`(?i)^(\d+) ?-? ?(min|mins|minutes|minute|m|mn)?\.?( label| rated| fire)?$`)
	sizeTriple = regexp.MustCompile(`^(.*[^ ]) ?[xX×] ?([^xX×]+)[xX×][^xX×]+$`)
)

// read makes of a cell the text of a value that the job file takes: the cell as it
// stands where that will do. The unit is that of the column; empty where none is known.
func (t *target) read(cell, unit string) (string, error) {
	first := t.check(cell)
	if first == nil {
		return cell, nil
	}
	for _, guess := range t.guesses(cell, unit) {
		guess = strings.TrimSpace(guess)
		if t.check(guess) == nil {
			return guess, nil
		}
	}
	return "", first
}

func (t *target) check(text string) error { return t.field.Check(text) }

// guesses are texts that a cell may stand for.
func (t *target) guesses(cell, unit string) (all []string) {
	lower := strings.ToLower(cell)
	if to, ok := synonyms[t.path][lower]; ok {
		all = append(all, to)
	}
	if t.field.Choices != nil {
		if to, ok := answers[lower]; ok {
			all = append(all, to)
		}
		return append(all, lower, strings.ReplaceAll(lower, " ", "-"))
	}
	dim, isQuantity := t.dimension()
	switch {
	case t.field.Nominal():
		if m := sizeTriple.FindStringSubmatch(cell); m != nil {
			all = append(all, m[1]+" x "+m[2])
		}
		if unit != "" {
			for _, size := range all {
				all = append(all, withUnit(size, unit))
			}
			all = append(all, withUnit(cell, unit))
		}
	case !isQuantity:
	case t.path == "fire.label_time":
		if m := hourLabel.FindStringSubmatch(cell); m != nil {
			if x, _, _, err := quantity.ParseAs(quantity.DimRatio, strings.TrimSpace(m[1])); err == nil {
				all = append(all, fmt.Sprintf("%g min", 60*x))
			}
		}
		if m := timeLabel.FindStringSubmatch(cell); m != nil {
			all = append(all, m[1]+" min")
		}
	case dim == quantity.DimLength:
		if m := feetDash.FindStringSubmatch(cell); m != nil {
			all = append(all, m[1]+"'-"+m[2]+`"`)
		}
		all = append(all, lower)
		fallthrough
	default:
		if unit != "" {
			all = append(all, cell+" "+unit)
		}
	}
	return all
}

// withUnit puts a unit behind both sides of a size.
func withUnit(size, unit string) string {
	for _, by := range []string{"x", "X", "×"} {
		if w, h, ok := strings.Cut(size, by); ok {
			return strings.TrimSpace(w) + " " + unit + " x " + strings.TrimSpace(h) + " " + unit
		}
	}
	return size
}
