// @ts-check
/**
 * What a step's readings say against its limits: one line at the stove, the rest in a window.
 * Everything is worked out by the engine; this only asks it when something was read, and once a
 * minute.
 * @module
 */
import { html, signal, useComputed, useEffect, useSignal } from './html.js';
import { call, engine } from './ask.js';
import { minute, now } from './clock.js';
import { emit } from './events.js';
import { folded, from, measures, dinnerID, temps } from './state.js';
import { entry } from './entries.js';
import { Curve } from './curve.js';
import { Dialog } from './parts.js';
import { clock } from './words.js';
import { Vessel } from './vessel.js';
import { offsetAt } from './zone.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/** @typedef {import('./engine.d.ts').WatchView} WatchView */
/** @typedef {import('./engine.d.ts').Point} Point */

/** How many minutes the kitchen's clock is ahead of UTC. */
export const offset = () => offsetAt(now());

const opened = signal('');

/** The stove's line for a step. @param {{ step: StepView }} props */
export function Watch({ step }) {
  const key = step.key;
  const view = useSignal(/** @type {WatchView | null} */ (null));
  const wanted = useComputed(
    () => step.probe || !!step.weigh || (temps.value[key]?.length ?? 0) > 0,
  );
  const turn = useComputed(() =>
    [
      folded.value,
      minute.value,
      engine.value,
      from.value,
      temps.value[key]?.length,
      measures.value[key]?.length,
    ].join(),
  );
  const when = turn.value;
  useEffect(() => {
    if (!wanted.peek() || engine.peek() !== 'ready' || from.peek() !== 'engine') return;
    let stale = false;
    call('watch', { dinner: dinnerID.peek(), key, now: now(), offset: offset() }).then(
      (v) => {
        if (!stale) view.value = v;
      },
      () => {},
    );
    return () => {
      stale = true;
    };
  }, [key, when]);
  const v = view.value;
  // its room is kept until the engine answers: what is below does not move under a thumb
  if (!v && step.probe)
    return html`<section class="watch" id="watch-coming">
      <p class="watch-line">Reading the limits …</p>
      <button type="button" class="quiet" disabled>Limits and readings</button>
    </section>`;
  if (!v || !v.line) return null;
  return html`<section
    class=${'watch ' + v.state}
    id="watch"
    data-kind=${v.kind}
    data-state=${v.state}
    aria-live="polite"
  >
    <p class="watch-line">${v.line}</p>
    ${
      v.corrective
        ? html`
            <p id="corrective">${v.corrective}</p>
            <button
              type="button"
              id="what-done"
              onClick=${() => {
                entry.value = {
                  what: 'note',
                  on: key,
                  title: 'Corrective action',
                  suggested: v.corrective,
                };
              }}
            >
              Corrective action
            </button>
          `
        : null
    }
    ${v.asks.map(
      (a) => html`<div class="tools" key=${a.event}>
        ${v.asks.length > 1 ? html`<p>${a.text}</p>` : null}
        ${
          a.was
            ? html`<button
                type="button"
                data-fahrenheit=${a.tempC}
                onClick=${() => amend(key, a.event, a.at, a.tempC)}
              >
                It was ${a.was}: ${a.tempC} °C
              </button>`
            : null
        }
        <button
          type="button"
          data-back=${a.event}
          onClick=${() => emit('undo', '', { undo: a.event })}
        >
          Take it back
        </button>
      </div>`,
    )}
    <button
      type="button"
      class="quiet"
      id="watch-more"
      onClick=${() => {
        opened.value = key;
      }}
    >
      ${v.kind === 'cool' ? 'Stages and forecast' : 'Limits and readings'}
    </button>
    ${opened.value === key ? html`<${More} v=${v} on=${key} />` : null}
  </section>`;
}

/**
 * Put a reading right: the old one is taken back and stays in the log.
 * @param {string} on
 * @param {string} event
 * @param {number} at
 * @param {number} tempC
 */
function amend(on, event, at, tempC) {
  emit('undo', '', { undo: event });
  emit('temperature', on, { tempC, start: at });
}

/**
 * All of it. It opens at its top, so that no keyboard comes up.
 * @param {{ v: WatchView, on: string }} props
 */
function More({ v, on }) {
  const close = () => {
    opened.value = '';
  };
  return html`<${Dialog}
    id="watch-window"
    title=${
      v.kind === 'cool' ? 'Cooling' : v.kind === 'reduce' ? 'Boiling down' : 'Core temperature'
    }
    close=${close}
  >
    <div tabindex="-1" autofocus><${Lines} lines=${v.lines} /></div>
    ${v.curve.length ? html`<${Curve} v=${v} />` : null}
    ${v.kind === 'cool' ? html`<${Vessel} v=${v} on=${on} />` : null}
    ${
      v.ways.length
        ? html`
            <h3>What would cool it quicker</h3>
            <ul class="waylist">
              ${v.ways.map(
                (w) =>
                  html`<li class=${w.meets ? 'met' : ''}>
                    <b>${w.text}</b>
                    ${w.meets ? ': in time' : ''}
                    <small>${w.lines.join('; ')}</small>
                  </li>`,
              )}
            </ul>
          `
        : null
    }
    <${Points} v=${v} on=${on} close=${close} />
    ${
      v.assumed.length
        ? html`<details>
            <summary>What the forecast rests on</summary>
            <ul class="small">${v.assumed.map((a) => html`<li>${a}</li>`)}</ul>
          </details>`
        : null
    }
    <p class="small">${v.defer}</p>
  <//>`;
}

/**
 * Comparisons, each with whose limit it is.
 * @param {{ lines: import('./engine.d.ts').Line[] }} props
 */
export function Lines({ lines }) {
  return html`<ul class="limits">
    ${lines.map(
      (l) =>
        html`<li class=${l.state} data-state=${l.state}>
          ${
            l.state === 'failed'
              ? html`<b>Not met. </b>`
              : l.state === 'met'
                ? html`<b>Met. </b>`
                : ''
          }
          ${l.text}
          ${l.source ? html`<small>${l.source}</small>` : ''}
        </li>`,
    )}
  </ul>`;
}

/**
 * Every reading, to be put right.
 * @param {{ v: WatchView, on: string, close: () => void }} props
 */
function Points({ v, on, close }) {
  if (v.points.length === 0) return null;
  return html`
    <h3>${v.kind === 'reduce' ? 'Weighed' : 'Read'}</h3>
    <ul class="points">
      ${v.points.map(
        (/** @type {Point} */ p) => html`<li
          key=${p.event}
          class=${p.counted ? '' : 'odd'}
          data-event=${p.event}
        >
          <time>${clock(p.at)}</time> <b>${p.text}</b> <small>
            ${p.who}${p.counted ? '' : ', not counted'}
          </small>
          ${
            v.kind === 'reduce'
              ? html`<button
                  type="button"
                  class="quiet"
                  onClick=${() => emit('undo', '', { undo: p.event })}
                >
                  Take back
                </button>`
              : html`<button
                  type="button"
                  class="quiet"
                  data-amend=${p.event}
                  onClick=${() => {
                    close();
                    entry.value = {
                      what: 'probe',
                      on,
                      title: 'Put right: ' + p.text + ' at ' + clock(p.at),
                      amend: { event: p.event, at: p.at },
                    };
                  }}
                >
                  Amend
                </button>`
          }
        </li>`,
      )}
    </ul>
  `;
}
