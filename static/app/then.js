// @ts-check
/**
 * What comes after a step, at the stove.
 * @module
 */
import { html, useComputed } from './html.js';
import { minute } from './clock.js';
import { isBy, isMine, me, nowMinute, plan, todo } from './plan.js';
import { settings } from './settings.js';
import { hour, span } from './words.js';

/**
 * What comes after this step, and what the others do: one line each at the stove.
 * @param {{ but: string }} props
 */
export function Then({ but }) {
  const v = plan.value;
  const lines = useComputed(() => {
    if (!plan.value || plan.value.blocked.length || settings.order.value === 'card') return [];
    const open = todo.value,
      now = nowMinute.value;
    const next = open.find((t) => t.key !== but && isMine(t));
    const out = [];
    if (next) {
      const wait =
        plan.value.under && next.start > now
          ? ', in ' + span((next.start - now) * 60_000)
          : plan.value.under
            ? ''
            : ', ' + hour(next.from);
      out.push('Then: ' + next.title + ', step ' + next.number + wait);
    }
    if (me.value) {
      for (const [i, cook] of plan.value.cooks.entries()) {
        if (i + 1 === me.value) continue;
        const theirs = open.find((t) => isBy(t, i + 1));
        if (theirs)
          out.push(
            cook +
              ': ' +
              theirs.title +
              ', step ' +
              theirs.number +
              (theirs.start > now || !plan.value.under ? ', ' + hour(theirs.from) : ''),
          );
      }
    }
    minute.value;
    return out;
  });
  if (!v || lines.value.length === 0) return null;
  return html`<ul class="then" id="then">${lines.value.map((l) => html`<li>${l}</li>`)}</ul>`;
}
