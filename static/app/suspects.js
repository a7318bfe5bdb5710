// @ts-check
/**
 * Which file stops the engine. A text can be so large or so odd that the engine runs out of memory
 * or of time over it,
 * and the browser may end the whole page with it. So the files that the engine is reading are
 * marked in localStorage
 * before and the mark is taken away after: it can be written at once, without waiting, and it is
 * still there when the
 * page is not. A file that stopped the engine while it was read alone is left out until its text or
 * the app changes.
 * @module
 */
import { signal } from './html.js';

/** @typedef {{ name: string, text: string }} File */
/** @typedef {import('./engine.d.ts').Problem} Problem */
/** @typedef {{ name: string, key: string }} Mark  a file by its name and the key of its text */

const READING = 'hobside-reading',
  LEFT_OUT = 'hobside-left-out';

/** @param {string} at @returns {Mark[]} */
function stored(at) {
  try {
    return JSON.parse(localStorage.getItem(at) ?? '[]');
  } catch {
    return [];
  }
}

/** @param {string} at @param {Mark[]} marks */
function store(at, marks) {
  try {
    if (marks.length) localStorage.setItem(at, JSON.stringify(marks));
    else localStorage.removeItem(at);
  } catch {
    /* no storage: then the next page can't know what ended this one */
  }
}

/** The files that the engine does not get. */
export const leftOut = signal(stored(LEFT_OUT));

/** What the engine was reading when the page last ended without having closed. */
const interrupted = stored(READING);
if (interrupted.length === 1) leftOut.value = [...leftOut.peek(), ...interrupted];
store(READING, []);
store(LEFT_OUT, leftOut.peek());
addEventListener('pagehide', () => store(READING, [])); // closed in order, even if in the middle of reading

/** The key of a text: its length and the FNV-1a hash of its UTF-16 units. @param {string} text */
function keyOf(text) {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return text.length + '-' + (hash >>> 0);
}

/** @param {File} file @returns {Mark} */
const markOf = ({ name, text }) => ({ name, key: keyOf(text) });

/** Whether the engine may have this file. @param {File} file */
export function mayRead(file) {
  if (leftOut.peek().length === 0) return true;
  const { key } = markOf(file);
  return !leftOut.peek().some((m) => m.key === key);
}

/**
 * Whether one of these may have ended the page the last time, so that each must be read alone
 * first.
 * @param {File[]} files
 */
export function suspected(files) {
  return (
    interrupted.length > 1 &&
    files.some((f) => {
      const { key } = markOf(f);
      return interrupted.some((m) => m.key === key);
    })
  );
}

/** These files were read without a stop: they are no longer suspected. */
export function cleared() {
  interrupted.length = 0;
}

/** The engine is about to read these files. @param {File[]} files */
export function reading(files) {
  if (files.length) store(READING, files.map(markOf));
}

/** The engine has read them. */
export function read() {
  store(READING, []);
}

/** Do not give this file to the engine again. @param {File} file */
export function leaveOut(file) {
  leftOut.value = [...leftOut.peek(), markOf(file)];
  store(LEFT_OUT, leftOut.peek());
}

/** Try every file again, as with a new version of the app. */
export function tryAgain() {
  leftOut.value = [];
  store(LEFT_OUT, []);
}

/** What to tell the cook of files that are left out. @param {string[]} names @returns {Problem[]} */
export const leftOutProblems = (names) =>
  names.map((file) => ({
    file,
    line: 1,
    col: 1,
    severity: 'error',
    msg: 'this file stopped the engine and was left out',
    do: 'make it shorter or split it in two; it is read again when its text changes',
  }));
