// @ts-check
/**
 * A tap as the screen shows it until the engine has folded it, soon after. It is for the eye
 * only: it knows what a cook sees at once (a tick, a timer, the covers) and leaves the
 * rest to the engine's next answer.
 * @module
 */

/** @typedef {import('./engine.d.ts').State} State */
/** @typedef {import('./engine.d.ts').Event} Event */

/**
 * @param {State} s not changed
 * @param {Event} ev
 * @param {Event | undefined} undone the event an undo names, where known
 * @param {(key: string) => boolean} isStep whether a key is that of a step
 * @returns {State}
 */
export function overlay(s, ev, undone, isStep) {
  const on = ev.on ?? '';
  const at = ev.start || ev.stamp.wall;
  const mark = { at, device: ev.device, event: ev.id };
  switch (ev.kind) {
    case 'tick':
      return {
        ...s,
        last: isStep(on) ? on : s.last,
        ticks: { ...s.ticks, [on]: { ...mark, done: !!ev.done } },
      };
    case 'timer': {
      const timers = { ...s.timers };
      if (ev.end) timers[on] = { ...mark, start: ev.start ?? 0, end: ev.end };
      else delete timers[on];
      return { ...s, timers };
    }
    case 'covers':
      return { ...s, covers: ev.number ?? 0 };
    case 'serve':
      return { ...s, serve: ev.text ?? '' };
    case 'way':
      return { ...s, ways: { ...s.ways, [on]: ev.number ?? 0 } };
    case 'leave':
      return { ...s, leave: { ...s.leave, [on]: !!ev.done } };
    case 'note':
      return { ...s, notes: [...s.notes, { ...mark, on, text: ev.text ?? '' }] };
    case 'measure':
      return ev.amount
        ? {
            ...s,
            measures: {
              ...s.measures,
              [on]: [...(s.measures[on] ?? []), { ...mark, amount: ev.amount }],
            },
          }
        : s;
    case 'temperature':
      return ev.tempC !== undefined
        ? { ...s, temps: { ...s.temps, [on]: [...(s.temps[on] ?? []), { ...mark, c: ev.tempC }] } }
        : s;
    case 'undo':
      return undone ? back(s, undone, isStep) : s;
  }
  return s;
}

/**
 * What taking an event back looks like.
 * @param {State} s
 * @param {Event} ev
 * @param {(key: string) => boolean} isStep
 * @returns {State}
 */
function back(s, ev, isStep) {
  const on = ev.on ?? '';
  switch (ev.kind) {
    case 'tick':
      return overlay(s, { ...ev, done: !ev.done }, undefined, isStep);
    case 'timer': {
      if (!ev.end || s.timers[on]?.event !== ev.id) return s;
      const timers = { ...s.timers };
      delete timers[on];
      return { ...s, timers };
    }
    case 'note':
      return { ...s, notes: s.notes.filter((n) => n.event !== ev.id) };
    case 'measure':
      return {
        ...s,
        measures: { ...s.measures, [on]: (s.measures[on] ?? []).filter((m) => m.event !== ev.id) },
      };
    case 'temperature':
      return {
        ...s,
        temps: { ...s.temps, [on]: (s.temps[on] ?? []).filter((t) => t.event !== ev.id) },
      };
  }
  return s;
}
