// What several pages are put together from.
import {drawing, h, s} from './dom.js';
import {or, t} from './texts.js';

const shapes = { // a verdict has a shape of its own, so that it is told without colour
  'meets': () => [s('circle', {cx: 12, cy: 12, r: 10}), s('path', {d: 'M7 12.5l3.5 3.5L17 9', class: 'in'})],
  'falls short': () => [s('path', {d: 'M2 2H22V22H2Z'}), s('path', {d: 'M7 7L17 17M17 7L7 17', class: 'in'})],
  'too close to call': () => [s('path', {d: 'M12 1L23 12L12 23L1 12Z'}), s('path', {d: 'M9 10.2a3 2.8 0 1 1 4 2.6q-1 .5-1 1.6M12 17.4v.1', class: 'in'})],
  'not measured': () => [s('circle', {cx: 12, cy: 12, r: 9.5, class: 'ring'})],
  'does not apply': () => [s('path', {d: 'M4 12H20', class: 'ring'})],
};
const meanings = {'in-order': 'meets', 'falls-short': 'falls short', 'undecided': 'too close to call', 'unknown': 'not measured'};

// sign is the shape of a verdict or a standing; words stand beside it.
export function sign(verdict) {
  const kind = meanings[verdict] || verdict;
  return s('svg', {viewBox: '0 0 24 24', class: 'sign ' + kind.replaceAll(' ', '-'), 'aria-hidden': 'true', focusable: 'false'}, ...(shapes[kind] || shapes['not measured'])());
}

// verdict is the sign with its words.
export const verdict = v => h('span', {class: 'verdict'}, sign(v), h('span', {}, t('verdict.' + v)));

// standing is the sign of a whole opening with its words.
export const standing = v => h('span', {class: 'verdict'}, sign(v), h('span', {}, t('standing.' + v)));

// said are the engine's own words, which come in the reader's language.
export const said = text => h('span', {}, text);

// pan holds what may be wider than the screen. Where it is, it can be reached and moved by keys.
export function pan(label, content) {
  const element = h('div', {class: 'pan'}, content);
  new ResizeObserver(() => {
    const wide = element.scrollWidth > element.clientWidth + 1;
    for (const [name, value] of [['tabindex', '0'], ['role', 'region'], ['aria-label', label]]) wide ? element.setAttribute(name, value) : element.removeAttribute(name);
  }).observe(element);
  return element;
}

// loose is a value that may be broken at its spaces, for a cell of a table that has little room.
export const loose = text => text.replaceAll('\u00a0', ' ');

// brief is as many sentences of a text as one listens to before going on.
const brief = text => text.length <= 240 ? text : text.slice(0, text.lastIndexOf('. ', 240) + 1) || text;

let figures = 0;

// figure shows a picture, and unfolds what it shows in words and numbers.
export function figure(picture) {
  const svg = drawing(picture.svg), id = 'words-' + ++figures;
  for (const [name, value] of [['aria-labelledby', ''], ['aria-label', picture.title]]) value ? svg.setAttribute(name, value) : svg.removeAttribute(name);
  svg.setAttribute('aria-describedby', id);
  const table = picture.rows.length ? pan(t('picture.values'), h('table', {}, h('caption', {}, t('picture.values')),
    h('thead', {}, h('tr', {}, picture.head.map(x => h('th', {scope: 'col'}, x)))),
    h('tbody', {}, picture.rows.map(([first, ...rest]) => h('tr', {}, h('th', {scope: 'row'}, first), rest.map(x => h('td', {}, loose(x)))))))) : '';
  return h('div', {class: 'pictured'}, h('figure', {class: 'picture'}, pan(picture.title, svg)),
    h('p', {hidden: true, id}, brief(picture.says)),
    h('details', {class: 'more'}, h('summary', {}, t('picture.words'), h('span', {class: 'unseen'}, ' ', picture.title)), picture.words.map(x => h('p', {}, x)), table));
}

// link is a large link of a list.
export const link = (href, title, under, mark) => h('a', {class: 'row', href}, mark || '', h('span', {class: 'row-text'}, h('span', {class: 'row-title'}, title), under ? h('span', {class: 'row-under'}, under) : ''), h('span', {class: 'arrow', 'aria-hidden': 'true'}, '›'));

// button is a large button.
export const button = (words, onclick, kind = '') => h('button', {type: 'button', class: kind, onclick}, words);

// field is a labelled input.
export function field(id, label, input, hint) {
  input.id = id;
  if (hint) input.setAttribute('aria-describedby', id + '-hint');
  return h('div', {class: 'field'}, h('label', {for: id}, label), input, hint ? h('p', {class: 'hint', id: id + '-hint'}, hint) : '');
}

