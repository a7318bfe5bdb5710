export interface ReadonlySignal<T> { readonly value: T; peek(): T; subscribe(fn: (value: T) => void): () => void }
export interface Signal<T> extends ReadonlySignal<T> { value: T }
export function signal<T>(value: T): Signal<T>;
export function computed<T>(fn: () => T): ReadonlySignal<T>;
export function effect(fn: () => void | (() => void)): () => void;
export function batch<T>(fn: () => T): T;
export function untracked<T>(fn: () => T): T;
export function useSignal<T>(value: T): Signal<T>;
export function useComputed<T>(fn: () => T): ReadonlySignal<T>;
export function useSignalEffect(fn: () => void | (() => void)): void;
