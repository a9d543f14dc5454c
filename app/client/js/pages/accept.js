// Acceptance: what was measured against its limits, what is still to be, and the sign-off.
import {h, say} from '../dom.js';
import {ask} from '../engine.js';
import {button, field, pad, said, standing} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {day, n, or, t} from '../texts.js';
import {show} from '../main.js';
import {finding} from './opening.js';
import {open} from './open.js';

export default async function page(jobID, id) {
  const {job, o, units, here, place} = await open(jobID, id);
  const card = await ask('opening', job, id, {units});
  const measured = card.findings.filter(f => f.origin === 'measured' && f.verdict !== 'does not apply' && !f.advice);
  const records = signatures(job, id);
  const name = h('input', {type: 'text', autocomplete: 'name', value: await store.setting('name', '')});
  const role = h('input', {type: 'text', autocomplete: 'organization-title', value: await store.setting('role', '')});
  const agreed = h('input', {type: 'checkbox', id: 'agreed', onchange: () => { wrong.textContent = ''; }});
  const signature = pad(t('sign.here'));
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const sign = async () => {
    const missing = !name.value.trim() ? 'sign.noname' : !agreed.checked ? 'sign.notagreed' : '';
    wrong.textContent = missing && t(missing);
    if (missing) return;
    await store.remember('name', name.value.trim());
    await store.remember('role', role.value.trim());
    const drawn = signature.strokes();
    const attached = [];
    const statement = {text: t('sign.statement', {standing: t('standing.' + card.accepted), measured: measured.length, open: card.measure.length}), name: name.value.trim(), role: role.value.trim()};
    if (drawn) {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 200"><path d="${drawn}" fill="none" stroke="#000" stroke-width="3"/></svg>`;
      const blob = new Blob([svg], {type: 'image/svg+xml'});
      statement.signature = await sync.keepBlob(blob);
      attached.push({kind: 'attach', value: JSON.stringify({what: 'signature', name: `signature of ${statement.name}.svg`, type: blob.type, hash: statement.signature, size: blob.size})});
    }
    await sync.make(job, id, ...attached, {kind: 'sign', value: JSON.stringify(statement), who: statement.name});
    say(t('sign.done'));
    await show();
  };
  return {title: t('accept'), under: place, back: here, place, settled: records.show, content: [
    h('p', {class: 'standing'}, standing(card.accepted)),
    h('section', {}, h('h2', {}, t('measured')), measured.length ? h('ul', {class: 'cards'}, measured.map(finding)) : h('p', {}, t('measured.none'))),
    card.measure.length ? h('section', {}, h('h2', {}, n('tomeasure', card.measure.length)), h('ul', {}, card.measure.map(m => h('li', {}, or('fact.' + m.fact, said(m.meaning))))), h('p', {}, h('a', {class: 'button', href: here + '/measure'}, t('measure.go')))) : '',
    records.element,
    h('section', {class: 'signing'}, h('h2', {}, t('sign')),
      field('sign-name', t('settings.name'), name), field('sign-role', t('sign.role'), role),
      h('p', {}, t('sign.pad')), signature.element,
      h('div', {class: 'agree'}, agreed, h('label', {for: 'agreed'}, t('sign.agree'))), wrong),
  ], action: button(t('sign.do'), sign, 'main')};
}

// signatures are those of an opening; show takes them anew from what the book has.
export function signatures(job, id) {
  const element = h('section', {});
  const fill = job => {
    const all = (job.records[job.keys[id]] || []).filter(r => r.kind === 'sign');
    element.replaceChildren(...all.length ? [h('h2', {}, t('signed')), h('ul', {class: 'cards'}, all.map(r => signed(r, `#/job/${encodeURIComponent(job.id)}/${encodeURIComponent(id)}`)))] : []);
  };
  fill(job);
  return {element, show: async () => fill(await sync.opening(job.id, id, true))};
}

function signed(r, here) {
  const s = JSON.parse(r.value);
  return h('li', {class: 'card', 'data-sign': r.id}, h('p', {class: 'card-title'}, `${s.name}${s.role ? ', ' + s.role : ''}`), h('p', {}, s.text), h('p', {class: 'hint'}, day(r.made), ' · ', r.waiting ? t('sign.waits') : r.outcome === 'conflict' ? t('sign.conflict') : r.outdated ? t('sign.outdated') + ' · ' : '', r.seal && !r.waiting ? h('span', {}, t('sign.seal'), ' ', h('code', {}, r.seal.slice(0, 16))) : ''),
    r.n && r.outcome !== 'conflict' ? h('p', {}, h('a', {class: 'button quiet', href: `${here}/history/${r.n}`}, t('sign.see'))) : '');
}