// choices are large buttons of which one is chosen.
export function choices(name, legend, options, chosen, onchoose) {
  return h('fieldset', {class: 'choices'}, h('legend', {}, legend),
    options.map(([value, words], i) => h('label', {class: 'choice'},
      h('input', {type: 'radio', name, value, id: `${name}-${i}`, checked: value === chosen, onchange: () => onchoose(value)}), h('span', {}, words))));
}

// picks are large buttons of which one is the answer: to press one is to have answered, so they
// are no radio buttons, which the arrow keys would answer in passing.
export function picks(name, legend, options, chosen, onpick) {
  return h('fieldset', {class: 'picks'}, h('legend', {}, legend),
    options.map(([value, words], i) => h('button', {type: 'button', value, id: `${name}-${i}`, 'aria-current': value === chosen && 'true', onclick: () => onpick(value)}, words)));
}

// stepper is a number with a large minus and plus beside it. Its value is text with its unit.
export function stepper(id, label, part, begin) {
  const input = h('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: begin, id, onkeydown: event => {
    const way = {ArrowUp: 1, ArrowDown: -1}[event.key];
    if (way) { event.preventDefault(); move(way); }
  }});
  const told = h('span', {class: 'unseen', 'aria-live': 'polite'});
  const move = way => {
    const m = /^\s*(-?\d+(?:[.,]\d+)?)?(.*)$/.exec(input.value);
    const plain = /^[\s\d.,-]*$/.test(input.value) || /^\s*-?[\d.,]+\s*[^\d/±]*$/.test(input.value);
    if (!plain) { input.focus(); return; } // a fraction or a spread is typed
    const now = m[1] === undefined ? 0 : Number(m[1].replace(',', '.'));
    const places = String(part.step).split('.')[1]?.length || 0;
    input.value = `${(now + way * part.step).toFixed(places)} ${m[2].trim() || part.unit}`.trim();
    told.textContent = input.value;
    input.dispatchEvent(new Event('input'));
  };
  return {input, element: h('div', {class: 'field'}, h('label', {for: id}, label), told, h('div', {class: 'stepper'},
    h('button', {type: 'button', 'aria-label': t('less', {what: label}), onclick: () => move(-1)}, '−'), input,
    h('button', {type: 'button', 'aria-label': t('more', {what: label}), onclick: () => move(1)}, '+'))),
  // text is what was entered, with the unit where none was typed.
  text: () => /^\s*-?\d+([.,]\d+)?\s*$/.test(input.value) && part.unit ? `${input.value.trim()} ${part.unit}` : input.value.trim()};
}

// word is a choice of the record in the reader's language.
export const word = choice => or('word.' + choice, choice);

// share is how much of all something is, as a bar; the number stands beside it.
export const share = part => s('svg', {viewBox: '0 0 100 10', class: 'share', preserveAspectRatio: 'none', 'aria-hidden': 'true'}, s('rect', {width: 100 * part, height: 10}));

// waiting is shown while the engine reckons.
export const waiting = () => h('p', {class: 'waiting', role: 'status'}, t('reckoning'));

// problem tells why something could not be shown.
export const problem = error => h('div', {class: 'problem', role: 'alert'}, h('p', {}, t('problem')), error.message.split('\n').map(line => h('p', {}, said(line))));

// pad is a field to sign in, by finger, pen or mouse; strokes() is an SVG path, empty where nothing was drawn.
export function pad(label) {
  const lines = [];
  const path = s('path', {});
  const svg = s('svg', {viewBox: '0 0 600 200', class: 'pad', role: 'img', 'aria-label': label, preserveAspectRatio: 'none'}, s('path', {d: 'M20 160H580', class: 'line'}), path);
  let line = null;
  const point = e => {
    const r = svg.getBoundingClientRect();
    return [Math.round((e.clientX - r.left) / r.width * 600), Math.round((e.clientY - r.top) / r.height * 200)];
  };
  const strokes = () => lines.map(l => 'M' + l.map(p => p.join(' ')).join('L')).join('');
  svg.addEventListener('pointerdown', e => { svg.setPointerCapture(e.pointerId); lines.push(line = [point(e)]); });
  svg.addEventListener('pointermove', e => { if (line) { line.push(point(e)); path.setAttribute('d', strokes()); } });
  for (const end of ['pointerup', 'pointercancel']) svg.addEventListener(end, () => { line = null; });
  const clear = () => { lines.length = 0; path.setAttribute('d', ''); };
  return {element: h('div', {class: 'signature'}, svg, button(t('sign.again'), clear, 'quiet')), strokes};
}
