package main

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"swingwright/internal/draw"
)

// letters gathers, over one run, the letters of papers and pictures that their font has
// no picture of. Several goroutines may add to it at once.
type letters struct {
	sync.Mutex
	lacking []rune
}

// see looks at the texts of what is printed.
func (l *letters) see(scenes ...*draw.Scene) {
	for _, s := range scenes {
		l.add(s.Lacking())
	}
}

func (l *letters) add(lacking []rune) {
	if len(lacking) == 0 {
		return
	}
	l.Lock()
	defer l.Unlock()
	l.lacking = append(l.lacking, lacking...)
}

// tellLetters tells once what was printed with a question mark in its place.
func (pr *program) tellLetters() {
	all := pr.letters.lacking
	slices.Sort(all)
	all = slices.Compact(all)
	if len(all) == 0 {
		return
	}
	const most = 12
	var names []string
	for _, r := range all[:min(len(all), most)] {
		names = append(names, fmt.Sprintf("%c (%U)", r, r))
	}
	more := ""
	if n := len(all) - len(names); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	fmt.Fprintf(pr.errOut, "caution: the font of the papers has no picture of %s%s; each stands as %s\n", strings.Join(names, ", "), more, draw.InPlace)
}
