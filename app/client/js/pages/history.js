// What was entered about an opening, by whom and when; nothing is ever overwritten.
import {h} from '../dom.js';
import {said} from '../parts.js';
import * as store from '../store.js';
import {moment, or, t} from '../texts.js';
import {parsed} from '../tree.js';
import {open} from './open.js';

export default async function page(jobID, id) {
  const {job, here, place} = await open(jobID, id);
  const waiting = (await store.all('changes')).filter(c => c.job === jobID && c.subject === job.keys[id] && (c.waits || c.n > job.revs[c.subject])).reverse();
  let revisions = [], told = '';
  try {
    const response = await fetch(`/api/openings/${job.keys[id]}/history`);
    if (response.ok) revisions = await response.json();
    else if (response.status !== 404) told = t('history.offline');
  } catch { told = t('history.offline'); }
  if (told) revisions = (job.records[job.keys[id]] || []).filter(r => !r.waiting).reverse(); // what hangs on the opening is here
  const photos = new Map(); // those taken with this device
  for (const c of [...waiting, ...revisions]) {
    const blob = c.kind === 'attach' && (await store.get('blobs', parsed(c.value).hash))?.blob;
    if (blob) photos.set(parsed(c.value).hash, URL.createObjectURL(blob));
  }
  return {leave: () => photos.forEach(url => URL.revokeObjectURL(url)), title: t('history'), under: place, back: here, place, content: [
    told ? h('p', {class: 'problem'}, told) : '',
    h('ol', {class: 'cards'}, [...waiting.map(c => ({...c, waiting: true})), ...revisions].map(c => entry(c, here, photos))),
    !waiting.length && !revisions.length ? h('p', {}, t('history.none')) : '',
  ]};
}

function entry(c, here, photos) {
  const value = c.kind === 'attach' || c.kind === 'sign' ? parsed(c.value) : null;
  const what = c.kind === 'sign' ? `${value.name}: ${value.text}` : c.kind === 'attach' ? value.name : c.kind === 'note' ? c.value : c.path ? plain(c.value) : '';
  return h('li', {class: 'card', 'data-change': c.id}, h('p', {class: 'card-title'}, t('change.' + c.kind), c.path ? ' ' + or('q.' + c.path, c.path) : ''),
    what ? h('p', {class: 'lines'}, what) : '',
    c.kind === 'attach' && value.what === 'photo' ? h('img', {src: photos.get(value.hash) || '/api/attachments/' + value.hash, alt: value.name, loading: 'lazy'}) : '',
    c.outcome === 'conflict' ? h('p', {class: 'tag'}, t('change.conflict')) : '',
    h('p', {class: 'hint'}, moment(c.made), ' · ', c.who, c.instrument ? ' · ' + c.instrument : '', c.device ? ' · ' + t('device', {id: c.device.slice(0, 6)}) : '', c.waiting ? ' · ' + t('sign.waits') : c.seal ? [' · ', h('code', {}, c.seal.slice(0, 12))] : ''),
    c.waiting || c.outcome === 'conflict' || !c.n ? '' : h('p', {}, h('a', {class: 'button quiet', href: `${here}/history/${c.n}`}, t('past.see'))));
}

// plain is a value as a person would write it.
function plain(text) {
  const v = parsed(text);
  if (v === undefined) return t('change.blank');
  return typeof v === 'string' ? v : typeof v === 'object' ? Object.entries(v).map(([k, x]) => `${k}: ${Array.isArray(x) ? x.join(', ') : typeof x === 'object' ? JSON.stringify(x) : x}`).join(', ') : String(v);
}
