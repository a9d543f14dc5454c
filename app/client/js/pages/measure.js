// Measuring: phone on the leaf, stopwatch with this leaf's marks, gauge, or eye.
import {flat, h, s, say} from '../dom.js';
import {ask} from '../engine.js';
import {button, choices, figure, link, loose, pan, picks, problem, said, sign, stepper, waiting} from '../parts.js';
import * as motion from '../motion.js';
import * as store from '../store.js';
import * as sync from '../sync.js';
import {n, num, or, t} from '../texts.js';
import {finding} from './opening.js';
import {open, today} from './open.js';

export default async function page(jobID, id, way, of) {
  const opened = await open(jobID, id);
  switch (way) {
    case 'phone': return phone(opened);
    case 'time': return stopwatch(opened, of);
    case 'force': return gauge(opened, of);
    case 'seen': return seen(opened, of);
    case 'length': return gauge(opened, of, 'length');
  }
  return list(opened);
}

const wayOf = m => m.dim === 'time' ? 'time' : m.dim === '' ? 'seen' : ['force', 'torque'].includes(m.dim) ? 'force' : m.dim === 'energy' ? 'phone' : 'length';

async function list({job, o, units, here, place}) {
  const card = await ask('opening', job, o.id, {units});
  const groups = new Map();
  for (const m of card.measure) groups.set(wayOf(m), [...groups.get(wayOf(m)) || [], m]);
  const row = m => {
    const way = wayOf(m);
    return link(`${here}/measure/${way}${way === 'phone' ? '' : '/' + encodeURIComponent(m.fact)}`, or('fact.' + m.fact, said(m.meaning)), said(`${m.how} ${m.times} ×`));
  };
  return {title: t('measure'), under: place, back: here, place, content: [
    link(here + '/measure/phone', t('phone'), t('phone.under'), icon('phone')),
    ...['time', 'force', 'seen', 'length'].filter(w => groups.has(w)).map(w => h('section', {}, h('h2', {}, t('way.' + w)), h('nav', {class: 'rows', 'aria-label': t('way.' + w)}, groups.get(w).map(row)))),
    card.measure.length ? '' : h('p', {}, t('measure.all')),
  ]};
}

const icon = () => s('svg', {viewBox: '0 0 24 24', class: 'icon', 'aria-hidden': 'true'}, s('rect', {x: 6, y: 2, width: 12, height: 20, rx: 2}), s('path', {d: 'M10 18.5h4'}));

// reading is the change that keeps a reading.
const reading = (fact, fields, by) => sync.add('readings', {fact, ...fields, ...by && {by}, on: today()});

