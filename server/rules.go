package server

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"sync"

	"swingwright/book"
	"swingwright/job"
	"swingwright/onsite"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// jobRules are the rulebooks of a job, read and lowered.
type jobRules struct {
	ids     []string
	version string // of what they say, and of the program that lowered them
	all     onsite.Rules
	engine  *onsite.Engine
}

// rulesKept keeps rulebooks once they were read: to check their formulas takes long.
type rulesKept struct {
	sync.Mutex
	of map[string]*jobRules
}

// find reads the rulebooks that the files of a job name.
func (k *rulesKept) find(f *book.Files) (*jobRules, error) {
	j, err := job.DecodePart(job.Texts(f.Texts), f.Name, func(string, string) bool { return true })
	if err != nil {
		return nil, err
	}
	sum := sha256.New()
	fmt.Fprintf(sum, "%q %q\n", j.Rulebooks, j.OwnRules)
	for _, name := range j.OwnRules {
		fmt.Fprintf(sum, "%q\n", f.Texts[name])
	}
	key := hex.EncodeToString(sum.Sum(nil))
	k.Lock()
	defer k.Unlock()
	if r := k.of[key]; r != nil {
		return r, nil
	}
	r := &jobRules{ids: []string{}}
	var books []*rulebook.Book
	for _, id := range j.Rulebooks {
		b, err := author.BuiltinBook(id)
		if err != nil { // the file says so, whoever wrote it
			return nil, refuse(http.StatusUnprocessableEntity, "%v", err)
		}
		books = append(books, b)
	}
	for _, name := range j.OwnRules {
		b, err := author.Load(job.Texts(f.Texts), name)
		if err != nil {
			return nil, refuse(http.StatusUnprocessableEntity, "%v", err)
		}
		books = append(books, b)
	}
	for _, b := range books {
		r.ids = append(r.ids, b.ID)
	}
	r.all.Books = books
	if len(books) > 1 {
		if r.all.Collisions, err = author.Collisions(); err != nil {
			return nil, err
		}
	}
	r.version, r.engine = key[:16], onsite.New(r.all)
	if k.of == nil {
		k.of = map[string]*jobRules{}
	}
	k.of[key] = r
	return r, nil
}

// digestOf names the texts of a job's files by what is in them.
func digestOf(f *book.Files) string {
	sum := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(f.Texts)) {
		fmt.Fprintf(sum, "%q %d\n%s\n", name, len(f.Texts[name]), f.Texts[name])
	}
	return hex.EncodeToString(sum.Sum(nil))
}
