package onsite

import (
	"reflect"
	"slices"

	"swingwright/opening"
	"swingwright/phrasebook"
	"swingwright/report"
)

// asItStands are the fields of an answer that are never said in another language: marks
// and codes that the page acts upon, addresses, and what people wrote themselves. Every
// other field that is a text, or a list of texts, is words of the engine.
var asItStands = map[reflect.Type][]string{
	reflect.TypeFor[report.Card]():            {"ID", "Name", "Standing", "Accepted", "Answer"},
	reflect.TypeFor[report.CardFact]():        {"Fact", "Origin"},
	reflect.TypeFor[report.CardFinding]():     {"Rule", "Of", "Verdict", "Mark", "Origin", "Missing"},
	reflect.TypeFor[report.CardRung]():        {"Verdict", "Answer"},
	reflect.TypeFor[report.CardMeasurement](): {"Fact", "Dim"},
	reflect.TypeFor[report.RecordingCard]():   {"Standing"},
	reflect.TypeFor[report.CardReading]():     {"Fact", "Keep"},
	reflect.TypeFor[report.CardWithout]():     {"Fact"},
	reflect.TypeFor[report.TuningCard]():      {"Do"},
	reflect.TypeFor[report.CardMove]():        {"Part"},
	reflect.TypeFor[report.CardDemand]():      {"Verdict", "VerdictAfter"},
	reflect.TypeFor[report.WindowCard]():      {"Power"},
	reflect.TypeFor[opening.Gap]():            {"Field"},
	reflect.TypeFor[opening.Doubt]():          {"Field", "Found"},
	reflect.TypeFor[Picture]():                {"Name", "Title", "SVG", "Says", "Words"}, // said as it is drawn
	reflect.TypeFor[Decided]():                {"Answer"},
	reflect.TypeFor[State]():                  {"ID", "Standing", "Accepted"},
	reflect.TypeFor[Mark]():                   {"US", "SI"},
	reflect.TypeFor[Surveyed]():               {"Last"},
	reflect.TypeFor[Question]():               {"Gap"},
	reflect.TypeFor[Part]():                   {"Path", "Kind", "Dim", "Unit", "Choices", "Last", "Told"},
	reflect.TypeFor[Valued]():                 {"Unit"},
	reflect.TypeFor[Complaint]():              {"Key"},
	reflect.TypeFor[ServiceStep]():            {"Key"},
	reflect.TypeFor[ServiceCause]():           {"Key"},
}

// inWords is an answer with the engine's words said in the language of a phrasebook. The
// answer handed in, which may share its lists with a plan that is kept, stays as it is.
func inWords(answer any, b *phrasebook.Book) any {
	if b == nil || answer == nil {
		return answer
	}
	return say(reflect.ValueOf(answer), b.Say).Interface()
}

// say copies a value with every text of the engine said.
func say(v reflect.Value, words func(string) string) reflect.Value {
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return v
		}
		out := reflect.New(v.Type().Elem())
		out.Elem().Set(say(v.Elem(), words))
		return out
	case reflect.Slice:
		if v.IsNil() {
			return v
		}
		out := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			out.Index(i).Set(say(v.Index(i), words))
		}
		return out
	case reflect.Struct:
		out := reflect.New(v.Type()).Elem()
		out.Set(v)
		kept := asItStands[v.Type()]
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && !slices.Contains(kept, f.Name) {
				out.Field(i).Set(say(v.Field(i), words))
			}
		}
		return out
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() {
			return reflect.ValueOf(words(v.String()))
		}
	}
	return v
}
