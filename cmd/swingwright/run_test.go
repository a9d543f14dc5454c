package main

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"swingwright/report"
)

const demoJob = "../../demo/harbour-street-clinic"

// A run that is stopped says so, ends with status 2, and leaves JSON that can be read.
func TestStoppedRun(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out, errOut bytes.Buffer
	if status := run(ctx, []string{"check", demoJob, "--json"}, nil, &out, &errOut); status != exitError {
		t.Errorf("status %d, want %d", status, exitError)
	}
	if !strings.Contains(errOut.String(), "problem: stopped before the end") {
		t.Errorf("the error stream says %q", errOut.String())
	}
	var doc struct {
		Openings []json.RawMessage
		Summary  struct{ Complete bool }
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil || doc.Summary.Complete {
		t.Errorf("complete is %v in %s, %v", doc.Summary.Complete, out.Bytes(), err)
	}
}

// full is a stream that takes no more, as a full disk or a closed pipe.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, context.DeadlineExceeded }

func TestOutputThatFailsIsAnError(t *testing.T) {
	for _, args := range [][]string{
		{"check", demoJob, "-o", "105"}, {"check", demoJob, "-o", "105", "--json"},
		{"swing", demoJob, "-o", "105"}, {"swing", demoJob, "-o", "105", "--json"},
		{"rules", "list"}, {"rules", "show", "ada-2010"}, {"rules", "show", "ada-2010", "opening-force"}, {"schema"}, {"rules", "test"},
	} {
		var errOut bytes.Buffer
		if status := run(context.Background(), args, nil, full{}, &errOut); status != exitError || errOut.Len() == 0 {
			t.Errorf("%q: status %d, error stream %q", args, status, errOut.String())
		}
	}
}

// What stands in a terminal depends on the terminal; elsewhere there are no colours.
func TestNoColourInFiles(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	var out, errOut bytes.Buffer
	run(context.Background(), []string{"check", demoJob, "-o", "101"}, nil, &out, &errOut)
	if strings.Contains(out.String(), "\x1b") {
		t.Error("there are control sequences in a file")
	}
	if s, err := (&styleFlags{}).style(nil, &out); err != nil || s != (report.Style{Units: 1}) {
		t.Errorf("the style for a file is %+v, %v", s, err)
	}
}
