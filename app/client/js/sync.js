// What was changed here and what the book has. Changes are numbered, wait in the
// outbox, go up in order, each under an identity made here, and leave this phone only
// when what the server gives of the job shows them.
import * as held from './held.js';
import * as store from './store.js';
import {t} from './texts.js';

const listeners = new Set();

// onChange lets a listener hear of every change of state; it gives what ends that.
export const onChange = listener => { listeners.add(listener); return () => listeners.delete(listener); };
const tell = () => listeners.forEach(listener => listener());

export const state = {waiting: 0, online: navigator.onLine, out: false, refused: 0}; // refused counts since the app was opened

// ask asks the server, and remembers whether it wants somebody to sign in first.
async function ask(path, options) {
  const before = sent[path];
  delete sent[path];
  const response = await (before || fetch(path, options));
  const out = response.status === 401;
  if (state.out !== out) {
    state.out = out;
    tell();
  }
  return response;
}

function reached(online) {
  if (state.online === online) return;
  state.online = online;
  tell();
}

// photos is the name under which the service worker finds photos that were taken along.
export const photos = 'taken along';

const jobURL = id => `/api/jobs/${encodeURIComponent(id)}`;

// jobs lists the jobs: those of the server where it answers, else those in this phone.
export async function jobs() {
  try {
    const response = await ask('/api/jobs');
    if (!response.ok) throw new Error(await response.text());
    reached(true);
    return await response.json();
  } catch {
    reached(false);
    return Promise.all((await store.all('jobs')).map(async j => ({key: j.id, name: j.tree.job, site: j.tree.site || '', openings: await store.countOf(j.id)})));
  }
}

// pageLength is how many openings a list shows at a time.
export const pageLength = 50;

const sent = {}; // what was asked ahead, by its address

// ahead asks the server for what the page of an address will ask first.
export function ahead(path) {
  const [, job] = /^job\/([^/]+)$/.exec(path) || [];
  const address = path === '' ? '/api/jobs' : job && `${jobURL(decodeURIComponent(job))}/openings?limit=${pageLength}`;
  if (!address) return;
  sent[address] = fetch(address, {signal: AbortSignal.timeout(patience)});
  sent[address].catch(() => {});
  setTimeout(() => { delete sent[address]; }, patience); // it is old by then
}

// list gives a page of the openings of a job as the server lists them, nothing where it cannot be reached. Asked for are any
// of q, state, due, missing, conflicts, after and limit.
export async function list(id, asked = {}) {
  const query = new URLSearchParams(Object.entries(asked).filter(([, value]) => value));
  try {
    const response = await ask(`${jobURL(id)}/openings?${query}`, {signal: AbortSignal.timeout(patience)});
    if (response.status === 404) throw new Error('no-job');
    if (!response.ok) throw new Error(await response.text());
    reached(true);
    return await response.json();
  } catch (error) {
    if (error.message === 'no-job') throw error;
    reached(false);
    return null;
  }
}

// past gives a job as it was after a revision of the book. The server has it; nothing that was changed here since counts.
export const past = async (id, at) => ({...await call('GET', `${jobURL(id)}?at=${encodeURIComponent(at)}`), id, at});

// since gives what happened in a job after a revision, the earliest first; of others only, not by this device.
export async function since(id, rev) {
  const from = await device();
  return (await call('GET', `${jobURL(id)}/changes?after=${rev}&limit=200`)).filter(c => !c.device || c.device !== from);
}

// search gives what holds the words, in all jobs; nothing where the server cannot be reached.
export async function search(words) {
  try {
    const response = await ask('/api/search?' + new URLSearchParams({q: words}));
    if (!response.ok) throw new Error(await response.text());
    reached(true);
    return await response.json();
  } catch {
    reached(false);
    return null;
  }
}

const patience = 15000; // ms, after which a server counts as out of reach
const while_ = 2500;    // ms, that a page waits for news of what is here anyway

