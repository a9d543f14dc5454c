package main

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Every command line that stands in the pages, or in the help of a command, names
// commands and flags that exist.
func TestCommandLinesInPages(t *testing.T) {
	pages, err := filepath.Glob("../../*.md")
	if err != nil {
		t.Fatal(err)
	}
	docs, err := filepath.Glob("../../docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, page := range append(pages, docs...) {
		file, err := os.Open(page)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		for lines := bufio.NewScanner(file); lines.Scan(); {
			line := strings.TrimPrefix(strings.TrimSpace(lines.Text()), "bin/")
			if rest, ok := strings.CutPrefix(line, "swingwright "); ok && strings.HasPrefix(lines.Text(), " ") {
				seen++
				tryLine(t, page, rest)
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d command lines were found in the pages", seen)
	}
	all := (&program{}).root().Commands()
	for len(all) > 0 {
		c := all[0]
		all = append(all[1:], c.Commands()...)
		for line := range strings.Lines(c.Example) {
			tryLine(t, c.CommandPath(), strings.TrimPrefix(strings.TrimSpace(line), "swingwright "))
		}
	}
}

// tryLine finds the command of a line and reads its flags, and runs nothing.
func tryLine(t *testing.T, where, line string) {
	t.Helper()
	line, _, _ = strings.Cut(line, " > ")
	var args []string
	for i, quoted := range strings.Split(line, `"`) {
		if i%2 == 1 {
			args = append(args, quoted)
		} else {
			args = append(args, strings.Fields(quoted)...)
		}
	}
	c, rest, err := (&program{}).root().Find(args)
	if err != nil || !c.HasParent() {
		t.Errorf("%s: %q names no command: %v", where, line, err)
		return
	}
	if err := c.ParseFlags(rest); err != nil {
		t.Errorf("%s: %q: %v", where, line, err)
		return
	}
	if c.Args != nil {
		if err := c.Args(c, c.Flags().Args()); err != nil {
			t.Errorf("%s: %q: %v", where, line, err)
		}
	}
}
