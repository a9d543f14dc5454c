package server_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/brotli"

	"swingwright/app"
	"swingwright/onsite"
)

// agree is how far numbers of the engine in the browser and of the server may lie apart,
// relative: floating-point sums differ in the last bits between machines, and draws spread that.
const agree = 1e-6

// The engine in the browser answers as the same packages do here: every verdict and word
// alike, every number within the tolerance.
func TestBrowserAgrees(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here'`)
	p.page("settings") // so that nothing else is asked of the engine meanwhile
	rules := evaluate[string](p, fmt.Sprintf(`fetch('/api/jobs/%s/rules').then(r => r.text())`, s.key))
	var r onsite.Rules
	if err := json.Unmarshal([]byte(rules), &r); err != nil {
		t.Fatal(err)
	}
	native := onsite.New(r)
	asked := 0
	for _, id := range []string{"101", "103", "110"} {
		for _, question := range []string{"state", "opening", "decide", "survey", "marks", "tune", "window", "service"} {
			begin := time.Now()
			both := evaluate[[2]string](p, fmt.Sprintf(`(async () => {
			  const sync = await import('/js/sync.js'), engine = await import('/js/engine.js'), tree = await import('/js/tree.js');
			  const job = await sync.opening(%[1]q, %[2]q);
			  const more = {units: 'si', complaint: 'no-latch', made: [], narrow: true};
			  return [JSON.stringify(await engine.ask(%[3]q, job, %[2]q, more)), JSON.stringify({job: tree.part(job.tree, %[2]q), rules: job.rules, opening: %[2]q, ...more})];
			})()`, s.key, id, question))
			var here, there any
			if err := json.Unmarshal(native.Answer(question, []byte(both[1])), &here); err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal([]byte(both[0]), &there); err != nil {
				t.Fatal(err)
			}
			asked++
			t.Logf("%s of %s: %v in the browser", question, id, time.Since(begin).Round(time.Millisecond))
			if at := differs(here, there, ""); at != "" {
				t.Errorf("%s of %s: %s", question, id, at)
			}
		}
	}
	t.Logf("%d answers alike", asked)
}

// differs tells where two answers are not alike; empty where they are.
func differs(a, b any, at string) string {
	switch x := a.(type) {
	case map[string]any:
		y, ok := b.(map[string]any)
		if !ok || len(x) != len(y) {
			return fmt.Sprintf("%s: %.80v and %.80v", at, a, b)
		}
		for k := range x {
			if d := differs(x[k], y[k], at+"."+k); d != "" {
				return d
			}
		}
	case []any:
		y, ok := b.([]any)
		if !ok || len(x) != len(y) {
			return fmt.Sprintf("%s: %.80v and %.80v", at, a, b)
		}
		for i := range x {
			if d := differs(x[i], y[i], fmt.Sprintf("%s[%d]", at, i)); d != "" {
				return d
			}
		}
	case float64:
		y, ok := b.(float64)
		if !ok || math.Abs(x-y) > agree*math.Max(math.Abs(x), 1e-3) {
			return fmt.Sprintf("%s: %v and %v", at, a, b)
		}
	default:
		if strings.HasSuffix(at, ".svg") {
			return "" // pictures are held to their own goldens, natively
		}
		if !reflect.DeepEqual(a, b) {
			return fmt.Sprintf("%s: %q and %q", at, a, b)
		}
	}
	return ""
}

// The engine comes to a phone in less than three megabytes. make build packs it as hard as can be, half a minute long; where it
// did, that is held to it. Packed in haste, as is done here, it may have a seventh more: so much the other takes off.
func TestEngineIsSmall(t *testing.T) {
	const most = 3_000_000
	a, err := app.New()
	if err != nil {
		t.Fatal(err)
	}
	if a.Engine() {
		built := len(a.Files["/engine/engine.wasm"].Packed)
		t.Logf("as it was built: %d bytes", built)
		if built > most {
			t.Errorf("the engine has %d bytes packed", built)
		}
	}
	parts, err := engine()
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := brotli.NewWriterOptions(&packed, brotli.WriterOptions{Quality: 6, LGWin: 24})
	w.Write(parts[0])
	w.Close()
	t.Logf("%d bytes, packed in haste %d", len(parts[0]), packed.Len())
	if packed.Len() > most*8/7 {
		t.Errorf("the engine has %d bytes packed in haste", packed.Len())
	}
	for _, word := range []string{"cel-go", "antlr"} {
		if bytes.Contains(parts[0], []byte(word)) {
			t.Errorf("the engine brings %s: the language of formulas is too large for a phone", word)
		}
	}
}