// job gives all that is on this device of a job.
export async function job(id) {
  const job = await held.whole(id);
  if (!job) throw new Error('no-job');
  return job;
}

// brief tells what of a job is on this device, without its openings.
export const brief = id => held.brief(id);

// opening gives a job with one of its openings and those that it needs. With fresh, the server is asked what is
// new; what is not on this device is asked for in any case.
export async function opening(jobID, id, fresh = false) {
  const here = await held.around(jobID, id);
  if (here && !fresh) return here;
  const news = take(jobID, {opening: id});
  if (here) await Promise.race([news, new Promise(done => setTimeout(done, while_))]).catch(() => {}); // what was begun here the server may not have yet
  else if (!await news) throw new Error('opening-elsewhere');
  const job = await held.around(jobID, id);
  if (!job) throw new Error('no-opening');
  return job;
}

// take takes a part of a job from the server: an opening by its id or its key, or what one yet to be begun needs. It tells
// whether the server could be reached.
export async function take(jobID, which = {}) {
  const asked = Date.now();
  try {
    const response = await ask(`${jobURL(jobID)}/part?${new URLSearchParams(which)}`, {signal: AbortSignal.timeout(patience)});
    if (response.status === 404) throw new Error('no-opening');
    if (!response.ok) throw new Error(await response.text());
    const got = {...await response.json(), id: jobID, asked};
    await keep(got, Object.values(got.keys));
    reached(true);
    return true;
  } catch (error) {
    if (error.message === 'no-opening') throw error;
    reached(false);
    return false;
  }
}

// takeAll takes a whole job from the server.
export async function takeAll(jobID) {
  const asked = Date.now();
  const response = await ask(jobURL(jobID));
  if (response.status === 404) throw new Error('no-job');
  if (!response.ok) throw new Error(await response.text());
  const got = {...await response.json(), id: jobID, asked};
  await keep(got, null);
  reached(true);
  return got;
}

// keep keeps what the server gave, and lets go of the changes that it shows: of the openings of these keys, or of all.
async function keep(got, keys) {
  const shown = (await store.all('changes')).filter(c => c.job === got.id && !c.waits && c.n <= got.rev && (!keys || keys.includes(c.subject) || c.outcome === 'conflict'));
  await store.settle(got, shown, keys ? null : {at: new Date().toISOString(), rev: got.rev});
  const seen = await store.setting('seen');
  if (!seen || seen.rev <= got.rev) await store.remember('seen', {rev: got.rev, seal: got.seal});
  rulesOf(got.id, got.rulesVersion).catch(() => reached(false)); // the page does not wait for them
}

// tidy takes anew the openings of which changes have gone up, so that these need not be kept here; what was begun
// under a number that another opening has is in the book, and shown there among the conflicts.
async function tidy() {
  const gone = new Map((await store.all('changes')).filter(c => !c.waits).map(c => [c.subject, c]));
  for (const [key, change] of gone) {
    const reached = await take(change.job, {key}).catch(async error => {
      if (error.message !== 'no-opening') throw error;
      for (const c of await store.all('changes')) if (c.subject === key && !c.waits) await store.remove('changes', c.seq);
      return true;
    });
    if (!reached) return;
  }
}

let tidying = 0;
const tidySoon = () => { clearTimeout(tidying); tidying = setTimeout(() => tidy().catch(() => {}), 300000); }; // not at once: a book may be put back

const fetching = new Map();

// rulesOf gives the rulebooks of a job, once they are here: the page is shown before.
export async function rulesOf(id, version) {
  const held = await store.setting('rules ' + id);
  if (held?.version === version) return held.rulebooks;
  if (!fetching.has(id + version)) {
    fetching.set(id + version, (async () => {
      const response = await fetch(jobURL(id) + '/rules');
      if (!response.ok) throw new Error(await response.text());
      const rulebooks = await response.json();
      await store.remember('rules ' + id, {version, rulebooks});
      return rulebooks;
    })().finally(() => fetching.delete(id + version)));
  }
  return fetching.get(id + version);
}

