// An opening as it stood after some revision: what was known of it then, and what follows from that.
import {h} from '../dom.js';
import {figure, problem} from '../parts.js';
import * as sync from '../sync.js';
import {ask} from '../engine.js';
import {moment, or, t} from '../texts.js';
import {opening} from '../tree.js';
import {open} from './open.js';
import {judged, unfolds} from './opening.js';

export default async function page(jobID, id, rev) {
  const now = await open(jobID, id);
  const back = now.here + '/history';
  const about = {title: t('past'), under: now.place, back, place: now.place};
  let job, last;
  try {
    [job, [last]] = await Promise.all([sync.past(jobID, rev), sync.call('GET', `/api/jobs/${encodeURIComponent(jobID)}/changes?after=${Number(rev) - 1}&limit=1`)]);
  } catch (error) {
    return {...about, content: error.status ? problem(error) : h('p', {class: 'problem'}, t('history.offline'))};
  }
  const key = now.job.keys[id];
  const o = opening(job.tree, Object.keys(job.keys).find(x => job.keys[x] === key));
  if (!o) return {...about, content: h('p', {}, t('past.none'))};
  const {answer, rest} = judged(job, o, now.units, '');
  const signs = (job.records[key] || []).filter(r => r.kind === 'sign');
  return {...about, content: [
    h('p', {class: 'doubt past', 'data-rev': rev}, t('past.at', {n: rev, when: last ? moment(last.made) : '', who: last?.who || '', what: last ? [t('change.' + last.kind), last.path ? or('q.' + last.path, last.path) : ''].filter(Boolean).join(' ') : ''}), ' ', t('past.judged')),
    answer,
    signs.length ? h('section', {}, h('h2', {}, t('signed')), h('ul', {class: 'cards'}, signs.map(r => h('li', {class: 'card'}, h('p', {class: 'card-title'}, JSON.parse(r.value).name), h('p', {}, JSON.parse(r.value).text), h('p', {class: 'hint'}, moment(r.made), r.seal ? [' · ', h('code', {}, r.seal.slice(0, 16))] : ''))))) : '',
    rest,
    unfolds(t('pictures'), async () => (await ask('drawn', job, o.id, {units: now.units})).pictures.map(figure)),
  ]};
}
