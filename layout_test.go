// Package swingwright holds the tests of the module as a whole: which package may
// import which, under which licences the program is linked, and whether the pages
// for people still say what the code does.
package swingwright

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "swingwright/"

// rows tells on which row each package lives. A package imports lower rows only,
// so that each can be read, tested and reused without those above it.
var rows = map[string]int{
	"quantity": 0, "phrasebook": 0, "internal/lsq": 0, "internal/ode": 0, "internal/propagate": 0, "internal/draw": 0, "internal/workbook": 0,
	"fact": 1, "opening": 1, "instrument": 1, "trace": 1, "job/amend": 1, "service": 1, "internal/paper": 1, "label": 1,
	"leaf": 2, "linkage": 2, "clearance": 2, "rulebook": 2, "judge": 2, "job": 2, "weather": 2, "transit": 2, "power": 2, "logic": 2,
	"swing": 3, "drilling": 3, "rulebook/author": 3, "window": 3,
	"record": 4, "tune": 4,
	"plan":     5,
	"decision": 6,
	"takeoff":  7,
	"picture":  8, "report": 8, "book": 8, "schedule": 8, "takeoff/xlsx": 8,
	"packet": 9, "onsite": 9, "account": 9, "trust": 9, "app": 9, "app/press": 9,
	"server":               10,
	"cmd/swingwright":      11,
	"cmd/swingwright-wasm": 11,
	"internal/reference":   11, // for tests only
	"internal/steady":      11, // for tests only
}

// beside are the imports allowed on one row, with their reason.
var beside = map[[2]string]string{
	{"window", "swing"}: "a setting is good when the leaf that it gives moves well",
}

// engine is the highest row of the engine: what it computes depends on its
// arguments alone, so that the same input gives the same bits, anywhere.
const engine = 7

// outside are the packages that the engine does without, and why.
var outside = map[string]string{
	"os":           "the engine reads no files and no environment: it is handed an fs.FS or data",
	"os/exec":      "the engine starts no programs",
	"net":          "the engine works where there is no network",
	"net/http":     "the engine works where there is no network",
	"database/sql": "the engine knows no store",
	"math/rand":    "a hidden source of chance makes two runs differ: seeds are arguments, of math/rand/v2",
	"log":          "the engine tells the caller, who knows whom to tell",
	"unsafe":       "nothing here is worth it",
}

// clock are the functions of package time that ask what time it is.
var clock = []string{"Now", "Since", "Until", "Sleep", "After", "Tick", "NewTimer", "NewTicker", "AfterFunc"}

func TestLayout(t *testing.T) {
	found := make(map[string]bool)
	for _, name := range sources(t) {
		pkg := path.Dir(name)
		if pkg == "." || strings.HasPrefix(pkg, "tools") {
			continue
		}
		if row, ok := rows[pkg]; ok {
			checkFile(t, name, pkg, row)
		} else if !found[pkg] {
			t.Errorf("package %s has no row: find it one in layout_test.go, above all that it imports", pkg)
		}
		found[pkg] = true
	}
	for pkg := range rows {
		if !found[pkg] {
			t.Errorf("package %s has a row but no code", pkg)
		}
	}
}

// TestPropertiesAreDrawnAlike: what a run of the tests says must not hang on chance.
func TestPropertiesAreDrawnAlike(t *testing.T) {
	const drawn, steady = "pgregory.net/rapid", module + "internal/steady"
	uses := map[string]map[string]bool{drawn: {}, steady: {}}
	for _, name := range files(t) {
		if !strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.FromSlash(name), nil, parser.ImportsOnly)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, spec := range file.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			if in := uses[imported]; in != nil {
				in[path.Dir(name)] = true
			}
		}
	}
	if len(uses[drawn]) == 0 {
		t.Error("no package draws its properties")
	}
	for pkg := range uses[drawn] {
		if !uses[steady][pkg] {
			t.Errorf("the tests of %s draw other cases in every run: import _ %q in one of them", pkg, steady)
		}
	}
}

// sources are the Go files of the module that are not tests.
func sources(t *testing.T) []string {
	t.Helper()
	return slices.DeleteFunc(files(t), func(name string) bool { return strings.HasSuffix(name, "_test.go") })
}

// files are all Go files of the module.
func files(t *testing.T) (names []string) {
	t.Helper()
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (strings.HasPrefix(d.Name(), ".") && name != "." || d.Name() == "testdata" || d.Name() == "out"):
			return fs.SkipDir
		case strings.HasSuffix(name, ".go"):
			names = append(names, name)
		}
		return nil
	})
	if err != nil || len(names) == 0 {
		t.Fatalf("%d source files, %v", len(names), err)
	}
	return names
}

func checkFile(t *testing.T, name, pkg string, row int) {
	t.Helper()
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, filepath.FromSlash(name), nil, 0)
	if err != nil {
		t.Error(err)
		return
	}
	for _, spec := range file.Imports {
		imported, _ := strconv.Unquote(spec.Path.Value)
		at := set.Position(spec.Pos())
		if own, ok := strings.CutPrefix(imported, module); ok {
			if rows[own] >= row && beside[[2]string{pkg, own}] == "" {
				t.Errorf("%v: %s (row %d) imports %s (row %d): a package imports lower rows only; move what both need down, or the caller up", at, pkg, row, own, rows[own])
			}
			if own == "rulebook/author" && row <= engine {
				t.Errorf("%v: %s imports rulebook/author: %s", at, pkg, authorIsHeavy)
			}
		}
		if why := outside[imported]; why != "" && row <= engine {
			t.Errorf("%v: %s imports %s, but %s", at, pkg, imported, why)
		}
	}
	if row <= engine {
		checkClock(t, set, file, pkg)
	}
}

const authorIsHeavy = "it brings the formula language, a large library, and the engine must run where only lowered rules go, such as a phone"

// checkClock finds questions for the time.
func checkClock(t *testing.T, set *token.FileSet, file *ast.File, pkg string) {
	t.Helper()
	ast.Inspect(file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if from, ok := sel.X.(*ast.Ident); ok && from.Name == "time" && slices.Contains(clock, sel.Sel.Name) {
				t.Errorf("%v: %s asks for the time with time.%s: dates and times are arguments, so that a report can be made again", set.Position(n.Pos()), pkg, sel.Sel.Name)
			}
		}
		return true
	})
}
