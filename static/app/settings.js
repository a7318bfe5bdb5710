// @ts-check
/**
 * How this cook likes it, on this phone only. In localStorage and not in the database, because the
 * theme must be known before the first paint and a lost setting costs nothing.
 * @module
 */
import { effect, signal } from './html.js';

/** @param {string} name @param {string} first */
function kept(name, first) {
  let value = first;
  try {
    value = localStorage.getItem('hobside-' + name) ?? first;
  } catch {
    /* no storage: use the default */
  }
  const s = signal(value);
  let fresh = true;
  effect(() => {
    const v = s.value;
    if (fresh) {
      fresh = false;
      return;
    }
    try {
      localStorage.setItem('hobside-' + name, v);
    } catch {
      /* no storage: it holds for this visit */
    }
  });
  return s;
}

export const settings = {
  /** "metric", "us", "imperial" or "typed": as each card has it */
  system: kept('system', 'metric'),
  /** what the scale can weigh: "0.1 g", "1 g", "5 g" */
  scale: kept('scale', '1 g'),
  /** "right" or "left" */
  hand: kept('hand', 'right'),
  /** "auto", "light" or "dark" */
  theme: kept('theme', 'auto'),
  /** "normal", "large" or "huge" */
  text: kept('text', 'normal'),
  /** whose steps: "0" everybody's, else 1 + the cook's place in the kitchen's list */
  cook: kept('cook', '0'),
  /** what comes after a step: "dinner", by the plan, or "card", the next of the same card */
  order: kept('order', 'dinner'),
  /** who holds this phone, for the log of what was read; "" for the phone's own name */
  who: kept('who', ''),
  /** "on" or "off": a tap anywhere in the lower half of a step is "done, next" */
  tap: kept('tap', 'off'),
  /** "on" or "off" */
  sound: kept('sound', 'on'),
};

/** Write them on the page's root, where the style sheet reads them. */
export function wearSettings() {
  const root = document.documentElement;
  effect(() => {
    root.dataset.theme = settings.theme.value;
    root.dataset.hand = settings.hand.value;
    root.dataset.text = settings.text.value;
  });
}
