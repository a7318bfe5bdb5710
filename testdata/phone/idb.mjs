// IndexedDB in memory, with the calls that the page makes through idb. Transactions that write run
// one after another; one that is aborted leaves nothing.

class Store {
  rows = new Map();
  next = 1;
  indexes = {};
  constructor({ keyPath, autoIncrement } = {}) {
    Object.assign(this, { keyPath, autoIncrement });
  }
  createIndex(name, path) {
    this.indexes[name] = path;
  }
}

const sorted = (keys) => [...keys].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
const copy = (v) => (v === undefined ? v : structuredClone(v));

class Tx {
  ops = Promise.resolve();
  constructor(db, names, mode) {
    Object.assign(this, { db, names, mode });
    this.done = new Promise((resolve, reject) => Object.assign(this, { resolve, reject }));
    this.done.catch(() => {});
    if (mode === 'readwrite') {
      const before = db.writing;
      db.writing = this.done.catch(() => {});
      this.ops = before.then(() => {
        this.was = new Map(names.map((n) => [n, [new Map(db.stores[n].rows), db.stores[n].next]]));
      });
    }
  }
  get store() {
    return this.objectStore(this.names[0]);
  }
  // One thing after another, when the transaction has begun. A transaction in which nothing more
  // is asked ends by itself, as in a browser.
  run(fn) {
    const did = this.ops.then(fn);
    this.ops = did.catch(() => {});
    if (this.mode === 'readonly') did.catch(() => {});
    return did;
  }
  commit() {
    this.ops.then(() => this.resolve());
  }
  abort() {
    this.ops.then(() => {
      for (const [n, [rows, next]] of this.was ?? [])
        Object.assign(this.db.stores[n], { rows, next });
      this.reject(new Error('aborted'));
    });
  }
  objectStore(name) {
    if (!this.names.includes(name)) throw new Error('no store ' + name + ' in this transaction');
    const s = this.db.stores[name];
    const all = (keys, count) => keys.slice(0, count ?? keys.length);
    const matching = (path, key) => sorted(s.rows.keys()).filter((k) => s.rows.get(k)[path] === key);
    const write = (fn) => {
      if (this.mode !== 'readwrite') throw new Error('this transaction only reads');
      return this.run(fn);
    };
    return {
      get: (key) => this.run(() => copy(s.rows.get(key))),
      getAll: (_, count) =>
        this.run(() => all(sorted(s.rows.keys()), count).map((k) => copy(s.rows.get(k)))),
      getAllKeys: () => this.run(() => sorted(s.rows.keys())),
      count: () => this.run(() => s.rows.size),
      put: (value, key) => {
        const kept = copy(value);
        return write(() => {
          if (s.autoIncrement && kept[s.keyPath] === undefined) kept[s.keyPath] = s.next++;
          s.rows.set(key ?? kept[s.keyPath], kept);
        });
      },
      delete: (key) => write(() => void s.rows.delete(key)),
      index: (name) => ({
        getAll: (key) =>
          this.run(() => matching(s.indexes[name], key).map((k) => copy(s.rows.get(k)))),
        getAllKeys: (key) => this.run(() => matching(s.indexes[name], key)),
      }),
    };
  }
}

class DB {
  stores = {};
  writing = Promise.resolve();
  createObjectStore(name, how) {
    return (this.stores[name] = new Store(how));
  }
  transaction(names, mode = 'readonly') {
    return new Tx(this, [names].flat(), mode);
  }
  get = (store, key) => this.transaction(store).store.get(key);
  getAll = (store, q, count) => this.transaction(store).store.getAll(q, count);
  getAllFromIndex = (store, index, key) => this.transaction(store).store.index(index).getAll(key);
  count = (store) => this.transaction(store).store.count();
}

export async function openDB(_name, _version, { upgrade }) {
  const db = new DB();
  await upgrade(db, 0, 1, null);
  return db;
}
