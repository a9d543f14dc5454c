package job

import "strings"

// Nearest returns the name that word was most likely meant to be, or "" when
// none is near enough: more than a third of the letters wrong is another word.
// Case, spaces, hyphens, underscores and dots count for nothing.
func Nearest(word string, names []string) string {
	const longest = 60 // no name is longer; it bounds the work on hostile words
	plain := plainly(word)
	if plain == "" || len(plain) > longest {
		return ""
	}
	best, least := "", 1+max(1, len(plain)/3)
	for _, name := range names {
		if d := distance(plain, plainly(name)); d < least {
			best, least = name, d
		}
	}
	return best
}

// DidYouMean is the hint that asks whether the nearest name was meant, or "" when
// none is near enough.
func DidYouMean(word string, names []string) string {
	near := Nearest(word, names)
	if near == "" {
		return ""
	}
	return "did you mean " + near + "?"
}

var plainer = strings.NewReplacer(" ", "", "-", "", "_", "", ".", "")

func plainly(s string) string { return plainer.Replace(strings.ToLower(s)) }

// distance counts the letters to insert, delete, replace or swap with their
// neighbour to make a into b (Damerau 1964; the restricted form, in which no
// letter is touched twice).
func distance(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			wrong := 1
			if a[i-1] == b[j-1] {
				wrong = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+wrong)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
