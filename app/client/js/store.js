// The phone's own store. Nothing leaves it before the server has acknowledged it.

const stores = {
  jobs: {keyPath: 'id'},     // jobs as the server gave them last
  changes: {keyPath: 'seq'}, // changes made here that wait, or that the job at hand does not show yet
  blobs: {keyPath: 'hash'},  // photos and recordings
  states: {keyPath: 'key'},  // how openings stood when they were last reckoned
  settings: {},
};

let opened;

function open() {
  opened ||= new Promise((resolve, reject) => {
    const request = indexedDB.open('swingwright', 1);
    request.onupgradeneeded = () => {
      for (const [name, options] of Object.entries(stores)) request.result.createObjectStore(name, options);
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
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
// into the outbox: all of them or none.
export async function append(changes) {
  await run(['changes', 'settings'], 'readwrite', (outbox, settings) => {
    settings.get('seq').onsuccess = event => {
      let seq = event.target.result || 0;
      for (const change of changes) outbox.put({...change, seq: ++seq, waits: true});
      settings.put(seq, 'seq');
    };
  });
}

// refuse puts a change as it can be kept in place of one that cannot, and tells what that was.
export const refuse = (change, what) => run(['changes', 'settings'], 'readwrite', (changes, settings) => {
  changes.put({...change, why: what.why});
  settings.get('refused').onsuccess = event => settings.put([...(event.target.result || []).filter(r => r.id !== what.id), what], 'refused');
});

// renumber numbers anew all changes that a book has not got which was put back from a backup: those behind its last
// number of this device, sent before or not. What was seen after its revision rev is not in that book, or is something else
// there. It gives whether there was anything to do.
export async function renumber({seq: last, rev, head}) {
  let did = false;
  await run(['changes', 'settings', 'blobs'], 'readwrite', (changes, settings, blobs) => {
    changes.getAll().onsuccess = event => {
      const lost = event.target.result.filter(c => c.seq > last).sort((a, b) => a.seq - b.seq);
      if (lost.every((c, i) => c.seq === last + 1 + i && c.waits && c.base <= head)) return;
      did = true;
      for (const {seq} of lost) changes.delete(seq);
      let seq = last;
      for (const {n, outcome, ...c} of lost) changes.put({...c, seq: ++seq, waits: true, base: Math.min(c.base, Math.max(rev, 1))});
      settings.put(seq, 'seq');
      blobs.getAll().onsuccess = e => { for (const blob of e.target.result) blobs.put({...blob, up: false}); };
    };
  });
  return did;
}

// settle puts a job as the server gives it, and drops the changes that it shows by now.
export const settle = (job, seqs) => run(['jobs', 'changes'], 'readwrite', (jobs, changes) => {
  for (const seq of seqs) changes.delete(seq);
  return jobs.put(job);
});

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