// device is what this device is known by.
let device = async () => {
  const made = (async () => await store.setting('device') || (await store.remember('device', store.newID()), await store.setting('device')))();
  device = () => made;
  return made;
};

// make makes changes to an opening, each with kind and any of path and value. They are
// on this phone's disk when it returns.
export async function make(job, id, ...changes) {
  const who = await store.setting('name', '');
  const from = await device();
  const made = new Date().toISOString();
  await store.append(changes.map(c => {
    const subject = job.keys[id] || c.subject;
    return {id: store.newID(), job: job.id, subject, base: job.revs[subject] ?? job.rev, device: from, who: who || 'unnamed', made, ...c};
  }));
  await count();
  flush();
}

// set is the change that gives a field a text, or takes it away.
export const set = (path, text) => ({kind: 'set', path, value: text === null || text === '' ? '' : JSON.stringify(text)});

// add is the change that appends to a list.
export const add = (path, item) => ({kind: 'add', path, value: JSON.stringify(item)});

async function count() {
  state.waiting = (await store.all('changes')).filter(c => c.waits).length;
  tell();
}

let flushing = null;

// flush sends what waits, one after another. It may be called at any time: only one
// runs, and a change that arrives twice is kept once.
export function flush() {
  flushing ||= send().finally(() => { flushing = null; });
  return flushing;
}

const most = 50; // changes in one request

async function send() {
  for (let asked = false;;) {
    const waiting = (await store.all('changes')).filter(c => c.waits);
    if (waiting.length !== state.waiting) { state.waiting = waiting.length; tell(); }
    if (waiting.length === 0) {
      tidySoon();
      return;
    }
    try {
      if (!asked) {
        asked = true;
        if (await putBack()) continue;
      }
      const batch = waiting.slice(0, most);
      let why = '';
      for (const change of batch) {
        if (change.kind === 'attach') why = await sendBlob(JSON.parse(change.value).hash);
        if (why) {
          await refuse(change, why);
          break;
        }
      }
      if (why) continue;
      const response = await ask('/api/changes', {method: 'POST', headers: {'Content-Type': 'application/json'},
        body: JSON.stringify(batch.map(({waits, n, outcome, why, entered, ...change}) => change))});
      const answer = response.headers.get('Content-Type')?.includes('json') ? await response.json() : {};
      for (const kept of answer.kept || []) {
        const change = batch.find(c => c.id === kept.id);
        await store.put('changes', {...change, waits: false, n: kept.n, outcome: kept.outcome});
      }
      if ((response.status === 409 || answer.refused) && await putBack()) continue;
      if (answer.refused) await refuse(batch.find(c => c.id === answer.refused.id), answer.refused.why);
      else if (!response.ok) throw new Error(response.statusText);
      reached(true);
    } catch {
      reached(false);
      return;
    }
  }
}

// putBack finds whether the book was put back from a backup: it has less than this phone had sent, or something else
// where this phone had looked last. If so all is sent again that is still here, behind what the book has.
async function putBack() {
  const from = await device();
  const seen = await store.setting('seen');
  const has = await call('GET', `/api/devices/${encodeURIComponent(from)}${seen ? '?seen=' + seen.rev : ''}`);
  const other = !!seen && seen.seal !== has.seal;
  if (other) await store.remember('seen', null);
  return store.renumber(has, other);
}

