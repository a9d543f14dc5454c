package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

func TestPlainWords(t *testing.T) {
	_, missing := os.Stat(filepath.Join(t.TempDir(), "none.csv"))
	_, folder := os.ReadFile(t.TempDir())
	for words, err := range map[string]error{
		"none.csv is not there":       missing,
		"is a folder":                 folder,
		"/x may not be read":          &fs.PathError{Op: "open", Path: "/x", Err: syscall.EACCES},
		"/y does not fit":             fmt.Errorf("kept: %w", &fs.PathError{Op: "write", Path: "/y", Err: syscall.ENOSPC}),
		"/z lies where nothing":       &fs.PathError{Op: "open", Path: "/z", Err: syscall.EROFS},
		"something of its own":        errors.New("something of its own"),
		"/q is there already":         &fs.PathError{Op: "mkdir", Path: "/q", Err: fs.ErrExist},
		"/r lies in what is a file":   &fs.PathError{Op: "open", Path: "/r", Err: syscall.ENOTDIR},
		"/s cannot be used: too many": &fs.PathError{Op: "open", Path: "/s", Err: errors.New("too many")},
	} {
		got := plain(err)
		if !strings.Contains(got, words) || strings.Contains(got, "stat ") {
			t.Errorf("%q, want %q", got, words)
		}
	}
	_, no := strconv.ParseUint("x", 10, 64)
	_, large := strconv.ParseInt("99999999999999999999", 10, 64)
	_, real := strconv.ParseFloat("x", 64)
	for words, err := range map[string]error{"a whole number": no, "too large": large, "such as 0.05": real} {
		got := flagWords(fmt.Errorf(`invalid argument "x" for "--seed" flag: %w`, err))
		if !strings.HasSuffix(got, words) && !strings.Contains(got, words) || strings.Contains(got, "strconv") {
			t.Errorf("%q, want %q", got, words)
		}
	}
	if got := flagWords(errors.New("unknown flag: --x")); got != "unknown flag: --x" {
		t.Error(got)
	}
}
