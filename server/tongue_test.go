package server

import (
	"go/ast"
	"go/parser"
	"go/token"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"swingwright/account"
	"swingwright/book"
)

// inSpanish is what somebody with pages in Spanish is told.
func inSpanish(text string) string {
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.AddCookie(&http.Cookie{Name: "language", Value: "es"})
	return inTongue(r, text)
}

// Whatever the server refuses, it refuses in Spanish too: every form of words in its source,
// and the errors of the packages below that reach a reader.
func TestRefusalsAreSaidInSpanish(t *testing.T) {
	texts := []string{errLater{}.Error(), "there is nothing here", "this server goes by another name", (&book.Gap{Device: "d", Sent: 3, Awaited: 2}).Error(), nothing("k").Error()}
	for _, err := range []error{account.ErrNone, account.ErrLast, account.ErrRefused, account.ErrCode, account.ErrBusy,
		book.ErrNone, book.ErrFull, book.ErrBusy, book.ErrDamaged, book.ErrNewer} {
		texts = append(texts, err.Error())
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	holes := strings.NewReplacer("%d", "7", "%v", "x", "%s", "x", "%q", `"x"`, "%.20q", `"x"`)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) < 2 {
				return true
			}
			if f, ok := call.Fun.(*ast.Ident); ok && f.Name == "refuse" {
				if form, ok := call.Args[1].(*ast.BasicLit); ok {
					if text, err := strconv.Unquote(form.Value); err == nil && text != "%v" {
						texts = append(texts, holes.Replace(text))
					}
				}
			}
			return true
		})
	}
	if len(texts) < 40 {
		t.Fatalf("only %d refusals were found", len(texts))
	}
	for _, text := range texts {
		if inSpanish(text) == text {
			t.Errorf("%q stays English", text)
		}
	}
	plain := httptest.NewRequest(http.MethodGet, "/", nil)
	if got := inTongue(plain, texts[0]); got != texts[0] {
		t.Errorf("a program is told %q", got)
	}
}

// A reader whose pages are in Spanish is told so what the server refuses; a program in English.
func TestRefusedInTheReadersLanguage(t *testing.T) {
	w, r := httptest.NewRecorder(), httptest.NewRequest(http.MethodGet, "/", nil)
	r.AddCookie(&http.Cookie{Name: "language", Value: "es"})
	fail(w, r, refuse(http.StatusUnauthorized, "sign in first"))
	if w.Code != http.StatusUnauthorized || strings.TrimSpace(w.Body.String()) != "inicie sesión primero" {
		t.Errorf("%d %q", w.Code, w.Body.String())
	}
}
