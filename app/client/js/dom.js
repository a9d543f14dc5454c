// Elements, made and put together.
import {t} from './texts.js';

// h makes an element: attributes beginning with "on" are listeners, true is an empty
// attribute, false and null leave it out. Children are elements, texts, lists, or nothing.
export function h(tag, attributes, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith('on')) e.addEventListener(name.slice(2), value);
    else if (name === 'value') e.value = value;
    else e.setAttribute(name, value === true ? '' : value);
  }
  e.append(...flat(children));
  return e;
}

// flat is a list without lists in it and without what is nothing.
export function flat(children) {
  return children.flat(Infinity).filter(c => c !== null && c !== undefined && c !== false && c !== '');
}

// s makes an SVG element.
export function s(tag, attributes, ...children) {
  const e = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes || {})) e.setAttribute(name, value);
  e.append(...flat(children));
  return e;
}

// drawing takes a picture of the engine into the page. It is read as a document of its
// own, so that nothing in it can run.
export function drawing(text) {
  const svg = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  if (svg.nodeName !== 'svg') return h('p', {}, '–');
  svg.removeAttribute('width');
  svg.removeAttribute('height');
  if (svg.viewBox.baseVal.width > 120) svg.classList.add('wide'); // mm: laid out for paper
  return document.importNode(svg, true);
}

// say tells screen readers, and shows for a moment, what has happened.
export function say(text) {
  const told = document.getElementById('told');
  told.textContent = text;
  clearTimeout(say.timer);
  say.timer = setTimeout(() => { told.textContent = ''; }, 3500);
}

// alarm tells what went wrong; it stays until the next page, or until it is put away.
export function alarm(words, ...more) {
  const place = document.getElementById('alarm');
  place.replaceChildren(...words ? [h('p', {}, words), ...more, h('button', {type: 'button', onclick: () => alarm('')}, t('close'))] : []);
}
