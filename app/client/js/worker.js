// The engine in a worker of its own, so that the page never waits for it.
importScripts('/engine/wasm_exec.js');

const started = (async () => {
  const go = new Go();
  const {instance} = await WebAssembly.instantiateStreaming(fetch('/engine/engine.wasm'), go.importObject);
  go.run(instance);
})();
started.then(() => postMessage({ready: true}), error => postMessage({ready: false, error: String(error)}));

onmessage = async event => {
  const {id, question, asked} = event.data;
  await started;
  postMessage({id, answer: swingwright(question, asked)});
};
