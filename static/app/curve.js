// @ts-check
/**
 * A cooling forecast as a drawing: the band it may take, what was read, and the corner each limit
 * draws.
 * @module
 */
import { html } from './html.js';
import { clock } from './words.js';

/** @typedef {import('./engine.d.ts').WatchView} WatchView */

const W = 340,
  H = 190,
  left = 34,
  right = 8,
  top = 8,
  bottom = 24;

/** @param {{ v: WatchView }} props */
export function Curve({ v }) {
  const t0 = v.curve[0].at,
    t1 = v.curve[v.curve.length - 1].at;
  const warm = Math.max(
    ...v.curve.map((c) => c.slow),
    ...v.points.filter((p) => p.counted).map((p) => p.c),
    20,
  );
  const cold = Math.min(0, ...v.curve.map((c) => c.quick));
  const x = (/** @type {number} */ at) => left + ((at - t0) / (t1 - t0)) * (W - left - right);
  const y = (/** @type {number} */ c) => top + ((warm - c) / (warm - cold)) * (H - top - bottom);
  const path = (/** @type {[number, number][]} */ of) =>
    of.map(([a, c], i) => (i ? 'L' : 'M') + x(a).toFixed(1) + ' ' + y(c).toFixed(1)).join('');
  const band =
    path([
      ...v.curve.map((c) => /** @type {[number, number]} */ ([c.at, c.slow])),
      ...[...v.curve].reverse().map((c) => /** @type {[number, number]} */ ([c.at, c.quick])),
    ]) + 'Z';
  const hours = Math.max(1, Math.ceil((t1 - t0) / 3600_000 / 5));
  const marks = Array.from({ length: 6 }, (_, i) => t0 + i * hours * 3600_000).filter(
    (t) => t <= t1,
  );
  return html`<svg
    class="curve"
    viewBox=${'0 0 ' + W + ' ' + H}
    role="img"
    aria-label=${
      'Forecast from ' +
      clock(t0) +
      ' to ' +
      clock(t1) +
      '. Limits: ' +
      v.marks.map((m) => m.text).join('; ')
    }
  >
    ${[0, 20, 40, 60, 80, 100]
      .filter((c) => c >= cold && c <= warm)
      .map(
        (c) =>
          html`
            <line class="grid" x1=${left} x2=${W - right} y1=${y(c)} y2=${y(c)} />
            <text x=${left - 4} y=${y(c) + 4} text-anchor="end">${c}</text>
          `,
      )}
    ${marks.map(
      (t, i) =>
        html`<text x=${x(t)} y=${H - 6} text-anchor=${i ? 'middle' : 'start'}>${clock(t)}</text>`,
    )}
    ${v.marks
      .filter((m) => m.at <= t1)
      .map(
        (m) =>
          html`<path
            class="limit"
            d=${'M' + x(m.at).toFixed(1) + ' ' + top + 'V' + y(m.c).toFixed(1) + 'H' + (W - right)}
          />`,
      )}
    <path class="band" d=${band} />
    <path class="mid" d=${path(v.curve.map((c) => [c.at, c.mid]))} />
    ${v.points
      .filter((p) => p.counted)
      .map((p) => html`<circle cx=${x(p.at)} cy=${y(p.c)} r="3.5" />`)}
  </svg>`;
}
