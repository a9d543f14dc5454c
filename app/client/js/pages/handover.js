// Hand-over: the owner is shown what the opening does, and signs for it.
import {h, say} from '../dom.js';
import {button, field, pad} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {t} from '../texts.js';
import {open} from './open.js';
import {show} from '../main.js';
import {signatures} from './accept.js';

// shown are the things to go through; those with an operator only where there is one.
const shown = [['what', true], ['buttons', true], ['off', true], ['breaker', true], ['alarm', true], ['powerless', true], ['byhand', false], ['daily', true], ['labels', true], ['may', false], ['maynot', false], ['call', false]];
const daily = ['press', 'smooth', 'hold', 'slow', 'latch', 'way', 'signs', 'noise'];

export default async function page(jobID, id) {
  const {job, o, here, place} = await open(jobID, id);
  const powered = o.use?.operation ? o.use.operation !== 'manual' : !!o.operator;
  const boxes = shown.filter(([, needs]) => powered || !needs).map(([key]) => {
    const box = h('input', {type: 'checkbox', id: 'show-' + key});
    return {key, box, element: h('div', {class: 'agree'}, box, h('label', {for: 'show-' + key}, t('handover.' + key)))};
  });
  const name = h('input', {type: 'text', autocomplete: 'off'});
  const role = h('input', {type: 'text', autocomplete: 'off'});
  const signature = pad(t('sign.here'));
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const sign = async () => {
    if (!name.value.trim()) { wrong.textContent = t('sign.noname'); return; }
    const told = boxes.filter(b => b.box.checked).map(b => t('handover.' + b.key));
    if (!told.length) { wrong.textContent = t('handover.nothing'); return; }
    const statement = {name: name.value.trim(), role: role.value.trim() || t('handover.owner'), text: t('handover.statement') + ' ' + told.join(' ')};
    const changes = [];
    if (signature.strokes()) {
      const blob = new Blob([`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 200"><path d="${signature.strokes()}" fill="none" stroke="#000" stroke-width="3"/></svg>`], {type: 'image/svg+xml'});
      statement.signature = await sync.keepBlob(blob);
      changes.push({kind: 'attach', value: JSON.stringify({what: 'signature', name: `signature of ${statement.name}.svg`, type: blob.type, hash: statement.signature, size: blob.size})});
    }
    await sync.make(job, id, ...changes, {kind: 'sign', value: JSON.stringify(statement), who: statement.name});
    say(t('sign.done'));
    await show();
  };
  const records = signatures(job, id);
  return {title: t('handover'), under: place, back: here, place, settled: records.show, content: [
    h('p', {class: 'how'}, t('handover.how')),
    h('section', {}, h('h2', {}, t('handover.go')), boxes.map(b => b.element)),
    powered ? h('section', {}, h('h2', {}, t('daily')), h('ol', {}, daily.map(d => h('li', {}, t('daily.' + d)))), h('p', {class: 'hint'}, t('daily.fail'))) : '',
    records.element,
    h('section', {class: 'signing'}, h('h2', {}, t('handover.sign')), field('owner', t('handover.name'), name), field('owner-role', t('sign.role'), role), h('p', {}, t('sign.pad')), signature.element, wrong),
    h('section', {class: 'care'}, h('p', {}, t('certifies'))),
  ], action: button(t('sign.do'), sign, 'main')};
}
