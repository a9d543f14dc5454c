// One job: its openings with how they stand, what is missing and what is due.
import {h} from '../dom.js';
import {ask} from '../engine.js';
import {button, field, link, sign} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {day, n, reader, t} from '../texts.js';
import {refusals} from './refused.js';
import {part} from '../tree.js';

export default async function page(id) {
  const job = await sync.job(id);
  const units = reader.units || job.tree.units || 'us';
  let live = true;
  const rows = job.tree.openings.filter(o => !o.in_place_of).map(o => row(job, o));
  const count = h('p', {class: 'count', role: 'status'});
  const tell = () => { count.textContent = n('openings', rows.filter(r => !r.element.hidden).length); };
  const search = h('input', {type: 'search', autocomplete: 'off', oninput: () => {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    for (const r of rows) r.element.hidden = !words.every(w => r.words.includes(w));
    tell();
  }});
  tell();
  (async () => { // each is reckoned in its turn, so that the list is there at once
    for (const r of rows) {
      if (!live) return;
      await r.reckon(units).catch(error => r.fail(error));
    }
  })();
  const name = h('input', {type: 'text', autocomplete: 'off', required: true});
  const where = h('input', {type: 'text', autocomplete: 'off'});
  const like = h('select', {}, h('option', {value: ''}, t('new.like.none')), job.tree.openings.filter(o => !o.in_place_of).map(o => h('option', {value: o.id}, `${o.id} ${o.name || ''}`)));
  const begin = async event => {
    event.preventDefault();
    const fresh = name.value.trim();
    if (!fresh) { name.focus(); return; }
    if (job.tree.openings.some(o => o.id === fresh)) { name.setCustomValidity(t('new.taken')); name.reportValidity(); return; }
    const fields = {id: fresh, ...where.value.trim() && {name: where.value.trim()}, ...like.value && {same_as: like.value}};
    await sync.make(job, fresh, {kind: 'opening', subject: store.newKey(), value: JSON.stringify(fields)});
    location.hash = `#/job/${encodeURIComponent(id)}/${encodeURIComponent(fresh)}/survey`;
  };
  name.addEventListener('input', () => name.setCustomValidity(''));
  const open = (job.conflicts || []).length;
  return {title: job.tree.job, under: [job.tree.customer, job.tree.site].filter(Boolean).join(' · '), back: '#/', place: t('job'), leave: () => { live = false; },
    content: [
      open ? link(`#/job/${encodeURIComponent(id)}/conflicts`, n('conflicts', open), t('conflicts.under'), sign('too close to call')) : '',
      await refusals(job),
      field('search', t('search'), search),
      count,
      h('nav', {class: 'rows', 'aria-label': t('openings')}, rows.map(r => r.element)),
      h('details', {class: 'more'}, h('summary', {}, t('new')),
        h('form', {onsubmit: begin}, field('new-id', t('new.id'), name), field('new-name', t('new.name'), where), field('new-like', t('new.like'), like, t('new.like.hint')),
          h('button', {type: 'submit', class: 'main'}, t('new.begin')))),
    ]};
}

// dueOf tells when the yearly inspection is due: a year after the last sign-off.
function dueOf(job, o) {
  const signs = (job.records[job.keys[o.id]] || []).filter(r => r.kind === 'sign').map(r => r.made).sort();
  if (!signs.length) return '';
  const date = new Date(signs.at(-1));
  date.setFullYear(date.getFullYear() + 1);
  return t(date < new Date() ? 'due.over' : 'due', {day: day(date)});
}

// row is an opening of the list.
function row(job, o) {
  const mark = h('span', {class: 'row-mark'}, sign('unknown'));
  const under = h('span', {class: 'row-under'}, t('reckoning'));
  const element = h('a', {class: 'row', href: `#/job/${encodeURIComponent(job.id)}/${encodeURIComponent(o.id)}`}, mark,
    h('span', {class: 'row-text'}, h('span', {class: 'row-title'}, h('b', {}, o.id), ' ', o.name || ''), under), h('span', {class: 'arrow', 'aria-hidden': 'true'}, '›'));
  const due = dueOf(job, o);
  const show = state => {
    mark.replaceChildren(sign(state.standing));
    under.replaceChildren(h('b', {}, t('standing.' + state.standing)),
      [state.stops ? n('stops', state.stops) : state.gaps ? n('gaps', state.gaps) : '', state.measure ? n('tomeasure', state.measure) : '', state.doubts ? n('doubts', state.doubts) : '', due]
        .filter(Boolean).map(x => ' · ' + x).join(''));
  };
  return {
    element, words: JSON.stringify(o).toLowerCase(),
    fail: error => { under.textContent = error.message.split('\n')[0]; },
    async reckon(units) {
      const of = JSON.stringify(part(job.tree, o.id)) + job.rulesVersion;
      const key = await store.hashOf(new Blob([of]));
      let held = await store.get('states', key);
      if (!held) {
        held = {key, state: await ask('state', job, o.id, {units})};
        await store.put('states', held);
      }
      show(held.state);
    },
  };
}
