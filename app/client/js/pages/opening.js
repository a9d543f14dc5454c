// One opening: what it is like, what to do with it, and where to go on.
import {flat, h} from '../dom.js';
import {ask} from '../engine.js';
import {figure, link, loose, pan, problem, said, sign, standing, verdict, waiting, word} from '../parts.js';
import {day, n, num, or, t} from '../texts.js';
import {open} from './open.js';
import {refusals} from './refused.js';

export default async function page(jobID, id) {
  const {job, o, units, home, here, place} = await open(jobID, id, true);
  const {answer, rest} = judged(job, o, units, here);
  const drawn = unfolds(t('pictures'), async () => (await ask('drawn', job, id, {units})).pictures.map(figure));
  const window = unfolds(t('window'), async () => settingWindow(await ask('window', job, id, {units})));
  return {title: id, under: o.name, back: home, place: job.tree.job, content: [
    await refusals(job, job.keys[id]),
    answer,
    h('nav', {class: 'tiles', 'aria-label': t('work')},
      link(here + '/survey', t('survey'), t('survey.under')),
      link(here + '/measure', t('measure'), t('measure.under')),
      link(here + '/tune', t('tune'), t('tune.under')),
      link(here + '/accept', t('accept'), t('accept.under')),
      link(here + '/handover', t('handover'), t('handover.under')),
      link(here + '/service', t('service'), t('service.under')),
      papers(job, id, units),
      link(here + '/history', t('history'), t('history.under'))),
    rest, drawn, window]};
}

// judged shows how an opening of a job stands and what to do with it. Where here is nothing it leads nowhere: the
// job is one of the past.
export function judged(job, o, units, here) {
  const answer = h('section', {class: 'answer', 'aria-live': 'polite'}, waiting());
  const rest = h('div', {});
  const todo = h('p', {class: 'todo'}, t('todo'), ' ', waiting()), ladder = h('div', {});
  ask('opening', job, o.id, {units}).then(card => {
    answer.replaceChildren(h('p', {class: 'standing'}, standing(card.standing)), todo);
    rest.replaceChildren(...parts(card, here, ladder, o));
    return ask('decide', job, o.id, {units});
  }).then(d => {
    todo.replaceChildren(t('todo'), ' ', h('b', {}, or('answer.' + d.answer, d.answer)));
    ladder.replaceChildren(
      d.rungs.length ? h('section', {}, h('h2', {}, t('todo.tests')), h('ul', {class: 'cards'}, d.rungs.map(rung))) : '',
      d.calls.length ? h('section', {}, h('h2', {}, t('calls')), h('ul', {}, d.calls.map(c => h('li', {}, said(`${c.Whom}: ${c.Why}`))))) : '');
  }).catch(error => answer.replaceChildren(problem(error)));
  return {answer, rest};
}

// papers leads to the packet, which the server prints.
const papers = (job, id, units) => h('a', {class: 'row', href: `/api/openings/${encodeURIComponent(job.keys[id])}/packet.pdf?units=${units}&paper=${units === 'si' ? 'a4' : 'letter'}`, target: '_blank', rel: 'noopener'},
  h('span', {class: 'row-text'}, h('span', {class: 'row-title'}, t('papers')), h('span', {class: 'row-under'}, t('papers.under'))));

// unfolds is a part of the page that is reckoned when it is first opened.
export function unfolds(words, make) {
  const content = h('div', {});
  let begun = false;
  return h('details', {class: 'more', ontoggle: async () => {
    if (begun) return;
    begun = true;
    content.replaceChildren(waiting());
    content.replaceChildren(...flat([await make().catch(problem)]));
  }}, h('summary', {}, words), content);
}

function parts(card, here, ladder, o) {
  const groups = [['falls short', true], ['too close to call', true], ['not measured', false], ['meets', false]];
  return [
    card.problem ? h('p', {class: 'problem'}, said(card.problem)) : '',
    card.doubts.length ? h('section', {}, h('h2', {}, t('doubts.title')), h('ul', {}, card.doubts.map(d => h('li', {}, said(`${d.Found}: ${d.Say}`), ' ', h('span', {class: 'hint'}, d.Field))))) : '',
    figure(card.picture),
    ladder,
    h('section', {}, h('h2', {}, t('moves')), moves(card)),
    drift(o),
    h('section', {}, h('h2', {}, t('findings')),
      groups.map(([v, shown]) => {
        const list = card.findings.filter(f => f.verdict === v);
        return list.length ? h('details', {class: 'more', open: shown}, h('summary', {}, verdict(v), ' ', h('b', {}, String(list.length))), h('ul', {class: 'cards'}, list.map(finding))) : '';
      })),
    card.gaps.length ? h('section', {}, h('h2', {}, n('gaps', card.gaps.length)), here ? h('p', {}, h('a', {class: 'button', href: here + '/survey'}, t('survey.go'))) : '') : '',
    h('section', {class: 'care'}, h('h2', {}, t('cautions')), h('ul', {}, card.cautions.map(c => h('li', {}, said(c.Text))))),
  ];
}