async function phone({job, o, units, here, place}) {
  const back = here + '/measure';
  const stage = h('div', {class: 'stage'});
  let watch = null;
  let swings = 3;
  const operated = o.operator?.fitted === 'yes' || o.use?.operation && o.use.operation !== 'manual';
  let by = '';
  const offer = why => stage.replaceChildren(h('p', {class: 'problem', role: 'alert'}, t(why)),
    h('div', {class: 'action'}, why === 'phone.insecure' ? '' : button(t('phone.retry'), begin, 'quiet'), h('a', {class: 'main', href: back}, t('phone.stopwatch'))));
  const begin = async () => {
    const asked = motion.ask(); // in the tap itself
    stage.replaceChildren(waiting());
    const answer = await asked;
    if (answer !== 'granted') { offer('phone.' + answer); return; }
    const angle = h('p', {class: 'angle', 'aria-hidden': 'true'}, '–');
    const words = h('p', {class: 'phase', role: 'status'}, t('phase.steady'));
    stage.replaceChildren(words, angle, dial(), button(t('phone.stop'), () => finish(), 'quiet'));
    let phase = 'steady', shown = '';
    const leaf = stage.querySelector('.leaf');
    const lock = navigator.wakeLock?.request('screen').catch(() => null);
    const finish = async () => {
      watch.end();
      (await lock)?.release();
      const data = watch.text();
      stage.replaceChildren(waiting());
      const from = performance.now();
      try {
        const got = await ask('read', job, o.id, {units, file: 'phone.csv', data, by, begins: 'closed'}); // as the page asked for
        result(got, data, performance.now() - from);
      } catch (error) {
        stage.replaceChildren(problem(error), button(t('phone.again'), begin, 'main'));
      }
    };
    watch = new motion.Watch(swings, w => {
      const text = `${Math.abs(w.angle).toFixed(0)}°`;
      if (text !== shown) { angle.textContent = shown = text; leaf.setAttribute('transform', `rotate(${-Math.min(Math.abs(w.angle), 180)} 30 170)`); }
      const now = w.phase + w.swings;
      if (now !== phase) {
        phase = now;
        words.textContent = w.phase === 'ready' && w.swings ? t('phase.next', {n: w.wished - w.swings}) : t('phase.' + w.phase);
        navigator.vibrate?.(w.phase === 'ready' ? 80 : 30);
      }
      if (w.phase === 'done') finish();
    });
  };
  const result = (got, data, took) => {
    const keep = async () => {
      const blob = new Blob([data], {type: 'text/csv'});
      const hash = await sync.keepBlob(blob);
      const by = await store.setting('name', '');
      await sync.make(job, o.id, {kind: 'attach', value: JSON.stringify({what: 'recording', name: `swing ${today()}.csv`, type: blob.type, hash, size: blob.size}), instrument: 'phone on the leaf'},
        ...got.measured.map(m => ({...reading(m.fact, {value: m.keep, instrument: 'phone on the leaf'}, by), instrument: 'phone on the leaf'})));
      say(t('saved'));
      location.hash = here.slice(1);
    };
    stage.dataset.took = String(Math.round(took));
    stage.replaceChildren(...flat([
      h('p', {class: 'standing', role: 'status'}, sign(got.standing), ' ', t('standing.' + got.standing)),
      [...got.faults, ...got.swings.flatMap(sw => sw.faults)].map(f => h('p', {class: 'doubt'}, said(`${f.Found}: ${f.Better}`))),
      pan(t('measured'), h('table', {}, h('caption', {}, n('swings', got.swings.length)), h('tbody', {}, got.measured.map(m => h('tr', {'data-fact': m.fact, 'data-si': String(m.si)}, h('th', {scope: 'row'}, or('fact.' + m.fact, said(m.name))), h('td', {}, loose(m.value))))))),
      got.findings.length ? h('ul', {class: 'cards'}, got.findings.filter(f => f.verdict !== 'does not apply').map(finding)) : '',
      figure(got.picture),
      h('div', {class: 'action'}, button(t('phone.again'), begin, 'quiet'), got.measured.length ? button(t('keep'), keep, 'main') : '')]));
  };
  stage.append(
    h('ol', {class: 'steps'}, h('li', {}, t('phone.fix')), h('li', {}, t('phone.still')), h('li', {}, t('phone.go'))),
    h('p', {class: 'hint'}, t('phone.sensor')),
    choices('swings', t('phone.swings'), [[3, '3'], [1, '1']], swings, v => { swings = v; }),
    operated ? choices('by', t('phone.by'), [['power', t('phone.by.power')], ['hand', t('phone.by.hand')]], '', v => { by = v; }) : '',
    h('div', {class: 'action'}, button(t('phone.start'), begin, 'main')));
  return {title: t('phone'), under: place, back, place, content: stage, leave: () => watch?.end()};
}

// dial is a leaf that turns as the real one does.
const dial = () => s('svg', {viewBox: '0 0 220 190', class: 'dial', 'aria-hidden': 'true'}, s('path', {d: 'M190 170A160 160 0 0 0 30 10', class: 'path'}), s('path', {d: 'M10 170H200', class: 'wall'}), s('path', {d: 'M30 170H190', class: 'leaf'}), s('circle', {cx: 30, cy: 170, r: 6, class: 'pin'}));

// marksOf are the angles between which a time runs, by the name of the fact.
function marksOf(fact) {
  const m = /(\d+)_to_(\d+|closed|check|75mm)$/.exec(fact);
  return m ? [Number(m[1]), m[2] === 'closed' ? 0 : Number(m[2]) || null] : [];
}

