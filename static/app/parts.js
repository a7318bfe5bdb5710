// @ts-check
/**
 * The small parts that several screens share.
 * @module
 */
import { html, useDerived, useEffect, useRef } from './html.js';
import { tick } from './state.js';
import { emit, unsaved, waiting, writing } from './events.js';
import { engine } from './ask.js';
import { net, parked } from './server.js';

/** @typedef {import('./engine.d.ts').Problem} Problem */

/** How things stand between this phone and the server, in one word and one dot. */
export function Status() {
  const off = net.value === 'off';
  const n = waiting.value;
  const word = unsaved.value
    ? 'not saved'
    : writing.value
      ? 'saving'
      : n
        ? n + (off ? ' kept here' : ' to send')
        : off
          ? 'no network'
          : 'saved';
  return html`
    <a
      id="status"
      class=${'status' + (unsaved.value ? ' bad' : '')}
      href="#/settings"
      data-waiting=${n}
      data-net=${net.value}
      data-saved=${writing.value ? '0' : '1'}
      data-parked=${parked.value}
      data-engine=${
        engine.value === 'ready' ? 'ready' : engine.value === 'starting' ? 'starting' : 'failed'
      }
    >
      <span class=${'dot ' + (off ? 'hollow' : '')}></span>
      ${word}${parked.value ? ', ' + parked.value + ' refused' : ''}
    </a>
    <span class="unseen" role="status">
      ${unsaved.value ? 'not saved' : off ? 'no network' : ''}
    </span>
  `;
}

/** The top of every screen but the stove's. @param {{ at: string, children?: any }} props */
export function Top({ at, children }) {
  const link = (
    /** @type {string} */ key,
    /** @type {string} */ href,
    /** @type {string} */ text,
  ) =>
    html`<a id=${'nav-' + key} href=${href} aria-current=${at === key ? 'page' : null}>${text}</a>`;
  return html`<header class="top">
    <nav aria-label="Main">
      ${link('home', '#/', 'Dinners')}${link('cards', '#/cards', 'Cards')}
      ${link('settings', '#/settings', 'Settings')}
    </nav>
    <${Status} />
    ${children}
  </header>`;
}

/**
 * A ring that is filled as far as the steps are done.
 * @param {{ keys: string[], size?: number }} props
 */
export function Rim({ keys, size = 44 }) {
  const done = useDerived(
    () => keys.reduce((n, key) => n + (tick(key).value ? 1 : 0), 0),
    [keys.join()],
  );
  const r = 19,
    round = 2 * Math.PI * r;
  const all = done.value === keys.length && keys.length > 0;
  return html`<svg
    class=${'rim' + (all ? ' full' : '')}
    width=${size}
    height=${size}
    viewBox="0 0 44 44"
    aria-hidden="true"
  >
    <circle class="rim-plate" cx="22" cy="22" r=${r} />
    <circle
      class="rim-done"
      cx="22"
      cy="22"
      r=${r}
      transform="rotate(-90 22 22)"
      stroke-dasharray=${(round * done.value) / Math.max(1, keys.length) + ' ' + round}
    />
    ${
      all
        ? html`<path class="rim-tick" d="M14 22.5l5.5 5.5L30.5 17" />`
        : html`<text x="22" y="26.5" text-anchor="middle">${keys.length - done.value}</text>`
    }
  </svg>`;
}

/** "5 of 9 done", for those who don't see the rim. @param {{ keys: string[] }} props */
export function Done({ keys }) {
  const done = useDerived(
    () => keys.reduce((n, key) => n + (tick(key).value ? 1 : 0), 0),
    [keys.join()],
  );
  return html`<span class="unseen">${done.value} of ${keys.length} steps done</span>`;
}

/**
 * One line to tick. A line for several keys is done when all of them are, and ticks those that are
 * not.
 * @param {{ on: string | string[], label: any, children?: any, class?: string }} props
 */
export function TickRow({ on, label, children, class: more }) {
  const keys = [on].flat();
  const done = useDerived(() => keys.every((key) => tick(key).value), [keys.join()]);
  return html`<li
    class=${'tickrow' + (more ? ' ' + more : '') + (done.value ? ' done' : '')}
    data-key=${on}
  >
    <label>
      <input
        type="checkbox"
        data-tick=${on}
        checked=${done.value}
        onChange=${(/** @type {any} */ e) => {
          const ticked = e.target.checked;
          for (const key of keys)
            if (tick(key).peek() !== ticked) emit('tick', key, ticked ? { done: true } : {});
        }}
      />
      <span class="box" aria-hidden="true"></span>
      <span class="what">${label}</span>
    </label>
    ${children}
  </li>`;
}

/**
 * A window over the page. Native, so that the keyboard and the screen reader are held in it; Escape
 * and a tap beside it close it.
 * @param {{ id: string, title: string, close: () => void, children?: any }} props
 */
export function Dialog({ id, title, close, children }) {
  const ref = useRef(/** @type {HTMLDialogElement | null} */ (null));
  useEffect(() => {
    const d = ref.current,
      was = /** @type {HTMLElement | null} */ (document.activeElement);
    if (d && !d.open) d.showModal();
    return () => {
      d?.close();
      if (was?.isConnected) was.focus({ preventScroll: true });
    }; // a dialog that is removed before it is closed does not give the focus back
  }, []);
  return html`<dialog
    ref=${ref}
    id=${id}
    aria-labelledby=${id + '-title'}
    onClose=${close}
    onClick=${(/** @type {any} */ e) => {
      if (e.target === ref.current) close();
    }}
  >
    <div class="dialog-in">
      <h2 id=${id + '-title'}>${title}</h2>
      ${children}
      <button type="button" class="quiet" data-close onClick=${close}>Close</button>
    </div>
  </dialog>`;
}

/**
 * What is wrong with a file, as the engine says it.
 * @param {{ problems: Problem[], file?: boolean, pick?: (f: Problem) => void }} props
 */
export function Problems({ problems, file, pick }) {
  return html`<ul class="problems">
    ${problems.map(
      (f) => html`<li class=${f.severity} data-severity=${f.severity}>
        ${
          pick
            ? html`<button type="button" class="where" onClick=${() => pick(f)}>
                line ${f.line}
              </button>`
            : html`<span class="where">${file ? f.file + ', ' : ''}line ${f.line}</span>`
        }
        <span>
          ${f.severity === 'error' ? html`<b>Error.</b> ` : ''}
          ${f.msg}
          ${f.hint ? html`; did you mean “${f.hint}”?` : ''}
          ${f.do ? html`; ${f.do}` : ''}
        </span>
      </li>`,
    )}
  </ul>`;
}

/**
 * A number with large buttons for more and fewer.
 * @param {{ id: string, value: number, label: string, min?: number, change: (n: number) => void }}
 * props
 */
export function Stepper({ id, value, label, min = 1, change }) {
  return html`<div class="stepper" role="group" aria-label=${label}>
    <button
      type="button"
      id=${id + '-less'}
      aria-label=${'One fewer: ' + label}
      disabled=${value <= min}
      onClick=${() => change(value - 1)}
    >
      −
    </button>
    <output id=${id} data-value=${value} aria-live="polite"><b>${value}</b> ${label}</output>
    <button
      type="button"
      id=${id + '-more'}
      aria-label=${'One more: ' + label}
      onClick=${() => change(value + 1)}
    >
      +
    </button>
  </div>`;
}
