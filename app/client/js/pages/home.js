// The jobs.
import {h} from '../dom.js';
import {link} from '../parts.js';
import * as sync from '../sync.js';
import {n, t} from '../texts.js';

export default async function home() {
  const jobs = await sync.jobs();
  if (jobs.length === 0 && sync.state.out) return {to: '#/sign-in'};
  if (jobs.length === 1 && !sessionStorage.getItem('home')) {
    sessionStorage.setItem('home', 'seen');
    return {to: '#/job/' + encodeURIComponent(jobs[0].key)};
  }
  return {title: t('jobs'), content: jobs.length
    ? h('nav', {'aria-label': t('jobs'), class: 'rows'}, jobs.map(j => link('#/job/' + encodeURIComponent(j.key), j.name, [j.site, n('openings', j.openings)].filter(Boolean).join(' · '))))
    : h('p', {class: 'empty'}, sync.state.online ? t('jobs.none') : t('jobs.none.offline'))};
}
