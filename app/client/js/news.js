// What others enter while a page of a job is open: by the command, in the job file, on another phone. The page
// stays as it is, since somebody may be in the middle of something, and says that there is more.
import {h} from './dom.js';
import {button} from './parts.js';
import * as store from './store.js';
import * as sync from './sync.js';
import {n, or, t} from './texts.js';

const each = 8000; // ms
const place = h('div', {id: 'news', role: 'status'});
let stop = () => {};

// watch looks for news of the job of a page from now on; show shows the page anew.
export async function watch(path, show) {
  stop();
  place.replaceChildren();
  if (!place.isConnected) document.getElementById('top').after(place);
  const [, encoded, opening] = /^job\/([^/]+)(?:\/([^/]+))?/.exec(path) || [];
  if (!encoded || /\/history\//.test(path)) return;
  const id = decodeURIComponent(encoded);
  const held = await store.get('jobs', id);
  if (!held) return;
  let live = true, told = 0;
  const key = opening && held.keys[decodeURIComponent(opening)];
  const look = async () => {
    if (!live || document.hidden || !navigator.onLine || sync.state.out) return;
    const list = await sync.since(id, held.rev).catch(() => []);
    // of another opening nothing is shown here that changes; of the job and its files much may
    const others = new Set(Object.values(held.keys));
    const about = list.filter(c => !key || c.subject === key || !others.has(c.subject) && c.kind !== 'opening');
    if (!live || about.length === told) return;
    told = about.length;
    const last = about.at(-1);
    place.replaceChildren(h('p', {}, n('news', told, {who: last.who, what: [t('change.' + last.kind), last.path ? or('q.' + last.path, last.path) : ''].filter(Boolean).join(' ')})), button(t('news.show'), async () => { await sync.job(id); await show(true); }));
  };
  const timer = setInterval(look, each);
  document.addEventListener('visibilitychange', look);
  stop = () => { live = false; clearInterval(timer); document.removeEventListener('visibilitychange', look); };
}
