package server_test

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"swingwright/account"
	"swingwright/app"
	"swingwright/book"
	"swingwright/server"
)

// BenchmarkLarge measures answers over TLS, with a token, from a book of 100 jobs of 1000 openings each. The folder named
// by BOOK_LARGE holds it; the benchmark of the book's own package makes it there:
//
//	BOOK_LARGE=/somewhere go test ./book -run '^$' -bench BenchmarkLarge/List$ -timeout 0
//
// The mean is what the harness reports; the median and the slowest of a hundred stand beside it.
func BenchmarkLarge(bench *testing.B) {
	dir := os.Getenv("BOOK_LARGE")
	if dir == "" {
		bench.Skip("BOOK_LARGE names no folder with the large book; the benchmark of package book makes one")
	}
	ctx := context.Background()
	b, err := book.Open(ctx, dir)
	if err != nil {
		bench.Fatal(err)
	}
	defer b.Close()
	accounts := account.Of(b, time.Now)
	if _, err := accounts.Named(ctx, "Bench"); err != nil {
		if _, err := accounts.Add(ctx, "Bench", account.Office, "", sentence); err != nil {
			bench.Fatal(err)
		}
		if _, err := accounts.Add(ctx, "Bench owner", account.Owner, "Harbour Street Clinic", sentence); err != nil {
			bench.Fatal(err)
		}
	}
	// every opening was looked at once, so that nothing is reckoned meanwhile
	if err := b.Write(ctx, func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO summary SELECT n, (SELECT max(n) FROM revision), CASE n % 3 WHEN 0 THEN 'in-order' WHEN 1 THEN 'falls-short' ELSE 'undecided' END, n % 7, '2027-01-01',
			'{"id":"","standing":"undecided","accepted":"unknown","gaps":1,"stops":0,"doubts":0,"measure":17}' FROM part WHERE kind = 'opening'
			ON CONFLICT (part) DO UPDATE SET as_of = excluded.as_of, state = excluded.state, missing = excluded.missing, due = excluded.due, detail = excluded.detail
			WHERE as_of < (SELECT max(n) FROM revision)`)
		return err
	}); err != nil {
		bench.Fatal(err)
	}
	a, err := app.New()
	if err != nil {
		bench.Fatal(err)
	}
	clock := time.Now()
	s := server.New(b, a, func() time.Time { clock = clock.Add(time.Second); return clock }) // so that nobody is slowed
	s.SignIn(accounts, func(string) bool { return true })
	web := httptest.NewTLSServer(s)
	defer web.Close()
	random := rand.New(rand.NewPCG(5, 6))
	job := func() int { return random.IntN(100) }
	key := func() string { return fmt.Sprintf("j%d.%d", job(), 1+random.IntN(1000)) }
	rooms := strings.Fields("Corridor Lobby Ward Office Laboratory Store Kitchen Theatre Pharmacy Stair Archive Workshop")
	for _, c := range []struct {
		name, who string
		path      func() string
	}{
		{"Jobs", "Bench", func() string { return "/api/jobs" }},
		{"JobsOfOwner", "Bench owner", func() string { return "/api/jobs" }},
		{"Openings", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d/openings", job()) }},
		{"OpeningsOfState", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d/openings?state=falls-short", job()) }},
		{"OpeningsDue", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d/openings?due=2027-06-01", job()) }},
		{"OpeningsMissing", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d/openings?missing=1", job()) }},
		{"OpeningsSearched", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d/openings?q=squeaks", job()) }},
		{"Part", "Bench", func() string {
			j := job()
			return fmt.Sprintf("/api/jobs/j%d/part?key=j%d.%d", j, j, 1+random.IntN(1000))
		}},
		{"OpeningsDeep", "Bench", func() string { j := job(); return fmt.Sprintf("/api/jobs/j%d/openings?after=j%d.900", j, j) }},
		{"SearchID", "Bench", func() string { return fmt.Sprintf("/api/search?q=%d-%d", job(), random.IntN(1000)) }},
		{"SearchRooms", "Bench", func() string {
			return "/api/search?q=" + rooms[random.IntN(len(rooms))] + "+" + rooms[random.IntN(len(rooms))]
		}},
		{"SearchCommon", "Bench", func() string { return "/api/search?q=squeaks" }},
		{"SearchInJob", "Bench", func() string { return fmt.Sprintf("/api/search?q=squeaks&job=j%d", job()) }},
		{"SearchOfOwner", "Bench owner", func() string { return "/api/search?q=squeaks" }},
		{"Opening", "Bench", func() string { return "/api/openings/" + key() }},
		{"OpeningOfOwner", "Bench owner", func() string { return "/api/openings/" + key() }},
		{"History", "Bench", func() string { return "/api/openings/" + key() + "/history" }},
		{"WholeJob", "Bench", func() string { return fmt.Sprintf("/api/jobs/j%d", job()) }},
	} {
		token, _, err := accounts.NewToken(ctx, c.who, "benchmark", "", 1)
		if err != nil {
			bench.Fatal(err)
		}
		ask := func(path string) (int, []byte, error) {
			r, err := http.NewRequest("GET", web.URL+path, nil)
			if err != nil {
				return 0, nil, err
			}
			r.Header.Set("Authorization", "Bearer "+token)
			answer, err := web.Client().Do(r)
			if err != nil {
				return 0, nil, err
			}
			defer answer.Body.Close()
			text, err := io.ReadAll(answer.Body)
			return answer.StatusCode, text, err
		}
		bench.Run(c.name, func(bench *testing.B) {
			var times []time.Duration
			size := 0
			for bench.Loop() {
				path, start := c.path(), time.Now()
				status, text, err := ask(path)
				times = append(times, time.Since(start))
				if err != nil || status != 200 || bytes.Equal(text, []byte("[]")) {
					bench.Fatalf("%s: %d, %v: %.200s", path, status, err, text)
				}
				size += len(text)
			}
			slices.Sort(times)
			bench.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "median-ms")
			bench.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
			bench.ReportMetric(float64(size)/float64(len(times))/1000, "kB/answer")
		})
	}
}
