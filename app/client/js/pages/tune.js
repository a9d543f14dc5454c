// Tuning: which screw, which way, how far, and what it will come to.
import {h, s, say} from '../dom.js';
import {ask} from '../engine.js';
import {button, choices, figure, loose, pan, problem, said, sign, stepper, waiting} from '../parts.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {num, or, t} from '../texts.js';
import {show} from '../main.js';
import {open, today} from './open.js';

export default async function page(jobID, id) {
  const {job, o, units, here, place} = await open(jobID, id);
  const advice = await ask('tune', job, id, {units});
  const base = {title: t('tune'), under: place, back: here, place};
  if (advice.missing.length) {
    const count = counted(job, o, advice.missing);
    return {...base, content: [h('p', {}, t('tune.missing')), h('ul', {}, advice.missing.map(x => h('li', {}, said(x)))), count], action: count ? '' : h('a', {class: 'main', href: here + '/survey'}, t('survey.go'))};
  }
  const turned = advice.moves.length ? after(job, o, advice) : '';
  return {...base, content: [
    h('p', {class: 'standing'}, t('tune.do.' + advice.do)),
    advice.moves.map(move),
    advice.notes.map(x => h('p', {class: 'hint'}, said(x))),
    advice.conflicts.map(c => h('div', {}, h('p', {}, t('window.exclude')), h('ul', {}, c.map(x => h('li', {}, said(x)))))),
    times(advice),
    demands(advice),
    advice.picture ? h('details', {class: 'more', open: true}, h('summary', {}, t('tune.picture')), figure(advice.picture)) : '',
    turned,
    h('p', {class: 'hint'}, t('tune.restore'), ' ', said(advice.restore)),
    h('section', {class: 'care'}, h('h2', {}, t('cautions')), h('p', {}, t('tune.care'))),
  ]};
}

// counted asks for the turns of the valves where only they are missing.
function counted(job, o, missing) {
  const fields = missing.map(x => /\((closer\.(?:sweep|latch)_turns)\)/.exec(x)?.[1]);
  if (fields.some(f => !f)) return '';
  const inputs = fields.map((f, i) => [f, stepper('turns' + i, t('q.' + f), {unit: 'turns', step: 0.125}, '')]);
  const keep = async () => {
    const changes = inputs.filter(([, st]) => st.text()).map(([f, st]) => sync.set(f, st.text()));
    if (!changes.length) return;
    await sync.make(job, o.id, ...changes);
    say(t('saved'));
    await show();
  };
  return h('section', {}, h('h2', {}, t('tune.count')), h('p', {class: 'how'}, t('tune.count.how')), inputs.map(([, st]) => st.element), button(t('keep'), keep, 'main'));
}

// move draws a screw and the way to turn it.
function move(m) {
  const valve = m.turns > 0;
  const words = valve ? t(m.more ? 'tune.open' : 'tune.close', {turns: eighths(Math.abs(m.turns))}) : t(m.more ? 'tune.stronger' : 'tune.weaker', {from: num(m.from, 1), to: num(m.to, 1)});
  return h('div', {class: 'move'}, valve ? screw(m) : spring(m), h('div', {}, h('p', {class: 'part'}, t('tune.' + m.part)), h('p', {class: 'turn'}, words),
    h('p', {class: 'hint'}, t('tune.from', {from: num(m.from, 0, 3), to: num(m.to, 0, 3)})), m.learned ? '' : h('p', {class: 'hint'}, t('tune.unlearned'))));
}

// eighths writes turns as a screwdriver turns them.
function eighths(turns) {
  const n = Math.round(turns * 8);
  if (Math.abs(turns * 8 - n) > 0.2) return num(turns, 2);
  const whole = Math.floor(n / 8), rest = n % 8;
  const parts = {0: '', 1: '1/8', 2: '1/4', 3: '3/8', 4: '1/2', 5: '5/8', 6: '3/4', 7: '7/8'};
  return [whole || '', parts[rest]].filter(Boolean).join(' ') || '0';
}

