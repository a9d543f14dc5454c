package server

import (
	"net/http"
	"sync"

	"swingwright/phrasebook"
)

// spanish is the one phrasebook that refusals are said by: a phrasebook takes long to
// make, and is used by one request at a time.
var spanish = struct {
	sync.Mutex
	book *phrasebook.Book
}{}

// inTongue is what is told to whoever asked, in the language of the pages that they read:
// the app keeps that in the cookie "language". Programs, and pages in English, are told as it
// stands.
func inTongue(r *http.Request, text string) string {
	if c, err := r.Cookie("language"); err != nil || c.Value != "es" {
		return text
	}
	spanish.Lock()
	defer spanish.Unlock()
	if spanish.book == nil {
		spanish.book = phrasebook.For("es")
	}
	return spanish.book.Say(text)
}
