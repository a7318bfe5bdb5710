/* The engine's own thread. A classic worker, because wasm_exec.js is a classic script. It answers
   { id, method, json } with { id, json }; { ready: true } or { failed } comes once, before anything else. */
/* global Go, hobside */
importScripts('/wasm_exec.js');

(async () => {
  try {
    const go = new Go();
    const { instance } = await WebAssembly.instantiateStreaming(
      fetch('/engine.wasm'),
      go.importObject,
    );
    go.run(instance).then(() =>
      self.postMessage({ failed: 'the engine stopped; reload the page, nothing is lost' }),
    );
    if (!self.hobside) throw new Error('the engine did not come up');
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
    answer = JSON.stringify({
      error: 'the engine stumbled: ' + (err instanceof Error ? err.message : err),
    });
  }
  self.postMessage({ id, json: answer });
};
