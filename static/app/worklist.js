// @ts-check
/**
 * A list that the engine works out of the plan, such as the order list or the prep list: asked for
 * again when the dinner or its plan changes, and kept on disk, so that it is there at once.
 * @module
 */
import { computed, html, signal, useEffect } from './html.js';
import { db, save } from './db.js';
import { ask, engine, read } from './ask.js';
import { dinner, dinnerID, from } from './state.js';
import { plan, planTrouble, work } from './plan.js';
import { to } from './router.js';

/**
 * A list by the name of its call; follow() is for its screen to call each time it is drawn.
 * @param {'order' | 'prep'} name
 */
export function worklist(name) {
  const held = signal(/** @type {{ dinner: string, view: any } | null} */ (null));
  const trouble = signal('');

  /** @param {string} id @param {boolean} ready */
  async function look(id, ready) {
    if (!id) return;
    const place = name + ':' + id;
    if (held.peek()?.dinner !== id) {
      const json = await (await db()).get('views', place);
      if (json) held.value = { dinner: id, view: JSON.parse(json) };
    }
    if (!ready) return;
    try {
      let json = await ask(name, { dinner: id });
      // After a change there is no plan until it is worked out again. The list waits for it, so that
      // it does not lose its days for a second.
      if (!read(json).planned && !plan.peek()?.blocked.length) {
        await work();
        json = await ask(name, { dinner: id });
      }
      held.value = { dinner: id, view: read(json) };
      trouble.value = '';
      await save(['views'], (tx) => {
        tx.objectStore('views').put(json, place);
      });
    } catch (err) {
      trouble.value = err instanceof Error ? err.message : String(err);
    }
  }

  return {
    trouble,
    view: computed(() => (held.value?.dinner === dinnerID.value ? held.value.view : null)),
    follow() {
      const id = dinnerID.value,
        ready = engine.value === 'ready' && from.value === 'engine';
      useEffect(() => {
        look(id, ready);
      }, [id, dinner.value, ready, JSON.stringify(plan.value?.starts)]);
    },
  };
}

/** What is missing because there is no plan, and where the reason is. @param {{ children?: any }} props */
export function NoPlan({ children }) {
  return html`<p id="no-plan" class="trouble">
    ${children}
    ${
      plan.value?.blocked.length
        ? html` <a href=${to.plan(dinnerID.value)}>There is no plan: see why</a>`
        : planTrouble.value
          ? ' ' + planTrouble.value
          : ''
    }
  </p>`;
}
