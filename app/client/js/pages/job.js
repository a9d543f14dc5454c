// One job: its openings with how they stand, what is missing and what is due; and taking it along.
import {alarm, h, say} from '../dom.js';
import {along, leave} from '../along.js';
import {answered, ask} from '../engine.js';
import {button, field, link, sign} from '../parts.js';
import {show} from '../main.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {day, moment, n, reader, t} from '../texts.js';
import {refusals} from './refused.js';
import {opening, parsed, part} from '../tree.js';

// narrowings are what the list can be narrowed to, and what the server is asked for each.
const narrowings = {
  all: {}, 'falls-short': {state: 'falls-short'}, undecided: {state: 'undecided'}, unknown: {state: 'unknown'}, 'in-order': {state: 'in-order'},
  missing: {missing: 1}, due: {due: inDays(60)}, conflicts: {conflicts: 1},
};

function inDays(days) {
  const date = new Date();
  date.setDate(date.getDate() + days);
  return date.toISOString().slice(0, 10);
}

export default async function page(id) {
  const [first, brief, refused] = await Promise.all([sync.list(id, {limit: sync.pageLength}), sync.brief(id), sync.refusals()]);
  const here = first && !brief?.waiting.size && !(brief && refused.some(r => r.job === id)) ? brief : await sync.job(id);
  const head = first ? first.job : headOf(here);
  const units = reader.units || head.units || 'us';
  const rows = h('nav', {class: 'rows', 'aria-label': t('openings')});
  const count = h('p', {class: 'count', role: 'status'});
  const more = button(t('list.more'), async () => { if (!await list.more()) await cut(); }, 'quiet');
  let list = first ? atServer(id, units, rows, first, here) : onDevice(here, units, rows);
  const tell = () => {
    more.hidden = !list.left;
    count.textContent = list.left ? t('list.first', {n: rows.children.length}) : n('openings', rows.children.length);
  };
  list.told = tell;
  // cut goes on with what is on this device, where the server cannot be reached any more
  const cut = async () => {
    const held = await sync.job(id).catch(() => null);
    if (!held) { alarm(t('along.none')); return; }
    list.live = false;
    list = onDevice(held, units, rows);
    list.told = tell;
    await list.narrow(search.value.trim(), narrowing.value);
    if (!held.whole) say(t('along.part'));
  };
  let soon = 0;
  const narrow = () => { clearTimeout(soon); soon = setTimeout(async () => { if (!await list.narrow(search.value.trim(), narrowing.value)) await cut(); }, first ? 200 : 0); };
  const search = h('input', {type: 'search', autocomplete: 'off', oninput: narrow});
  const words = key => t('list.' + key) + (key in (head.states || {}) ? ` (${head.states[key]})` : '');
  const narrowing = h('select', {onchange: narrow}, Object.keys(narrowings).map(key => h('option', {value: key}, words(key))));
  tell();
  return {title: head.name, rev: head.rev, under: [head.customer, head.site].filter(Boolean).join(' · '), back: '#/', place: t('job'), leave: () => { clearTimeout(soon); list.live = false; },
    content: [
      head.conflicts ? link(`#/job/${encodeURIComponent(id)}/conflicts`, n('conflicts', head.conflicts), t('conflicts.under'), sign('too close to call')) : '',
      await refusals(here || {id, keys: {}}),
      first || here.whole ? '' : h('p', {class: 'hint'}, t('along.part')),
      field('search', t('search'), search),
      field('narrowing', t('list.show'), narrowing),
      count, rows, more,
      taking(id, first && head.rev, here),
      beginning(id, here),
    ]};
}

const headOf = job => ({name: job.tree.job, customer: job.tree.customer, site: job.tree.site, units: job.tree.units, conflicts: job.conflicts.length});

