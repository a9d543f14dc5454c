package swingwright

import (
	"cmp"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// licences tells each one allowed by words that stand in its text and in no other's.
var licences = []struct{ name, words string }{
	{"Apache-2.0", `Apache License\s+Version 2\.0`},
	{"MPL-2.0", `Mozilla Public License,? [Vv]ersion 2\.0`},
	{"ISC", `Permission to use, copy, modify, and/or distribute`},
	{"MIT", `Permission is hereby granted, free of charge`},
	{"BSD", `Redistribution and use in source and binary forms`},
}

// forbidden stands in texts that allow less, whatever else they say.
var forbidden = regexp.MustCompile(`GNU (AFFERO |LESSER |LIBRARY )?GENERAL PUBLIC LICENSE|Commons Clause|NonCommercial`)

// Everything that the program links is under a licence that lets anyone use it.
func TestLicences(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}", "./cmd/swingwright")
	list.Stderr = os.Stderr
	text, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	seen := make(map[string]bool)
	for line := range strings.Lines(string(text)) {
		module, dir, ok := strings.Cut(strings.TrimSpace(line), "\t")
		if !ok || seen[module] {
			continue
		}
		seen[module] = true
		if name, err := licenceOf(dir); err != nil {
			t.Errorf("%s: %v", module, err)
		} else {
			t.Logf("%s: %s", module, name)
		}
	}
	if len(seen) < 4 {
		t.Errorf("only %d modules were looked at", len(seen))
	}
}

// licenceOf finds the licence in a module's folder.
func licenceOf(dir string) (string, error) {
	var files []string
	for _, pattern := range []string{"LICEN[SC]E*", "COPYING*"} {
		found, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return "", err
		}
		files = append(files, found...)
	}
	name := ""
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return "", err
		}
		if found := forbidden.Find(text); found != nil {
			return "", notAllowed(string(found) + " in " + filepath.Base(file))
		}
		for _, l := range licences {
			if regexp.MustCompile(l.words).Match(text) {
				name = cmp.Or(name, l.name)
			}
		}
	}
	if name == "" {
		return "", notAllowed("no licence that is known to this test")
	}
	return name, nil
}

type notAllowed string

func (n notAllowed) Error() string {
	return string(n) + ": choose another module under MIT, BSD, Apache-2.0, ISC or MPL-2.0"
}

// The test itself tells good from bad.
func TestLicenceOf(t *testing.T) {
	for text, good := range map[string]bool{
		"Apache License\n                           Version 2.0, January 2004": true,
		"Permission is hereby granted, free of charge, to any person":          true,
		"GNU LESSER GENERAL PUBLIC LICENSE\nVersion 2.1":                       false,
		"All rights reserved.": false,
		"Permission is hereby granted, free of charge ... GNU GENERAL PUBLIC LICENSE": false,
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "LICENSE"), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		if name, err := licenceOf(dir); (err == nil) != good {
			t.Errorf("%q: %s, %v", text, name, err)
		}
	}
	if _, err := licenceOf(t.TempDir()); err == nil {
		t.Error("a module without a licence is let in")
	}
}
