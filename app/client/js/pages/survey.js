// The guided survey: one question at a time, and only what matters for this opening.
import {h, say} from '../dom.js';
import {ask} from '../engine.js';
import {button, choices, field, picks, problem, said, stepper, word} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {n, or, t} from '../texts.js';
import {show} from '../main.js';
import {at} from '../tree.js';
import {open, today} from './open.js';

// later are the questions that were put off in this visit.
const later = new Map();

export default async function page(jobID, id) {
  const {job, o, units, here, place} = await open(jobID, id);
  const survey = await ask('survey', job, id, {units});
  const off = later.get(id) || new Set();
  later.set(id, off);
  const open_ = survey.questions.filter(q => q.parts.length);
  const left = open_.filter(q => !off.has(q.gap));
  const q = left[0];
  const back = here;
  const doubts = survey.doubts.length ? h('section', {class: 'doubt', 'aria-label': t('doubts.title')}, h('h2', {}, t('doubts.title')),
    survey.doubts.map(d => h('div', {}, h('p', {}, said(`${d.Found}: ${d.Say}`), d.Usual ? h('span', {class: 'hint'}, ' ', said(d.Usual)) : ''),
      button(t('doubts.mend', {field: or('q.' + d.Field, d.Field)}), () => mend(d.Field))))) : '';
  const mend = path => make(async () => { await sync.make(job, id, sync.set(path, null)); off.delete(path); });
  const make = async work => { await work(); await show(); };
  if (!q) {
    return {title: t('survey.done'), under: place, back, place, content: [doubts,
      h('p', {}, open_.length ? n('survey.off', open_.length) : t('survey.all')),
      photo(job, id, ''),
      open_.length ? button(t('survey.again'), () => { off.clear(); show(); }) : ''],
    action: h('a', {class: 'main', href: back}, t('survey.back'))};
  }
  const filled = new Map();
  const error = h('p', {class: 'wrong', role: 'alert', id: 'wrong'});
  const save = () => make(async () => {
    const changes = [];
    for (const [path, text] of filled) {
      const words = typeof text === 'function' ? text() : text;
      if (words) changes.push(sync.set(path, words));
    }
    if (!changes.length) { error.textContent = t('survey.empty'); throw new Error('empty'); }
    for (const part of q.parts.filter(p => p.kind === 'quantity' && filled.has(p.path))) {
      const text = filled.get(part.path)();
      if (!text) continue;
      const value = await ask('value', job, id, {units, field: part.path, text});
      if (!value.ok) { error.textContent = value.reason; throw new Error('wrong'); }
    }
    const gauged = path => path.startsWith('closer.gauged[');
    const record = changes.filter(c => gauged(c.path));
    if (record.length) { // the parts of a list's item go in as one item
      changes.push(sync.add('closer.gauged', Object.fromEntries(record.map(c => [c.path.split('.').pop(), JSON.parse(c.value)]))));
    }
    await sync.make(job, id, ...changes.filter(c => !gauged(c.path)));
    say(t('saved'));
  }).catch(e => { if (e.message !== 'empty' && e.message !== 'wrong') throw e; });
  const single = q.parts.length === 1 && ['choice', 'sheet'].includes(q.parts[0].kind);
  const inputs = q.parts.map((part, i) => input(part, i, q, filled, single ? save : null));
  const last = q.parts.filter(p => p.last && p.last !== p.told);
  const done = open_.length - left.length;
  return {title: or('q.' + q.gap, sentence(q.parts[0].doc)), under: n('survey.left', left.length), back, place,
    content: [
      h('progress', {max: String(left.length + done), value: String(done), 'aria-label': n('survey.left', left.length)}),
      doubts,
      h('p', {class: 'how'}, said(q.how)),
      h('form', {class: 'question', onsubmit: e => { e.preventDefault(); save(); }}, inputs, error,
        last.length && survey.last ? h('button', {type: 'button', class: 'same', onclick: () => make(() => sync.make(job, id, ...last.map(p => sync.set(p.path, p.last))))},
          t('survey.same', {id: survey.last}), ' ', h('b', {}, last.map(p => word(p.last)).join(', '))) : '',
        h('button', {type: 'submit', class: 'hidden-submit', tabindex: '-1', 'aria-hidden': 'true'})),
      h('details', {class: 'more'}, h('summary', {}, t('survey.why')), h('p', {}, said(q.why)), q.stops ? h('p', {}, t('survey.stops'), ' ', said(q.stops)) : ''),
      photo(job, id, q.gap),
    ],
    action: [button(t('survey.later'), () => { off.add(q.gap); show(); }, 'quiet'), single ? '' : button(t('survey.next'), save, 'main')]};
}

const sentence = text => text.replace(/\.$/, '');

function input(part, i, q, filled, save) {
  const label = or('q.' + part.path, sentence(part.doc));
  const key = 'p' + i;
  if (part.kind === 'choice' || part.kind === 'sheet') {
    if (!part.choices.length) return q.parts.length > 1 ? '' : h('p', {}, t('survey.nosheet'));
    const none = part.path.endsWith('.none');
    const options = part.choices.map(c => [c, none ? t('none.' + part.path.split('.')[0]) : word(c)]);
    const fill = value => filled.set(part.path, value);
    return save ? picks(key, label, options, part.told, value => { fill(value); save(); }) : choices(key, label, options, part.told, fill);
  }
  if (part.kind === 'quantity') {
    const st = stepper(key, label + (part.unit ? ` (${part.unit})` : ''), part, part.told || '');
    filled.set(part.path, st.text);
    return st.element;
  }
  const text = h('input', {type: 'text', inputmode: part.kind === 'number' ? 'numeric' : 'text', autocomplete: 'off', value: part.told});
  filled.set(part.path, () => text.value.trim());
  return field(key, label, text);
}

// photo takes a photo and keeps it with the opening.
export function photo(job, id, about) {
  const file = h('input', {type: 'file', accept: 'image/*', capture: 'environment', class: 'camera', id: 'photo', onchange: async () => {
    const image = file.files[0];
    if (!image) return;
    const blob = await smaller(image);
    const hash = await sync.keepBlob(blob);
    await sync.make(job, id, {kind: 'attach', value: JSON.stringify({what: 'photo', name: `${about || 'photo'} ${today()}.jpg`, type: blob.type, hash, size: blob.size}), instrument: 'camera'});
    say(t('photo.kept'));
  }});
  return h('div', {class: 'field photo'}, h('label', {for: 'photo', class: 'button'}, t('photo.take')), file);
}

// smaller draws a photo anew, at most 1600 px wide, without what the camera wrote into it.
async function smaller(file) {
  const image = await createImageBitmap(file);
  const scale = Math.min(1, 1600 / Math.max(image.width, image.height));
  const canvas = h('canvas', {width: Math.round(image.width * scale), height: Math.round(image.height * scale)});
  canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise(resolve => canvas.toBlob(resolve, 'image/jpeg', 0.8));
}
