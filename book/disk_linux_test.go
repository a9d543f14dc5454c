package book_test

import (
	"bufio"
	"encoding/hex"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// A disk is what a program did to a folder, as strace recorded it, system call by system call. From it are made
// the states in which the folder may be found after the power was cut at some moment.
//
// What is taken to be on the disk then: of a file, what was written before its last fsync; of what was written
// since, any part, down to single sectors of 512 bytes, whatever the order. Names (files made, renamed, linked,
// deleted) come onto it in their order, at the latest when the file that was made or its folder is
// synced, and no later one without all before it, as the journals of the usual file systems have it. An
// acknowledgement is a line on the standard output.
type disk struct {
	root  string
	begin map[string][]byte // files by their paths from the root, as they were
	first map[string]int    // and their numbers
	shelf []string          // folders
	ops   []op
}

// An op is one thing that was done. Files are told apart by numbers, since names change.
type op struct {
	kind     string // write, size, sync; make, rename, link, delete, folder; told
	path, to string // from the root
	file     int    // that was written or synced; 0: a folder was
	at       int64  // of a write: where; of size: how long it is then
	data     []byte
	line     string // of told
}

func (o op) names() bool {
	switch o.kind {
	case "make", "rename", "link", "delete", "folder":
		return true
	}
	return false
}

// traced are the calls that change files.
const traced = "open,openat,creat,write,pwrite64,writev,pwritev,fsync,fdatasync,sync_file_range,ftruncate,truncate,fallocate,rename,renameat,renameat2,link,linkat,unlink,unlinkat,mkdir,mkdirat,copy_file_range,sendfile,splice"

// under runs the test program as a child that does something in a folder, with strace in between.
func under(t *testing.T, what, root string, options ...string) (trace, told, wrong string, failed bool) {
	t.Helper()
	if _, err := exec.LookPath("strace"); err != nil {
		t.Fatalf("%v; make reference installs it", err)
	}
	trace = filepath.Join(t.TempDir(), "trace")
	args := append([]string{"-f", "-y", "-xx", "-s", "10000000", "-o", trace, "-e", "signal=none", "-e", "trace=" + traced}, options...)
	child := exec.Command("strace", append(args, os.Args[0])...)
	child.Env = append(os.Environ(), "BOOK_DO="+what, "BOOK_ROOT="+root)
	var out, problems strings.Builder
	child.Stdout, child.Stderr = &out, &problems
	err := child.Run()
	if strings.Contains(strings.ToLower(problems.String()), "ptrace") {
		t.Skip("this machine lets nobody trace: ", problems.String())
	}
	if err != nil && child.ProcessState == nil {
		t.Fatal(err)
	}
	return trace, out.String(), problems.String(), err != nil
}

// record keeps what a child did to a folder.
func record(t *testing.T, what, root string) *disk {
	t.Helper()
	d := &disk{root: root, begin: map[string][]byte{}}
	err := filepath.WalkDir(root, func(name string, e fs.DirEntry, err error) error {
		if err == nil && e.IsDir() {
			d.shelf = append(d.shelf, strings.TrimPrefix(name, root))
		} else if err == nil {
			d.begin[d.from(name)], err = os.ReadFile(name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	trace, _, wrong, failed := under(t, what, root)
	if failed {
		t.Fatalf("%s: %s", what, wrong)
	}
	f, err := os.Open(trace)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := d.read(f); err != nil {
		t.Fatal(err)
	}
	return d
}

// from is a path from the root; empty for what is elsewhere.
func (d *disk) from(name string) string {
	rest, ok := strings.CutPrefix(name, d.root+"/")
	if !ok || strings.HasSuffix(rest, "-shm") { // which SQLite makes anew
		return ""
	}
	return rest
}

var (
	call     = regexp.MustCompile(`^(\d+) +(\w+)\((.*)\) += (-?\d+)`)
	pausing  = regexp.MustCompile(`^(\d+) +(\w+\(.*) <unfinished \.\.\.>$`)
	resuming = regexp.MustCompile(`^(\d+) +<\.\.\. \w+ resumed>(.*)$`)
	ofFile   = regexp.MustCompile(`^(?:\d+|AT_FDCWD)<([^>]*)>`)
	quoted   = regexp.MustCompile(`"([^"]*)"`)
)

// plainly undoes what strace -xx does to texts.
func plainly(text string) []byte {
	raw, err := hex.DecodeString(strings.ReplaceAll(text, `\x`, ""))
	if err != nil {
		return []byte(text)
	}
	return raw
}

// read reads what strace wrote.
func (d *disk) read(f *os.File) error {
	ends := map[string]int64{}
	count := 0
	d.first = map[string]int{}
	for name := range d.begin {
		count++
		d.first[name] = count
	}
	files := maps.Clone(d.first)
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<28)
	waits := map[string]string{}
	for lines.Scan() {
		line := lines.Text()
		if m := pausing.FindStringSubmatch(line); m != nil {
			waits[m[1]] = m[2]
			continue
		}
		if m := resuming.FindStringSubmatch(line); m != nil {
			line = m[1] + " " + waits[m[1]] + m[2]
		}
		m := call.FindStringSubmatch(line)
		if m == nil || strings.HasPrefix(m[4], "-") {
			continue
		}
		name, args := m[2], m[3]
		result, err := strconv.ParseInt(m[4], 10, 64)
		if err != nil {
			return err
		}
		subject := ""
		if f := ofFile.FindStringSubmatch(args); f != nil {
			subject = string(plainly(f[1]))
		}
		var texts []string
		for _, q := range quoted.FindAllStringSubmatch(args, -1) {
			texts = append(texts, string(plainly(q[1])))
		}
		// places are the paths that a call names, from the folders that it names before them
		var places []string
		for _, arg := range strings.Split(quoted.ReplaceAllString(args, "Q"), ", ") {
			if arg == "Q" {
				place := texts[len(places)]
				if !filepath.IsAbs(place) {
					place = filepath.Join(subject, place)
				}
				places = append(places, place)
			} else if f := ofFile.FindStringSubmatch(arg); f != nil {
				subject = string(plainly(f[1]))
			}
		}
		numbers := strings.Split(args, ", ")
		last, _ := strconv.ParseInt(numbers[len(numbers)-1], 10, 64)
		on := d.from(subject)
		switch name {
		case "open", "openat", "creat":
			path := d.from(places[0])
			if path == "" || !strings.Contains(args, "O_CREAT") && files[path] == 0 {
				continue
			}
			if files[path] == 0 {
				count++
				files[path] = count
				d.ops = append(d.ops, op{kind: "make", path: path, file: count})
			} else if strings.Contains(args, "O_TRUNC") {
				d.ops = append(d.ops, op{kind: "size", file: files[path]})
			}
			ends[path] = 0
		case "write", "pwrite64":
			if strings.HasPrefix(args, "1<") {
				d.ops = append(d.ops, op{kind: "told", line: strings.TrimSpace(texts[0])})
				continue
			}
			if on == "" {
				continue
			}
			at := last
			if name == "write" {
				at = ends[on]
				ends[on] += result
			}
			if files[on] == 0 {
				return fmt.Errorf("%s is written and was never made", on)
			}
			d.ops = append(d.ops, op{kind: "write", file: files[on], at: at, data: []byte(texts[0])[:result]})
		case "fsync", "fdatasync":
			if strings.HasPrefix(subject, d.root) {
				d.ops = append(d.ops, op{kind: "sync", path: strings.TrimPrefix(strings.TrimPrefix(subject, d.root), "/"), file: files[on]})
			}
		case "ftruncate":
			if on != "" {
				d.ops = append(d.ops, op{kind: "size", file: files[on], at: last})
			}
		case "rename", "renameat", "renameat2", "link", "linkat":
			from, to := d.from(places[0]), d.from(places[1])
			if from == "" || to == "" {
				continue
			}
			files[to] = files[from]
			kind := "link"
			if strings.HasPrefix(name, "rename") {
				kind = "rename"
				delete(files, from)
			}
			d.ops = append(d.ops, op{kind: kind, path: from, to: to})
		case "unlink", "unlinkat":
			if path := d.from(places[0]); path != "" {
				d.ops = append(d.ops, op{kind: "delete", path: path})
				delete(files, path)
			}
		case "mkdir", "mkdirat":
			if path := d.from(places[0]); path != "" {
				d.ops = append(d.ops, op{kind: "folder", path: path})
			}
		default:
			if on != "" {
				return fmt.Errorf("%s of %s is not reckoned with", name, on)
			}
		}
	}
	return lines.Err()
}

// told are the acknowledgements before a moment.
func (d *disk) told(moment int) (lines []string) {
	for _, o := range d.ops[:moment] {
		if o.kind == "told" {
			lines = append(lines, strings.Split(o.line, "\n")...)
		}
	}
	return lines
}

// A loss is how much of what was not synced is lost when the power is cut.
type loss int

const (
	allLost     loss = iota // all of it
	nothingLost             // none of it: as if the program had been killed
	writesLost              // any of the writes
	sectorsLost             // any of the sectors
)

const sector = 512

// cut makes, in a new folder, the state of the disk after the power was cut at a moment.
func (d *disk) cut(t *testing.T, moment int, l loss, random *rand.Rand) string {
	t.Helper()
	sure, synced := 0, map[int]int{} // how many ops on names are on the disk, and up to which op each file is
	for i, o := range d.ops[:moment] {
		if o.kind != "sync" {
			continue
		}
		if o.file != 0 {
			synced[o.file] = i
		}
		for k, before := range d.ops[:i] {
			folder := filepath.Dir(before.path)
			if before.names() && (before.kind == "make" && before.file == o.file || o.file == 0 && (folder == o.path || folder == "." && o.path == "" || before.to != "" && filepath.Dir(before.to) == o.path)) {
				sure = max(sure, k+1)
			}
		}
	}
	until := map[loss]int{allLost: sure, nothingLost: moment, writesLost: sure + random.IntN(moment-sure+1), sectorsLost: sure + random.IntN(moment-sure+1)}[l]
	files, content := maps.Clone(d.first), map[int][]byte{}
	folders := map[string]bool{}
	for _, folder := range d.shelf {
		folders[folder] = true
	}
	for name, n := range files {
		content[n] = append([]byte(nil), d.begin[name]...)
	}
	for i, o := range d.ops[:moment] {
		switch {
		case o.names() && i < until:
			switch o.kind {
			case "make":
				files[o.path] = o.file
			case "rename":
				files[o.to] = files[o.path]
				delete(files, o.path)
			case "link":
				files[o.to] = files[o.path]
			case "delete":
				delete(files, o.path)
			case "folder":
				folders[o.path] = true
			}
		case o.kind == "write":
			at, known := synced[o.file]
			sure := known && i < at
			for from := 0; from < len(o.data); from += sector {
				piece := o.data[from:min(from+sector, len(o.data))]
				if l != sectorsLost {
					piece = o.data
				}
				if sure || l == nothingLost || l != allLost && random.IntN(2) == 0 {
					content[o.file] = put(content[o.file], o.at+int64(from), piece)
				}
				if l != sectorsLost {
					break
				}
			}
		case o.kind == "size":
			at, known := synced[o.file]
			if known && i < at || l == nothingLost || l != allLost && random.IntN(2) == 0 {
				c := content[o.file]
				if int64(len(c)) >= o.at {
					content[o.file] = c[:o.at:o.at]
				} else {
					content[o.file] = append(c, make([]byte, o.at-int64(len(c)))...)
				}
			}
		}
	}
	dir := t.TempDir()
	for folder := range folders {
		if err := os.MkdirAll(filepath.Join(dir, folder), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for name, n := range files {
		if err := os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), content[n], 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func put(c []byte, at int64, piece []byte) []byte {
	if need := at + int64(len(piece)); int64(len(c)) < need {
		c = append(c, make([]byte, need-int64(len(c)))...)
	}
	copy(c[at:], piece)
	return c
}
