package judge

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestVerdictWords(t *testing.T) {
	for v, want := range map[Verdict]string{
		Meets: "meets", FallsShort: "falls short", TooClose: "too close to call",
		NotMeasured: "not measured", DoesNotApply: "does not apply", verdicts: "verdict 5",
	} {
		if got := v.String(); got != want {
			t.Errorf("verdict %d is %q, want %q", v, got, want)
		}
	}
	var zero Verdict
	if zero != NotMeasured {
		t.Errorf("the zero verdict is %q, want one that passes nothing", zero)
	}
}

func TestVerdictsTravelAsWords(t *testing.T) {
	for v := range verdicts {
		text, err := json.Marshal(v)
		if err != nil || string(text) != `"`+v.String()+`"` {
			t.Errorf("%v is written as %s, %v", v, text, err)
		}
		back := verdicts
		if err := json.Unmarshal(text, &back); err != nil || back != v {
			t.Errorf("%s is read as %v, %v", text, back, err)
		}
	}
	if text, err := verdicts.MarshalText(); err == nil {
		t.Errorf("a verdict that does not exist is written as %s", text)
	}
}

func TestUnknownVerdictIsRefused(t *testing.T) {
	v := TooClose
	err := v.UnmarshalText([]byte("passes"))
	if err == nil || v != TooClose {
		t.Fatalf("passes is read as %v, %v; want an error and no change", v, err)
	}
	for _, want := range []string{`"passes"`, "meets", "falls short", "does not apply"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want it to name %s", err, want)
		}
	}
}
