// What pages about one opening begin with.
import * as sync from '../sync.js';
import {opening} from '../tree.js';
import {reader, t} from '../texts.js';

// open gives a job, one of its openings, addresses, and the reader's units.
export async function open(jobID, id, fresh = false) {
  let job;
  try {
    job = await sync.job(jobID, fresh);
  } catch {
    job = await sync.job(jobID, true);
  }
  let o = opening(job.tree, id);
  if (!o && !fresh) { // somebody else may have begun it
    job = await sync.job(jobID, true);
    o = opening(job.tree, id);
  }
  if (!o) throw new Error(t('opening.none', {id}));
  const home = '#/job/' + encodeURIComponent(jobID);
  return {job, o, units: reader.units || job.tree.units || 'us', home, here: `${home}/${encodeURIComponent(id)}`, place: [id, nameOf(job.tree, o)].filter(Boolean).join(' · ')};
}

// nameOf is the name of an opening.
export const nameOf = (tree, o) => o.name || '';

// today is the date here, as the record writes it.
export function today() {
  const d = new Date();
  return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map(x => String(x).padStart(2, '0')).join('-');
}
