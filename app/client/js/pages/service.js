// A service call: what is complained of, and the tests that tell most for the least work.
import {h, say} from '../dom.js';
import {ask} from '../engine.js';
import {button, link, said, share} from '../parts.js';
import * as sync from '../sync.js';
import {or, t} from '../texts.js';
import {show} from '../main.js';
import {open} from './open.js';

// made are the tests of this call, by job, opening and complaint.
const made = new Map();

export default async function page(jobID, id, complaint) {
  const {job, units, here, place} = await open(jobID, id);
  if (!complaint) {
    const {complaints} = await ask('service', job, id, {units});
    return {title: t('service'), under: place, back: here, place, content: [h('p', {class: 'how'}, t('service.what')),
      h('nav', {class: 'rows', 'aria-label': t('service')}, complaints.map(c => link(`${here}/service/${c.key}`, or('complaint.' + c.key, said(c.title)))))]};
  }
  const key = [jobID, id, complaint].join('/');
  const seen = made.get(key) || [];
  const q = await ask('service', job, id, {units, complaint, made: seen.map(s => ({Test: s.step.key, Shown: s.shown}))});
  const answer = (step, shown) => { made.set(key, [...seen, {step, shown}]); show(); };
  const next = q.settled ? null : q.steps[0];
  const keep = async () => {
    const cause = q.likely[0];
    await sync.make(job, id, {kind: 'note', value: [`Service call: ${q.title}.`, ...seen.map(s => `${s.step.do} ${s.shown ? s.step.shows : 'Not so.'}`), `Likely: ${cause.what} (${Math.round(100 * cause.odds)} %). ${cause.fix}`].join('\n')});
    made.delete(key);
    say(t('saved'));
    location.hash = here.slice(1);
  };
  return {title: or('complaint.' + complaint, q.title), under: place, back: here + '/service', place, content: [
    next ? h('section', {class: 'test'}, h('h2', {}, t('service.next')), h('p', {class: 'how'}, said(next.do)), h('p', {}, t('service.see'), ' ', h('b', {}, said(next.shows))),
      h('div', {class: 'two'}, button(t('word.yes'), () => answer(next, true), 'main'), button(t('word.no'), () => answer(next, false), 'main'))) :
      h('section', {class: 'test'}, h('h2', {}, q.settled ? t('service.settled') : t('service.all')), h('p', {class: 'standing'}, said(q.likely[0].what)), h('p', {class: 'cure'}, said(q.likely[0].fix))),
    q.reasons.length ? h('section', {}, h('h2', {}, t('service.record')), h('ul', {}, q.reasons.map(r => h('li', {}, said(r))))) : '',
    h('section', {}, h('h2', {}, t('service.likely')), h('ul', {class: 'bars'}, q.likely.map(c => h('li', {}, h('span', {}, said(c.what)), share(c.odds), h('b', {}, Math.round(100 * c.odds) + ' %'))))),
    q.steps.length > 1 ? h('details', {class: 'more'}, h('summary', {}, t('service.then')), h('ol', {}, q.steps.slice(next ? 1 : 0).map(s => h('li', {}, said(s.do))))) : '',
    seen.length ? h('section', {}, h('h2', {}, t('service.made')), h('ul', {}, seen.map(s => h('li', {}, said(s.step.do), ' ', h('b', {}, t(s.shown ? 'word.yes' : 'word.no')))))) : '',
    h('p', {class: 'hint'}, said(q.source)),
    h('section', {class: 'care'}, h('h2', {}, t('cautions')), h('p', {}, t('service.care'))),
  ], action: seen.length ? button(t('service.keep'), keep, next ? 'quiet' : 'main') : ''};
}
