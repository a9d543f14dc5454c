package book_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"swingwright/book"
)

// writer is what the child does: it writes and tells of each write once it was
// acknowledged, until it is killed. Some writes are of several changes at once,
// some grow the book by much; now and then an attachment is stored.
func writer(dir string) int {
	b, err := book.Open(background, dir)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	name := os.Getenv("BOOK_NAME")
	for i := 0; ; i++ {
		var changes []book.Change
		for k := range 1 + i%3 {
			id := fmt.Sprintf("%s-%d-%d", name, i, k)
			changes = append(changes, whole(book.Change{ID: id, Kind: book.Note, Subject: fmt.Sprint("c.", 1+i%9), Value: id + strings.Repeat(" seen", i%400)}))
		}
		if i%20 == 7 {
			digest, size, err := b.Store(strings.NewReader(fmt.Sprint("photo ", name, i)), 1000)
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
				return 1
			}
			changes = append(changes, whole(book.Change{ID: fmt.Sprint(name, "-", i, "-photo"), Kind: book.Attach, Subject: "c.1",
				Value: fmt.Sprintf(`{"what": "photo", "name": "a", "type": "image/png", "hash": %q, "size": %d}`, digest, size)}))
		}
		receipts, err := b.Apply(background, noon, changes...)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		for _, r := range receipts {
			fmt.Println(r.ID, r.Revision)
		}
	}
}

// start begins a child that writes.
func start(t *testing.T, dir, name string) (*exec.Cmd, *bufio.Scanner, *strings.Builder) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), "BOOK_WRITER="+dir, "BOOK_NAME="+name)
	var said strings.Builder
	child.Stderr = &said
	out, err := child.StdoutPipe()
	if err == nil {
		err = child.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	return child, bufio.NewScanner(out), &said
}

// acknowledged reads what a child says until it is dead. A line that is cut short
// was not told to anybody.
func acknowledged(lines *bufio.Scanner, into map[string]int64) {
	lines.Split(func(data []byte, atEOF bool) (int, []byte, error) {
		i := strings.IndexByte(string(data), '\n')
		if i < 0 {
			return 0, nil, nil
		}
		return i + 1, data[:i], nil
	})
	for lines.Scan() {
		id, number, _ := strings.Cut(lines.Text(), " ")
		n, err := strconv.ParseInt(number, 10, 64)
		if err == nil {
			into[id] = n
		}
	}
}

// killed has writers killed at random instants until so many writes were
// acknowledged, and finds each of them in the book, which is sound after every kill.
func killed(t *testing.T, writes, together int) {
	b, dir := newBook(t)
	files, err := book.ReadFiles(os.DirFS(demo), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Import(t.Context(), noon, marlow, "c", files); err != nil {
		t.Fatal(err)
	}
	b.Close()
	random := rand.New(rand.NewPCG(5, uint64(together)))
	acked := map[string]int64{}
	kills := 0
	for len(acked) < writes {
		var wait sync.WaitGroup
		maps := make([]map[string]int64, together)
		for i := range together {
			name := fmt.Sprintf("k%d-%d", kills, i)
			kills++
			child, lines, said := start(t, dir, name)
			delay := time.Duration(20+random.IntN(500)) * time.Millisecond
			maps[i] = map[string]int64{}
			wait.Go(func() {
				timer := time.AfterFunc(delay, func() { child.Process.Kill() })
				acknowledged(lines, maps[i])
				timer.Stop()
				if err := child.Wait(); child.ProcessState.Exited() {
					t.Errorf("a writer ended by itself: %v, %s", err, said)
				}
			})
		}
		wait.Wait()
		for _, m := range maps {
			for id, n := range m {
				acked[id] = n
			}
		}
		if t.Failed() {
			return
		}
		look(t, dir, acked, kills%20 < together)
	}
	look(t, dir, acked, true)
	t.Logf("%d writes acknowledged over %d kills, all there", len(acked), kills)
}

// look opens the book after a kill, as the next run of a program does.
func look(t *testing.T, dir string, acked map[string]int64, whole bool) {
	t.Helper()
	b, err := book.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if whole {
		sound(t, b)
	}
	rows, err := b.Database().QueryContext(t.Context(), "SELECT id, n FROM revision")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	there := map[string]int64{}
	for rows.Next() {
		var id string
		var n int64
		if err := rows.Scan(&id, &n); err != nil {
			t.Fatal(err)
		}
		there[id] = n
	}
	for id, n := range acked {
		if there[id] != n {
			t.Fatalf("%s was acknowledged as revision %d and is %d", id, n, there[id])
		}
	}
}

// Nothing that was acknowledged is lost, whenever a writer is killed. With
// BOOK_WRITES=10000 in the environment it is that many writes.
func TestKilled(t *testing.T) {
	writes := 1000
	if testing.Short() {
		writes = 300
	}
	if n, err := strconv.Atoi(os.Getenv("BOOK_WRITES")); err == nil {
		writes = n
	}
	killed(t, writes, 1)
}

// Two programs write to one book, and both are killed at random instants.
func TestTwoKilled(t *testing.T) { killed(t, 300, 2) }
