// @ts-check
/**
 * What happened at a dinner, on all its phones, the newest first. Anything can be taken back, and
 * what was taken back can be brought back.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { db, meta } from './db.js';
import { minute } from './clock.js';
import { choices, emit } from './events.js';
import { dinner, dinnerID, folded, stepAt, written } from './state.js';
import { eventsCame, helper } from './server.js';
import { Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { named, titleOf } from './undone.js';
import { clock, hour, when } from './words.js';

/** @typedef {import('./engine.d.ts').Event} Event */

/** How many are shown at first, and how many more with each tap. */
const PAGE = 40;
const list = signal(/** @type {Event[]} */ ([]));
const most = signal(PAGE);

/** Read what this phone has of the dinner. @param {string} id */
async function read(id) {
  /** @type {Event[]} */
  const all = await (await db()).getAllFromIndex('events', 'dinner', id);
  all.sort((a, b) => b.stamp.wall - a.stamp.wall || b.stamp.count - a.stamp.count);
  if (dinnerID.peek() === id) list.value = all;
}

/** The undos that count, by the event that each takes back. @param {Event[]} all */
function undos(all) {
  /** @type {Map<string, Event>} */
  const by = new Map();
  const off = new Set();
  // the newest first: an undo that was itself taken back is met after the undo of it
  for (const ev of all) {
    if (ev.kind !== 'undo' || !ev.undo || off.has(ev.id)) continue;
    off.add(ev.undo);
    by.set(ev.undo, ev);
  }
  return by;
}

/** What an event did, in words. @param {Event} ev */
function said(ev) {
  const what = written.value[ev.id];
  switch (ev.kind) {
    case 'open':
      return `The dinner was made: ${ev.open?.covers} covers at ${hour(ev.open?.serve ?? '')}`;
    case 'tick':
      return ev.done ? 'Done' : 'Not done after all';
    case 'timer':
      return ev.end ? `Timer to ${clock(ev.end)}` : 'Timer stopped';
    case 'covers':
      return `${ev.number} covers`;
    case 'serve':
      return `Served at ${hour(ev.text ?? '')}`;
    case 'guests':
      return 'Guests: ' + (ev.text || 'nobody leaves anything out');
    case 'note':
      return ev.text ?? '';
    case 'measure':
      return 'Weighed ' + (what ?? '');
    case 'temperature':
      return 'Core ' + (what ?? `${ev.tempC} °C`);
    case 'delay':
      return ev.done ? `Not now: again in ${ev.number} min` : `${ev.number} min longer`;
    case 'plan':
      return 'Plan taken';
    case 'start':
      return `Started at ${clock(ev.start ?? ev.stamp.wall)}`;
    case 'shelve':
      return ['Back in the list', 'Put away', 'Deleted'][ev.number ?? 0];
    case 'pin':
      return 'A newer text: ' + Object.keys(ev.open?.files ?? {}).join(', ');
  }
  const words = named(ev);
  return words[0].toUpperCase() + words.slice(1);
}

/** Where it happened. @param {Event} ev */
function where(ev) {
  const on = ev.on ?? '';
  const step = stepAt(on);
  return [titleOf(on), step ? 'step ' + step.number : ''].filter(Boolean).join(', ');
}

/** The screen of it. */
export function Happened() {
  const id = dinnerID.value;
  useEffect(() => {
    read(id);
  }, [id, folded.value, eventsCame.value]);
  const back = undos(list.value);
  const events = list.value.filter((ev) => ev.kind !== 'undo');
  return html`
    <${Top} at="home" />
    <main id="happened">
      <${DinnerHead} at="happened" />
      ${!dinner.value ? html`<${Opening} />` : null}
      <h2>What happened</h2>
      <ol class="plain happened">
        ${events
          .slice(0, most.value)
          .map((ev) => html`<${Line} key=${ev.id} ev=${ev} back=${back.get(ev.id)} />`)}
      </ol>
      ${
        events.length > most.value
          ? html`<button
              type="button"
              class="wide"
              id="earlier"
              onClick=${() => {
                most.value += PAGE;
              }}
            >
              Earlier
            </button>`
          : null
      }
    </main>
  `;
}

/** @param {{ ev: Event, back: Event | undefined }} props */
function Line({ ev, back }) {
  const who = ev.who || (ev.device === meta.device ? 'this phone' : 'another phone');
  const ofCooks = [...choices, 'pin', 'shelve'].includes(ev.kind); // the server would refuse it
  const may = ev.kind !== 'open' && !(helper.value && ofCooks);
  return html`<li data-happened=${ev.id} data-back=${back ? '1' : '0'}>
    <span>
      <time>${when(ev.stamp.wall, minute.value)}</time> <b class=${back ? 'old' : ''}>
        ${said(ev)}
      </b>
      <small> ${[where(ev), who, back ? 'taken back' : ''].filter(Boolean).join(', ')}</small>
    </span>
    ${
      may
        ? html`<button
            type="button"
            class="quiet"
            data-take=${ev.id}
            onClick=${() => emit('undo', '', { undo: back ? back.id : ev.id })}
          >
            ${back ? 'Bring back' : 'Take back'}
          </button>`
        : null
    }
  </li>`;
}
