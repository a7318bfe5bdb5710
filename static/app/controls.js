// @ts-check
/**
 * The log of control points: who read what and when, against which limit, and what was done when it
 * was not met. Nothing is ever taken off it. To print, and as a file for a spreadsheet.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { call, engine } from './ask.js';
import { minute, now } from './clock.js';
import { folded, from, dinnerID } from './state.js';
import { entry } from './entries.js';
import { route, to } from './router.js';
import { Top } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { Lines, offset } from './probe.js';

/** @typedef {import('./engine.d.ts').Control} Control */
/** @typedef {import('./engine.d.ts').ControlsView} ControlsView */

const log = signal(/** @type {{ dinner: string, view: ControlsView } | null} */ (null));
const trouble = signal('');

/** The log's screen. */
export function Controls() {
  const id = dinnerID.value,
    turn = folded.value,
    ready = engine.value === 'ready' && from.value === 'engine',
    t = minute.value;
  useEffect(() => {
    if (!id || !ready) return;
    call('controls', { dinner: id, now: now(), offset: offset() }).then(
      (view) => {
        log.value = { dinner: id, view };
        trouble.value = '';
      },
      (err) => {
        trouble.value = err.message;
      },
    );
  }, [id, turn, ready, t]);
  const v = log.value?.dinner === id ? log.value.view : null;
  return html`
    <${Top} at="home" />
    <main id="controls">
      <${DinnerHead} at="controls" />
      ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
      ${
        !v
          ? html`<p class="wait">Reading the log …</p>`
          : html`
              <div class="tools">
                <button type="button" id="print" onClick=${() => print()}>Print</button>
                <button type="button" id="csv" onClick=${() => keep(v)}>As a table (CSV)</button>
              </div>
              <p class="soft">Compared with: ${v.rules}. <span class="small">${v.defer}</span></p>
              ${
                v.points.length === 0
                  ? html`<p>No step of this dinner has a critical limit, and nothing was read.</p>`
                  : v.points.map((p) => html`<${Point} key=${p.key} p=${p} />`)
              }
              <p class="small" id="printed">Written down ${v.made}.</p>
            `
      }
    </main>
    <${Strip} />
  `;
}

const words = /** @type {Record<string, string>} */ ({
  met: 'met',
  failed: 'not met',
  ask: 'a reading is asked about',
  open: '',
});

/** @param {{ p: Control }} props */
function Point({ p }) {
  return html`<section class=${'control ' + p.state} data-control=${p.key} data-state=${p.state}>
    <h2>
      ${p.title}${p.batch ? ', batch ' + p.batch : ''} <small>step ${p.number}, ${p.what}</small>
      ${words[p.state] ? html` <b class="state">${words[p.state]}</b>` : ''}
    </h2>
    <p class="soft">${p.step}</p>
    <${Lines} lines=${p.limits} />
    ${
      p.entries.length === 0
        ? html`<p class="none">Nothing read.</p>`
        : html`<table class="entries">
            <tbody>
              ${p.entries.map(
                (e) => html`<tr
                  key=${e.event}
                  class=${(e.back ? 'back' : '') + (e.doubt ? ' odd' : '')}
                >
                  <td><time>${e.time}</time></td>
                  <td class="read">
                    ${e.note ? e.text : html`<b>${e.text}</b>`}
                    ${e.doubt ? html`<small>${e.doubt}</small>` : ''}
                    ${e.back ? html`<small>${e.back}</small>` : ''}
                  </td>
                  <td>${e.who}</td>
                </tr>`,
              )}
            </tbody>
          </table>`
    }
    ${p.say ? html`<p class="trouble">${p.say}${p.do ? '. The card: ' + p.do : ''}</p>` : null}
    <div class="tools">
      <button
        type="button"
        data-note=${p.key}
        onClick=${() => {
          entry.value = {
            what: 'note',
            on: p.key,
            title: 'Corrective action: ' + p.title,
            suggested: p.do,
          };
        }}
      >
        Corrective action
      </button>
      <a class="button quiet" href=${to.step(route.value.id, p.at.card, p.at.batch, p.at.step)}>
        To the step
      </a>
    </div>
  </section>`;
}

/** The whole log as a file. @param {ControlsView} v */
function keep(v) {
  const a = document.createElement('a');
  // the mark tells a spreadsheet that it is UTF-8
  a.href = URL.createObjectURL(new Blob(['\ufeff' + v.csv], { type: 'text/csv' }));
  a.download = 'control-points-' + v.made.replace(/[: ]/g, '-') + '.csv';
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 60_000);
}
