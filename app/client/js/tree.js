// A job as keys, lists and texts, and the changes to it.

const stepsOf = path => path.replaceAll('[', '.[').split('.').map(step => step[0] === '[' ? Number(step.slice(1, -1)) : step);

// at is what stands at a path such as closer.gauged[0].angle; undefined where nothing does.
export function at(o, path) {
  for (const step of stepsOf(path)) {
    if (o === undefined || o === null) return undefined;
    o = o[step];
  }
  return o;
}

// put puts a value at a path; undefined takes away what is there.
export function put(o, path, value) {
  const steps = stepsOf(path);
  const last = steps.pop();
  steps.forEach((step, i) => {
    const next = i + 1 < steps.length ? steps[i + 1] : last;
    o = o[step] ??= typeof next === 'number' ? [] : {};
  });
  if (value !== undefined) o[last] = value;
  else if (Array.isArray(o)) o.splice(last, 1);
  else delete o[last];
}

export const opening = (tree, id) => tree.openings.find(o => o.id === id);

// parsed is the value of a change; a text that is no JSON stands for itself.
export function parsed(text) {
  if (!text) return undefined;
  try { return JSON.parse(text); } catch { return text; }
}

// apply carries out a change on a job, as the book does, as far as this app makes changes.
export function apply(job, change) {
  const {tree, keys} = job;
  if (change.kind === 'opening') {
    const o = parsed(change.value);
    if (!opening(tree, o.id)) tree.openings.push(o);
    keys[o.id] = change.subject;
    return;
  }
  const o = tree.openings.find(one => keys[one.id] === change.subject);
  if (!o) return;
  const value = parsed(change.value);
  switch (change.kind) {
    case 'set':
    case 'resolve':
      if (change.path) put(o, change.path, value);
      break;
    case 'add':
      put(o, change.path, [...(at(o, change.path) || []), value]);
      break;
    case 'remove':
      put(o, change.path, undefined);
      break;
    case 'note':
    case 'attach':
    case 'sign':
      (job.records[change.subject] ||= []).push({id: change.id, kind: change.kind, value: change.value, who: change.who, made: change.made, waiting: !!change.waits});
  }
}

// part is the job with one opening and those that it needs: what it takes fields over
// from, and the one before it.
export function part(tree, id) {
  const need = new Set();
  const follow = o => { for (; o && !need.has(o.id); o = opening(tree, o.same_as || o.in_place_of)) need.add(o.id); };
  follow(opening(tree, id));
  for (let i = tree.openings.findIndex(o => o.id === id) - 1; i >= 0; i--) {
    if (tree.openings[i].in_place_of) continue;
    follow(tree.openings[i]);
    break;
  }
  const {groups, ...rest} = tree;
  return {...rest, openings: tree.openings.filter(o => need.has(o.id))};
}
