package book

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
	"syscall"
	"time"
)

// An Attachment is a photo, a recording or another file that belongs to a part.
type Attachment struct {
	What    string `json:"what"`              // photo, recording, signature, paper: what it is, in one word
	Name    string `json:"name"`              // of the file, for people
	Type    string `json:"type"`              // media type, such as image/jpeg
	Hash    string `json:"hash"`              // SHA-256 of its content in hexadecimal: what Store returned
	Size    int64  `json:"size"`              // bytes
	Caption string `json:"caption,omitempty"` // what is to be seen
}

// A Statement is what somebody signs.
type Statement struct {
	Name      string `json:"name"`                // of the person who signs
	Role      string `json:"role,omitempty"`      // such as technician or owner
	Text      string `json:"text"`                // what is stated
	Signature string `json:"signature,omitempty"` // hash of the picture of the signature, where there is one
}

// Store keeps the content of an attachment, of at most so many bytes, and returns its
// SHA-256 in hexadecimal. The same content is kept once. It is on the disk when Store returns, and
// belongs to nothing until a change attaches it.
func (b *Book) Store(content io.Reader, most int64) (digest string, size int64, err error) {
	name := ".new-" + strings.ToLower(rand.Text())
	f, err := b.files.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return "", 0, full(err)
	}
	h := sha256.New()
	size, err = io.Copy(io.MultiWriter(f, h), io.LimitReader(content, most+1))
	if err == nil && size > most {
		err = fmt.Errorf("the attachment has more than %d bytes; hint: make it smaller", most)
	}
	if err == nil {
		err = f.Sync()
	}
	err = errors.Join(err, f.Close())
	digest = hex.EncodeToString(h.Sum(nil))
	if err == nil {
		err = b.settleFile(name, digest)
	}
	if err != nil {
		b.files.Remove(name)
		return "", 0, full(err)
	}
	return digest, size, nil
}

// settleFile moves a file that is on the disk to the place of its content.
func (b *Book) settleFile(name, digest string) error {
	to := place(digest)
	if err := b.files.Mkdir(path.Dir(to), 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	if err := b.files.Rename(name, to); err != nil {
		return err
	}
	for _, folder := range []string{path.Dir(to), "."} { // so that the names are on the disk too
		d, err := b.files.Open(folder)
		if err != nil {
			return err
		}
		if err := errors.Join(d.Sync(), d.Close()); err != nil {
			return err
		}
	}
	return nil
}

// place is where content lies in the folder of attachments.
func place(digest string) string { return path.Join(digest[:2], digest) }

// full tells a full disk.
func full(err error) error {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return fmt.Errorf("%w (%w)", ErrFull, err)
	}
	return err
}

// Content is the content of an attachment by its SHA-256. It is checked: the error is
// ErrDamaged where it is not what it was, and ErrNone where there is none.
func (b *Book) Content(digest string) ([]byte, error) {
	if !seenHash.MatchString(digest) {
		return nil, fmt.Errorf("%w: the attachment %.80q", ErrNone, digest)
	}
	content, err := b.files.ReadFile(place(digest))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%w: the attachment %s", ErrNone, digest)
	}
	if err != nil {
		return nil, err
	}
	if sum := sha256.Sum256(content); hex.EncodeToString(sum[:]) != digest {
		return nil, fmt.Errorf("%w: the attachment %s is not what it was", ErrDamaged, digest)
	}
	return content, nil
}

// attach checks what a change attaches.
func (w *writer) attach(r *Revision) error {
	var a Attachment
	if err := strict(r.Value, &a); err != nil || a.What == "" || !seenHash.MatchString(a.Hash) {
		return w.invalid(r, "no attachment", `send {"what": …, "name": …, "type": …, "hash": …, "size": …}`, err)
	}
	info, err := w.book.files.Stat(place(a.Hash))
	if err != nil || info.Size() != a.Size {
		return w.invalid(r, fmt.Sprintf("an attachment of %d bytes whose content is not in the book", a.Size), "store its content first", err)
	}
	return nil
}