async function stopwatch({job, o, units, here, place}, fact) {
  const back = here + '/measure';
  const {marks} = await ask('marks', job, o.id, {units});
  const mark = angle => marks.find(m => Math.abs(m.degrees - angle) < 0.5);
  const [from, to] = marksOf(fact);
  const told = (angle, key) => angle === 0 ? t(key + '.shut') : mark(angle) ? t(key + '.mark', {angle, far: units === 'si' ? mark(angle).si : mark(angle).us}) : '';
  const laps = [];
  let running = null, timer = null;
  const list = h('ol', {class: 'laps', 'aria-label': t('laps')});
  const clock = h('span', {class: 'clock'}, num(0, 2));
  const words = h('span', {}, t('watch.start'));
  const show = () => list.replaceChildren(...laps.map((lap, i) => h('li', {}, h('b', {}, num(lap, 2) + ' s'), button(t('watch.drop', {n: i + 1}), () => { laps.splice(i, 1); show(); }, 'quiet'))));
  const press = event => { // by the time stamp of the event, not by when the page came to it
    event.preventDefault();
    const now = event.timeStamp;
    if (running === null) {
      running = now;
      words.textContent = t('watch.stop');
      timer = setInterval(() => { clock.textContent = num((performance.now() - running) / 1000, 1); }, 100);
      return;
    }
    clearInterval(timer);
    const lap = (now - running) / 1000;
    running = null;
    clock.textContent = num(lap, 2);
    words.textContent = t('watch.start');
    if (lap > 0.3) laps.push(lap);
    show();
    say(t('watch.lap', {n: laps.length, time: num(lap, 2)}));
  };
  let touched = -Infinity; // when a finger or key last was on it; a click that comes of neither is from a screen reader
  const touch = event => { touched = event.timeStamp; };
  const big = h('button', {type: 'button', class: 'watch', onpointerdown: e => { touch(e); press(e); }, onpointerup: touch, onkeyup: touch,
    onkeydown: e => { if (e.key !== ' ' && e.key !== 'Enter') return; touch(e); if (e.repeat) e.preventDefault(); else press(e); },
    onclick: e => { if (e.timeStamp - touched > 500) press(e); }}, h('span', {class: 'unseen'}, t('stopwatch'), ': '), h('span', {'aria-hidden': 'true'}, clock), words);
  const keep = async () => {
    if (!laps.length) { say(t('watch.none')); return; }
    const by = await store.setting('name', '');
    await sync.make(job, o.id, {...reading(fact, laps.length > 1 ? {values: laps.map(l => l.toFixed(2) + ' s'), start: 'reacting', instrument: 'stopwatch'} : {value: laps[0].toFixed(2) + ' s', instrument: 'stopwatch'}, by), instrument: 'stopwatch'});
    say(t('saved'));
    location.hash = back.slice(1);
  };
  return {title: or('fact.' + fact, fact), under: place, back, place, leave: () => clearInterval(timer), content: [
    h('ul', {class: 'steps'}, [told(from, 'watch.from'), told(to, 'watch.to')].filter(Boolean).map(x => h('li', {}, x))),
    big, list, h('p', {class: 'hint'}, t('watch.three')),
  ], action: button(t('keep'), keep, 'main')};
}

async function gauge({job, o, units, here, place}, fact, kind = 'force') {
  const back = here + '/measure';
  const unit = kind === 'force' ? (units === 'si' ? 'N' : 'lbf') : (units === 'si' ? 'mm' : 'in');
  const angle = /angle|from$/.test(fact);
  const part = {unit: angle ? 'deg' : unit, step: kind === 'force' ? (units === 'si' ? 0.5 : 0.1) : 1};
  const three = kind === 'force' ? [1, 2, 3].map(i => stepper('f' + i, t('gauge.n', {n: i, unit: part.unit}), part, '')) : [stepper('f1', t('gauge.one', {unit: part.unit}), part, '')];
  const at = stepper('at', t('gauge.at', {unit: units === 'si' ? 'mm' : 'in'}), {unit: units === 'si' ? 'mm' : 'in', step: 1}, '');
  const wrong = h('p', {class: 'wrong', role: 'alert'});
  const moment = kind === 'force' && !/release|control/.test(fact);
  const keep = async () => {
    const values = three.map(f => f.text()).filter(Boolean);
    if (!values.length) { wrong.textContent = t('survey.empty'); return; }
    const by = await store.setting('name', '');
    const instrument = kind === 'force' ? 'force gauge' : angle ? 'angle finder' : 'tape';
    const fields = {...values.length > 1 ? {values} : {value: values[0]}, ...moment && at.text() && {at: at.text()}, instrument};
    const before = structuredClone(job);
    before.tree.openings.find(x => x.id === o.id).readings = [...(o.readings || []), {fact, ...fields}];
    try { // a slip is told before it is kept
      await ask('state', before, o.id, {units, draws: 64});
    } catch (error) { wrong.textContent = error.message; return; }
    await sync.make(job, o.id, {...reading(fact, fields, by), instrument});
    say(t('saved'));
    location.hash = back.slice(1);
  };
  return {title: or('fact.' + fact, fact), under: place, back, place, content: [
    h('p', {class: 'how'}, or('how.' + fact, t('gauge.square'))), three.map(f => f.element), moment ? at.element : '', wrong], action: button(t('keep'), keep, 'main')};
}

async function seen({job, o, here, place}, fact) {
  const back = here + '/measure';
  const keep = async value => {
    await sync.make(job, o.id, {...reading(fact, {value, instrument: 'eye'}, await store.setting('name', '')), instrument: 'eye'});
    say(t('saved'));
    location.hash = back.slice(1);
  };
  return {title: or('fact.' + fact, fact), under: place, back, place, content: [h('p', {class: 'how'}, or('how.' + fact, '')),
    picks('seen', or('fact.' + fact, fact), [['yes', t('word.yes')], ['no', t('word.no')]], '', keep)]};
}
