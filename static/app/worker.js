/* The engine's own thread. A classic worker, because wasm_exec.js is a classic script. It answers
   { id, method, json } with { id, json }. { ready: true } or { failed } comes before anything else,
   and { failed } again if the engine stops later. */
/* global Go, hobside */
importScripts('/wasm_exec.js');

(async () => {
  try {
    const go = new Go();
    const { instance } = await WebAssembly.instantiateStreaming(
      fetch('/engine.wasm'),
      go.importObject,
    );
    go.run(instance).then(() => self.postMessage({ failed: 'the engine stopped' }));
    if (!self.hobside) throw new Error('it has no entry point');
    self.postMessage({ ready: true });
  } catch (err) {
    self.postMessage({
      failed: 'the engine could not be loaded: ' + (err instanceof Error ? err.message : err),
    });
  }
})();

self.onmessage = (event) => {
  const { id, method, json } = event.data;
  let answer;
  try {
    answer = self.hobside.call(method, json);
  } catch (err) {
    // the Go program has ended or can't be used any more
    self.postMessage({
      failed: 'the engine stopped: ' + (err instanceof Error ? err.message : err),
    });
    return;
  }
  self.postMessage({ id, json: answer });
};
