package book_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"sort"
	"strings"
	"sync"
	"testing"
	"time"

	"swingwright/book"
	"swingwright/job/amend"
)

// The book that is measured: so many jobs of so many openings, each with a note, a quarter of them with one more reading.
const (
	benchJobs     = 100
	benchOpenings = 1000
)

var rooms = strings.Fields("Corridor Lobby Ward Office Laboratory Store Kitchen Theatre Pharmacy Stair Archive Workshop")

// large makes the measured book once.
// A folder named by BOOK_LARGE keeps it from one run to the next, since it takes
// some minutes to make.
var large = sync.OnceValues(func() (*book.Book, error) {
	if dir := os.Getenv("BOOK_LARGE"); dir != "" {
		if b, err := book.Open(background, dir); err == nil {
			return b, nil
		}
		return makeLarge(dir, benchJobs, benchOpenings)
	}
	dir, err := os.MkdirTemp("", "book")
	if err != nil {
		return nil, err
	}
	benchDir = dir
	return makeLarge(dir+"/book", benchJobs, benchOpenings)
})

var benchDir string

func makeLarge(dir string, jobs, openings int) (*book.Book, error) {
	ctx := background
	b, err := book.Create(ctx, dir)
	if err != nil {
		return nil, err
	}
	demoFiles, err := book.ReadFiles(os.DirFS(demo), "job.yaml")
	if err != nil {
		return nil, err
	}
	cut, err := amend.Split(demoFiles.Texts["job.yaml"])
	if err != nil {
		return nil, err
	}
	front := strings.Replace(cut.Front, cut.Front[strings.Index(cut.Front, "groups:"):], "openings:\n", 1)
	random := rand.New(rand.NewPCG(1, 2))
	for j := range jobs {
		key := fmt.Sprint("j", j)
		var text strings.Builder
		text.WriteString(strings.Replace(front, "job: Harbour Street Clinic", fmt.Sprint("job: House ", j), 1))
		for i := range openings {
			one := cut.Openings[1] // 102, which refers to no other opening
			one = strings.Replace(one, `id: "102"`, fmt.Sprintf(`id: "%d-%d"`, j, i), 1)
			s, err := amend.Set(one, "name", rooms[random.IntN(len(rooms))]+" to "+rooms[random.IntN(len(rooms))]+fmt.Sprint(" ", random.IntN(900)))
			if err != nil {
				return nil, err
			}
			one, _ = s.Apply(one)
			text.WriteString(one)
		}
		files := &book.Files{Name: "job.yaml", Texts: map[string]string{"job.yaml": text.String()}}
		for name, t := range demoFiles.Texts {
			if name != "job.yaml" {
				files.Texts[name] = t
			}
		}
		if err := b.Import(ctx, noon, marlow, key, files); err != nil {
			return nil, err
		}
		var changes []book.Change
		for i := range openings {
			subject := fmt.Sprint(key, ".", i+1)
			changes = append(changes, whole(book.Change{Kind: book.Note, Subject: subject, Value: "squeaks at " + rooms[random.IntN(len(rooms))]}))
			if i%4 == 0 {
				changes = append(changes, whole(book.Change{Kind: book.Add, Subject: subject, Path: "readings", Value: fmt.Sprintf("{fact: closing.time_90_to_10, value: %.1f s, by: J. Marlow, on: 2026-11-25}", 3+4*random.Float64())}))
			}
		}
		if _, err := b.ApplyUnchecked(ctx, noon, changes...); err != nil {
			return nil, err
		}
		if j%10 == 0 { // some have been judged
			head, _, err := b.Head(ctx)
			if err != nil {
				return nil, err
			}
			for i := range openings {
				if err := b.SaveSummary(ctx, fmt.Sprint(key, ".", i+1), head, book.Summary{State: []string{"go", "wait", "refuse"}[i%3], Missing: i % 7, Due: "2027-01-01"}); err != nil {
					return nil, err
				}
			}
		}
	}
	return b, nil
}

// median runs something many times on arguments of its choice and reports the
// median, in ms, beside the mean that the harness reports.
func median(b *testing.B, do func(i int) error) {
	b.Helper()
	var times []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		if err := do(i); err != nil {
			b.Fatal(err)
		}
		times = append(times, time.Since(start))
	}
	sort.Slice(times, func(i, k int) bool { return times[i] < times[k] })
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "median-ms")
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
}