// atServer lists openings as the server does, page by page, and asks again while it still reckons some of them. What narrows or
// lengthens the list tells whether the server could be reached.
function atServer(id, units, rows, first, here) {
  const list = {live: true, left: '', narrow, more, told: () => {}};
  let asked = {}, shown = [], round = 0;
  const changed = new Map(); // rows of what was changed here since, which this device reckons
  const waiting = here ? here.tree.openings.filter(o => here.waiting.has(here.keys[o.id])) : [];
  const put = (page, anew) => {
    if (anew) shown = [];
    shown.push(...page.openings);
    list.left = page.after;
    const there = new Set(shown.map(e => e.key));
    const begun = anew && !Object.keys(asked).length ? waiting.filter(o => here.begun.has(here.keys[o.id]) && !there.has(here.keys[o.id])) : [];
    const added = (anew ? shown : page.openings).map(e => rowOf(e));
    if (anew) rows.replaceChildren(...begun.map(o => own(o)), ...added);
    else rows.append(...added);
    if (shown.some(e => !e.stale)) answered.now();
    list.told();
    again(++round);
  };
  const own = o => {
    const key = here.keys[o.id];
    if (!changed.has(key)) {
      const row = rowFor(id, {id: o.id, name: o.name}, stateless(t('reckoning')));
      changed.set(key, row);
      reckoned(here, o, units).then(state => row.show(told(state, dueHere(here, o), !here.begun.has(key) ? '' : t('sign.waits'))), error => row.show(stateless(error.message.split('\n')[0])));
    }
    return changed.get(key).element;
  };
  const rowOf = e => {
    const o = here?.waiting.has(e.key) && opening(here.tree, e.id);
    return o ? own(o) : rowFor(id, e, entryTold(e)).element;
  };
  const again = async mine => { // what is reckoned now is there in a moment
    for (let pause = 300; list.live && mine === round && shown.some(e => e.stale && !here?.waiting.has(e.key)); pause = Math.min(pause * 1.5, 4000)) {
      await new Promise(done => setTimeout(done, pause));
      if (!list.live || mine !== round) return;
      const page = await sync.list(id, {...asked, limit: Math.min(shown.length, 1000)});
      if (!page || !list.live || mine !== round) return;
      page.openings.forEach((e, i) => {
        const at = shown.findIndex(s => s.key === e.key);
        if (at < 0 || !shown[at].stale || e.stale) return;
        shown[at] = e;
        const row = rows.querySelector(`[data-key="${CSS.escape(e.key)}"]`);
        const held = row && row === document.activeElement, fresh = rowFor(id, e, entryTold(e)).element;
        row?.replaceWith(fresh);
        if (held) fresh.focus({preventScroll: true});
      });
      if (shown.some(e => !e.stale)) answered.now();
    }
  };
  async function narrow(words, narrowing) {
    asked = {...words && {q: words}, ...narrowings[narrowing]};
    const mine = ++round;
    const page = await sync.list(id, {...asked, limit: sync.pageLength});
    if (page && mine === round) put(page, true);
    return !!page;
  }
  async function more() {
    const mine = round, focus = rows.children.length;
    const page = await sync.list(id, {...asked, after: list.left, limit: sync.pageLength});
    if (page && mine === round) {
      put(page, false);
      rows.children[focus]?.focus();
    }
    return !!page;
  }
  put(first, true);
  return list;
}

// onDevice lists what is held of a job; each opening is reckoned in its turn, so that the list is there at once.
function onDevice(job, units, rows) {
  const list = {live: true, left: '', narrow, more: async () => true, told: () => {}};
  let now = ['', 'all'];
  const all = job.tree.openings.map(o => ({o, state: null, words: JSON.stringify(o).toLowerCase(), due: dueHere(job, o),
    row: rowFor(job.id, {id: o.id, key: job.keys[o.id], name: o.name, in_place_of: o.in_place_of}, stateless(t('reckoning')))}));
  const fits = {
    all: () => true, missing: x => x.state?.gaps > 0, due: x => x.due && x.due < narrowings.due.due,
    conflicts: x => job.conflicts.some(c => c.subject === job.keys[x.o.id]),
  };
  async function narrow(words, narrowing) {
    now = [words, narrowing];
    const parts = words.toLowerCase().split(/\s+/).filter(Boolean);
    const fit = fits[narrowing] || (x => x.state?.standing === narrowing);
    rows.replaceChildren(...all.filter(x => fit(x) && parts.every(w => x.words.includes(w))).map(x => x.row.element));
    list.told();
    return true;
  }
  rows.replaceChildren(...all.map(x => x.row.element));
  (async () => {
    for (const x of all) {
      if (!list.live) return;
      try {
        x.state = await reckoned(job, x.o, units);
        x.row.show(told(x.state, x.due));
        if (now[1] !== 'all') await narrow(...now);
      } catch (error) {
        x.row.show(stateless(error.message.split('\n')[0]));
      }
    }
  })();
  return list;
}

// reckoned is how an opening stands by what this device has; what was reckoned of the same before is not reckoned again.
async function reckoned(job, o, units) {
  const key = await store.hashOf(new Blob([JSON.stringify(part(job.tree, o.id)) + job.rulesVersion]));
  let held = await store.get('states', key);
  if (!held) {
    held = {key, state: await ask('state', job, o.id, {units})};
    await store.put('states', held);
  }
  return held.state;
}

// dueHere is the day on which the yearly inspection is due: a year after the last sign-off.
function dueHere(job, o) {
  const signs = (job.records[job.keys[o.id]] || []).filter(r => r.kind === 'sign').map(r => r.made).sort();
  if (!signs.length) return '';
  const date = new Date(signs.at(-1));
  date.setFullYear(date.getFullYear() + 1);
  return date.toISOString().slice(0, 10);
}

