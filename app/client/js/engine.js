// Questions to the engine: in this browser where it is at hand, else at the server.
import {rulesOf} from './sync.js';
import {part} from './tree.js';

let worker, ready = false, absent = false, next = 1;
const waiting = new Map();
let rulesGiven = '';

// start starts the engine in its worker. Without one the server answers.
export function start() {
  worker = new Worker('/js/worker.js');
  return new Promise(resolve => {
    worker.onmessage = ({data}) => {
      if ('ready' in data) {
        ready = data.ready;
        absent = !data.ready;
        resolve(ready);
        return;
      }
      waiting.get(data.id)?.(data.answer);
      waiting.delete(data.id);
    };
    worker.onerror = () => { absent = true; resolve(false); };
  });
}

export const isReady = () => ready;

function inWorker(question, asked) {
  return new Promise(resolve => {
    waiting.set(next, resolve);
    worker.postMessage({id: next++, question, asked});
  });
}

async function atServer(question, job, asked) {
  const response = await fetch(`/api/jobs/${encodeURIComponent(job.id)}/ask/${question}`, {method: 'POST', headers: {'Content-Type': 'application/json'}, body: asked});
  if (!response.ok) throw new Error(await response.text());
  return response.text();
}

// ask asks a question about an opening of a job. It throws with the problems, as texts,
// where there is no answer.
export async function ask(question, job, opening, more = {}) {
  const asked = JSON.stringify({job: part(job.tree, opening), rules: job.rules, opening, ...more});
  let text;
  if (ready || absent || !navigator.onLine) text = absent ? await atServer(question, job, asked) : await inEngine(question, job, asked);
  else text = await Promise.any([atServer(question, job, asked), inEngine(question, job, asked)]);
  const answer = JSON.parse(text);
  if (answer.problems) throw new Error(answer.problems.join('\n'));
  return answer;
}

async function inEngine(question, job, asked) {
  if (rulesGiven !== job.id + job.rulesVersion) {
    const rulebooks = await rulesOf(job.id, job.rulesVersion);
    rulesGiven = job.id + job.rulesVersion;
    await inWorker('rules', JSON.stringify(rulebooks));
  }
  return inWorker(question, asked);
}
