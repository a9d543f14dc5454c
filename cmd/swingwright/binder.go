package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"

	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/packet"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/takeoff"
)

// binder writes packets into a folder, each through a file beside it that is put in
// its place when it is whole. Every file carries a stamp of what it was made from; one
// that bears the stamp that it would get is not made again.
type binder struct {
	*task
	source *packet.Source
	folder string
	opt    packet.Options
	fresh  bool              // whether what is there is made again
	stems  map[string]string // of the file names, by opening
	whole  bool              // whether the job's own packet is wanted
	files  []paper.Attached  // of the job
	// there tells whose packets bear the stamps already that they would get.
	there    map[string]bool
	jobStamp string
}

// jobStem is the name of the job's own file, without its ending.
const jobStem = "job"

// programHash tells this build of the program from others.
func programHash() (string, error) {
	name, err := os.Executable()
	if err != nil {
		return "", err
	}
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	_, err = io.Copy(sum, f)
	return hex.EncodeToString(sum.Sum(nil)), errors.Join(err, f.Close())
}

// filesOf are the job's files, the job file first.
func filesOf(name string, j *job.Job) ([]paper.Attached, error) {
	name = jobPath(name)
	dir, base := filepath.Split(name)
	names := append([]string{base}, j.SheetFiles...)
	names = append(names, j.OwnRules...)
	names = append(names, j.Readings...)
	var all []paper.Attached
	for _, one := range names {
		content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(one)))
		if err != nil {
			return nil, err
		}
		all = append(all, paper.Attached{Name: filepath.Base(one), About: "file of the job", Content: content})
	}
	return all, nil
}

// look finds out which packets are there already.
func (b *binder) look() error {
	b.there = make(map[string]bool)
	for _, o := range b.picked {
		stamp, err := b.source.Stamp(o, b.opt)
		if err != nil {
			return err
		}
		b.there[o.ID] = !b.fresh && isThere(b.name(o.ID), stamp)
	}
	var err error
	b.jobStamp, err = b.source.StampJob(b.opt, b.files)
	return err
}

// done tells that nothing is left to write.
func (b *binder) done() bool {
	for _, o := range b.picked {
		if !b.there[o.ID] {
			return false
		}
	}
	return !b.whole || !b.fresh && isThere(filepath.Join(b.folder, jobStem+".pdf"), b.jobStamp)
}

// name is that of an opening's file.
func (b *binder) name(id string) string { return filepath.Join(b.folder, b.stems[id]+".pdf") }

// isThere tells that a file is whole and bears the stamp. Only the end of it is
// read: that is written last, and has the file's own words about itself.
func isThere(name, stamp string) bool {
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	const end = 1 << 16
	if info, err := f.Stat(); err == nil && info.Size() > end {
		if _, err := f.Seek(-end, io.SeekEnd); err != nil {
			return false
		}
	}
	tail, err := io.ReadAll(f)
	return err == nil && bytes.Contains(tail, []byte(stamp)) && bytes.HasSuffix(bytes.TrimSpace(tail), []byte("%%EOF"))
}

// bound is a packet that was written, or one that was there already.
type bound struct {
	entry packet.Entry
	item  takeoff.Item
	plan  *plan.Plan  // nil where no packet of the job is wanted
	wired *plan.Wired // what the wiring does that it shares with another opening
	made  bool
	// lacking are letters that the font of its papers has no picture of.
	lacking []rune
	err     error
}

// bind writes the packets on all cores, one opening at a time on each, and then that of the job.
func (b *binder) bind(ctx context.Context, pr *program, progress bool) error {
	if err := b.look(); err != nil {
		return err
	}
	if b.done() {
		fmt.Fprintf(pr.out, "%s: 0 packets written, %d there already\n", b.folder, len(b.picked))
		return nil
	}
	workers := min(runtime.GOMAXPROCS(0), len(b.picked))
	makers := make([]plan.Maker, workers)
	count := newCounter(pr.errOut, pr.out, len(b.picked), progress)
	defer count.end()
	var entries []packet.Entry
	var items, others []takeoff.Item
	if all := b.alternates(); b.whole && len(all) > 0 {
		var err error
		if others, err = pr.decided(ctx, b.task, all, false); err != nil {
			return err
		}
	}
	made, together := 0, newGroups(b.task)
	err := inOrder(ctx, len(b.picked), workers,
		func(worker, i int) bound { return b.one(&makers[worker], b.picked[i]) },
		func(one bound) error {
			if one.err != nil {
				return one.err
			}
			if one.made {
				made++
			}
			entries, items = append(entries, one.entry), append(items, one.item)
			if one.plan != nil {
				together.take(one.plan, one.wired)
			}
			pr.letters.add(one.lacking)
			count.one()
			return nil
		})
	if err != nil {
		return err
	}
	if b.whole {
		if err := b.job(pr, entries, append(items, others...), together.whole()); err != nil {
			return err
		}
	}
	fmt.Fprintf(pr.out, "%s: %s written, %d there already\n", b.folder, quantity.Counted(made, "packet", "packets"), len(b.picked)-made)
	return nil
}

// one writes the packet of one opening.
func (b *binder) one(mk *plan.Maker, o *opening.Opening) bound {
	name := b.name(o.ID)
	if !b.whole && b.there[o.ID] {
		return bound{}
	}
	of := b.source.Gather(mk, o)
	all := bound{entry: packet.EntryOf(of, filepath.Base(name), b.opt), item: takeoff.NewItem(o, of.Decision), plan: of.Plan, wired: of.Wired}
	if b.there[o.ID] {
		return all
	}
	all.made = true
	if all.err = b.source.Complete(of); all.err != nil {
		return all
	}
	all.err = writeWhole(name, func(w io.Writer) (err error) {
		all.lacking, err = b.source.Write(w, of, b.opt)
		return err
	})
	return all
}

// job writes the packet of the job.
func (b *binder) job(pr *program, entries []packet.Entry, items []takeoff.Item, groups []*plan.Group) error {
	j := &packet.Job{Job: b.Job, Books: b.books, Entries: entries, Groups: groups}
	j.Circuits, j.Unnamed = plan.Circuits(b.Openings, b.Groups, &b.Sheets, b.judged().Policy)
	var err error
	if j.Takeoff, err = takeoff.Make(b.Job, items); err != nil {
		j.Takeoff, j.Uncounted = nil, err.Error()
	}
	opt := b.opt
	opt.Attached, opt.Stamp = b.files, b.jobStamp
	return writeWhole(filepath.Join(b.folder, jobStem+".pdf"), func(w io.Writer) error {
		lacking, err := packet.WriteJob(w, j, opt)
		pr.letters.add(lacking)
		return err
	})
}
