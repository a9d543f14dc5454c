// The app: which page is shown, and what stands around it.
import {alarm, flat, h, say} from './dom.js';
import * as engine from './engine.js';
import * as sync from './sync.js';
import {load, t} from './texts.js';
import {problem} from './parts.js';
import accept from './pages/accept.js';
import accounts from './pages/accounts.js';
import home from './pages/home.js';
import history from './pages/history.js';
import job from './pages/job.js';
import measure from './pages/measure.js';
import opening from './pages/opening.js';
import own from './pages/own.js';
import handover from './pages/handover.js';
import service from './pages/service.js';
import settings from './pages/settings.js';
import signIn from './pages/signin.js';
import survey from './pages/survey.js';
import tune from './pages/tune.js';
import conflicts from './pages/conflicts.js';

// The addresses behind the # and their pages. A page gives its title, what leads back,
// and its content.
const pages = [
  [/^$/, home],
  [/^settings$/, settings],
  [/^sign-in$/, signIn],
  [/^own$/, own],
  [/^accounts(?:\/([^/]+))?$/, accounts],
  [/^job\/([^/]+)$/, job],
  [/^job\/([^/]+)\/conflicts$/, conflicts],
  [/^job\/([^/]+)\/([^/]+)$/, opening],
  [/^job\/([^/]+)\/([^/]+)\/survey$/, survey],
  [/^job\/([^/]+)\/([^/]+)\/measure(?:\/([^/]+)(?:\/([^/]+))?)?$/, measure],
  [/^job\/([^/]+)\/([^/]+)\/tune$/, tune],
  [/^job\/([^/]+)\/([^/]+)\/accept$/, accept],
  [/^job\/([^/]+)\/([^/]+)\/handover$/, handover],
  [/^job\/([^/]+)\/([^/]+)\/service(?:\/([^/]+))?$/, service],
  [/^job\/([^/]+)\/([^/]+)\/history$/, history],
];

let shown = 0;
let leave = () => {};
let settled = null;

// show shows the page of the address.
export async function show(again = false) {
  const mine = ++shown;
  leave();
  leave = () => {};
  settled = null;
  alarm('');
  const path = location.hash.replace(/^#\/?/, '');
  const main = document.getElementById('main');
  let page;
  try {
    const [pattern, make] = pages.find(([p]) => p.test(path)) || pages[0];
    page = await make(...(pattern.exec(path) || []).slice(1).map(part => part === undefined ? undefined : decodeURIComponent(part)));
  } catch (error) {
    page = {title: t('nothing'), back: '#/', content: error.message === 'no-job' ? h('p', {}, t('job.none')) : problem(error)};
  }
  if (mine !== shown) { page.leave?.(); return; }
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
  const words = out ? t('sign.in') : [waiting ? t('waiting.n', {n: waiting}) : '', online ? waiting ? '' : t('online') : t('offline')].filter(Boolean).join(', ');
  if (state.className === kind && state.textContent.endsWith(words)) return;
  state.className = kind;
  state.replaceChildren(...out ? [h('a', {href: '#/sign-in'}, words)] : [h('span', {'aria-hidden': 'true'}, waiting ? '↑' : online ? '✓' : '○'), ' ', h('span', {class: kind === 'all' ? 'unseen' : ''}, words)]);
}

// label goes to the opening of the label whose code led here.
async function label() {
  const [, key] = /^\/o\/([^/]+)$/.exec(location.pathname) || [];
  if (!key) return;
  const at = await sync.labelled(decodeURIComponent(key)).catch(() => null);
  if (sync.state.out) sessionStorage.setItem('label', decodeURIComponent(key));
  const page = at ? `job/${encodeURIComponent(at.job)}/${encodeURIComponent(at.id)}` : sync.state.out ? 'sign-in' : 'label';
  window.history.replaceState(null, '', '/#/' + page);
}

// install keeps the app for where there is no network, and tells of a new version.
async function install() {
  if (!navigator.serviceWorker) return;
  const registration = await navigator.serviceWorker.register('/sw.js');
  let reloading = false;
  const had = !!navigator.serviceWorker.controller;
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
let waited = 0;
sync.onChange(() => {
  network();
  if (waited && !sync.state.waiting) settled?.();
  waited = sync.state.waiting;
});
await load();
engine.start().then(ready => { document.documentElement.dataset.engine = ready ? 'here' : 'server'; });
await sync.watch();
await label();
await show();
install().catch(error => say(t('noworker') + ' ' + error.message));
