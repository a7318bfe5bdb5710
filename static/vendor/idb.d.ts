/** The part of idb the app uses. */
export interface Store {
  get(key: any): Promise<any>;
  getKey(key: any): Promise<any>;
  getAll(query?: any, count?: number): Promise<any[]>;
  getAllKeys(query?: any, count?: number): Promise<any[]>;
  put(value: any, key?: any): Promise<any>;
  add(value: any, key?: any): Promise<any>;
  delete(key: any): Promise<void>;
  clear(): Promise<void>;
  count(query?: any): Promise<number>;
  index(name: string): Store;
  createIndex(name: string, keyPath: string): Store;
  deleteIndex(name: string): void;
}
export interface Transaction {
  objectStore(name: string): Store;
  readonly store: Store;
  readonly done: Promise<void>;
  commit(): void;
  abort(): void;
}
export interface DB {
  transaction(stores: string | string[], mode?: 'readonly' | 'readwrite', options?: { durability?: 'strict' | 'relaxed' | 'default' }): Transaction;
  get(store: string, key: any): Promise<any>;
  getAll(store: string, query?: any, count?: number): Promise<any[]>;
  getAllFromIndex(store: string, index: string, query?: any): Promise<any[]>;
  count(store: string, query?: any): Promise<number>;
  put(store: string, value: any, key?: any): Promise<any>;
  createObjectStore(name: string, options?: { keyPath?: string; autoIncrement?: boolean }): Store;
  readonly objectStoreNames: DOMStringList;
  close(): void;
  addEventListener(type: string, fn: () => void): void;
}
export interface OpenOptions {
  upgrade?(db: DB, oldVersion: number, newVersion: number | null, transaction: Transaction): void;
  blocked?(): void;
  blocking?(current: number, wanted: number | null, event: any): void;
  terminated?(): void;
}
export function openDB(name: string, version: number, options?: OpenOptions): Promise<DB>;
