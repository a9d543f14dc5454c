// Questions to the engine: in this browser where it is at hand, else at the server.
import {rulesOf} from './sync.js';
import {tag} from './texts.js';
import {part} from './tree.js';

let worker, begun = null, ready = false, absent = false, next = 1;
const waiting = new Map();
let rulesGiven = '';

// start starts the engine in its worker, once, and tells whether it is here. Without it the server answers.
export function start() {
  begun ||= new Promise(resolve => {
    const done = here => {
      ready = here;
      absent = !here;
      if (absent) {
        for (const {fail} of waiting.values()) fail(new Error('no engine'));
        waiting.clear();
      }
      resolve(here);
    };
    worker = new Worker('/js/worker.js');
    worker.onmessage = ({data}) => {
      if ('ready' in data) {
        done(data.ready);
        return;
      }
      waiting.get(data.id)?.give(data.answer);
      waiting.delete(data.id);
    };
    worker.onerror = () => done(false);
  });
  return begun;
}

export const isReady = () => ready;

// answered waits until something was asked and answered, so that what comes later does not take the
// line from it.
export const answered = () => first; // answered.now() tells that it was
const first = new Promise(done => { answered.now = done; });

function inWorker(question, asked) {
  return new Promise((give, fail) => {
    if (absent) { fail(new Error('no engine')); return; }
    waiting.set(next, {give, fail});
    worker.postMessage({id: next++, question, asked});
  });
}

async function atServer(question, job, asked) {
  const response = await fetch(`/api/jobs/${encodeURIComponent(job.id)}/ask/${question}${job.at ? '?at=' + job.at : ''}`, {method: 'POST', headers: {'Content-Type': 'application/json'}, body: asked});
  if (!response.ok) throw new Error(await response.text());
  return response.text();
}

// ask asks a question about an opening of a job. It throws with the problems, as texts,
// where there is no answer.
export async function ask(question, job, opening, more = {}) {
  const asked = JSON.stringify({job: part(job.tree, opening), rules: job.rules, opening, language: tag(), narrow: innerWidth < 700, ...more});
  const text = await whoever(question, job, asked);
  answered.now();
  const answer = JSON.parse(text);
  if (answer.problems) throw new Error(answer.problems.join('\n'));
  return answer;
}

// whoever takes the answer from the engine where it is here, and from the server before.
async function whoever(question, job, asked) {
  if (job.at) return atServer(question, job, asked); // which has the rulebooks of then
  if (ready) return inEngine(question, job, asked);
  if (!navigator.onLine && !absent) {
    start();
    return inEngine(question, job, asked);
  }
  if (begun && !absent) return Promise.any([atServer(question, job, asked), inEngine(question, job, asked)]);
  try {
    return await atServer(question, job, asked);
  } catch (error) {
    if (absent) throw error;
    start();
    return inEngine(question, job, asked);
  }
}

async function inEngine(question, job, asked) {
  if (rulesGiven !== job.id + job.rulesVersion) {
    const rulebooks = await rulesOf(job.id, job.rulesVersion);
    rulesGiven = job.id + job.rulesVersion;
    await inWorker('rules', JSON.stringify(rulebooks));
  }
  return inWorker(question, asked);
}
