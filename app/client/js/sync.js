// What was changed here and what the book has. Changes are numbered, wait in the
// outbox, go up in order, each under an identity made here, and leave this phone only
// when the job that the server gives shows them.
import * as store from './store.js';
import {t} from './texts.js';
import {apply} from './tree.js';

const listeners = new Set();

// onChange lets a listener hear of every change of state; it gives what ends that.
export const onChange = listener => { listeners.add(listener); return () => listeners.delete(listener); };
const tell = () => listeners.forEach(listener => listener());

export const state = {waiting: 0, online: navigator.onLine, out: false, refused: 0}; // refused counts since the app was opened

// ask asks the server, and remembers whether it wants somebody to sign in first.
async function ask(path, options) {
  const response = await fetch(path, options);
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
    return (await store.all('jobs')).map(j => ({key: j.id, name: j.tree.job, site: j.tree.site || '', openings: j.tree.openings.length}));
  }
}

// job gives a job as it stands here: as the server gave it last, with all that was
// changed here since. With fresh, the server is asked first.
export async function job(id, fresh = true) {
  if (fresh) await refresh(id);
  const held = await store.get('jobs', id);
  if (!held) throw new Error('no-job');
  const job = structuredClone(held);
  for (const change of await store.all('changes')) {
    if (change.job === id && change.outcome !== 'conflict') apply(job, change);
  }
  return job;
}

// refresh takes the job from the server.
async function refresh(id) {
  let response;
  try {
    response = await ask(jobURL(id));
    if (response.status === 404) throw new Error('no-job');
    if (!response.ok) throw new Error(await response.text());
    reached(true);
    const got = {...await response.json(), id};
    const shown = (await store.all('changes')).filter(c => c.job === id && !c.waits && c.n <= got.rev).map(c => c.seq);
    await store.settle(got, shown);
    rulesOf(id, got.rulesVersion).catch(() => reached(false)); // the page does not wait for them
  } catch (error) {
    if (error.message === 'no-job') throw error;
    reached(false);
  }
}

// past gives a job as it was after a revision of the book. The server has it; nothing that was changed here since counts.
export const past = async (id, at) => ({...await call('GET', `${jobURL(id)}?at=${encodeURIComponent(at)}`), id, at});

// since gives what happened in a job after a revision, the earliest first; of others only, not by this device.
export async function since(id, rev) {
  const device = await store.setting('device');
  return (await call('GET', `${jobURL(id)}/changes?after=${rev}&limit=200`)).filter(c => !c.device || c.device !== device);
}

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

// make makes changes to an opening, each with kind and any of path and value. They are
// on this phone's disk when it returns.
export async function make(job, id, ...changes) {
  const who = await store.setting('name', '');
  const device = await store.setting('device');
  const made = new Date().toISOString();
  await store.append(changes.map(c => ({id: store.newID(), job: job.id, subject: job.keys[id] || c.subject, base: job.rev, device, who: who || 'unnamed', made, ...c})));
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
  for (;;) {
    const waiting = (await store.all('changes')).filter(c => c.waits);
    if (waiting.length !== state.waiting) { state.waiting = waiting.length; tell(); }
    if (waiting.length === 0) return;
    const batch = waiting.slice(0, most);
    try {
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

// putBack finds whether the book was put back from a backup that has less than this phone had sent, and if so sends
// all of that again which is still here, behind what the book has.
async function putBack() {
  const device = await store.setting('device');
  return store.renumber(await call('GET', '/api/devices/' + encodeURIComponent(device)));
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
  if (!await store.setting('device')) await store.remember('device', store.newID());
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
  if (!state.waiting) for (const name of ['jobs', 'states', 'blobs', 'changes']) await store.clear(name);
  state.out = true;
  tell();
}

// labelled finds the opening that a label names, here where it is here, else by the server; asked tells
// whether the server was there to be asked.
export async function labelled(key) {
  for (const job of await store.all('jobs')) {
    const id = Object.keys(job.keys).find(id => job.keys[id] === key);
    if (id) return {at: {job: job.id, id}, asked: false};
  }
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
