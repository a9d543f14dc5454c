package picture

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/internal/draw"
)

// Every line fits, and no letter is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([a-zW°±]{1,40} ){0,8}[a-zW]{1,90}`).Draw(t, "text")
		width := rapid.Float64Range(10, 200).Draw(t, "width")
		style := draw.Text{Height: letter}
		lines := wrap(style, text, width)
		for _, line := range lines {
			style.Body = line
			if len([]rune(line)) > 1 && style.Width() > width {
				t.Errorf("%q is %v mm long, for %v mm", line, style.Width(), width)
			}
		}
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.ReplaceAll(text, " ", "") {
			t.Errorf("%q became %q", text, lines)
		}
	})
}

func TestClean(t *testing.T) {
	if got := clean("a\nb\x00c\xff"); got != "a b c?" {
		t.Errorf("%q", got)
	}
}

func TestIdentifier(t *testing.T) {
	if got := identifier("plan", "1/B°é"); got != "plan-1-B--" {
		t.Errorf("%q", got)
	}
}
