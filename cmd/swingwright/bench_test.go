package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// manyOpenings writes a job of n openings, no two alike, beside the sheets of
// the demo, and returns its path.
func manyOpenings(b *testing.B, n int) string {
	folder := b.TempDir()
	if err := os.CopyFS(folder, os.DirFS(demoJob)); err != nil {
		b.Fatal(err)
	}
	var text bytes.Buffer
	text.WriteString("job: Many openings\nrulebooks: [a156.19-2007]\nsheet_files: [sheets/closers.yaml, sheets/arms.yaml, sheets/latches-and-seals.yaml]\nopenings:\n")
	arms := []string{"regular arm R", "parallel arm P", "top jamb arm T", "slide track K"}
	for i := range n {
		fmt.Fprintf(&text, `  - id: "%d"
    use: {place: interior, fire_rated: no, egress: yes, operation: low-energy, activation: switch}
    leaf: {width: %.2f in, height: 83.5 in, thickness: 1.75 in, weight: %d lb}
    closer: {sheet: closer A, arm: %s, size: %.2f, sweep_time: %.2f s, latch_time: %.2f s}
    latch: {sheet: roller latch L1}
    seal: {none: yes}
    air: {pressure: 0 Pa, pressure_most: %d Pa}
`, i+1, 33.75+float64(i%40)/10, 90+i%60, arms[i%len(arms)], 2+float64(i%20)/10, 4.5+float64(i%30)/10, 1.5+float64(i%7)/10, i%9)
	}
	name := filepath.Join(folder, "many.yaml")
	if err := os.WriteFile(name, text.Bytes(), 0o666); err != nil {
		b.Fatal(err)
	}
	return name
}

// copies writes a job of n openings that are those of the demo which can be reckoned,
// each as often, and returns its path.
func copies(b *testing.B, n int) string {
	folder := b.TempDir()
	if err := os.CopyFS(folder, os.DirFS(demoJob)); err != nil {
		b.Fatal(err)
	}
	name := filepath.Join(folder, "job.yaml")
	text, err := os.ReadFile(name)
	if err != nil {
		b.Fatal(err)
	}
	head, rest, _ := strings.Cut(string(text), "openings:\n")
	all, _, _ := strings.Cut(rest, "  # Looked at in passing")
	var out strings.Builder
	out.WriteString(head + "openings:\n")
	id := regexp.MustCompile(`(id|same_as): "(\d+)"`)
	for i := range n / 4 {
		out.WriteString(id.ReplaceAllString(all, fmt.Sprintf(`$1: "$2-%d"`, i+1)))
	}
	if err := os.WriteFile(name, []byte(out.String()), 0o666); err != nil {
		b.Fatal(err)
	}
	return name
}

// Four hundred openings like those of the demo, two of them with an operator.
func BenchmarkCheckDemo(b *testing.B) {
	const n = 400
	check(b, copies(b, n), n)
}

// Ten thousand openings at the usual number of draws.
func BenchmarkCheckTenThousand(b *testing.B) {
	const n = 10_000
	check(b, manyOpenings(b, n), n)
}

// check checks a job of n openings: how many a second, and the memory that the
// program had from the system at the end, which is the most it ever had.
func check(b *testing.B, name string, n int) {
	for b.Loop() {
		var errOut bytes.Buffer
		if status := run(context.Background(), []string{"check", name, "--json"}, nil, io.Discard, &errOut); status == exitError {
			b.Fatalf("status %d: %s", status, errOut.String())
		}
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "openings/s")
	b.ReportMetric(float64(m.Sys)/1e6, "peak-MB")
}
