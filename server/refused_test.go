package server_test

import (
	"fmt"
	"strings"
	"testing"

	"swingwright/book"
)

// What the book can never carry out is kept as a note, in its place in the order, holds nothing up,
// and whoever entered it sees what, where and why until they say that they have.
func TestRefusedChangeBecomesNote(t *testing.T) {
	s, p := newSite(t, nil), newPhone(t)
	defer p.done()
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	p.along()
	s.stop()
	evaluate[bool](p, fmt.Sprintf(`(async () => {
	  const sync = await import('/js/sync.js'), job = await sync.job(%q);
	  await sync.make(job, '101', sync.set('leaf.width', '35-1/2 in'));
	  await sync.make(job, '101', sync.set('leaf.weight', 'as heavy as a cow'));
	  const blob = new Blob([new Uint8Array([0x50, 0x4b, 3, 4, 1, 2, 3])], {type: 'image/jpeg'}); // an archive that says it is a photo
	  const hash = await sync.keepBlob(blob);
	  await sync.make(job, '101', {kind: 'attach', value: JSON.stringify({what: 'photo', name: 'hinge.jpg', type: blob.type, hash, size: blob.size})});
	  await sync.make(job, '101', sync.set('leaf.height', '83 in'));
	  await sync.make(job, 'none', {...sync.set('leaf.width', '30 in'), subject: 'an-opening-that-is-not-there'});
	  await sync.make(job, '102', sync.set('leaf.height', '84 in'));
	  return true;
	})()`, s.key))
	p.page("settings")
	s.start()
	p.synced() // nothing waits for what can never be
	p.wait(`document.getElementById('alarm').innerText.includes('entries were not carried out')`)
	p.look("refused-alarm")

	opening, whole := history(t, s.book, s.key+".1", ""), history(t, s.book, s.key, "")
	var got []string
	for _, r := range opening { // the latest first
		got = append(got, string(r.Kind)+" "+r.Path)
	}
	if want := []string{"set leaf.height", "note ", "note ", "set leaf.width"}; strings.Join(got[:min(4, len(got))], ", ") != strings.Join(want, ", ") {
		t.Errorf("the opening's history is %q; want %q", got, want)
	}
	for of, want := range map[string][]string{opening[2].Value: {"leaf.weight", "as heavy as a cow", "Because: "}, opening[1].Value: {"hinge.jpg", "an attachment is a photo"}} {
		for _, w := range want {
			if !strings.Contains(of, w) {
				t.Errorf("the note %q does not say %q", of, w)
			}
		}
	}
	homeless := 0
	for _, r := range whole {
		if r.Subject == s.key && r.Kind == book.Note && strings.Contains(r.Value, "30 in") {
			homeless++
		}
	}
	if homeless != 1 {
		t.Errorf("what was entered at an opening that is not there is noted %d times at the job", homeless)
	}
	if o := s.state().Openings; o[0].Leaf.Width.Text != "35-1/2 in" || o[0].Leaf.Height.Text != "83 in" || o[1].Leaf.Height.Text != "84 in" {
		t.Errorf("what could be carried out: %s by %s, %s", o[0].Leaf.Width.Text, o[0].Leaf.Height.Text, o[1].Leaf.Height.Text)
	}
	seqs := map[int64]bool{}
	for _, r := range whole {
		if r.Device != "" && r.Seq > 0 && seqs[r.Seq] {
			t.Errorf("the number %d is there twice", r.Seq)
		}
		seqs[r.Seq] = true
	}

	// it is still told when the app is opened again
	p.open(s.url("job/" + s.key))
	p.wait(`document.querySelectorAll('[data-refused]').length === 3`)
	for _, word := range []string{"as heavy as a cow", "hinge.jpg", "30 in", "Not carried out"} {
		if text := p.text(); !strings.Contains(text, word) {
			t.Errorf("the job does not tell of %q:\n%s", word, text)
		}
	}
	p.look("refused")
	p.page("job/" + s.key + "/101")
	p.wait(`document.querySelectorAll('[data-refused]').length === 2`)
	if ok := evaluate[bool](p, `(async () => { // the photo that the book does not take can be had as a file
	  const clicked = new Promise(resolve => { HTMLAnchorElement.prototype.click = function () { resolve(this.download + ' ' + this.href.slice(0, 5)); }; });
	  [...document.querySelectorAll('[data-refused] button')].find(b => b.innerText === 'Save the file').click();
	  return await clicked === 'hinge.jpg blob:';
	})()`); !ok {
		t.Error("the photo cannot be saved")
	}
	p.tap("Seen")
	p.wait(`document.querySelectorAll('[data-refused]').length === 1`)
	p.tap("Seen")
	p.wait(`!document.querySelector('.refused')`)
	p.page("job/" + s.key + "/101/history")
	p.wait(`document.body.innerText.includes('as heavy as a cow') && document.body.innerText.includes('hinge.jpg')`)
	p.open(s.url("job/" + s.key))
	p.wait(`document.querySelectorAll('[data-refused]').length === 1`)
}
