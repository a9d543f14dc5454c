// The app: which page is shown, and what stands around it.
import {alarm, flat, h, say} from './dom.js';
import * as engine from './engine.js';
import * as news from './news.js';
import * as sync from './sync.js';
import {load, n, t} from './texts.js';
import {problem} from './parts.js';

// The addresses behind the # and their pages, each a module of its own that is read when it is first gone to. A page gives
// its title, what leads back, and its content; or where to go instead.
const pages = [
  [/^$/, 'home'],
  [/^settings$/, 'settings'],
  [/^sign-in$/, 'signin'],
  [/^own$/, 'own'],
  [/^accounts(?:\/([^/]+))?$/, 'accounts'],
  [/^label\/([^/]+)$/, 'label'],
  [/^job\/([^/]+)$/, 'job'],
  [/^job\/([^/]+)\/conflicts$/, 'conflicts'],
  [/^job\/([^/]+)\/([^/]+)$/, 'opening'],
  [/^job\/([^/]+)\/([^/]+)\/survey$/, 'survey'],
  [/^job\/([^/]+)\/([^/]+)\/measure(?:\/([^/]+)(?:\/([^/]+))?)?$/, 'measure'],
  [/^job\/([^/]+)\/([^/]+)\/tune$/, 'tune'],
  [/^job\/([^/]+)\/([^/]+)\/accept$/, 'accept'],
  [/^job\/([^/]+)\/([^/]+)\/handover$/, 'handover'],
  [/^job\/([^/]+)\/([^/]+)\/service(?:\/([^/]+))?$/, 'service'],
  [/^job\/([^/]+)\/([^/]+)\/history$/, 'history'],
  [/^job\/([^/]+)\/([^/]+)\/history\/(\d+)$/, 'past'],
];

let shown = 0;
let leave = () => {};
let settled = null;

// came is the page that led to the one that is shown.
export const came = () => '#/' + before;
let before = '', now = '';

