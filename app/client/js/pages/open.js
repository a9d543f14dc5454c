// What pages about one opening begin with.
import * as sync from '../sync.js';
import {opening} from '../tree.js';
import {reader, t} from '../texts.js';

// open gives a job with one of its openings and those that it needs, addresses, and the reader's units. With fresh, the
// server is asked what is new.
export async function open(jobID, id, fresh = false) {
  const job = await sync.opening(jobID, id, fresh).catch(error => {
    throw ['no-opening', 'opening-elsewhere'].includes(error.message) ? new Error(t(error.message === 'no-opening' ? 'opening.none' : 'opening.elsewhere', {id})) : error;
  });
  const o = opening(job.tree, id);
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