function screw(m) {
  const sweep = Math.min(Math.max(Math.abs(m.turns), 0.06), 0.9) * 360 * (m.more ? -1 : 1); // to the right shuts
  const rad = a => (a - 90) * Math.PI / 180;
  const r = 42, point = (a, q = r) => `${(60 + q * Math.cos(rad(a))).toFixed(1)} ${(60 + q * Math.sin(rad(a))).toFixed(1)}`;
  const end = sweep, tip = sweep + (m.more ? -14 : 14);
  return s('svg', {viewBox: '0 0 120 120', class: 'screw', 'aria-hidden': 'true'},
    s('circle', {cx: 60, cy: 60, r: 27, class: 'head'}), s('path', {d: `M${point(0, 22)}L${point(180, 22)}`, class: 'slot'}), s('path', {d: `M${point(sweep, 22)}L${point(sweep + 180, 22)}`, class: 'slot then'}),
    s('path', {d: `M${point(0)}A${r} ${r} 0 ${Math.abs(sweep) > 180 ? 1 : 0} ${m.more ? 0 : 1} ${point(end)}`, class: 'way'}), s('path', {d: `M${point(end, r - 9)}L${point(tip)}L${point(end, r + 9)}Z`, class: 'tip'}));
}

const spring = m => s('svg', {viewBox: '0 0 120 120', class: 'screw', 'aria-hidden': 'true'}, s('path', {d: 'M15 60l10-22 15 44 15-44 15 44 15-44 10 22', class: 'way'}), s('path', {d: m.more ? 'M60 10l14 18H46Z' : 'M60 110l14-18H46Z', class: 'tip'}));

const times = a => a.times.length ? pan(t('tune.times'), h('table', {}, h('caption', {}, t('tune.times')), h('thead', {}, h('tr', {}, [t('tune.between'), t('tune.now'), t('tune.then')].map(x => h('th', {scope: 'col'}, x)))),
  h('tbody', {}, a.times.map(x => h('tr', {}, h('th', {scope: 'row'}, `${x.from} – ${x.to}`.replaceAll(' deg', '°')), h('td', {}, loose(x.now)), h('td', {}, loose(x.after || '–'))))))) : '';

const demands = a => h('ul', {class: 'cards'}, a.demands.map(d => h('li', {class: 'card'}, h('p', {class: 'card-title'}, sign(d.verdict_after || d.verdict), said(d.what)), h('p', {}, said(d.limit)),
  h('p', {}, t('tune.now'), ' ', h('b', {}, said(d.now)), ' ', t('verdict.' + d.verdict), d.after ? h('span', {}, ' → ', h('b', {}, said(d.after)), ' ', t('verdict.' + d.verdict_after)) : ''))));

// after keeps what was turned and what was found then.
function after(job, o, advice) {
  const part = {unit: 's', step: 0.1};
  const sweep = stepper('sweep', t('tune.found.sweep'), part, ''), latch = stepper('latch', t('tune.found.latch'), part, '');
  let latched = '';
  const keep = async () => {
    const by = await store.setting('name', '');
    const item = {on: today(), ...by && {by}, size: String(advice.to.power), sweep_turns: `${round(advice.to.sweep)} turns`, latch_turns: `${round(advice.to.latch)} turns`,
      ...sweep.text() && {sweep_time: sweep.text()}, ...latch.text() && {latch_time: latch.text()}, ...latched && {latched}};
    await sync.make(job, o.id, {...sync.add('adjustments', item), ...sweep.text() || latch.text() ? {instrument: 'stopwatch'} : {}});
    say(t('saved'));
    await show();
  };
  return h('section', {class: 'turned'}, h('h2', {}, t('tune.found')), sweep.element, latch.element,
    choices('latched', t('tune.latched'), [['yes', t('word.yes')], ['no', t('word.no')]], '', v => { latched = v; }), button(t('tune.turned'), keep, 'main'));
}

const round = x => String(Math.round(x * 1000) / 1000);
