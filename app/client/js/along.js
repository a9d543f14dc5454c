// Taking a job along, whole, for where there is no network: its openings, its rules, its photos, the app and the engine.
import * as engine from './engine.js';
import * as store from './store.js';
import * as sync from './sync.js';
import {parsed} from './tree.js';

// along takes a job along and tells how far it is: tell is called with what is taken now, how many steps are
// done, and of how many. It gives whether the browser promised to keep it all.
export function along(id, tell = () => {}) {
  return running = running.catch(() => {}).then(() => all(id, tell));
}

let running = Promise.resolve(); // one after another, and what is dropped does not come back from one under way

async function all(id, tell) {
  let done = 0, of = 4;
  const step = async (what, work) => {
    tell(what, done, of);
    const result = await work();
    tell(what, ++done, of);
    return result;
  };
  const kept = await navigator.storage?.persist?.().catch(() => false);
  const job = await step('openings', () => sync.takeAll(id));
  await step('rules', () => sync.rulesOf(id, job.rulesVersion));
  const photos = [...new Set(Object.values(job.records).flat().filter(r => r.kind === 'attach').map(r => parsed(r.value)).filter(a => a.what === 'photo').map(a => '/api/attachments/' + a.hash))];
  of += photos.length;
  const cache = await globalThis.caches?.open(sync.photos);
  for (const photo of photos) {
    await step('photos', async () => {
      if (!cache || await cache.match(photo)) return;
      const response = await fetch(photo);
      if (response.ok) await cache.put(photo, response);
      else if (response.status !== 404) throw new Error(await response.text());
    });
  }
  await step('app', () => navigator.serviceWorker && Promise.race([navigator.serviceWorker.ready, new Promise((done, fail) => setTimeout(() => fail(new Error('no-worker')), 120000))]));
  await step('engine', () => engine.start());
  return !!kept;
}

// leave drops what was taken along, but for what was changed here.
export const leave = async id => {
  await running.catch(() => {});
  return store.leave(id);
};
