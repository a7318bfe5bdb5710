// A phone without a browser: the page's own sync, driven by lines of JSON on the standard input.
// Each line is answered by one line. Run: node testdata/phone/phone.mjs
import { webcrypto } from 'node:crypto';
import { register } from 'node:module';
import { createInterface } from 'node:readline';

register('./hooks.mjs', import.meta.url);

let server = '';
const streams = [];
const nothing = () => {};
globalThis.crypto ??= webcrypto; // a browser has it, Node from version 19 on
Object.assign(globalThis, {
  addEventListener: nothing,
  document: { addEventListener: nothing, hidden: false, cookie: '' },
  location: { protocol: 'http:', hash: '' },
  matchMedia: () => ({ matches: false, addEventListener: nothing }),
  localStorage: { getItem: () => null, setItem: nothing },
  BroadcastChannel: undefined,
  EventSource: class {
    listeners = {};
    constructor(url) {
      this.url = url;
      streams.push(this);
    }
    addEventListener(name, fn) {
      this.listeners[name] = fn;
    }
    close() {}
  },
});
const web = globalThis.fetch;
let fetched = 0;
globalThis.fetch = (path, how) => {
  fetched++;
  return web(server + path, how);
};

const app = '../../static/app/';
const { db, meta, readMeta } = await import(app + 'db.js');
const { countWaiting, emit, waiting } = await import(app + 'events.js');
const { request } = await import(app + 'request.js');
const { saveFile } = await import(app + 'library.js');
const { startStream } = await import(app + 'stream.js');
const { leading } = await import(app + 'tabs.js');
await readMeta();

let asked = 0; // how often the stream said: fetch
const commands = {
  server: ({ url }) => void (server = url.replace(/\/$/, '')),
  tick: ({ on }) => emit('tick', on, { done: true }, 'boathouse').then(() => null),
  // A tap while the outbox is being counted, as when the app has just started.
  async tickWhileCounting({ on }) {
    const counted = countWaiting();
    await commands.tick({ on });
    await counted;
    for (let n = 0; n < 20; n++) await new Promise((go) => setImmediate(go));
    return waiting.value;
  },
  edit: ({ name, base, text, settles }) => saveFile(name, base, text, settles ?? []),
  // As sync.js does: requests until there is nothing more to send or fetch. The trouble that the
  // cook would see is the answer.
  async sync() {
    try {
      for (let n = 0; n < 40; n++) if (!(await request()).more) return { trouble: '' };
      return { trouble: 'it never ends' };
    } catch (err) {
      return { trouble: err.message };
    }
  },
  listen() {
    leading.value = true;
    if (!streams.length) startStream(() => void asked++);
    asked = 0;
    return streams.at(-1).url;
  },
  async hear({ data }) {
    asked = 0;
    streams.at(-1).listeners.changed({ data });
    for (let n = 0; n < 20; n++) await new Promise((go) => setImmediate(go));
    return { asked };
  },
  async state() {
    const d = await db();
    const [events, names, outbox, parked, files] = await Promise.all(
      ['events', 'names', 'outbox', 'parked', 'files'].map((s) => d.getAll(s)),
    );
    return { meta, fetched, events, names, outbox, parked, files };
  },
};
for await (const line of createInterface({ input: process.stdin })) {
  const command = JSON.parse(line);
  let answer;
  try {
    answer = { ok: (await commands[command.do](command)) ?? null };
  } catch (err) {
    answer = { error: String(err.stack ?? err) };
  }
  process.stdout.write(JSON.stringify(answer) + '\n');
}
process.exit(0);
