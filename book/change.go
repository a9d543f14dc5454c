package book

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"
)

// Kind is what a change does.
type Kind string

// The kinds of change. Those that begin a part name its key, which their maker
// chose, as Subject, and the job's key as Job; all others name an existing part.
const (
	// BeginJob begins a job: Path is the name of the job file, such as job.yaml,
	// Value its text up to the first opening, and Job the same as Subject.
	BeginJob Kind = "job"
	// BeginOpening adds an opening at the end of the job: Value is YAML or JSON with its fields.
	BeginOpening Kind = "opening"
	// BeginFile adds a file beside the job file: Path is its name as the job lists
	// it, Value its text.
	BeginFile Kind = "file"
	// BeginEnding keeps what follows the openings in a job file: Value is its text.
	BeginEnding Kind = "ending"
	// Set gives the field at Path, such as leaf.width, a Value: YAML or JSON as it
	// stands under the field; nothing leaves it blank. amend.Text makes one of any text.
	Set Kind = "set"
	// Add appends Value to the list at Path, such as readings or adjustments.
	Add Kind = "add"
	// Remove takes out the item at Path, such as readings[2]. What it was stays in the history.
	Remove Kind = "remove"
	// Rewrite gives the part the text in Value, as an editor saved it.
	Rewrite Kind = "rewrite"
	// Attach adds an attachment: Value is an Attachment in JSON, whose content is in the book already.
	Attach Kind = "attach"
	// Note adds the text in Value.
	Note Kind = "note"
	// Sign signs the state of the part: Value is a Statement in JSON. Where Seen is
	// the SHA-256 of the part's text as it was signed, in hexadecimal, and the book has
	// another text, or where another device changed the part after Base, the sign-off is a conflict.
	Sign Kind = "sign"
	// Withdraw takes back the note, attachment or sign-off that the change Path
	// made, or, where Path is empty, the part. All of it stays in the history.
	Withdraw Kind = "withdraw"
	// Restore undoes Withdraw.
	Restore Kind = "restore"
	// Resolve gives the field at Path a Value, as Set does, and settles all
	// conflicts about the field, or about anything in it, up to Base. An empty Path
	// settles all of the part and leaves the text as it is.
	Resolve Kind = "resolve"
)

// Latest is the Base of a change whose maker wants it carried out whatever the state is.
const Latest = -1

// A Change is something that somebody entered.
type Change struct {
	// ID is chosen by the maker, once in the world: NewID makes one. Of letters, digits, . _ ~ and -, at most 64.
	ID      string `json:"id"`
	Kind    Kind   `json:"kind"`
	Job     string `json:"job,omitempty"` // needed only where a part begins
	Subject string `json:"subject"`
	Path    string `json:"path,omitempty"`
	Value   string `json:"value,omitempty"`
	Seen    string `json:"seen,omitempty"`
	// Base is the latest revision of the book that the maker had seen, or Latest. Changes of the same
	// device count as seen. Where a part begins it means nothing.
	Base int64 `json:"base,omitempty"`
	// Device tells devices apart; it may be empty for one that is always in touch with the book.
	Device string `json:"device,omitempty"`
	// Seq numbers the changes of a device from 1, for devices that keep changes until there is a network; 0 where it does not.
	Seq int64 `json:"seq,omitempty"`
	// Who entered it.
	Who string `json:"who"`
	// Instrument is what a reading was taken with; may be empty.
	Instrument string `json:"instrument,omitempty"`
	// Made is when it was entered, by the clock of the device.
	Made time.Time `json:"made"`
}

// NewID is an identity that nobody else has: 128 random bits.
func NewID() string { return strings.ToLower(rand.Text()) }

// NewKey is a key for a part, short enough for a label: 60 random bits.
func NewKey() string { return strings.ToLower(rand.Text()[:12]) }

var (
	identity = regexp.MustCompile(`^[A-Za-z0-9._~-]{1,64}$`)
	seenHash = regexp.MustCompile(`^[0-9a-f]{64}$`)
)

// most is how long a text in a change may be, in bytes: the largest job file that is read.
const most = 16 << 20

// begins tells the kinds that begin a part.
func (k Kind) begins() bool {
	return k == BeginJob || k == BeginOpening || k == BeginFile || k == BeginEnding
}