// moves tells how the leaf moves: what is reckoned beside what was measured.
function moves(card) {
  const predicted = new Map((card.predicted || []).map(f => [f.fact, plain(f.value)]));
  return pan(t('moves'), h('table', {'aria-label': t('moves')},
    h('thead', {}, h('tr', {}, h('th', {scope: 'col'}, t('moves.what')), h('th', {scope: 'col'}, t('moves.reckoned')), h('th', {scope: 'col'}, t('moves.measured')))),
    h('tbody', {}, card.facts.map(f => h('tr', {}, h('th', {scope: 'row'}, or('fact.' + f.fact, said(f.name))),
      h('td', {}, f.origin === 'measured' ? predicted.get(f.fact) || '–' : plain(f.value)), h('td', {}, f.origin === 'measured' ? plain(f.value) : '–'))))));
}

// plain is a value: yes and no in the reader's language.
const plain = text => ['yes', 'no'].includes(text) ? word(text) : text.startsWith('yes (') || text.startsWith('no (') ? said(text) : loose(text);

// drift lists what was measured more than once: then and now.
function drift(o) {
  const by = new Map();
  for (const r of o.readings || []) by.set(r.fact, [...by.get(r.fact) || [], r]);
  const again = [...by].filter(([, list]) => list.length > 1);
  const shown = r => r.value || (r.values || []).join(', ');
  return again.length ? h('section', {}, h('h2', {}, t('drift')), pan(t('drift'), h('table', {'aria-label': t('drift')},
    h('thead', {}, h('tr', {}, [t('moves.what'), t('drift.when'), t('moves.measured')].map(x => h('th', {scope: 'col'}, x)))),
    h('tbody', {}, again.flatMap(([fact, list]) => list.map((r, i) => h('tr', {}, h('th', {scope: 'row'}, or('fact.' + fact, fact)), h('td', {}, r.on ? day(r.on) : '–'), h('td', {}, shown(r))))))))) : '';
}

export function finding(f) {
  return h('li', {class: 'card'}, h('p', {class: 'card-title'}, sign(f.verdict), said(f.title)),
    h('p', {}, t('verdict.' + f.verdict), ': ', h('b', {}, said(f.found)), ' ', h('span', {class: 'hint'}, said(f.limit)), f.advice ? h('span', {class: 'tag'}, t('advice')) : f.caution ? h('span', {class: 'tag'}, t('unconfirmed')) : ''),
    h('p', {class: 'hint'}, said(f.source)),
    f.why ? h('p', {}, said(f.why)) : '',
    f.drivers ? h('p', {class: 'hint'}, t('drivers'), ' ', said(f.drivers)) : '');
}

function rung(r) {
  return h('li', {class: 'card'}, h('p', {class: 'card-title'}, sign(r.verdict), said(r.test)),
    h('p', {}, t('verdict.' + r.verdict), r.found !== '-' ? [': ', h('b', {}, said(r.found)), ' ', h('span', {class: 'hint'}, said(r.limit))] : ''),
    r.why ? h('p', {}, said(r.why)) : '', r.cures.map(c => h('p', {class: 'cure'}, said(c))), h('p', {class: 'hint'}, said(r.source)));
}

function settingWindow(w) {
  if (w.missing.length) return [h('p', {}, t('window.missing')), h('ul', {}, w.missing.map(x => h('li', {}, said(x))))];
  return [
    w.open ? h('p', {class: 'standing'}, t('window.open', {low: num(w.low, 2), high: num(w.high, 2), power: num(Number(w.power), 1)})) : h('p', {class: 'standing'}, t('window.none', {marked: w.marked})),
    w.open ? h('ul', {}, h('li', {}, t('tune.sweep valve'), ': ', said(w.sweep)), h('li', {}, t('tune.latch valve'), ': ', said(w.latch))) : '',
    ...w.conflicts.map(c => h('div', {}, h('p', {}, t('window.exclude')), h('ul', {}, c.map(x => h('li', {}, said(x)))))),
    w.changes.length ? h('div', {}, h('p', {}, t('window.changes')), h('ul', {}, w.changes.map(x => h('li', {}, said(x))))) : '',
    w.picture ? figure(w.picture) : '',
    h('ul', {class: 'hint'}, [...w.notes, ...w.left].map(x => h('li', {}, said(x))))];
}
