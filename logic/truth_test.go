package logic

import (
	"reflect"
	"testing"
)

// What comes of every ask at an office door with a fail-secure strike, by the
// trade's rules: outside is dead without a credential, the inside always works,
// nothing drives in alarm or with the motor off, and by hand one always gets out
// (common practice). With the outside plate straight on the drive, the table shows
// the locked leaf driven.
func TestTruthTable(t *testing.T) {
	sound := [][]string{
		{"", "as it is left", "motor off", "in alarm", "mains lost"},
		{"press plate in", "strike freed, drive drives", "nothing", "nothing", "nothing"},
		{"press plate out", "nothing", "nothing", "nothing", "nothing"},
		{"credential to access, press plate out", "strike freed, drive drives", "strike freed", "nothing", "nothing"},
		{"go out by hand", "strike freed, 101 opens by hand", "strike freed, 101 opens by hand", "101 opens by hand", "101 opens by hand"},
	}
	if got := told(t, office()); !reflect.DeepEqual(got, sound) {
		t.Errorf("sound: %q", got)
	}
	straight := told(t, altered(office(), func(r *rig) { r.join("plate out.C", "drive.COM") }))
	if got := straight[2][1]; got == "nothing" {
		t.Errorf("outside plate straight to the drive: %q", straight[2])
	}
}

// told is the truth table of an office door in words.
func told(t *testing.T, r *rig) [][]string {
	t.Helper()
	m, err := compile(&r.Wiring, fireDoor, ticks[0], true)
	if err != nil {
		t.Fatal(err)
	}
	of := m.TruthTable()
	rows := [][]string{append([]string{""}, of.Conditions...)}
	for _, of := range of.Rows {
		row := []string{of.Ask}
		for _, c := range of.Comes {
			row = append(row, c.String())
		}
		rows = append(rows, row)
	}
	return rows
}
