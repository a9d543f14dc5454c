package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/packet"
	"swingwright/plan"
	"swingwright/report"
	"swingwright/takeoff"
)

// binder writes packets into a folder, each through a file beside it that is put in
// its place when it is whole. Every file carries a stamp of what it was made from; one
// that bears the stamp that it would get is not made again.
type binder struct {
	*task
	folder string
	opt    packet.Options
	stems  map[string]string // of the file names, by opening
	whole  bool              // whether the job's own packet is wanted
	common []byte            // what all packets are made from, hashed
	files  []paper.Attached  // of the job
	// stamps are those of the openings, and there tells whose packets bear them already.
	stamps   map[string]string
	there    map[string]bool
	jobStamp string
	shared   map[string]sharedWiring // of groups, by opening
}

// stampFormat is raised when the stamp is made otherwise.
const stampFormat = "swingwright packet 2"

// jobStem is the name of the job's own file, without its ending.
const jobStem = "job"

// fix hashes what all packets have in common: the program, how they shall look, the
// job without its openings, and the rulebooks' files.
func (b *binder) fix(jobFile string) error {
	sum := sha256.New()
	opt := b.opt
	if err := hashed(sum, stampFormat, opt, b.task.opt.Draws, b.task.opt.Seed); err != nil {
		return err
	}
	head := *b.Job
	head.Openings = nil
	if err := hashed(sum, head); err != nil {
		return err
	}
	var err error
	if b.files, err = filesOf(jobFile, b.Job); err != nil {
		return err
	}
	for _, f := range b.files[1:] { // the openings of the first are hashed one by one
		if err := hashed(sum, f.Name, f.Content); err != nil {
			return err
		}
	}
	program, err := os.Executable()
	if err != nil {
		return err
	}
	if err := hashFile(sum, program); err != nil {
		return err
	}
	b.common = sum.Sum(nil)
	return nil
}

// hashed adds values to a hash, as JSON.
func hashed(sum hash.Hash, values ...any) error {
	for _, v := range values {
		text, err := json.Marshal(v)
		if err != nil {
			return fmt.Errorf("hash of the inputs: %w", err)
		}
		fmt.Fprintf(sum, "%d\n%s\n", len(text), text)
	}
	return nil
}

func hashFile(sum hash.Hash, name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	_, err = io.Copy(sum, f)
	return errors.Join(err, f.Close())
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
	b.stamps, b.there = make(map[string]string), make(map[string]bool)
	var all []string
	for _, o := range b.picked {
		stamp, err := b.stamp(b.with(o))
		if err != nil {
			return err
		}
		b.stamps[o.ID], b.there[o.ID] = stamp, isThere(b.name(o.ID), stamp)
		all = append(all, stamp)
	}
	all = append(all, string(b.files[0].Content))
	var err error
	b.jobStamp, err = b.stamp(all)
	return err
}

// with are an opening and those that share a wiring with it: its papers show what all of them draw.
func (b *binder) with(o *opening.Opening) []*opening.Opening {
	all := []*opening.Opening{o}
	g := opening.Sharing(b.Groups, o.ID)
	for i := range b.Openings {
		if other := &b.Openings[i]; g != nil && other.ID != o.ID && slices.Contains(g.Of, other.ID) {
			all = append(all, other)
		}
	}
	return all
}

// done tells that nothing is left to write.
func (b *binder) done() bool {
	for _, o := range b.picked {
		if !b.there[o.ID] {
			return false
		}
	}
	return !b.whole || isThere(filepath.Join(b.folder, jobStem+".pdf"), b.jobStamp)
}

// name is that of an opening's file.
func (b *binder) name(id string) string { return filepath.Join(b.folder, b.stems[id]+".pdf") }

// stamp is the hash of everything that a packet is made from.
func (b *binder) stamp(of any) (string, error) {
	sum := sha256.New()
	sum.Write(b.common)
	if err := hashed(sum, of); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

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
	plan  *plan.Plan // nil where no packet of the job is wanted
	made  bool
	err   error
}

// sharedWiring is what a wiring that openings share does, and how it feeds its devices.
type sharedWiring struct {
	wired   *plan.Wired
	feeding *plan.Feeding
}

