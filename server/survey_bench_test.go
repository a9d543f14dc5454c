package server_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// BenchmarkSurveyStep measures a step of the survey on a phone with a slow processor and no network: from the tap until
// what was entered is on its disk, and until the next question is shown. The engine's worker is not slowed by the browser's
// own throttle; it answers in the time of this machine.
func BenchmarkSurveyStep(bench *testing.B) {
	s, p := newSite(bench, nil), newPhone(bench)
	p.open(s.url("job/" + s.key))
	p.wait(`document.documentElement.dataset.engine === 'here' && navigator.serviceWorker.controller`)
	s.begun(p, "S1")
	s.stop()
	if _, err := chromedp.Call(p.ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slowness}); err != nil {
		bench.Fatal(err)
	}
	var saved, shown []time.Duration
	begun := 1
	for bench.Loop() {
		step := evaluate[[2]float64](p, fmt.Sprintf(`(async () => {
		  const {or} = await import('/js/texts.js'), answers = %s;
		  const said = new Map(Object.keys(answers).map(path => [or('q.' + path, path), path]));
		  for (let tries = 0; tries < 40; tries++) {
		    const form = document.querySelector('form.question');
		    if (!form) return [0, 0];
		    const before = document.querySelector('h1').innerText + form.innerText;
		    const settle = () => new Promise(done => {
		      const look = () => document.querySelector('h1').innerText + document.querySelector('form.question')?.innerText !== before && !document.querySelector('.waiting');
		      const watch = new MutationObserver(() => { if (look()) { watch.disconnect(); done(performance.now()); } });
		      watch.observe(document.body, {childList: true, subtree: true, characterData: true, attributes: true});
		    });
		    let tap = null;
		    for (const field of form.querySelectorAll('.field')) {
		      const path = said.get(field.querySelector('label')?.innerText.replace(/ \([^)]*\)$/, ''));
		      if (path) { field.querySelector('input').value = answers[path]; tap = document.querySelector('.action .main'); }
		    }
		    for (const set of form.querySelectorAll('fieldset')) {
		      const input = [...set.querySelectorAll('input')].find(i => i.value === answers[said.get(set.querySelector('legend').innerText)]);
		      if (!input) continue;
		      const single = !document.querySelector('.action .main');
		      if (single) tap = input; else { input.click(); tap = document.querySelector('.action .main'); }
		    }
		    if (!tap) { // nothing is known of it: the next one
		      const next = settle();
		      document.querySelector('.action .quiet').click();
		      await next;
		      continue;
		    }
		    await new Promise(done => setTimeout(done, 300)); // the hand moves
		    document.getElementById('told').textContent = '';
		    const told = new Promise(done => {
		      const watch = new MutationObserver(() => { if (document.getElementById('told').textContent) { watch.disconnect(); done(performance.now()); } });
		      watch.observe(document.getElementById('told'), {childList: true, subtree: true, characterData: true});
		    });
		    const next = settle(), start = performance.now();
		    tap.click();
		    return [await told - start, await next - start];
		  }
		  return [0, 0];
		})()`, object(answers)))
		if step[1] == 0 { // all is asked: another opening
			begun++
			s.begun(p, fmt.Sprint("S", begun))
			continue
		}
		saved = append(saved, time.Duration(step[0]*float64(time.Millisecond)))
		shown = append(shown, time.Duration(step[1]*float64(time.Millisecond)))
	}
	for name, times := range map[string][]time.Duration{"saved": saved, "shown": shown} {
		slices.Sort(times)
		bench.Logf("%s: %v", name, times)
		bench.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, name+"-median-ms")
	}
}

// begun begins an opening and shows the first question of its survey.
func (s *site) begun(p *phone, id string) {
	p.page("job/" + s.key)
	p.tap("New opening")
	p.fill("#new-id", id)
	p.tap("Begin its survey")
	p.wait(`location.hash.includes('/` + id + `/survey') && document.querySelector('form.question')`)
}
