package job

import (
	"bytes"
	"errors"
	"io"
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// parse reads the text of a file as one YAML document and returns its root.
func parse(file string, text []byte) (*yaml.Node, *Problem) {
	wrong := func(p Problem) (*yaml.Node, *Problem) {
		p.File = file
		return nil, &p
	}
	loader, err := yaml.NewLoader(bytes.NewReader(text), yaml.WithUniqueKeys(false))
	if err != nil {
		return wrong(Problem{Found: "a text that cannot be read", Needed: "YAML", Hint: err.Error()})
	}
	var document, second yaml.Node
	if err := loader.Load(&document); err != nil {
		return wrong(syntaxProblem(err))
	}
	switch err := loader.Load(&second); {
	case err == nil:
		return wrong(Problem{Place: Place{Line: second.Line, Column: second.Column}, Found: "a second document",
			Needed: "one document in a file", Hint: "delete the line of three hyphens above it, or give each its own file"})
	case !errors.Is(err, io.EOF):
		return wrong(syntaxProblem(err))
	}
	root := document.Content[0]
	if isBlank(root) {
		return wrong(Problem{Place: Place{Line: root.Line, Column: root.Column}, Found: "an empty document", Needed: "keys and values"})
	}
	return root, nil
}

// syntaxProblem puts an error of the YAML library into our words.
func syntaxProblem(err error) Problem {
	if errors.Is(err, io.EOF) {
		return Problem{Found: "only comments", Needed: "keys and values", Hint: "take the # off the lines that you fill in"}
	}
	p := Problem{Found: "a text that is not YAML", Needed: "YAML", Hint: err.Error()}
	var e *yaml.LoadError
	if !errors.As(err, &e) {
		return p
	}
	p.Line, p.Column = e.Mark.Line, e.Mark.Column
	p.Hint = e.Message
	for _, s := range slips {
		if strings.Contains(e.Message, s.message) && strings.Contains(e.ContextMsg, s.context) {
			p.Found, p.Needed, p.Hint = s.found, s.needed, s.hint
			if s.fromStart {
				p.Line, p.Column = e.ContextMark.Line, e.ContextMark.Column
			}
			break
		}
	}
	return p
}

// slips are the usual slips in YAML: how the library tells them, and how we do.
// The first that fits is taken.
var slips = []struct {
	message, context    string
	found, needed, hint string
	fromStart           bool // the slip is where the thing began, not where it was noticed
}{
	{"did not find expected key", "block mapping", "text after the value, or a line that starts too far left or right",
		"a key, a colon and a value, in line with the keys above",
		`a value with quotation marks inside needs none around it (35-3/4"), or single ones around all of it ('35-3/4"')`, false},
	{"mapping values are not allowed", "", "a colon where none can stand", "one key and one value on a line",
		`look at the line above too: leave a space after the colon of a key, indent alike, and put a text with a colon inside into quotation marks`, false},
	{"found character that cannot start any token", "", "a character that cannot begin a value, such as @, % or a tab",
		"a value, indented with spaces", "use spaces in place of tabs; put the value into quotation marks", false},
	{"tab", "", "a tab in the indentation", "spaces", "set the editor to indent with spaces", false},
	{"block sequence entries are not allowed", "", "a hyphen and a space where no list can begin", "a value",
		"begin a list on a line of its own; write a negative number without a space after the minus", false},
	{"expected ',' or ']'", "", "a [ without its ]", "a list such as [one, two]", "", true},
	{"expected ',' or '}'", "", "a { without its }", "fields such as {fact: closing.time_90_to_10, value: 6 s}", "", true},
	{"unexpected end of stream", "quoted", "a quotation mark without its partner", "the closing mark",
		`the inch mark needs no quotes around the value: 35-3/4"`, true},
	{"unexpected document indicator", "quoted", "a quotation mark without its partner", "the closing mark", "", true},
	{"could not find expected ':'", "", "a key without a colon, or text out of line", "a key, a colon, a space and a value", "", true},
	{"'-' indicator", "", "a line out of line with the list's hyphens", "a hyphen and a space in line with those above, or more indentation", "", false},
	{"unknown escape", "", `a backslash in a text between double quotation marks`, "text", "use single quotation marks", false},
	{"unknown anchor", "", "a value that begins with *", "a value", "put it into quotation marks; to repeat an opening use same_as", false},
	{"expected <document start>", "", "a line that starts further left than the first", "keys in line with the first key", "", false},
	{"depth", "", "brackets or lines nested too deep", "fields as the schema lists them", "", false},
}
