// The page's own sync modules as phones of the simulation, under Node. Each phone is a worker
// with its own copy of the modules, a database in memory and a clock that the simulation sets.
// Lines of JSON come on the standard input, one answer for each goes to the standard output:
//
//   { "phone": 0, "do": "begin", … }   a new phone in the place of the one before
//   { "phone": 0, "do": "request", "now": 1812790800000 }
//
//   node page.mjs FOLDER-OF-STATIC FAKE-INDEXEDDB
import { createHash, createHmac } from 'node:crypto';
import { register } from 'node:module';
import { createInterface } from 'node:readline';
import { pathToFileURL } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';

if (isMainThread) main();
else await phone();

function main() {
  const [folder, database] = process.argv.slice(2);
  /** @type {Map<number, Worker>} */ const phones = new Map();
  const say = (answer) => process.stdout.write(JSON.stringify(answer) + '\n');
  createInterface({ input: process.stdin }).on('line', async (line) => {
    const ask = JSON.parse(line);
    if (ask.do === 'begin') {
      await phones.get(ask.phone)?.terminate();
      const worker = new Worker(new URL(import.meta.url), {
        workerData: { folder, database, seed: ask.seed, device: ask.device },
      });
      worker.on('message', say);
      worker.on('error', (err) => say({ error: String(err?.stack ?? err) }));
      phones.set(ask.phone, worker);
      return;
    }
    phones.get(ask.phone)?.postMessage(ask);
  });
}

/** What a browser has and Node has not, as far as the modules use it. */
function browser(seed) {
  let clock = 0,
    drawn = 0;
  const draw = () => createHmac('sha256', seed).update(String(drawn++)).digest();
  const nothing = () => {};
  const define = (name, value) =>
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  Date.now = () => clock;
  Math.random = () => draw().readUInt32BE() / 2 ** 32;
  define('crypto', { getRandomValues: (a) => (a.set(draw().subarray(0, a.length)), a) });
  define('BroadcastChannel', undefined);
  define('addEventListener', nothing);
  define('document', { hidden: false, addEventListener: nothing });
  define('navigator', {});
  define('localStorage', { getItem: () => null, setItem: nothing, removeItem: nothing });
  // The engine is asked for nothing but the names of revisions.
  define(
    'Worker',
    class {
      constructor() {
        setImmediate(() => this.onmessage({ data: { ready: true } }));
      }
      postMessage({ id, method, json }) {
        const hash = createHash('sha256').update(JSON.parse(json).text ?? '', 'utf8');
        const answer = method === 'revision' ? { revision: hash.digest('hex').slice(0, 24) } : {};
        setImmediate(() => this.onmessage({ data: { id, json: JSON.stringify(answer) } }));
      }
      terminate() {}
    },
  );
  /** @type {any} */ const net = {};
  define('fetch', (url, options) => {
    net.asked(options.body);
    return new Promise((resolve, reject) => Object.assign(net, { resolve, reject }));
  });
  define(
    'EventSource',
    class {
      constructor() {
        net.stream = this;
        this.heard = {};
      }
      addEventListener(name, fn) {
        this.heard[name] = fn;
      }
      close() {}
    },
  );
  return { net, set: (now) => (clock = now) };
}

async function phone() {
  const { folder, database, seed, device } = workerData;
  register('../../testdata/phone/modules.mjs', import.meta.url);
  const { net, set } = browser(seed);
  const from = (name) => import(new URL(name, pathToFileURL(folder + '/')).href);
  await import(new URL('auto/index.mjs', pathToFileURL(database + '/')).href);
  const { db, meta, note, readMeta } = await from('app/db.js');
  const { emit } = await from('app/events.js');
  const { startEngine } = await from('app/ask.js');
  const { saveFile } = await from('app/library.js');
  const { request } = await from('app/request.js');
  const { startStream } = await from('app/stream.js');
  const { leading } = await from('app/tabs.js');
  await readMeta();
  await note('device', device);
  startEngine();
  let fetches = 0,
    asking = Promise.resolve();
  startStream(() => fetches++);
  leading.value = true;

  const all = async (store) => (await db()).getAll(store);
  const newest = async (name) => {
    const known = await (await db()).get('names', name);
    return known ? await (await db()).get('files', known.revision) : undefined;
  };
  const quiet = async () => {
    for (let i = 0; i < 60; i++) await new Promise(setImmediate);
  };
  const can = {
    async make({ event }) {
      const { kind, dinner, on, ...rest } = event;
      delete rest.id, delete rest.device, delete rest.stamp;
      await emit(kind, on ?? '', rest, dinner);
      return { id: (await all('outbox')).at(-1).id };
    },
    async edit({ name, text, over }) {
      const was = await newest(name);
      await saveFile(name, was?.revision ?? '', text, over ?? []);
      return { id: (await all('outbox')).at(-1).id };
    },
    async newest({ name }) {
      const known = await (await db()).get('names', name);
      return { text: (await newest(name))?.text ?? '', over: known?.beside ?? [] };
    },
    async request() {
      const body = new Promise((resolve) => (net.asked = resolve));
      asking = request();
      asking.catch(() => {});
      return { body: await Promise.race([body, asking.then(() => '')]) };
    },
    async take({ status, body }) {
      net.resolve({ ok: status === 200, status, json: async () => JSON.parse(body) });
      const { more, moved } = await asking.catch(() => ({ more: false, moved: false }));
      await quiet();
      return { more: more && moved };
    },
    async lost() {
      net.reject(new Error('no network'));
      await asking.catch(() => {});
    },
    async cursor() {
      return { epoch: meta.epoch, after: meta.cursor, chain: meta.chain };
    },
    async hear({ message }) {
      const before = fetches;
      net.stream.heard.changed({ data: message });
      await quiet();
      return { fetch: fetches > before };
    },
    async holds() {
      const files = await all('files'),
        names = await all('names');
      const parked = await all('parked');
      const entries = (list, key, value) => Object.fromEntries(list.map((x) => [key(x), value(x)]));
      return {
        events: entries(await all('events'), (e) => e.id, (e) => e),
        names: entries(names, (n) => n.name, (n) => n.revision),
        texts: entries(files, (f) => f.revision, (f) => f.text),
        beside: entries(names, (n) => n.name, (n) => [...(n.beside ?? [])].sort()),
        outbox: (await all('outbox')).map((w) => w.id),
        parked: parked.map((p) => p.id),
        own: parked.filter((p) => p.what && !p.what.kind).map((p) => p.what.name),
      };
    },
  };
  parentPort.on('message', async (ask) => {
    if (ask.now) set(ask.now);
    try {
      parentPort.postMessage({ phone: ask.phone, ...(await can[ask.do](ask)) });
    } catch (err) {
      parentPort.postMessage({ error: ask.do + ': ' + (err?.stack ?? err) });
    }
  });
  parentPort.postMessage({ begun: true });
}
