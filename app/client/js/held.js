// Jobs as they stand on this device: as the server gave them last, with all that was changed here since.
import {all, get, reading} from './store.js';
import {apply, opening, parsed} from './tree.js';

// A gathering is a job of which openings are brought in one by one.
function gathering({head, changes}) {
  const job = {id: head.id, rev: head.rev, whole: head.whole, rules: head.rules, rulesVersion: head.rulesVersion, tree: head.tree, keys: {}, records: {}, conflicts: [], revs: {},
    waiting: new Set(changes.filter(c => c.waits).map(c => c.subject)), begun: new Set(changes.filter(c => c.kind === 'opening').map(c => c.subject))};
  const places = new Map(); // by key; what was begun here comes last
  const mine = changes.filter(c => c.outcome !== 'conflict');
  const bring = one => {
    if (!one || places.has(one.key)) return;
    places.set(one.key, one.place);
    job.tree.openings.push(one.o);
    job.keys[one.o.id] = one.key;
    job.revs[one.key] = one.rev;
    job.records[one.key] = one.records;
    job.conflicts.push(...one.conflicts);
    for (const c of mine) if (c.subject === one.key && (c.waits || c.n > one.rev)) apply(job, c);
  };
  const done = () => {
    const place = o => places.get(job.keys[o.id]) ?? Infinity;
    job.tree.openings = job.tree.openings.map((o, i) => [place(o), i, o]).sort((a, b) => a[0] - b[0] || a[1] - b[1]).map(x => x[2]);
    return job;
  };
  // begin brings in what was begun here and is not held as the server's.
  const begin = () => { for (const c of mine) if (!places.has(c.subject)) apply(job, c); };
  return {job, bring, begin, done};
}

// whole is all that is held of a job; nothing where nothing is.
export const whole = id => reading(id, async r => {
  if (!r.head) return null;
  const g = gathering(r);
  for (const one of await r.all()) g.bring(one);
  g.begin();
  return g.done();
});

// brief tells of a job whether it is whole here, and of which openings changes wait; nothing where nothing is held.
export const brief = id => reading(id, async r => r.head ? gathering(r).job : null);

// around is one opening of a job with those that it needs; nothing where the job or the opening is not held.
export const around = (jobID, id) => reading(jobID, async r => {
  if (!r.head) return null;
  const g = gathering(r), tree = g.job.tree;
  for (const c of r.changes) { // what was begun here, where the server has shown it by now
    if (c.kind === 'opening') g.bring(await r.byID(parsed(c.value).id));
  }
  const here = await r.byID(id);
  g.bring(here);
  g.begin();
  const follow = async o => {
    for (const seen = new Set(); o && !seen.has(o.id); ) {
      seen.add(o.id);
      const next = o.same_as || o.in_place_of;
      if (next && !opening(tree, next)) g.bring(await r.byID(next));
      o = next && opening(tree, next);
    }
  };
  const o = opening(tree, id);
  if (!o) return null;
  await follow(o);
  const before = await r.before(here ? here.place : Infinity);
  g.bring(before);
  if (before) await follow(before.o);
  return g.done();
});

// keyed is where the opening of a key is, if it is held or was begun here.
export async function keyed(key) {
  const held = await get('openings', key);
  if (held) return {job: held.job, id: held.o.id};
  const changes = await all('changes');
  const begun = changes.find(c => c.kind === 'opening' && c.subject === key);
  return begun ? {job: begun.job, id: parsed(begun.value).id} : null;
}
