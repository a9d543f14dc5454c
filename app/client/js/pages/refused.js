// What was entered here and the book could never carry out. It is kept as a note in the history, and shown
// until somebody has seen it.
import {h} from '../dom.js';
import {button, said} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {moment, or, t} from '../texts.js';
import {parsed} from '../tree.js';

// refusals shows those of a job, or with a subject those of one opening; an empty text where there are none.
export async function refusals(job, subject) {
  const list = (await sync.refusals()).filter(r => r.job === job.id && (!subject || r.subject === subject));
  if (!list.length) return '';
  const section = h('section', {class: 'doubt refused', 'aria-labelledby': 'refused'}, h('h2', {id: 'refused'}, t('refused')), h('p', {}, t('refused.how')));
  const idOf = key => Object.keys(job.keys).find(id => job.keys[id] === key) || '';
  const card = r => {
    const seen = async () => {
      await sync.seen(r.id);
      element.remove();
      if (!section.querySelector('.card')) section.remove();
      document.querySelector('h1').focus();
    };
    const value = parsed(r.value), file = r.kind === 'attach' ? value : null;
    const element = h('div', {class: 'card', 'data-refused': r.id},
      h('p', {class: 'card-title'}, [subject ? '' : idOf(r.subject), t('change.' + r.kind), r.path ? or('q.' + r.path, r.path) : ''].filter(Boolean).join(' ')),
      h('p', {class: 'lines'}, file ? file.name : typeof value === 'object' ? JSON.stringify(value) : value ?? t('change.blank')),
      h('p', {}, said(r.why)),
      h('p', {class: 'hint'}, moment(r.made), r.stuck ? ' · ' + t('refused.stuck') : ''),
      h('div', {class: 'two'}, file ? button(t('refused.file'), () => save(file)) : '', button(t('refused.seen'), seen)));
    return element;
  };
  section.append(...list.map(card));
  return section;
}

// save gives a photo or recording that the book does not take to the device as a file.
async function save(file) {
  const held = await store.get('blobs', file.hash);
  if (!held) return;
  const address = URL.createObjectURL(held.blob);
  h('a', {href: address, download: file.name}).click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
