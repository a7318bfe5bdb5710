// @ts-check
/**
 * How the page is drawn: preact, written as text with htm, woken by signals. Import drawing from here and not from
 * vendor/, so that there is one copy of each and one place to change it.
 * @module
 */
import { h, render, Fragment } from '../vendor/preact.js';
import htm from '../vendor/htm.js';

export { h, render, Fragment };
export { signal, computed, effect, batch, untracked, useSignal, useComputed, useSignalEffect } from '../vendor/signals.js';
export { useEffect, useLayoutEffect, useRef, useMemo } from '../vendor/preact-hooks.js';

/** Markup as a tagged template: html`<p>${text}</p>`. */
export const html = htm.bind(h);
