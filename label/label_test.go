package label

import (
	"bytes"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"swingwright/internal/draw"
)

// Another program reads the codes off the printed page.
func TestSheetsAreRead(t *testing.T) {
	zbar, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("zbarimg is not here; make reference installs it")
	}
	var labels []Label
	var want []string
	for i := range 19 {
		l := Label{Address: "https://bench.local:8714/o/" + strings.Repeat(string(rune('a'+i)), 12), ID: []string{"101", "GROUND-FLOOR-SOUTH-WING-17"}[i%2], Name: "Corridor to the waiting room of the laboratory", Job: "Harbour Street Clinic, street floor"}
		labels, want = append(labels, l), append(want, l.Address)
	}
	pages, err := Sheets(215.9, 279.4, labels)
	if err != nil || len(pages) != 2 {
		t.Fatal(len(pages), err)
	}
	var got []string
	for _, p := range pages {
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "sheet.png")
		var png bytes.Buffer
		if err := draw.WritePNG(&png, p, 200); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, png.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		text, err := exec.Command(zbar, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", name).Output()
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, strings.Fields(string(text))...)
	}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("read %d codes, not %d:\n%s", len(got), len(want), strings.Join(got, "\n"))
	}
}

// Everything of a label stays in it, whatever the names are.
func TestLabelsHaveRoom(t *testing.T) {
	for _, l := range []Label{{ID: "1"}, {ID: strings.Repeat("W", 80), Name: strings.Repeat("M", 200), Job: strings.Repeat("word ", 90)}, {ID: "Tür", Name: "日本", Job: "x"}} {
		l.Address = "https://bench.local:8714/o/abc"
		pages, err := Sheets(210, 297, []Label{l})
		if err != nil || len(pages) != 1 {
			t.Fatal(err)
		}
		lines := 0
		for _, item := range pages[0].Items {
			text, ok := item.(draw.Text)
			if !ok {
				continue
			}
			lines++
			if right := text.At.X + wide*text.Height*float64(len([]rune(text.Body))); right > (210-3*width)/2+width+0.5 {
				t.Errorf("%q goes over its label", text.Body)
			}
			if text.At.Y-text.Height < 297-margin-height {
				t.Errorf("%q goes below its label", text.Body)
			}
		}
		if lines > 6 {
			t.Errorf("%d lines", lines)
		}
	}
	if _, err := Sheets(210, 297, []Label{{Address: strings.Repeat("x", 5000)}}); err == nil {
		t.Error("an address that no code holds")
	}
	if _, err := Sheets(50, 50, nil); err == nil {
		t.Error("a page without room")
	}
}

// The code of the terminal, drawn as a terminal draws it, is read by another program.
func TestTerminalIsRead(t *testing.T) {
	zbar, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("zbarimg is not here; make reference installs it")
	}
	const text = "http://192.168.1.5:8715"
	for _, colours := range []bool{true, false} {
		code, err := Terminal(text, colours)
		if err != nil || strings.Contains(code, "\x1b") != colours {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(strings.NewReplacer("\x1b[97;40m", "", "\x1b[0m", "").Replace(code), "\n"), "\n")
		s := &draw.Scene{Width: float64(len([]rune(lines[0]))), Height: float64(2 * len(lines))}
		dark := color.NRGBA{A: 255}
		for i, line := range lines {
			for x, r := range []rune(line) {
				for half, lit := range []bool{r == '█' || r == '▀', r == '█' || r == '▄'} {
					if y := s.Height - float64(2*i+half); !lit {
						s.Add(draw.Rectangle(draw.Point{X: float64(x), Y: y}, draw.Point{X: float64(x + 1), Y: y - 1}, draw.Style{Fill: dark}))
					}
				}
			}
		}
		var png bytes.Buffer
		if err := draw.WritePNG(&png, s, 200); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "code.png")
		if err := os.WriteFile(name, png.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		got, err := exec.Command(zbar, "--quiet", "--raw", name).Output()
		if err != nil || strings.TrimSpace(string(got)) != text {
			t.Errorf("read %q, %v", got, err)
		}
	}
}
