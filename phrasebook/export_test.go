package phrasebook

import (
	"regexp"
	"strings"
)

var word = regexp.MustCompile(`\p{L}+(?:'\p{L}+)?`)

// English finds words in a text that the book has in English forms and in no Spanish one.
func English(text string) (found []string) {
	for _, w := range word.FindAllString(text, -1) {
		if vocabulary[strings.ToLower(w)] {
			found = append(found, w)
		}
	}
	return found
}

// vocabulary are the words of English forms that no Spanish phrase has too.
var vocabulary = func() map[string]bool {
	english := map[string]bool{}
	for _, list := range spanish {
		for _, p := range list {
			for _, w := range word.FindAllString(verbs.ReplaceAllString(p[0], " "), -1) {
				if len(w) > 1 {
					english[strings.ToLower(w)] = true
				}
			}
		}
	}
	for _, list := range spanish {
		for _, p := range list {
			for _, w := range word.FindAllString(p[1], -1) {
				delete(english, strings.ToLower(w))
			}
		}
	}
	return english
}()