// show shows the page of the address.
export async function show(again = false) {
  const mine = ++shown;
  leave();
  leave = () => {};
  settled = null;
  alarm('');
  const path = location.hash.replace(/^#\/?/, '');
  if (path !== now) [before, now] = [now, path];
  const main = document.getElementById('main');
  let page;
  try {
    const [pattern, name] = pages.find(([p]) => p.test(path)) || pages[0];
    const make = (await import(`./pages/${name}.js`)).default;
    page = await make(...(pattern.exec(path) || []).slice(1).map(part => part === undefined ? undefined : decodeURIComponent(part)));
  } catch (error) {
    page = {title: t('nothing'), back: '#/', content: error.message === 'no-job' ? h('p', {}, t('job.none')) : problem(error)};
  }
  if (mine !== shown) { page.leave?.(); return; }
  if (page.to) { location.replace(page.to); return; }
  leave = page.leave || leave;
  settled = page.settled;
  if (!sync.state.waiting) settled?.(); // what waited may have gone up while the page was made
  document.title = page.title + ' – Swingwright';
  document.getElementById('skip').textContent = t('skip');
  head(page);
  const held = again && document.activeElement?.id; // a page shown again leaves the reader where they were
  const title = h('h1', {tabindex: '-1'}, page.title, page.under ? h('span', {class: 'under'}, page.under) : '');
  main.replaceChildren(title, ...flat([page.content]), page.action ? h('div', {class: 'action'}, page.action) : '');
  const kept = held && document.getElementById(held);
  if (!again) scrollTo(0, 0);
  (kept || title).focus({preventScroll: true});
  main.dataset.ready = path || 'home';
  news.watch(path, page.rev, show);
}

// The bar on top stays from page to page, so that what is told there is told when it changes.
const back = h('span', {}), place = h('span', {class: 'place'}), state = h('span', {id: 'network', role: 'status'}),
  gear = h('a', {class: 'gear', href: '#/settings'}, h('span', {'aria-hidden': 'true'}, '≡'));

function head(page) {
  back.replaceChildren(page.back ? h('a', {class: 'back', href: page.back, 'aria-label': t('back')}, h('span', {'aria-hidden': 'true'}, '‹')) : h('span', {class: 'mark', 'aria-hidden': 'true'}, '◣'));
  place.textContent = page.place || 'Swingwright';
  gear.setAttribute('aria-label', t('settings'));
  if (!state.isConnected) document.getElementById('top').append(back, place, state, gear);
  network();
}

// network shows whether there is one, and what waits for it.
function network() {
  const {waiting, online, out} = sync.state;
  const kind = out ? 'out' : waiting ? 'some' : online ? 'all' : 'none';
  const words = out ? [t('sign.in')] : [waiting && t('waiting.n', {n: waiting}), online ? !waiting && t('online') : t('offline')].filter(Boolean);
  const told = kind + words.join();
  if (state.dataset.told === told) return; // said again only when it is another
  state.dataset.told = told;
  state.className = kind;
  state.replaceChildren(...out ? [h('a', {href: '#/sign-in'}, words)] : [h('span', {'aria-hidden': 'true'}, waiting ? '↑ ' : online ? '✓' : '○ '), ...words.map(w => h('span', {class: kind === 'all' ? 'unseen' : 'word'}, w + ' '))]);
}

// labelled goes from the address on a label, which led here, to the page that finds its opening.
function labelled() {
  const [, key] = /^\/o\/([^/]+)$/.exec(location.pathname) || [];
  if (key) window.history.replaceState(null, '', '/#/label/' + key);
}

// install keeps the app for where there is no network, and tells of a new version. It is done when
// the app is kept, or cannot be.
async function install() {
  if (!navigator.serviceWorker) return;
  const had = !!navigator.serviceWorker.controller;
  const registration = await navigator.serviceWorker.register('/sw.js');
  let reloading = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => { if (had && !reloading) { reloading = true; location.reload(); } });
  const offer = worker => {
    if (!had) return;
    alarm(t('newer'), h('button', {type: 'button', onclick: () => worker.postMessage('take over')}, t('newer.take')));
  };
  if (registration.waiting) offer(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker.addEventListener('statechange', () => { if (worker.state === 'installed') offer(worker); });
  });
  const first = registration.active ? null : registration.installing || registration.waiting;
  if (first) await new Promise(done => first.addEventListener('statechange', () => { if (['activated', 'redundant'].includes(first.state)) done(); }));
}

// bringIn brings in what the first page does not need: the app for where there is no network, and the
// engine, which comes once, into what is kept. Until then the server answers.
async function bringIn() {
  await Promise.race([engine.answered(), new Promise(done => setTimeout(done, 5000))]);
  await Promise.all(pages.map(([, name]) => import(`./pages/${name}.js`).catch(() => {})));
  await install().catch(error => say(t('noworker') + ' ' + error.message));
  document.documentElement.dataset.engine = await engine.start() ? 'here' : 'server';
}

// skip leads past the bar; the address is that of the page and stays as it is.
document.getElementById('skip').addEventListener('click', event => {
  event.preventDefault();
  const main = document.getElementById('main');
  (main.querySelector('h1') || main).focus();
});
addEventListener('keydown', event => { if (event.key === 'Escape') { alarm(''); say(''); } });
// What has the focus is scrolled clear of the bar, however high that is.
new ResizeObserver(([bar]) => document.documentElement.style.setProperty('--head', `${bar.borderBoxSize[0].blockSize}px`)).observe(document.getElementById('stay'));
addEventListener('hashchange', () => show());
addEventListener('unhandledrejection', event => alarm(String(event.reason?.message || event.reason)));
let waited = 0, refused = 0;
sync.onChange(() => {
  network();
  if (waited && !sync.state.waiting) settled?.();
  if (sync.state.refused > refused) sync.refusals().then(list => list.length && alarm(n('refused', list.length), h('a', {class: 'button', href: '#/job/' + encodeURIComponent(list.at(-1).job)}, t('refused.look'))));
  refused = sync.state.refused;
  waited = sync.state.waiting;
});
// begin shows the first page. What it asks the server is on its way before this device has found what it holds.
async function begin() {
  labelled();
  sync.ahead(location.hash.replace(/^#\/?/, ''));
  await load();
  sync.watch();
  await show();
  bringIn();
}

begin();
