// What others enter while a page of a job is open: by the command, in the job file, on another phone. The page
// stays as it is, since somebody may be in the middle of something, and says that there is more.
import {h} from './dom.js';
import {button} from './parts.js';
import {around} from './held.js';
import * as sync from './sync.js';
import {n, or, t} from './texts.js';

const each = 8000; // ms
const place = h('div', {id: 'news', role: 'status'});
let stop = () => {};

// watch looks for news of the job of a page from now on: after the revision that the page tells, or that its opening is held
// at. show shows the page anew.
export async function watch(path, rev, show) {
  stop();
  place.replaceChildren();
  if (!place.isConnected) document.getElementById('top').after(place);
  const [, encoded, opening] = /^job\/([^/]+)(?:\/([^/]+))?/.exec(path) || [];
  if (!encoded || /\/history\//.test(path)) return;
  let live = true, told = 0;
  stop = () => { live = false; };
  const id = decodeURIComponent(encoded), held = opening && await around(id, decodeURIComponent(opening));
  const key = held?.keys[decodeURIComponent(opening)];
  const after = rev || held?.revs[key];
  if (!after || !live) return;
  const look = async () => {
    if (!live || document.hidden || !navigator.onLine || sync.state.out) return;
    const list = await sync.since(id, after).catch(() => []);
    // of another opening nothing is shown here that changes; of the job and its files much may
    const about = list.filter(c => !key || c.subject === key || c.subject === id || c.subject.startsWith(id + '.') && /\.(file\d+|end)$/.test(c.subject));
    if (!live || about.length === told) return;
    told = about.length;
    const last = about.at(-1);
    place.replaceChildren(h('p', {}, n('news', told, {who: last.who, what: [t('change.' + last.kind), last.path ? or('q.' + last.path, last.path) : ''].filter(Boolean).join(' ')})), button(t('news.show'), async () => {
      if (key) await sync.opening(id, decodeURIComponent(opening), true);
      await show(true);
    }));
  };
  const timer = setInterval(look, each);
  document.addEventListener('visibilitychange', look);
  stop = () => { live = false; clearInterval(timer); document.removeEventListener('visibilitychange', look); };
}
