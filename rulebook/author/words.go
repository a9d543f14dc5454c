package author

import (
	"regexp"
	"strings"

	"cel.dev/cel-go/cel"

	"swingwright/job"
)

var (
	noOverload = regexp.MustCompile(`^found no matching overload for '([^']*)' applied to '\((.*)\)'`)
	aQuantity  = regexp.MustCompile(`^quantity\((.*)\)$`)
)

// plainWords puts the checker's findings into our words.
func (c *checker) plainWords(issues *cel.Issues) []complaint {
	var list []complaint
	for _, e := range issues.Errors() {
		p := complaint{line: e.Location.Line(), column: e.Location.Column()}
		message, _, _ := strings.Cut(e.Message, "\n")
		switch m := noOverload.FindStringSubmatch(message); {
		case m != nil:
			p.found, p.needed = c.badCall(m[1], m[2])
		case strings.HasPrefix(message, "Syntax error"):
			p.found, p.needed, p.hints = "text that is no formula", "a formula such as leaf.width * 2 > inches(60)", strings.ReplaceAll(strings.TrimPrefix(message, "Syntax error: "), "'<EOF>'", "the end")
		default:
			p.found, p.needed, p.hints = "text that is no formula", "a formula such as leaf.width * 2 > inches(60)", message
		}
		list = append(list, p)
		if len(list) == mostRepairs {
			break
		}
	}
	return list
}

// badCall tells that a function or operator does not take what it was given.
func (c *checker) badCall(function, args string) (found, needed string) {
	sign := strings.Trim(function, "_")
	if function == "_?_:_" {
		sign = "? :"
	}
	found = sign + " with " + inWords(args)
	var ways []string
	for i := 0; ; i++ {
		s, ok := c.signatures[overload(function, i)]
		if !ok {
			break
		}
		ways = append(ways, argsInWords(s.args))
	}
	const shown = 6
	if len(ways) > shown {
		ways = append(ways[:shown], "…")
	}
	return found, sign + " with " + strings.Join(ways, ", or ")
}

// argsInWords says what a signature takes.
func argsInWords(args []*cel.Type) string {
	alike := len(args) > 1 && args[0] == args[len(args)-1]
	switch {
	case len(args) == 3 && args[1] == any1:
		return "a statement (yes or no) and two values of the same kind"
	case alike && args[0] == number:
		return counted[len(args)] + " numbers"
	case alike && args[0] == same:
		return counted[len(args)] + " quantities of the same dimension"
	case alike && args[0] == yesNo:
		return counted[len(args)] + " statements (yes or no)"
	}
	words := make([]string, len(args))
	for i, a := range args {
		words[i] = a.String()
	}
	return inWords(strings.Join(words, ", "))
}

var counted = map[int]string{2: "two", 3: "three", 4: "four"}

// inWords names the checker's kinds of value as people do, in a list.
func inWords(list string) string {
	var out []string
	for _, t := range strings.Split(list, ", ") {
		out = append(out, kindInWords(t))
	}
	return strings.Join(out, " and ")
}

func kindInWords(t string) string {
	switch t {
	case "double", "int", "uint":
		return "a number"
	case "bool":
		return "a statement (yes or no)"
	case "string":
		return "a word in quotation marks"
	case "choice":
		return "a fact with choices"
	}
	m := aQuantity.FindStringSubmatch(t)
	switch {
	case m == nil:
		return strings.ToLower(t)
	case m[1] == "<A>":
		return "a quantity"
	}
	return job.Article(strings.ReplaceAll(m[1], "_", " "))
}