func BenchmarkLarge(bench *testing.B) {
	start := time.Now()
	b, err := large()
	if err != nil {
		bench.Fatal(err)
	}
	head, _, err := b.Head(background)
	if err != nil {
		bench.Fatal(err)
	}
	bench.Logf("%d openings, %d revisions, made in %v", benchJobs*benchOpenings, head, time.Since(start).Round(time.Second))
	random := rand.New(rand.NewPCG(3, 4))
	key := func() string { return fmt.Sprintf("j%d.%d", random.IntN(benchJobs), 1+random.IntN(benchOpenings)) }
	ctx := background
	for _, c := range []struct {
		name string
		do   func(i int) error
	}{
		{"List", func(int) error {
			return some(b.List(ctx, book.Filter{Job: fmt.Sprint("j", random.IntN(benchJobs))}))
		}},
		{"ListAllDeep", func(int) error { return some(b.List(ctx, book.Filter{After: key()})) }},
		{"ListJudged", func(int) error { return some(b.List(ctx, book.Filter{Summary: "wait"})) }},
		{"ListDue", func(int) error { return some(b.List(ctx, book.Filter{DueBefore: "2027-06-01"})) }},
		{"Count", func(int) error { _, err := b.Count(ctx, "j10"); return err }},
		{"CountAll", func(int) error { _, err := b.Count(ctx, ""); return err }},
		{"Stale", func(int) error { return some(b.Stale(ctx, "", 50)) }},
		{"ListConflicts", func(int) error { _, err := b.List(ctx, book.Filter{Conflicts: true}); return err }},
		{"SearchID", func(int) error {
			return some(b.Search(ctx, "", fmt.Sprintf("%d-%d", random.IntN(benchJobs), random.IntN(benchOpenings)), 50))
		}},
		{"SearchRoom", func(int) error {
			return some(b.Search(ctx, "", rooms[random.IntN(len(rooms))]+" "+rooms[random.IntN(len(rooms))], 50))
		}},
		{"SearchPrefix", func(int) error { return some(b.Search(ctx, "", "pha", 50)) }},
		{"SearchCommonInJob", func(int) error {
			return some(b.Search(ctx, fmt.Sprint("j", random.IntN(benchJobs)), "squeaks", 50))
		}},
		{"SearchCommon", func(int) error { return some(b.Search(ctx, "", "squeaks", 50)) }},
		{"SearchLetter", func(int) error { _, err := b.Search(ctx, "", "a", 50); return err }},
		{"SearchNone", func(int) error { _, err := b.Search(ctx, "", "closer xylophone", 50); return err }},
		{"OpeningPage", func(int) error {
			k := key()
			if _, err := b.Part(ctx, k); err != nil {
				return err
			}
			if _, err := b.Annotations(ctx, k); err != nil {
				return err
			}
			if _, err := b.History(ctx, k, false, 0, 50); err != nil {
				return err
			}
			if _, err := b.Disputes(ctx, k, 50); err != nil {
				return err
			}
			_, err := b.Decode(ctx, k)
			return err
		}},
		{"Decode", func(int) error { _, err := b.Decode(ctx, key()); return err }},
		{"At", func(int) error { _, err := b.At(ctx, key(), head); return err }},
		{"HistoryOfJob", func(int) error { return some(b.History(ctx, "j5", true, 0, 50)) }},
		{"Set", func(i int) error {
			_, err := b.Apply(ctx, noon, whole(book.Change{Kind: book.Set, Subject: key(), Path: "leaf.width", Value: fmt.Sprint(30+i%10, " in")}))
			return err
		}},
		{"AddReading", func(i int) error {
			_, err := b.Apply(ctx, noon, whole(book.Change{Kind: book.Add, Subject: key(), Path: "readings", Value: "{fact: closing.time_90_to_10, value: 6 s}"}))
			return err
		}},
		{"Note", func(i int) error {
			_, err := b.Apply(ctx, noon, whole(book.Change{Kind: book.Note, Subject: key(), Value: "seen"}))
			return err
		}},
	} {
		bench.Run(c.name, func(bench *testing.B) { median(bench, c.do) })
	}
}

// some fails where nothing was found: an empty answer is quick.
func some[T any](list []T, err error) error {
	if err == nil && len(list) == 0 {
		err = fmt.Errorf("nothing was found")
	}
	return err
}

// BenchmarkVerify goes through the large book.
func BenchmarkVerify(bench *testing.B) {
	b, err := large()
	if err != nil {
		bench.Fatal(err)
	}
	for bench.Loop() {
		v, err := b.Verify(background, "")
		if err != nil || len(v.Faults) > 0 {
			bench.Fatal(v, err)
		}
	}
}

// BenchmarkBackup copies the large book while it is in use.
func BenchmarkBackup(bench *testing.B) {
	b, err := large()
	if err != nil {
		bench.Fatal(err)
	}
	dir := bench.TempDir()
	for i := 0; bench.Loop(); i++ {
		if _, err := b.Backup(background, fmt.Sprint(dir, "/", i)); err != nil {
			bench.Fatal(err)
		}
	}
}
