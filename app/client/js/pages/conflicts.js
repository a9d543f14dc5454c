// Conflicts: two devices changed the same thing without knowing of each other. Both are
// shown, and both stay in the history whichever is chosen.
import {h, say} from '../dom.js';
import {said} from '../parts.js';
import * as sync from '../sync.js';
import {moment, or, t} from '../texts.js';
import {parsed} from '../tree.js';
import {show} from '../main.js';

export default async function page(jobID) {
  const told = await sync.list(jobID, {conflicts: 1, limit: 50});
  for (const e of told?.openings || []) await sync.take(jobID, {key: e.key});
  const job = told && !told.openings.length ? {keys: {}, conflicts: [], tree: {job: told.job.name}} : await sync.job(jobID);
  if (told) job.conflicts = job.conflicts.filter(c => told.openings.some(e => e.key === c.subject)); // what is settled elsewhere may still be held
  const idOf = key => Object.keys(job.keys).find(id => job.keys[id] === key);
  const card = c => {
    const id = idOf(c.subject) || '';
    const pick = async value => {
      await sync.make(job, id, {kind: 'resolve', path: c.path, value, subject: c.subject});
      await sync.flush();
      say(t('saved'));
      await show();
    };
    const side = (who, made, value) => h('button', {type: 'button', class: 'side', onclick: () => pick(value)}, h('b', {}, shown(value)), h('span', {class: 'hint'}, who, ' · ', moment(made)), h('span', {class: 'pick'}, t('conflicts.pick')));
    return h('li', {class: 'card', 'data-conflict': c.id}, h('p', {class: 'card-title'}, `${id} · `, or('q.' + c.path, c.path || t('conflicts.whole'))),
      c.path ? h('div', {class: 'two'}, side(c.now.who, c.now.made, c.now.value), side(c.who, c.made, c.value)) : h('div', {}, h('p', {}, said(c.value)), h('button', {type: 'button', onclick: () => pick('')}, t('conflicts.seen'))));
  };
  return {title: t('conflicts'), back: '#/job/' + encodeURIComponent(jobID), place: job.tree.job, content: [
    h('p', {class: 'how'}, t('conflicts.how')),
    (job.conflicts || []).length ? h('ul', {class: 'cards'}, job.conflicts.map(card)) : h('p', {}, t('conflicts.none'))]};
}

function shown(value) {
  const v = parsed(value);
  return v === undefined ? t('change.blank') : typeof v === 'string' ? v : JSON.stringify(v);
}