// refuse turns a change that the book will never carry out into a note that says what was
// entered, under the same number, so that it is kept and those behind it can follow.
async function refuse(change, why) {
  if (!change) throw new Error(why);
  const {id, job, subject, kind, path, value, made, entered} = change;
  if (kind === 'note' && subject === job) { // not even that: it stays here, and those behind it
    await store.refuse(change, {id, job, ...entered || {subject, kind, value}, made, why, stuck: true});
    throw new Error(why);
  }
  const what = entered || {subject, kind, path, value};
  const text = kind === 'note' ? value : t('refused.note', {what: [kind, path, value].filter(Boolean).join(' '), why});
  // where there is no such opening, the note is the job's
  await store.refuse({...change, kind: 'note', path: '', value: text, subject: kind === 'note' || kind === 'opening' ? job : subject, entered: what},
    {id, job, ...what, made, why: entered ? change.why : why}, why);
  state.refused++;
  tell();
}

// refusals are what was entered here and could never be carried out, until somebody has seen it.
export const refusals = () => store.setting('refused', []);

// seen puts one of them away; the note stays in the history.
export const seen = async id => store.remember('refused', (await refusals()).filter(r => r.id !== id));

// sendBlob sends a photo or recording, and gives why the book will never take it, if it will not.
async function sendBlob(hash) {
  const held = await store.get('blobs', hash);
  if (!held || held.up) return '';
  const response = await ask('/api/attachments/' + hash, {method: 'PUT', headers: {'Content-Type': held.blob.type}, body: held.blob});
  if (response.status === 413 || response.status === 415) return await response.text();
  if (!response.ok) throw new Error(await response.text());
  await store.put('blobs', {...held, up: true});
  return '';
}

// keepBlob keeps a photo or recording here until it has gone up, and gives its name.
export async function keepBlob(blob) {
  const hash = await store.hashOf(blob);
  if (!await store.get('blobs', hash)) await store.put('blobs', {hash, blob, up: false});
  return hash;
}

// watch sends whenever there may be a network again.
export async function watch() {
  addEventListener('online', flush);
  document.addEventListener('visibilitychange', () => { if (!document.hidden) flush(); });
  setInterval(() => { if (state.waiting) flush(); }, 3000);
  await count();
  flush();
}

// session tells who is signed in, if the server asks that of anybody; nothing where it cannot be reached.
export async function session() {
  try {
    return await (await fetch('/api/session')).json();
  } catch {
    return null;
  }
}

// call asks the server for what makes sense only where it can be reached, and gives its answer; what it refuses is
// an error with its status and its words.
export async function call(method, path, body) {
  const response = await fetch(path, {method, ...body && {headers: {'Content-Type': 'application/json'}, body: JSON.stringify(body)}});
  if (!response.ok) throw Object.assign(new Error((await response.text()).trim()), {status: response.status});
  return response.status === 204 ? null : await response.json();
}

// signIn gives the answer of the server to a name and a password.
export const signIn = (name, password) => enter('/api/session', {name, password});

// choosePassword gives the answer of the server to a code with which somebody chooses a password.
export const choosePassword = (name, code, password) => enter('/api/invitation', {name, code, password});

async function enter(path, typed) {
  const response = await fetch(path, {method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify(typed)});
  if (response.ok) {
    state.out = false;
    tell();
    flush();
  }
  return response;
}

// signOut ends the session, and takes off this device what the server has too: whoever holds
// it next may be somebody else.
export async function signOut() {
  const response = await fetch('/api/session', {method: 'DELETE'});
  if (!response.ok) throw new Error(await response.text());
  if (!state.waiting) {
    for (const name of ['jobs', 'openings', 'states', 'blobs', 'changes']) await store.clear(name);
    await globalThis.caches?.delete(photos);
  }
  state.out = true;
  tell();
}

// labelled finds the opening that a label names, here where it is here, else by the server; asked tells
// whether the server was there to be asked.
export async function labelled(key) {
  const here = await held.keyed(key);
  if (here) return {at: here, asked: false};
  let response;
  try {
    response = await ask('/api/openings/' + encodeURIComponent(key));
    reached(true);
  } catch {
    reached(false);
    return {at: null, asked: false};
  }
  const at = response.ok ? await response.json() : null;
  return {at: at?.state === 'live' ? at : null, asked: true};
}
