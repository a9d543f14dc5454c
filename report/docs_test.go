package report

import (
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// layouts are the types behind the sections of docs/json.md.
var layouts = map[string]any{
	"job": jobJSON{}, "reckoned_with": optionsJSON{}, "rulebook": bookJSON{}, "opening": planJSON{}, "value": valueJSON{},
	"linkage": linkageJSON{}, "drive": driveJSON{}, "results": resultsJSON{}, "fact": factJSON{}, "motions": motionsJSON{}, "motion": motionJSON{},
	"mark": markJSON{}, "latch_budget": budgetJSON{}, "finding": findingJSON{}, "driver": driverJSON{}, "gap": gapJSON{},
	"doubt": doubtJSON{}, "caution": cautionJSON{}, "summary": tallyJSON{}, "swing": lookJSON{}, "closing": closingJSON{},
	"power": powerJSON{}, "powered": poweredJSON{}, "strain": strainJSON{}, "resistance": resistanceJSON{}, "stall": stallJSON{},
	"driven": drivenJSON{}, "driven_mark": drivenMarkJSON{},
	"collision": meetingJSON{}, "party": partyJSON{}, "hand": handMarkJSON{}, "force": forceJSON{},
	"window": windowJSON{}, "span": spanJSON{}, "setting": settingJSON{}, "demand": demandJSON{}, "conflict": conflictJSON{},
	"tuning": tuningJSON{}, "checked": checkedJSON{}, "move": moveJSON{}, "state": stateJSON{}, "foreseen": foreseenJSON{}, "outcome": outcomeJSON{}, "foretold": foretoldJSON{}, "track": trackRecordJSON{},
	"acceptance": acceptanceJSON{}, "open": openJSON{}, "recording": recordingJSON{}, "fault": faultJSON{}, "swung": swungJSON{}, "phase": phaseJSON{}, "measured": recordedJSON{},
	"comparison": compareJSON{}, "choice": choiceJSON{}, "decision": decisionJSON{}, "test": rungJSON{}, "number": numberJSON{}, "cure": cureJSON{}, "call": callJSON{}, "question": questionJSON{},
	"feeding": feedingJSON{}, "wiring_fault": wiringFaultJSON{}, "circuit": circuitJSON{}, "fed": fedJSON{}, "run": runJSON{}, "stagger": staggerJSON{},
	"standby": standbyJSON{}, "current": courseJSON{}, "given": givenJSON{}, "conduit": conduitJSON{}, "door_loop": loopJSON{}, "shared_circuits": circuitsJSON{}, "shared_circuit": sharedCircuitJSON{}, "branch": branchJSON{},
	"give": giveJSON{}, "change": changeJSON{},
	"room": roomJSON{}, "opens": opensJSON{}, "contact": contactJSON{}, "measure": spreadJSON{}, "wall": wallJSON{}, "nearest": nearestJSON{},
	"width": widthJSON{}, "cut": cutJSON{}, "over_head": overJSON{}, "cord": cordJSON{}, "floor_mark": floorMarkJSON{}, "control": controlJSON{},
	"seasons": seasonsJSON{}, "month": monthJSON{}, "year_setting": yearSettingJSON{}, "season": seasonJSON{},
	"passing": passingJSON{}, "cycle": cycleJSON{}, "walk": walkJSON{}, "held": heldJSON{},
	"holes": holesJSON{}, "hole_face": holeFaceJSON{}, "hole": holeJSON{}, "hole_check": holeCheckJSON{}, "unplaced_hole": unplacedJSON{},
	"hole_problem": holeProblemJSON{}, "hinge_pull": hangJSON{}, "arm_force": armStrainJSON{}, "hole_caution": holeCautionJSON{},
	"wiring": wiredJSON{}, "wiring_rule": wiringRuleJSON{}, "seen_fault": wiringFault{}, "clearing": clearingJSON{}, "lock_release": releaseJSON{}, "passage": passageJSON{}, "way": wayJSON{}, "slip": slipJSON{},
	"alarm_row": alarmRowJSON{}, "truth_table": truthJSON{}, "truth_row": truthRowJSON{}, "came": cameJSON{}, "connection": connectionJSON{},
	"group": groupJSON{}, "statement": statementJSON{}, "delay": delayJSON{},
}

// The page names every field that is written, and no other.
func TestJSONPageIsComplete(t *testing.T) {
	page := documented(t)
	for section, layout := range layouts {
		if want, got := fields(reflect.TypeOf(layout)), page[section]; !slices.Equal(got, want) {
			t.Errorf("docs/json.md, section %s, lists %q; written are %q", section, got, want)
		}
		delete(page, section)
	}
	delete(page, "document") // written piece by piece: TestJSONDocument looks at it
	for section := range page {
		t.Errorf("docs/json.md has a section %s that nothing stands behind", section)
	}
}

// documented are the fields that the page lists, by section.
func documented(t *testing.T) map[string][]string {
	t.Helper()
	text, err := os.ReadFile("../docs/json.md")
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile("(?m)^\\| `([a-z_0-9]+)` \\|")
	page := make(map[string][]string)
	for _, section := range strings.Split(string(text), "\n## ")[1:] {
		name, body, _ := strings.Cut(section, "\n")
		for _, m := range named.FindAllStringSubmatch(body, -1) {
			page[name] = append(page[name], m[1])
		}
	}
	return page
}

// fields are the names of a type's own fields in JSON.
func fields(t reflect.Type) (names []string) {
	for i := range t.NumField() {
		if tag := t.Field(i).Tag.Get("json"); tag != "" {
			name, _, _ := strings.Cut(tag, ",")
			names = append(names, name)
		}
	}
	return names
}
