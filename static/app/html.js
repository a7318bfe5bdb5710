// @ts-check
/**
 * How the page is drawn: preact, written as text with htm, redrawn by signals. Import drawing from
 * here and not from vendor/, so that there is one copy of each and one place to change it.
 * @module
 */
import { h, render, Component, Fragment } from '../vendor/preact.js';
import { useMemo } from '../vendor/preact-hooks.js';
import { computed } from '../vendor/signals.js';
import htm from '../vendor/htm.js';

export { h, render, Component, Fragment };
export {
  signal,
  computed,
  effect,
  batch,
  untracked,
  useSignal,
  useComputed,
  useSignalEffect,
} from '../vendor/signals.js';
export { useEffect, useLayoutEffect, useRef, useMemo } from '../vendor/preact-hooks.js';

/**
 * A signal worked out of other signals and of what the drawing was given: useComputed alone would
 * keep to the latter as it first was until one of the former changes.
 * @template T @param {() => T} fn @param {unknown[]} given
 */
export const useDerived = (fn, given) => useMemo(() => computed(fn), given);

/** Markup as a tagged template: html`<p>${text}</p>`. */
export const html = htm.bind(h);