// wirings proves the wirings that openings share, each once, and reckons their power
// from the plans of all their openings.
func (b *binder) wirings() map[string]sharedWiring {
	shared := make(map[string]sharedWiring)
	var mk plan.Maker
	for i := range b.Groups {
		g := &b.Groups[i]
		if g.Wiring.None() {
			continue
		}
		var of []*opening.Opening
		for _, id := range g.Of {
			at := slices.IndexFunc(b.Openings, func(o opening.Opening) bool { return o.ID == id })
			if at >= 0 {
				of = append(of, &b.Openings[at])
			}
		}
		wanted := slices.ContainsFunc(b.picked, func(o *opening.Opening) bool { return slices.Contains(g.Of, o.ID) && (b.whole || !b.there[o.ID]) })
		if len(of) != len(g.Of) || !wanted {
			continue
		}
		var plans []*plan.Plan
		var members []*plan.Member
		for _, o := range of {
			p := mk.Make(o, &b.Sheets, b.books, b.task.opt)
			plans, members = append(plans, p), append(members, p.Member(&b.Sheets))
		}
		w := sharedWiring{wired: plan.ProveGroup(g, of, &b.Sheets, logic.Effort{}, members...)}
		w.feeding = plan.PowerOf(g, plans, &b.Sheets, b.judged().Policy)
		for _, id := range g.Of {
			shared[id] = w
		}
	}
	return shared
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
	b.task.opt.Wiring = true
	b.shared = b.wirings()
	if err := b.unprintable(pr.errOut); err != nil {
		return err
	}
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
				together.take(one.plan)
			}
			count.one()
			return nil
		})
	if err != nil {
		return err
	}
	if b.whole {
		if err := b.job(entries, append(items, others...), together.whole()); err != nil {
			return err
		}
	}
	fmt.Fprintf(pr.out, "%s: %s written, %d there already\n", b.folder, counted(made, "packet"), len(b.picked)-made)
	return nil
}

// unprintable tells once which letters of what goes into the papers have no picture in
// their font.
func (b *binder) unprintable(out io.Writer) error {
	head := *b.Job
	head.Openings = nil
	text, err := json.Marshal([]any{head, b.picked})
	if err != nil {
		return fmt.Errorf("letters of the job: %w", err)
	}
	if lacking := draw.Lacking(string(text)); len(lacking) > 0 {
		var all []string
		for _, r := range lacking[:min(len(lacking), 12)] {
			all = append(all, fmt.Sprintf("%c (%U)", r, r))
		}
		more := ""
		if n := len(lacking) - len(all); n > 0 {
			more = fmt.Sprintf(" and %d more", n)
		}
		fmt.Fprintf(out, "caution: the font of the papers has no picture of %s%s; each stands as %s\n", strings.Join(all, ", "), more, draw.InPlace)
	}
	return nil
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// one writes the packet of one opening.
func (b *binder) one(mk *plan.Maker, o *opening.Opening) bound {
	name, stamp := b.name(o.ID), b.stamps[o.ID]
	if !b.whole && b.there[o.ID] {
		return bound{}
	}
	p := mk.Make(o, &b.Sheets, b.books, b.task.opt)
	judged := b.judged()
	d := decision.Make(p, &b.Sheets, judged)
	one := packet.NewOpening(b.Job, p, d, judged.Policy)
	if w, ok := b.shared[o.ID]; ok && o.Wiring.None() {
		one.Wired, one.Feeding = w.wired, w.feeding
	}
	item := takeoff.NewItem(o, d)
	if b.there[o.ID] {
		return bound{entry: packet.EntryOf(one, filepath.Base(name), b.opt), item: item, plan: p}
	}
	err := one.Complete(judged.Brief)
	if err != nil {
		return bound{err: err}
	}
	opt := b.opt
	opt.Stamp = stamp
	if opt.Attached, err = b.findings(p, d); err != nil {
		return bound{err: err}
	}
	err = writeWhole(name, func(w io.Writer) error { return packet.Write(w, one, opt) })
	return bound{packet.EntryOf(one, filepath.Base(name), b.opt), item, p, true, err}
}

// job writes the packet of the job.
func (b *binder) job(entries []packet.Entry, items []takeoff.Item, groups []*plan.Group) error {
	j := &packet.Job{Job: b.Job, Books: b.books, Entries: entries, Groups: groups}
	var err error
	if j.Takeoff, err = takeoff.Make(b.Job, items); err != nil {
		j.Takeoff, j.Uncounted = nil, err.Error()
	}
	opt := b.opt
	opt.Attached, opt.Stamp = b.files, b.jobStamp
	return writeWhole(filepath.Join(b.folder, jobStem+".pdf"), func(w io.Writer) error { return packet.WriteJob(w, j, opt) })
}

// findings is what check --json says of the opening, to go along inside its packet.
func (b *binder) findings(p *plan.Plan, d *decision.Decision) ([]paper.Attached, error) {
	var buf bytes.Buffer
	out := report.NewJSON(&buf)
	head := report.Head{Job: b.Job, Openings: 1, Books: b.books, Cautions: b.cautions, Options: b.task.opt}
	if err := errors.Join(out.Start(head), out.Plan(p, d), out.End()); err != nil {
		return nil, err
	}
	return []paper.Attached{{Name: "findings.json", About: "what was reckoned and judged of this opening, for programs", Content: buf.Bytes()}}, nil
}