// alters tells the kinds that change a part's text or state.
func (k Kind) alters() bool {
	switch k {
	case Set, Add, Remove, Rewrite, Withdraw, Restore, Resolve:
		return true
	}
	return k.begins()
}

// check finds what is wrong with a change whatever the book holds.
func (c *Change) check() error {
	wrong := func(what, hint string) error { return &Invalid{Change: c.ID, Found: what, Hint: hint} }
	for _, text := range []string{c.Path, c.Value, c.Device, c.Who, c.Instrument} {
		if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
			return wrong("a text that is not UTF-8", "send texts in UTF-8, without zero bytes")
		}
	}
	switch {
	case !identity.MatchString(c.ID):
		return wrong(fmt.Sprintf("the identity %.80q", c.ID), "give each change an identity of 1 to 64 letters, digits, . _ ~ and -")
	case !identity.MatchString(c.Subject):
		return wrong(fmt.Sprintf("the subject %.80q", c.Subject), "name the key of a part")
	case !c.Kind.begins() && !c.Kind.known():
		return wrong(fmt.Sprintf("the kind %q", c.Kind), "see the kinds of change")
	case c.Kind.begins() && !identity.MatchString(c.Job):
		return wrong(fmt.Sprintf("the job %.80q", c.Job), "name the key of the job")
	case c.Kind == BeginJob && c.Job != c.Subject:
		return wrong("a job with two keys", "give Job and Subject the same key")
	case (c.Kind == BeginJob || c.Kind == BeginFile) && !local(c.Path), c.Kind == BeginJob && strings.Contains(c.Path, "/"):
		return wrong(fmt.Sprintf("the file name %.80q", c.Path), "give its path from the folder of the job, with / between folders and no ..")
	case (c.Kind == Set || c.Kind == Add || c.Kind == Remove) && c.Path == "":
		return wrong("no field", "give the path of one, such as leaf.width")
	case (c.Kind == Note || c.Kind == Add) && strings.TrimSpace(c.Value) == "":
		return wrong("no text", "fill it in")
	case c.Seen != "" && !seenHash.MatchString(c.Seen):
		return wrong(fmt.Sprintf("the digest %.80q", c.Seen), "give the SHA-256 in 64 hexadecimal digits")
	case strings.TrimSpace(c.Who) == "":
		return wrong("nobody", "say who entered it")
	case c.Made.IsZero() || c.Made.Year() < 1 || c.Made.Year() > 9999:
		return wrong("no time", "say when it was entered")
	case c.Seq < 0 || c.Seq > 0 && c.Device == "":
		return wrong(fmt.Sprintf("number %d of no device", c.Seq), "number the changes of a device from 1 and name the device")
	case !c.Kind.begins() && (c.Base == 0 || c.Base < Latest):
		return wrong(fmt.Sprintf("the base %d", c.Base), "give the latest revision that was seen, or -1 to change whatever there is")
	case len(c.Value) > most || len(c.Path)+len(c.Device)+len(c.Who)+len(c.Instrument) > 8192:
		return wrong("a text too long", fmt.Sprintf("a value has at most %d MB, a name some kB", most>>20))
	}
	return nil
}

func (k Kind) known() bool {
	switch k {
	case Attach, Note, Sign:
		return true
	}
	return k.alters()
}

// sum writes a change, field by field, each behind its length, so that no two
// changes have the same bytes.
func (c *Change) sum(h hash.Hash) {
	write(h, c.ID, string(c.Kind), c.Job, c.Subject, c.Path, c.Value, c.Seen, fmt.Sprint(c.Base), c.Device, fmt.Sprint(c.Seq), c.Who, c.Instrument, stamp(c.Made))
}

func write(h hash.Hash, fields ...string) {
	var length [8]byte
	for _, f := range fields {
		binary.BigEndian.PutUint64(length[:], uint64(len(f)))
		h.Write(length[:])
		h.Write([]byte(f))
	}
}

// fingerprint is the SHA-256 of a change as it was sent.
func (c *Change) fingerprint() []byte {
	h := sha256.New()
	write(h, "swingwright change 1")
	c.sum(h)
	return h.Sum(nil)
}

// stamp is how times are kept: to the millisecond, in UTC, of a width that sorts.
func stamp(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.000Z") }

// Digest is the SHA-256 of a text in hexadecimal, as Change.Seen takes it.
func Digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}
