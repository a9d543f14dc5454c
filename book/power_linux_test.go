package book_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Whenever the power is cut, and whatever part of what was not synced reached the disk, nothing that was acknowledged is
// lost, and what is found is sound: while a book is made, entered into, brought up to a newer schema, backed up,
// compacted. With BOOK_CUTS=1000 in the environment it is cut that often in each (make power).
func TestPowerCut(t *testing.T) {
	cuts := 40
	if testing.Short() {
		cuts = 16
	}
	if n, err := strconv.Atoi(os.Getenv("BOOK_CUTS")); err == nil {
		cuts = n
	}
	for _, d := range deeds {
		t.Run(d.name, func(t *testing.T) {
			root := t.TempDir()
			d.begin(t, root)
			disk := record(t, d.name, root)
			var moments []int // after something was done to the disk
			acks, syncs := 0, 0
			for i, o := range disk.ops {
				switch o.kind {
				case "told":
					acks++
				case "sync":
					syncs++
				}
				moments = append(moments, i+1)
			}
			if acks == 0 || syncs < 4 || len(moments) < 20 {
				t.Fatalf("%d acknowledgements, %d syncs, %d operations: the record is not what it is thought to be", acks, syncs, len(moments))
			}
			random := rand.New(rand.NewPCG(11, 12))
			seen := map[string]int{}
			for i := range cuts {
				moment, loss := moments[random.IntN(len(moments))], loss(i%4)
				if i < 8 {
					moment = len(moments) // right after all was done: only what was synced counts
				}
				told := disk.told(moment)
				seen[fmt.Sprint(len(told))]++
				ok := t.Run(fmt.Sprintf("operation %d of %d, loss %d", moment, len(moments), loss), func(t *testing.T) {
					d.holds(t, disk.cut(t, moment, loss, random), told)
				})
				if !ok {
					var last []string
					for _, o := range disk.ops[max(0, moment-8):moment] {
						last = append(last, fmt.Sprintf("%s %s %s file %d at %d: %d bytes", o.kind, o.path, o.to, o.file, o.at, len(o.data)))
					}
					t.Fatalf("it was cut after\n  %s", strings.Join(last, "\n  "))
				}
			}
			t.Logf("%d operations, %d of them syncs, %d acknowledgements; cut %d times", len(moments), syncs, acks, cuts)
		})
	}
}

// Where the disk is full, or fails to write or to sync, at any moment, what was acknowledged is there, and what is
// found is sound.
func TestDiskFails(t *testing.T) {
	each := 1
	if n, err := strconv.Atoi(os.Getenv("BOOK_CUTS")); err == nil {
		each = n/100 + 1
	}
	for _, d := range deeds {
		t.Run(d.name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(13, 14))
			failures, ended := 0, 0
			for _, fault := range []struct {
				call, error string
				most        int
			}{{"pwrite64", "ENOSPC", 60}, {"fsync", "EIO", 12}, {"fdatasync", "EIO", 8}, {"pwrite64", "EIO", 60}} {
				for range each {
					root := t.TempDir()
					d.begin(t, root)
					when := fmt.Sprintf("%d+", 1+random.IntN(fault.most)) // from then on it fails always
					inject := fmt.Sprintf("inject=%s:error=%s:when=%s", fault.call, fault.error, when)
					_, said, wrong, failed := under(t, d.name, root, "-e", inject)
					told := strings.FieldsFunc(said, func(r rune) bool { return r == '\n' })
					failures++
					if failed {
						ended++
					}
					if !t.Run(inject, func(t *testing.T) { d.holds(t, root, told) }) {
						t.Fatalf("the program said %s%s", said, wrong)
					}
				}
			}
			t.Logf("%d runs with a disk that fails, %d of which ended with an error", failures, ended)
			if ended == 0 {
				t.Error("no run met the disk that fails")
			}
		})
	}
}
