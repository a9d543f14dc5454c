// The phone's own store. Nothing leaves it before the server has acknowledged it.

const stores = {
  jobs: {keyPath: 'id'},     // what stands around the openings of jobs, as the server gave it last
  openings: {keyPath: 'key'}, // openings, as the server gave them last
  changes: {keyPath: 'seq'}, // changes made here that wait, or that the job at hand does not show yet
  blobs: {keyPath: 'hash'},  // photos and recordings
  states: {keyPath: 'key'},  // how openings stood when they were last reckoned
  settings: {},
};

let opened;

// sought are the ways by which openings are found.
const sought = {job: 'job', id: ['job', 'o.id'], place: ['job', 'place']};

function open() {
  opened ||= new Promise((resolve, reject) => {
    const request = indexedDB.open('swingwright', 2);
    request.onupgradeneeded = ({oldVersion}) => {
      const db = request.result;
      for (const [name, options] of Object.entries(stores)) if (!db.objectStoreNames.contains(name)) db.createObjectStore(name, options);
      if (oldVersion < 2) {
        const tx = request.transaction;
        for (const [name, path] of Object.entries(sought)) tx.objectStore('openings').createIndex(name, path);
        if (oldVersion === 1) apart(tx); // jobs were kept whole
      }
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

// apart takes jobs apart that were kept whole by an earlier version of this app.
function apart(tx) {
  tx.objectStore('jobs').openCursor().onsuccess = ({target: {result: cursor}}) => {
    if (!cursor) return;
    const {head, openings} = split(cursor.value);
    for (const o of openings) tx.objectStore('openings').put(o);
    cursor.update(head);
    cursor.continue();
  };
}

// split takes a job, or a part of one, as the server gives it, apart: what stands around the openings, and each of these.
function split({id, rev, asked = 0, tree, keys, places = {}, records, conflicts, rules, rulesVersion}) {
  const of = key => (conflicts || []).filter(c => c.subject === key);
  return {
    head: {id, rev, asked, tree: {...tree, openings: []}, rules, rulesVersion},
    openings: tree.openings.filter(o => keys[o.id]).map((o, i) => ({key: keys[o.id], job: id, place: places[keys[o.id]] ?? i, rev, asked, o, records: records[keys[o.id]] || [], conflicts: of(keys[o.id])})),
  };
}

// run carries out requests in one transaction and gives what the last one found. It is
// done when the transaction is complete: what was written is then on the disk.
async function run(names, mode, work) {
  const db = await open();
  return new Promise((resolve, reject) => {
    const tx = db.transaction(names, mode, {durability: 'strict'});
    const request = work(...[].concat(names).map(name => tx.objectStore(name)));
    tx.oncomplete = () => resolve(request && request.result);
    tx.onerror = tx.onabort = () => reject(tx.error);
  });
}

export const get = (store, key) => run(store, 'readonly', st => st.get(key));
export const all = store => run(store, 'readonly', st => st.getAll());
export const put = (store, value, key) => run(store, 'readwrite', st => key === undefined ? st.put(value) : st.put(value, key));
export const clear = store => run(store, 'readwrite', st => st.clear());
export const remove = (store, key) => run(store, 'readwrite', st => st.delete(key));

// append numbers changes of this device, one after another without a gap, and puts them
// into the outbox: all of them or none. Openings that were changed here are marked as this device's own.
export async function append(changes) {
  await run(['changes', 'settings', 'openings'], 'readwrite', (outbox, settings, openings) => {
    settings.get('seq').onsuccess = event => {
      let seq = event.target.result || 0;
      for (const change of changes) outbox.put({...change, seq: ++seq, waits: true});
      settings.put(seq, 'seq');
    };
    for (const key of new Set(changes.map(c => c.subject).filter(Boolean))) {
      openings.get(key).onsuccess = ({target: {result: o}}) => { if (o && !o.own) openings.put({...o, own: true}); };
    }
  });
}

// refuse puts a change as it can be kept in place of one that cannot, and tells what that was.
export const refuse = (change, what) => run(['changes', 'settings'], 'readwrite', (changes, settings) => {
  changes.put({...change, why: what.why});
  settings.get('refused').onsuccess = event => settings.put([...(event.target.result || []).filter(r => r.id !== what.id), what], 'refused');
});

// renumber numbers anew all changes that a book has not got which was put back from a backup: those behind its last
// number of this device, sent before or not. What was seen after its revision rev is not in that book, or is something else
// there. It gives whether there was anything to do; other tells that the book is known to have been put back.
export async function renumber({seq: last, rev, head}, other) {
  let did = false;
  await run(['changes', 'settings', 'blobs', 'jobs'], 'readwrite', (changes, settings, blobs, jobs) => {
    changes.getAll().onsuccess = event => {
      const lost = event.target.result.filter(c => c.seq > last).sort((a, b) => a.seq - b.seq);
      if (!other && lost.every((c, i) => c.seq === last + 1 + i && c.waits && c.base <= head)) return;
      did = true;
      for (const {seq} of lost) changes.delete(seq);
      let seq = last;
      for (const {n, outcome, ...c} of lost) changes.put({...c, seq: ++seq, waits: true, base: Math.min(c.base, Math.max(rev, 1))});
      settings.put(seq, 'seq');
      jobs.getAll().onsuccess = e => { for (const job of e.target.result) if (job.whole) jobs.put({...job, whole: {...job.whole, rev: 0}}); }; // to be taken along anew
      blobs.getAll().onsuccess = e => { for (const blob of e.target.result) blobs.put({...blob, up: false}); };
    };
  });
  return did;
}

// settle puts what the server gives of a job, and drops the changes that it shows by now; what these were about is this device's own. Where
// the whole job was taken along, whole tells when and at which revision, and openings that are not in it any more are
// dropped. What was asked for later, and came before, stays.
export const settle = (job, gone, whole = null) => run(['jobs', 'openings', 'changes'], 'readwrite', (jobs, openings, changes) => {
  const {head, openings: fresh} = split(job);
  const mine = new Set(gone.map(c => c.subject));
  for (const {seq} of gone) changes.delete(seq);
  jobs.get(head.id).onsuccess = ({target: {result: was}}) => {
    if (was && was.asked > head.asked) jobs.put({...was, whole: whole || was.whole});
    else jobs.put({...head, whole: whole || was?.whole || null});
  };
  for (const o of fresh) {
    openings.get(o.key).onsuccess = ({target: {result: was}}) => { if (!was || was.asked <= o.asked) openings.put({...o, own: !!was?.own || mine.has(o.key)}); };
  }
  if (whole) {
    const there = new Set(fresh.map(o => o.key));
    openings.index('job').openCursor(IDBKeyRange.only(head.id)).onsuccess = ({target: {result: cursor}}) => {
      if (!cursor) return;
      if (!there.has(cursor.primaryKey) && cursor.value.asked <= head.asked) cursor.delete();
      cursor.continue();
    };
  }
});

// leave drops a job that was taken along, but for the openings that were begun or changed here and those that these take
// their fields over from.
export const leave = job => run(['jobs', 'openings', 'changes'], 'readwrite', (jobs, openings, changes) => {
  jobs.get(job).onsuccess = ({target: {result: head}}) => { if (head) jobs.put({...head, whole: null}); };
  changes.getAll().onsuccess = ({target: {result: waiting}}) => {
    openings.index('job').getAll(job).onsuccess = ({target: {result: all}}) => {
      const byID = new Map(all.map(x => [x.o.id, x])), mine = new Set(waiting.map(c => c.subject)), kept = new Set();
      const keep = x => { for (; x && !kept.has(x.key); x = byID.get(x.o.same_as || x.o.in_place_of)) kept.add(x.key); };
      for (const x of all) if (x.own || mine.has(x.key)) keep(x);
      for (const c of waiting) if (c.job === job && c.kind === 'opening') keep(byID.get(JSON.parse(c.value).same_as));
      for (const x of all) if (!kept.has(x.key)) openings.delete(x.key);
    };
  };
});

const found = request => new Promise((done, fail) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => fail(request.error);
});

// reading gives, within one look at what is held, ways to find openings of a job: all of them, one by its id, and the last
// one before a place that is no alternative.
export async function reading(job, work) {
  const tx = (await open()).transaction(['jobs', 'openings', 'changes']);
  const openings = tx.objectStore('openings');
  return work({
    head: await found(tx.objectStore('jobs').get(job)),
    changes: (await found(tx.objectStore('changes').getAll())).filter(c => c.job === job),
    all: () => found(openings.index('job').getAll(job)),
    byID: id => found(openings.index('id').get([job, id])),
    before: place => new Promise((done, fail) => {
      const request = openings.index('place').openCursor(IDBKeyRange.bound([job, -Infinity], [job, place], false, true), 'prev');
      request.onsuccess = () => {
        const cursor = request.result;
        if (cursor?.value.o.in_place_of) cursor.continue();
        else done(cursor?.value);
      };
      request.onerror = () => fail(request.error);
    }),
  });
}

// countOf is how many openings of a job are held.
export const countOf = job => run('openings', 'readonly', openings => openings.index('job').count(job));

// setting is a small thing remembered on this device.
export const setting = async (key, otherwise) => await get('settings', key) ?? otherwise;
export const remember = (key, value) => put('settings', value, key);

// newID makes an identity that nobody else has: a UUID of version 7 (RFC 9562), which sorts by time.
export function newID() {
  const b = crypto.getRandomValues(new Uint8Array(16));
  let ms = Date.now();
  for (let i = 5; i >= 0; i--) { b[i] = ms % 256; ms = Math.floor(ms / 256); }
  b[6] = b[6] & 0x0f | 0x70;
  b[8] = b[8] & 0x3f | 0x80;
  const x = [...b].map(n => n.toString(16).padStart(2, '0')).join('');
  return `${x.slice(0, 8)}-${x.slice(8, 12)}-${x.slice(12, 16)}-${x.slice(16, 20)}-${x.slice(20)}`;
}

// newKey makes a key for an opening, short enough for a label: 60 random bits.
export function newKey() {
  const letters = 'abcdefghijklmnopqrstuvwxyz234567';
  return [...crypto.getRandomValues(new Uint8Array(12))].map(n => letters[n % 32]).join('');
}

// hashOf names a blob by its content.
export async function hashOf(blob) {
  const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', await blob.arrayBuffer()));
  return [...sum].map(n => n.toString(16).padStart(2, '0')).join('');
}
