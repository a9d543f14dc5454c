// Texts in the reader's language, and the reader's units.
import en from '../texts/en.js';
import {remember, setting} from './store.js';

// catalogues are those that were read; English, which stands in for what is missing, always is.
const catalogues = {en};

const read = async language => { catalogues[language] ??= (await import(`../texts/${language}.js`)).default; };

export const languages = {en: 'English', es: 'Español'};

export const reader = {language: 'en', units: ''};

// load takes what the reader chose, else what the browser says.
export async function load() {
  const wished = (navigator.language || 'en').slice(0, 2);
  const [language, units] = await Promise.all([setting('language', wished in languages ? wished : 'en'), setting('units', '')]);
  await read(language).catch(() => {});
  reader.language = catalogues[language] ? language : 'en';
  reader.units = units;
  declare();
}

// declare tells screen readers, and the server that refuses something, which language is read.
function declare() {
  document.documentElement.lang = reader.language;
  document.cookie = `language=${reader.language};path=/;samesite=strict`;
}

// tag is the reader's language as BCP 47 has it, with the region where the browser tells one:
// regions differ in how they write decimals.
export const tag = () => (navigator.languages || []).find(l => l.startsWith(reader.language + '-')) || reader.language;

// num is a number with so many decimals, as the reader writes it; most is how many where fewer do.
export const num = (x, places, most = places) => x.toLocaleString(tag(), {minimumFractionDigits: places, maximumFractionDigits: most, useGrouping: false});

export async function choose(language, units) {
  await read(language).catch(() => {});
  reader.language = catalogues[language] ? language : 'en';
  reader.units = units;
  declare();
  await remember('language', language);
  await remember('units', units);
}

// has tells whether the catalogue has a text.
export const has = key => key in catalogues[reader.language];

// t is the text of a key, with {names} filled in.
export function t(key, values = {}) {
  const text = catalogues[reader.language][key] ?? catalogues.en[key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name) => name in values ? values[name] : whole);
}

// or is the text of a key, else the engine's own words.
export const or = (key, words) => has(key) ? t(key) : words;

// n is a text that counts: key.one or key.many.
export const n = (key, count, values = {}) => t(`${key}.${count === 1 ? 'one' : 'many'}`, {n: count, ...values});

// day is a date as the reader writes it.
export const day = date => new Date(date).toLocaleDateString(reader.language, {year: 'numeric', month: 'short', day: 'numeric'});
export const moment = date => new Date(date).toLocaleString(reader.language, {month: 'short', day: 'numeric', hour: '2-digit', minute: '2-digit'});
