package schedule

import (
	"regexp"
	"slices"
	"strings"

	"swingwright/quantity"
)

// headings are the usual ones for a field, in small letters without marks (common
// practice, in English, German and French).
var headings = []struct {
	path  string
	words []string
}{
	{"id", []string{"door no", "door number", "door", "door mark", "mark", "opening", "opening no", "opening number", "opening id", "id", "no", "number", "tag", "door tag", "door id", "asset", "asset no", "asset id", "asset number", "item", "turnummer", "tur nr", "tur", "porte", "repere", "n porte", "nr"}},
	{"name", []string{"name", "location", "room name", "description", "room", "from to", "room to room", "bezeichnung", "raum", "designation", "local", "emplacement"}},
	{"work.building", []string{"building", "bldg", "block", "gebaude", "batiment", "wing"}},
	{"work.floor", []string{"floor", "level", "storey", "story", "etage", "geschoss", "niveau"}},
	{"work.phase", []string{"phase", "stage"}},
	{"use.place", []string{"place", "int ext", "interior exterior", "exposure"}},
	{"use.operation", []string{"operation"}},
	{"use.fire_rated", []string{"fire rated", "rated", "fire door", "labelled", "labeled", "brandschutz", "coupe feu"}},
	{"use.egress", []string{"egress", "exit", "means of egress", "escape"}},
	{"use.cycles_per_day", []string{"cycles", "cycles per day", "openings per day", "traffic"}},
	{nominalField, []string{"size", "door size", "nominal size", "opening size", "nominal", "leaf size", "nom size", "size w x h", "w x h", "nennmass"}},
	{"leaf.width", []string{"width", "w", "wd", "leaf width", "door width", "breite", "largeur", "measured width", "actual width"}},
	{"leaf.height", []string{"height", "h", "ht", "hgt", "leaf height", "door height", "hohe", "hauteur", "measured height", "actual height"}},
	{"leaf.thickness", []string{"thickness", "thk", "t", "thick", "leaf thickness", "door thickness", "dicke", "epaisseur"}},
	{"leaf.weight", []string{"weight", "wt", "leaf weight", "door weight", "gewicht", "poids", "mass"}},
	{"frame.hand", []string{"hand", "handing", "hdg", "swing", "hand of door", "door hand", "din", "sens"}},
	{"frame.opening_width", []string{"frame width", "frame opening", "frame opening width", "opening width"}},
	{"frame.face_width", []string{"frame face", "face width", "face"}},
	{"fire.label_time", []string{"fire rating", "fire label", "label", "rating", "fire", "minutes", "rating min", "fire rating min", "fr", "fire resistance"}},
	{"fire.leaf_class", []string{"material", "door material", "leaf material", "matl", "mat", "door matl"}},
	{"fire.smoke_control", []string{"smoke", "smoke control", "smoke seal", "s label"}},
	{"lock.kind", []string{"lock", "lock function", "lock type", "lockset", "function"}},
	{"closer.size", []string{"closer size", "spring size", "closer power"}},
	{"hinges.count", []string{"hinges", "hinge qty", "hinge count", "no of hinges", "hinge no"}},
	{"doorway.clear_width", []string{"clear width", "clr width", "clear opening", "net clear", "clear opening width"}},
	{"doorway.clear_height", []string{"clear height", "clear opening height"}},
	{"power.distance", []string{"distance to power", "power distance", "nearest power"}},
	{"air.pressure", []string{"pressure", "air pressure"}},
}

// groupsOfLeaf are headings above headings that speak of the leaf or the whole opening.
var groupsOfLeaf = []string{"", "door", "doors", "leaf", "opening", "size", "door size", "panel", "door panel", "general", "identification", "tur", "turblatt", "porte", "vantail"}

var plainLetters = strings.NewReplacer("ä", "a", "ö", "o", "ü", "u", "ß", "ss", "é", "e", "è", "e", "ê", "e", "â", "a", "à", "a", "ç", "c", "î", "i", "ô", "o")

var marks = regexp.MustCompile(`[^a-z0-9_]+`)

// plain is a heading in small letters without marks.
func plain(heading string) string {
	return strings.TrimSpace(marks.ReplaceAllString(plainLetters.Replace(strings.ToLower(heading)), " "))
}

