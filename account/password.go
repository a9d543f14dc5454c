package account

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/secure/precis"
)

// cost is what a hash takes: memory in KiB, passes over it, and lanes.
type cost struct {
	memory, passes uint32
	lanes          uint8
}

// usual is the second recommended choice of RFC 9106, section 4: for where memory is scarce.
var usual = cost{memory: 64 << 10, passes: 3, lanes: 4}

// The lengths that RFC 9106, section 4, recommends, in bytes.
const (
	saltBytes = 16
	tagBytes  = 32
)

// The lengths of a password, in characters. The least is that of NIST SP 800-63B-4, 3.1.1.2,
// where nothing else is asked for (from memory); nobody has to mix kinds of characters.
const (
	LeastPassword = 15
	MostPassword  = 256
)

// prepared is a password as it is hashed: however a keyboard composes its letters, they
// are the same (RFC 8265, OpaqueString).
func prepared(password string) (string, error) {
	if n := utf8.RuneCountInString(password); n > MostPassword {
		return "", unfit("a password of %d characters is too long; hint: at most %d", n, MostPassword)
	}
	p, err := precis.OpaqueString.String(password)
	if err != nil {
		return "", unfit("the password holds something that is no character; hint: use letters, digits, signs and blanks")
	}
	return p, nil
}

// choose prepares a password that somebody chose, and refuses one that is easily guessed.
func choose(name, password string) (string, error) {
	p, err := prepared(password)
	if err != nil {
		return "", err
	}
	n := utf8.RuneCountInString(p)
	different := map[rune]bool{}
	for _, r := range p {
		different[r] = true
	}
	switch {
	case n < LeastPassword:
		return "", unfit("a password of %d characters is too short; hint: take a sentence, of %d characters or more", n, LeastPassword)
	case len(different) < 5:
		return "", unfit("the password repeats a few characters; hint: take a sentence")
	case strings.Contains(strings.ToLower(strings.ReplaceAll(p, " ", "")), strings.ToLower(strings.ReplaceAll(name, " ", ""))) && n < LeastPassword+utf8.RuneCountInString(name):
		return "", unfit("the password is little more than the name; hint: take a sentence without it")
	}
	return p, nil
}

// hashed is a password with its salt and cost, as text in the usual form for Argon2.
func hashed(password string, c cost) string {
	salt := make([]byte, saltBytes)
	rand.Read(salt)
	return c.text(password, salt)
}

func (c cost) text(password string, salt []byte) string {
	tag := argon2.IDKey([]byte(password), salt, c.passes, c.memory, c.lanes, tagBytes)
	b := base64.RawStdEncoding
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memory, c.passes, c.lanes, b.EncodeToString(salt), b.EncodeToString(tag))
}

// matches tells whether a hash is of a password. A hash that cannot be read, or that would take
// much more than the usual cost, matches nothing.
func matches(hash, password string) bool {
	var version int
	var c cost
	fields := strings.Split(hash, "$")
	if len(fields) != 6 || fields[1] != "argon2id" {
		return false
	}
	if _, err := fmt.Sscanf(fields[2]+" "+fields[3], "v=%d m=%d,t=%d,p=%d", &version, &c.memory, &c.passes, &c.lanes); err != nil {
		return false
	}
	salt, err := base64.RawStdEncoding.DecodeString(fields[4])
	if err != nil || version != argon2.Version || c.memory > 16*usual.memory || c.passes < 1 || c.passes > 100 || c.lanes < 1 {
		return false
	}
	return subtle.ConstantTimeCompare([]byte(c.text(password, salt)), []byte(hash)) == 1
}

// nobody's hash is what a password is held against where no account has the name, so that an
// answer takes as long then. It is of no password that anybody could find.
var nobody = fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, usual.memory, usual.passes, usual.lanes,
	base64.RawStdEncoding.EncodeToString(make([]byte, saltBytes)), base64.RawStdEncoding.EncodeToString(make([]byte, tagBytes)))

// ErrBusy is that too many passwords are being checked already.
var ErrBusy = errors.New("too many people sign in at this moment; hint: try again in a minute")

// checking holds a place for every hash that is being made: each takes 64 MiB.
var checking = make(chan struct{}, 2)

// patience is how long a sign-in waits for its place.
const patience = 10 * time.Second

// inTurn does something that hashes when its turn comes.
func inTurn(ctx context.Context, do func()) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	select {
	case checking <- struct{}{}:
		defer func() { <-checking }()
		do()
		return nil
	case <-ctx.Done():
		return ErrBusy
	}
}