// told is what a row says of an opening: its standing, and under its name the rest.
function told(state, due, more = '') {
  const says = [state.stops ? n('stops', state.stops) : state.gaps ? n('gaps', state.gaps) : '', state.measure ? n('tomeasure', state.measure) : '', state.doubts ? n('doubts', state.doubts) : '',
    due && t(new Date(due) < new Date() ? 'due.over' : 'due', {day: day(due)}), more];
  return {mark: sign(state.standing), under: [h('b', {}, t('standing.' + state.standing)), says.filter(Boolean).map(x => ' · ' + x).join('')]};
}

const stateless = words => ({mark: sign('unknown'), under: [words]});

function entryTold(e) {
  const state = e.summary && parsed(e.summary.detail);
  if (!state || e.stale && !e.summary.state) return stateless(t('reckoning'));
  return state.problems ? stateless(state.problems[0]) : told(state, e.summary.due, [e.stale ? t('reckoning') : '', e.conflicts ? n('conflicts', e.conflicts) : ''].filter(Boolean).join(' · '));
}

// rowFor is an opening of the list.
function rowFor(job, e, first) {
  const mark = h('span', {class: 'row-mark'}), under = h('span', {class: 'row-under'});
  const show = ({mark: m, under: u}) => { mark.replaceChildren(m); under.replaceChildren(...u); };
  const element = h('a', {class: 'row', 'data-key': e.key, href: `#/job/${encodeURIComponent(job)}/${encodeURIComponent(e.id)}`}, mark,
    h('span', {class: 'row-text'}, h('span', {class: 'row-title'}, h('b', {}, e.id), ' ', e.name || ''), e.in_place_of ? h('span', {class: 'row-under'}, t('list.instead', {id: e.in_place_of})) : '', under),
    h('span', {class: 'arrow', 'aria-hidden': 'true'}, '›'));
  show(first);
  return {element, show};
}

// taking is the part of the page that takes the job along, or tells that it is.
function taking(id, rev, here) {
  const whole = here?.whole;
  const progress = h('progress', {max: '1', value: '0', 'aria-label': t('along')}), words = h('p', {role: 'status', class: 'hint'}), wrong = h('p', {class: 'wrong', role: 'alert'});
  progress.hidden = true;
  const take = async () => {
    progress.hidden = false;
    wrong.textContent = '';
    try {
      const kept = await along(id, (what, done, of) => {
        progress.max = of;
        progress.value = done;
        words.textContent = t('along.' + what);
      });
      await store.remember('kept', kept);
      say(t('along.done'));
      await show();
    } catch (error) {
      progress.hidden = true;
      words.textContent = '';
      wrong.textContent = t(error.message === 'no-worker' ? 'along.noworker' : error.name === 'QuotaExceededError' ? 'along.full' : 'along.failed');
    }
  };
  if (whole && rev > whole.rev) along(id).catch(() => {}); // somebody changed something since
  const drop = async () => { await leave(id); say(t('along.left')); await show(); };
  const promise = h('p', {class: 'hint'});
  store.setting('kept').then(kept => { promise.textContent = whole ? t(kept ? 'along.kept' : 'along.notkept') : ''; });
  return h('section', {class: 'along'}, h('h2', {}, t('along')),
    whole ? [h('p', {}, t('along.here', {at: moment(whole.at)})), promise] : h('p', {}, t('along.how')),
    wrong, progress, words,
    rev ? button(t(whole ? 'along.again' : 'along.take'), take) : '',
    whole ? button(t('along.leave'), drop, 'quiet') : '');
}

// beginning is the part of the page that begins a new opening.
function beginning(id, here) {
  const name = h('input', {type: 'text', autocomplete: 'off', required: true});
  const where = h('input', {type: 'text', autocomplete: 'off'});
  const like = h('input', {type: 'text', autocomplete: 'off'});
  const wrong = (input, key) => { input.setCustomValidity(t(key)); input.reportValidity(); };
  for (const input of [name, like]) input.addEventListener('input', () => input.setCustomValidity(''));
  const find = wanted => sync.opening(id, wanted).catch(() => null);
  const begin = async event => {
    event.preventDefault();
    const fresh = name.value.trim(), same = like.value.trim();
    if (!fresh) { name.focus(); return; }
    if (await find(fresh)) { wrong(name, 'new.taken'); return; }
    if (same && !await find(same)) { wrong(like, 'new.like.unknown'); return; }
    await sync.take(id); // what stands around it, and the one before it
    const job = await sync.job(id);
    await sync.make(job, fresh, {kind: 'opening', subject: store.newKey(), value: JSON.stringify({id: fresh, ...where.value.trim() && {name: where.value.trim()}, ...same && {same_as: same}})});
    location.hash = `#/job/${encodeURIComponent(id)}/${encodeURIComponent(fresh)}/survey`;
  };
  return h('details', {class: 'more'}, h('summary', {}, t('new')),
    h('form', {onsubmit: begin}, field('new-id', t('new.id'), name), field('new-name', t('new.name'), where), field('new-like', t('new.like'), like, t('new.like.hint')),
      h('button', {type: 'submit', class: 'main'}, t('new.begin'))));
}
