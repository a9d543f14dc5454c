package phrasebook

import (
	"bufio"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what is not said anew")

// spoken are the files of the engine whose words come to a reader of the site app.
var spoken = []string{
	"../decision/*.go", "../tune/*.go", "../window/*.go", "../judge/*.go", "../plan/*.go", "../service/*.go",
	"../clearance/frame.go", "../clearance/marks.go", "../swing/found.go", "../swing/motion.go", "../swing/operator*.go", "../swing/values.go",
	"../opening/missing*.go", "../opening/plausible*.go", "../fact/*.go", "../trace/*.go", "../instrument/*.go",
	"../quantity/amount.go", "../quantity/convert.go", "../quantity/nominal.go", "../quantity/number.go", "../quantity/parse*.go", "../quantity/spread.go",
	"../onsite/*.go", "../job/check.go", "../job/fields.go", "../job/names.go", "../job/problem.go", "../job/reading.go", "../job/repeats.go", "../job/scalar.go", "../job/shape.go",
	"../report/card*.go", "../report/words.go", "../report/accept.go", "../report/decision.go", "../report/findings.go", "../report/tuning.go", "../report/window.go",
	"../report/text.go", "../report/opening.go", "../report/driven.go", "../report/room.go", "../report/passing.go", "../report/meetings.go", "../report/gaps.go", "../report/summary.go", "../report/unmeasured.go", "../report/number.go", "../report/rows.go", "../report/grid.go", "../report/group.go", "../report/advice.go",
	"../picture/closing.go", "../picture/force.go", "../picture/hand.go", "../picture/foretold.go", "../picture/plan.go", "../picture/recording.go", "../picture/window.go",
	"../picture/arm.go", "../picture/around*.go", "../picture/dimension.go", "../picture/flag.go", "../picture/key.go", "../picture/limit.go", "../picture/said.go", "../picture/mark*.go",
}

// Every form of words in the engine's source has its phrase, or stands in the list of
// what no reader is told: slips of callers, what only commands say, codes.
func TestEveryFormHasAPhrase(t *testing.T) {
	const list = "testdata/unsaid.txt"
	var unsaid []string
	if text, err := os.ReadFile(list); err == nil {
		lines := bufio.NewScanner(strings.NewReader(string(text)))
		for lines.Scan() {
			if form, err := strconv.Unquote(lines.Text()); err == nil {
				unsaid = append(unsaid, form)
			}
		}
	}
	known := phrases()
	var forms, without []string
	for _, pattern := range spoken {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			for _, form := range formsOf(t, name) {
				forms = append(forms, form)
				if _, ok := known[form]; ok || slices.Contains(without, form) || !*update && slices.Contains(unsaid, form) {
					continue
				}
				without = append(without, form)
				if !*update {
					t.Errorf("%s says %q: give it a phrase in spanish_%s.go, or where no reader is told it a line in %s", name, form, filepath.Base(filepath.Dir(name)), list)
				}
			}
		}
	}
	t.Logf("%d forms, %d of them told to nobody", len(forms), len(unsaid))
	if len(forms) < 1500 {
		t.Errorf("only %d forms were found", len(forms))
	}
	if *update {
		var out strings.Builder
		for _, form := range without {
			out.WriteString(strconv.Quote(form) + "\n")
		}
		if err := os.WriteFile(list, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// phrases are all English forms that the book has.
func phrases() map[string]string {
	all := map[string]string{}
	for _, list := range spanish {
		for _, p := range list {
			all[p[0]] = p[1]
		}
	}
	return all
}

var (
	wordy = regexp.MustCompile(`[A-Za-z]{2,}`)
	verbs = regexp.MustCompile(`%[-+#0]*[0-9]*(?:\.[0-9*]*)?[a-zA-Z]`)
)

// formsOf lists the forms of words in a file: string constants of more than one word,
// formats, and constants that + joins to something else, which is a hole of the form.
func formsOf(t *testing.T, name string) (forms []string) {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	put := func(form string, whole bool) {
		if wordy.MatchString(verbs.ReplaceAllString(form, "")) && (!whole || strings.Contains(form, " ")) && !slices.Contains(forms, form) {
			forms = append(forms, form)
		}
	}
	var look func(n ast.Node) bool
	look = func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.ImportSpec, *ast.StructType:
			return false
		case *ast.CallExpr:
			if isFormat(x) {
				form, _, _ := flat(x)
				put(form, false)
				for _, arg := range x.Args[1:] {
					ast.Inspect(arg, look)
				}
				return false
			}
		case *ast.BinaryExpr:
			if x.Op != token.ADD {
				return true
			}
			form, words, holes := flat(x)
			if !words {
				return true
			}
			put(form, !holes)
			inner(x, look)
			return false
		case *ast.BasicLit:
			if x.Kind == token.STRING && !strings.HasPrefix(x.Value, "`") {
				form, _, _ := flat(x)
				put(form, true)
			}
		}
		return true
	}
	ast.Inspect(file, look)
	return forms
}

// inner looks into what stands in the holes of a sum.
func inner(e ast.Expr, look func(ast.Node) bool) {
	switch x := e.(type) {
	case *ast.BinaryExpr:
		inner(x.X, look)
		inner(x.Y, look)
	case *ast.ParenExpr:
		inner(x.X, look)
	case *ast.CallExpr:
		for _, arg := range x.Args {
			if !isFormat(x) || arg != x.Args[0] {
				ast.Inspect(arg, look)
			}
		}
	}
}

// isFormat tells a call of fmt.Sprintf or fmt.Errorf.
func isFormat(x *ast.CallExpr) bool {
	s, ok := x.Fun.(*ast.SelectorExpr)
	return ok && (s.Sel.Name == "Sprintf" || s.Sel.Name == "Errorf") && len(x.Args) > 0
}

// flat is the form that an expression makes, whether it has words, and whether it has holes.
func flat(e ast.Expr) (form string, words, holes bool) {
	switch x := e.(type) {
	case *ast.BasicLit:
		if x.Kind == token.STRING {
			s, _ := strconv.Unquote(x.Value)
			if !verbs.MatchString(s) { // no format that is handed on
				s = strings.ReplaceAll(s, "%", "%%")
			}
			return s, true, false
		}
	case *ast.ParenExpr:
		return flat(x.X)
	case *ast.BinaryExpr:
		if x.Op == token.ADD {
			a, w, h := flat(x.X)
			b, v, g := flat(x.Y)
			return a + b, w || v, h || g
		}
	case *ast.CallExpr:
		if isFormat(x) {
			switch format := x.Args[0].(type) {
			case *ast.BasicLit:
				s, _ := strconv.Unquote(format.Value)
				return s, true, true
			case *ast.BinaryExpr:
				s, words, _ := flat(format)
				return s, words, true
			}
		}
	}
	return "%s", false, true
}