// inBrackets is what stands in brackets in a heading, or behind a comma or the word in.
var inBrackets = regexp.MustCompile(`(?i)^(.*?)\s*(?:[(\[]\s*([^)\]]+?)\s*[)\]]|,\s*([^\s,]+)|\s+in\s+(\S+))\s*$`)

// unitsOfHeadings are other spellings of units in headings.
var unitsOfHeadings = map[string]string{"inches": "in", "inch": "in", `"`: "in", "millimetres": "mm", "millimeters": "mm", "lbs": "lb", "lbs.": "lb", "kgs": "kg", "minutes": "min", "min.": "min", "mins": "min", "feet": "ft", "in.": "in", "mm.": "mm"}

// cutUnit takes a unit out of a heading; unit is empty where there is none.
func cutUnit(heading string) (rest, unit string) {
	m := inBrackets.FindStringSubmatch(strings.TrimSpace(heading))
	if m == nil || m[1] == "" {
		return heading, ""
	}
	if unit = unitNamed(m[2] + m[3] + m[4]); unit == "" {
		return heading, ""
	}
	return m[1], unit
}

// unitNamed is the unit of a text that is one; empty where it is none.
func unitNamed(text string) string {
	text = strings.TrimSpace(text)
	if to, ok := unitsOfHeadings[strings.ToLower(text)]; ok {
		return to
	}
	for _, t := range []string{text, strings.ToLower(text)} {
		if _, _, _, ok := quantity.UnitFactor(t); ok && t != "" {
			return t
		}
	}
	return ""
}

// paths of fields as headings: leaf.width is also leaf width.
var pathOf = func() map[string]string {
	all := map[string]string{}
	for path := range targets {
		all[path] = path
		all[plain(strings.ReplaceAll(path, "_", " "))] = path
	}
	return all
}()

// likeness tells how much a heading, under the heading of its group, is like a usual
// one of a field: 1 is the same. Why says in what.
func likeness(group, heading, path string) (score float64, why string) {
	bare, _ := cutUnit(heading)
	own, whole := plain(bare), plain(group+" "+bare)
	if pathOf[strings.ToLower(bare)] == path || pathOf[own] == path {
		return 1, "the heading is the name of the field"
	}
	for i := range headings {
		k := &headings[i]
		if k.path != path {
			continue
		}
		switch {
		case slices.Contains(k.words, whole):
			return 0.95, "the heading is a usual one for it"
		case slices.Contains(k.words, own) && (!ofLeaf(path) || slices.Contains(groupsOfLeaf, plain(group))):
			return 0.9, "the heading is a usual one for it"
		}
		for _, word := range k.words {
			if len(word) > 4 && (!ofLeaf(path) || slices.Contains(groupsOfLeaf, plain(group)) && !otherThan.MatchString(own)) && strings.Contains(" "+own+" ", " "+word+" ") {
				return 0.7, "the heading has the words " + quantity.Quote(word)
			}
		}
	}
	return 0, ""
}

// ofLeaf tells a field whose heading may as well be of the frame or of hardware, as
// widths and materials are: the group above has to tell.
func ofLeaf(path string) bool {
	return strings.HasPrefix(path, "leaf.") || path == "fire.leaf_class" || path == "id"
}

// otherThan tells a heading of something else than the leaf.
var otherThan = regexp.MustCompile(`\b(frame|hardware|hdwr|hinges?|glass|glazing|lite|wall|lock|closer|threshold|cadre|zarge)\b`)

// headed tells a text that is a usual heading of anything.
func headed(text string) bool {
	bare, _ := cutUnit(text)
	own := plain(bare)
	if own == "" {
		return false
	}
	if pathOf[own] != "" || pathOf[strings.ToLower(bare)] != "" {
		return true
	}
	for i := range headings {
		if slices.Contains(headings[i].words, own) {
			return true
		}
	}
	for _, word := range others {
		if own == word {
			return true
		}
	}
	return false
}

// others are usual headings that go with no single field (common practice).
var others = []string{"remarks", "notes", "comments", "hardware", "hw set", "hdw set", "hardware set", "hdwr", "set", "frame", "type", "door type", "frame type", "glass", "glazing", "elevation", "finish", "head", "jamb", "sill", "threshold", "closer", "access control", "keying", "qty", "quantity", "detail", "undercut", "louver", "from", "to", "from room", "to room", "bemerkung", "bemerkungen", "remarques", "operator", "actuator", "photo", "date", "leaves"}
