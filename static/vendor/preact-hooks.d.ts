export function useEffect(effect: () => void | (() => void), deps?: readonly unknown[]): void;
export function useLayoutEffect(effect: () => void | (() => void), deps?: readonly unknown[]): void;
export function useRef<T>(initial: T): { current: T };
export function useRef<T>(initial: T | null): { current: T | null };
export function useState<T>(initial: T | (() => T)): [T, (next: T | ((old: T) => T)) => void];
export function useMemo<T>(make: () => T, deps: readonly unknown[]): T;
