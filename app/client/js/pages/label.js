// A label whose opening could not be found: why that may be, and what can be done.
import {h} from '../dom.js';
import {button, link} from '../parts.js';
import * as sync from '../sync.js';
import {t} from '../texts.js';

export default async function page(key) {
  const {at, asked} = await sync.labelled(key);
  if (at) return {to: `#/job/${encodeURIComponent(at.job)}/${encodeURIComponent(at.id)}`};
  if (sync.state.out) {
    sessionStorage.setItem('label', key);
    return {to: '#/sign-in'};
  }
  const who = asked ? await sync.session() : null;
  const again = () => dispatchEvent(new Event('hashchange'));
  addEventListener('online', again);
  return {title: t('label.title'), back: '#/', leave: () => removeEventListener('online', again), content: [
    h('p', {class: 'standing'}, t(asked ? 'label.unknown' : 'label.offline')),
    h('p', {}, t('label.says'), ' ', h('code', {}, key)),
    h('section', {}, h('h2', {}, t('label.do')), h('ul', {}, (asked ? ['label.do.account', 'label.do.server', 'label.do.gone'] : ['label.do.network', 'label.do.along', 'label.do.note']).map(x => h('li', {}, t(x))))),
    h('nav', {class: 'rows', 'aria-label': t('label.do')},
      link('#/', t('jobs'), t(asked ? 'label.jobs' : 'label.jobs.here')),
      who?.needed ? link('#/sign-in', t('sign.in'), t('label.sign.in', {name: who.name})) : ''),
  ], action: button(t('label.again'), again, 'main')};
}
