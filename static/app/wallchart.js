// @ts-check
/**
 * The wall chart of a plan, on wide screens.
 * @module
 */
import { html, useDerived } from './html.js';
import { tick } from './state.js';
import { at, isBy, nowMinute } from './plan.js';
import { clock, day, hour } from './words.js';

/** @typedef {import('./engine.d.ts').Task} Task */
/** @typedef {import('./engine.d.ts').Schedule} Schedule */

/**
 * The wall chart: hands and equipment as rows, time to the right. Only for wide screens.
 * @param {{ v: Schedule }} props
 */
export function Wall({ v }) {
  const line = useDerived(() => (v.under ? nowMinute.value : null), [v]);
  return html`<div class="wall" id="wall" aria-hidden="true">
    ${v.hours.map((h) => chart(v, h, line.value))}
  </div>`;
}

/**
 * The chart of one shift.
 * @param {Schedule} v
 * @param {import('./engine.d.ts').ShiftTime} h
 * @param {number | null} now minute of the plan, null when the kitchen is not at it
 */
function chart(v, h, now) {
  const inside = v.tasks.filter((t) => t.end > h.from && t.start < h.to);
  if (inside.length === 0) return null;
  const from = Math.min(...inside.map((t) => Math.max(t.start, h.from))),
    until = Math.max(
      ...inside.map((t) => Math.min(Math.max(t.free, t.on.length ? t.end : 0), h.to)),
    );
  // of the serving time, so that the lines fall on full hours
  const past = Math.round(at(0) / 60_000) % 60;
  const first = Math.floor((from - 10 + past) / 60) * 60 - past,
    wide = Math.max(60, until + 10 - first);
  const pos = (/** @type {number} */ m) =>
    ((Math.min(Math.max(m, first), first + wide) - first) / wide) * 100 + '%';
  const bar = (/** @type {Task} */ t, /** @type {number} */ s, /** @type {number} */ e) =>
    html`<i
      class=${'block' + (tick(t.key).value ? ' done' : '')}
      style=${{ left: pos(s), width: `calc(${pos(e)} - ${pos(s)})` }}
      title=${hour(t.from) + ' ' + t.title + ', step ' + t.number + ': ' + t.say}
    >
      ${t.title} ${t.number}
    </i>`;
  const hours = Array.from({ length: Math.ceil(wide / 60) }, (_, i) => first + i * 60);
  const row = (
    /** @type {string} */ name,
    /** @type {any[]} */ bars,
    /** @type {string} */ kind,
  ) => html`<div class=${'wall-row ' + kind}>
    <b>${name}</b>
    <div class="lane">
      ${hours.map((m) => html`<i class="hour" style=${{ left: pos(m) }}></i>`)}
      ${bars}
      ${v.courses
        .filter((c) => c.at > first && c.at < first + wide)
        .map((c) => html`<i class="course" style=${{ left: pos(c.at) }}></i>`)}
      ${
        now !== null && now > first && now < first + wide
          ? html`<i class="now" style=${{ left: pos(now) }}></i>`
          : null
      }
    </div>
  </div>`;
  return html`<figure class="chart">
    <figcaption>${day(h.wall)}</figcaption>
    <div class="wall-row axis">
      <b></b>
      <div class="lane">
        ${hours.map((m) => html`<span style=${{ left: pos(m) }}>${clock(at(m))}</span>`)}
      </div>
    </div>
    ${v.cooks.map((c, k) =>
      row(
        c,
        inside
          .filter((t) => isBy(t, k + 1) && t.free > t.start)
          .map((t) => bar(t, t.start, t.free)),
        'hands',
      ),
    )}
    ${v.places.map((p) => {
      const on = inside.filter((t) => t.on.includes(p));
      return on.length
        ? row(
            p,
            on.map((t) => bar(t, t.start, t.end)),
            'place',
          )
        : null;
    })}
  </figure>`;
}
