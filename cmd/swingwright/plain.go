package main

import (
	"errors"
	"io/fs"
	"strconv"
	"strings"
	"syscall"
)

// plain says in words what is wrong with a file or a number; other errors say it
// themselves.
func plain(err error) string {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Path + " " + fileWords(p.Err)
	}
	if l, ok := errors.AsType[*fs.PathError](errors.Unwrap(err)); ok {
		return l.Path + " " + fileWords(l.Err)
	}
	return err.Error()
}

// fileWords says what keeps a file or folder from being used.
func fileWords(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "is not there, or its folder is not"
	case errors.Is(err, fs.ErrPermission):
		return "may not be read or written by you"
	case errors.Is(err, fs.ErrExist):
		return "is there already"
	case errors.Is(err, syscall.EISDIR):
		return "is a folder, not a file"
	case errors.Is(err, syscall.ENOTDIR):
		return "lies in what is a file, not a folder"
	case errors.Is(err, syscall.ENOSPC):
		return "does not fit: the disk is full"
	case errors.Is(err, syscall.EROFS):
		return "lies where nothing can be written"
	}
	return "cannot be used: " + err.Error()
}

// flagWords says what is wrong with a flag whose number could not be read.
func flagWords(err error) string {
	text := err.Error()
	before, after, ok := strings.Cut(text, ": strconv.")
	if !ok {
		return text
	}
	if strings.HasSuffix(after, strconv.ErrRange.Error()) {
		return before + ": the number is too large"
	}
	if strings.HasPrefix(after, "ParseFloat") {
		return before + ": write a number, such as 0.05"
	}
	if strings.HasPrefix(after, "ParseBool") {
		return before + ": write true or false"
	}
	return before + ": write a whole number, such as 200"
}
