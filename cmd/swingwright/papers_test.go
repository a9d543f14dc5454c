package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// The papers that the site app prints are the file that the command writes, byte for byte:
// of an opening with a wiring of its own, and of two that share one.
func TestAppPrintsTheSamePapers(t *testing.T) {
	clinic, porch := filepath.Join(t.TempDir(), "site"), t.TempDir()
	if err := os.CopyFS(clinic, os.DirFS(demoJob)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(porch, "job.yaml"), []byte(twoOnOneWiring), 0o666); err != nil {
		t.Fatal(err)
	}
	for folder, ids := range map[string][]string{clinic: {"101"}, porch: {"1", "2"}} {
		var out, wrong bytes.Buffer
		if status := run(context.Background(), []string{"packet", folder, "--out", folder, "--paper", "a4", "--units", "si", "-o", ids[0], "-o", ids[len(ids)-1]}, nil, &out, &wrong); status != exitGood {
			t.Fatalf("status %d: %s", status, &wrong)
		}
		s := serveFolder(t, filepath.Join(folder, "job.yaml"))
		var job struct{ Keys map[string]string }
		if err := json.Unmarshal([]byte(s.get("/api/jobs/"+s.key)), &job); err != nil {
			t.Fatal(err)
		}
		for _, id := range ids {
			typed, err := os.ReadFile(filepath.Join(folder, id+".pdf"))
			if err != nil {
				t.Fatal(err)
			}
			tapped := s.get("/api/openings/" + job.Keys[id] + "/packet.pdf?units=si&paper=a4")
			if len(typed) < 50_000 || !bytes.Equal(typed, []byte(tapped)) {
				t.Errorf("opening %s: %d bytes by the command, %d by the app, and not the same", id, len(typed), len(tapped))
			}
		}
		s.stop()
	}
}

const twoOnOneWiring = `job: porch
date: 2026-11-25
rulebooks: [ada-2010]
groups:
  - id: porch
    kind: vestibule
    of: ["1", "2"]
    wiring:
      devices:
        - {name: supply, kind: supply, volts: 24 V, current_working: 4 A}
        - {name: drive A, kind: operator, opening: "1", current_peak: 4 A, current_working: 2 A, on_delay: 0.5 s}
        - {name: drive B, kind: operator, opening: "2", current_peak: 4 A, current_working: 2 A}
      cables:
        - {name: W1, from: supply, to: drive A, gauge: 16, length: 20 ft, conductors: 2, class: class-2}
        - {name: W2, from: supply, to: drive B, gauge: 18, length: 80 ft, conductors: 2, class: class-2}
openings:
  - {id: "1", leaf: {width: 36 in, height: 84 in}, use: {operation: low-energy}}
  - {id: "2", leaf: {width: 42 in, height: 84 in}, use: {operation: low-energy}}
`
