// The jobs, and a search over everything in them.
import {h} from '../dom.js';
import {field, link} from '../parts.js';
import * as sync from '../sync.js';
import {n, t} from '../texts.js';

export default async function home() {
  const jobs = await sync.jobs();
  if (jobs.length === 0 && sync.state.out) return {to: '#/sign-in'};
  if (jobs.length === 1 && !sessionStorage.getItem('home')) {
    sessionStorage.setItem('home', 'seen');
    return {to: '#/job/' + encodeURIComponent(jobs[0].key)};
  }
  const to = (...steps) => '#/job/' + steps.map(encodeURIComponent).join('/');
  const all = jobs.map(j => link(to(j.key), j.name, [j.site, n('openings', j.openings)].filter(Boolean).join(' · ')));
  const rows = h('nav', {'aria-label': t('jobs'), class: 'rows'}, all);
  const count = h('p', {class: 'count', role: 'status'});
  const nameOf = new Map(jobs.map(j => [j.key, j.name]));
  let soon = 0, round = 0;
  const search = h('input', {type: 'search', autocomplete: 'off', oninput: () => {
    clearTimeout(soon);
    const mine = ++round;
    soon = setTimeout(async () => {
      const words = search.value.trim();
      const found = words ? await sync.search(words) : [];
      if (mine !== round) return;
      const shown = !words ? all : (found || []).filter(f => ['opening', 'job'].includes(f.kind)).map(f => f.kind === 'job' ? link(to(f.job), f.name) : link(to(f.job, f.name), [h('b', {}, f.name), ' ', f.title], nameOf.get(f.job)));
      rows.replaceChildren(...shown);
      count.textContent = !words ? '' : found ? n('found', shown.length) : t('search.offline');
    }, 200);
  }});
  return {title: t('jobs'), leave: () => clearTimeout(soon), content: jobs.length
    ? [field('search', t('search.all'), search), count, rows]
    : h('p', {class: 'empty'}, sync.state.online ? t('jobs.none') : t('jobs.none.offline'))};
}