// sign checks what a change signs.
func (w *writer) sign(r *Revision) error {
	var s Statement
	if err := strict(r.Value, &s); err != nil || s.Name == "" || s.Text == "" {
		return w.invalid(r, "no statement", `send {"name": …, "text": …} and, where there is one, the hash of the signature`, err)
	}
	if s.Signature != "" {
		if _, err := w.book.Content(s.Signature); err != nil {
			return w.invalid(r, "a signature that is not in the book", "store its picture first", err)
		}
	}
	return nil
}

// strict reads JSON that holds one value and no unknown fields.
func strict(text string, v any) error {
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return errors.New("more than one value")
	}
	return nil
}

// An Annotation is a note, an attachment or a sign-off of a part.
type Annotation struct {
	*Revision
	Attachment *Attachment // where its kind is Attach
	Statement  *Statement  // where its kind is Sign
	Withdrawn  bool
	Outdated   bool // of a sign-off: the part was changed after it
}

// Annotations are the notes, attachments and sign-offs of a part, the earliest first.
func (b *Book) Annotations(ctx context.Context, key string) ([]Annotation, error) {
	return annotations(ctx, b.read, key)
}

func annotations(ctx context.Context, q querier, key string) ([]Annotation, error) {
	list, err := revisions(q.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE subject = ? ORDER BY n", key))
	if err != nil {
		return nil, err
	}
	var all []Annotation
	index := map[string]int{}
	for _, r := range list {
		switch {
		case r.Kind == Note || r.Kind == Attach || r.Kind == Sign:
			index[r.ID] = len(all)
			a := Annotation{Revision: r}
			switch r.Kind {
			case Attach:
				a.Attachment = new(Attachment)
				err = json.Unmarshal([]byte(r.Value), a.Attachment)
			case Sign:
				a.Statement = new(Statement)
				err = json.Unmarshal([]byte(r.Value), a.Statement)
			}
			if err != nil {
				return nil, fmt.Errorf("%w: revision %d holds no JSON", ErrDamaged, r.N)
			}
			all = append(all, a)
		case r.annotates():
			if i, known := index[r.Path]; known {
				all[i].Withdrawn = r.Kind == Withdraw
			}
		case r.Outcome == Kept:
			for i := range all {
				all[i].Outdated = all[i].Kind == Sign
			}
		}
	}
	return all, nil
}

// Sweep deletes contents that nothing is attached to and that are older than
// some time, such as those of an upload that broke off, and tells how many bytes that made free.
func (b *Book) Sweep(ctx context.Context, before time.Time) (int64, error) {
	used, err := b.attached(ctx)
	if err != nil {
		return 0, err
	}
	var free int64
	err = fs.WalkDir(b.files.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil || used[path.Base(name)] != 0 || info.ModTime().After(before) {
			return err
		}
		free += info.Size()
		return b.files.Remove(name)
	})
	return free, err
}

// attached are the contents that revisions name, with the first revision that does.
func (b *Book) attached(ctx context.Context) (map[string]int64, error) {
	rows, err := b.read.QueryContext(ctx, "SELECT n, kind, value FROM revision WHERE kind IN (?, ?) ORDER BY n", Attach, Sign)
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	used := map[string]int64{}
	for rows.Next() {
		var n int64
		var kind Kind
		var value []byte
		if err := rows.Scan(&n, &kind, &value); err != nil {
			return nil, told(err)
		}
		var a struct{ Hash, Signature string }
		if json.Unmarshal(bytes.TrimSpace(value), &a) != nil {
			continue // verify tells
		}
		for _, digest := range []string{a.Hash, a.Signature} {
			if digest != "" && used[digest] == 0 {
				used[digest] = n
			}
		}
	}
	return used, told(rows.Err())
}
