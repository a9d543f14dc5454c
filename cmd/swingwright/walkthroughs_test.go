package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What docs/walkthroughs.md quotes is what the commands above it answer: every
// line in a box, its spaces apart, occurs in the answer to the command before it.
func TestWalkthroughsQuoteTheProgram(t *testing.T) {
	page, err := os.ReadFile("../../docs/walkthroughs.md")
	if err != nil {
		t.Fatal(err)
	}
	demo, err := filepath.Abs(demoJob)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir()) // recordings are written where one stands
	var answer string
	quoted, boxed := 0, false
	for line := range strings.Lines(string(page)) {
		line = strings.TrimSuffix(line, "\n")
		switch command, isCommand := strings.CutPrefix(line, "    swingwright "); {
		case strings.HasPrefix(line, "```"):
			boxed = !boxed
		case boxed:
			quoted++
			if !strings.Contains(answer, spaced(line)) {
				t.Errorf("not answered any more: %q", line)
			}
		case isCommand:
			answer = spaced(answerTo(t, command, demo))
		}
	}
	if quoted < 20 {
		t.Errorf("only %d lines are quoted", quoted)
	}
}

// answerTo is what a command as it stands in the page writes, its job in the folder demo.
func answerTo(t *testing.T, command, demo string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	var args []string
	for i, part := range strings.Split(strings.ReplaceAll(command, "demo/harbour-street-clinic", demo), `"`) {
		if i%2 == 1 { // between quotes
			args = append(args, part)
			continue
		}
		args = append(args, strings.Fields(part)...)
	}
	if run(context.Background(), args, nil, &out, &errOut) == exitError {
		t.Fatalf("swingwright %s: %s", command, errOut.String())
	}
	return out.String()
}

// spaced is a text with one space wherever there is any.
func spaced(text string) string { return strings.Join(strings.Fields(text), " ") }
