// The app: which page is shown, and what stands around it.
import {alarm, flat, h, say} from './dom.js';
import * as engine from './engine.js';
import * as sync from './sync.js';
import {load, t} from './texts.js';
import {problem} from './parts.js';
import accept from './pages/accept.js';
import home from './pages/home.js';
import history from './pages/history.js';
import job from './pages/job.js';
import measure from './pages/measure.js';
import opening from './pages/opening.js';
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
  const title = h('h1', {tabindex: '-1'}, page.title, page.under ? h('span', {class: 'under'}, page.under) : '');
  main.replaceChildren(title, ...flat([page.content]), page.action ? h('div', {class: 'action'}, page.action) : '');
  if (!again) {
    scrollTo(0, 0);
    title.focus({preventScroll: true});
  }
  main.dataset.ready = path || 'home';
}

function head(page) {
  document.getElementById('top').replaceChildren(
    page.back ? h('a', {class: 'back', href: page.back, 'aria-label': t('back')}, '‹') : h('span', {class: 'mark', 'aria-hidden': 'true'}, '◣'),
    h('span', {class: 'place'}, page.place || 'Swingwright'),
    h('span', {id: 'network'}),
    h('a', {class: 'gear', href: '#/settings', 'aria-label': t('settings')}, h('span', {'aria-hidden': 'true'}, '≡')));
  network();
}

// network shows whether there is one, and what waits for it.
function network() {
  const where = document.getElementById('network');
  if (!where) return;
  const {waiting, online, out} = sync.state;
  if (out) {
    where.className = 'some';
    where.replaceChildren(h('a', {href: '#/sign-in'}, t('sign.in')));
    return;
  }
  const words = waiting ? t('waiting.n', {n: waiting}) : online ? t('online') : t('offline');
  where.className = waiting ? 'some' : online ? 'all' : 'none';
  where.replaceChildren(h('span', {'aria-hidden': 'true'}, waiting ? '↑' : online ? '✓' : '○'), ' ', h('span', {class: waiting || !online ? '' : 'unseen'}, words));
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
    document.getElementById('alarm').replaceChildren(h('span', {}, t('newer')), ' ', h('button', {type: 'button', onclick: () => worker.postMessage('take over')}, t('newer.take')));
  };
  if (registration.waiting) offer(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker.addEventListener('statechange', () => { if (worker.state === 'installed') offer(worker); });
  });
}

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
