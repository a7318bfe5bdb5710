// @ts-check
/**
 * This phone and the others: who is let in, what is kept here, and a backup of it.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { barred } from './server.js';
import { persisted, room, size, worry } from './keep.js';
import { Damage } from './damage.js';
import { Devices, look, said } from './devices.js';
import { readBackup, saveBackup } from './backupfile.js';
import { Top } from './parts.js';
import { count } from './words.js';

const read = signal('');

/** @param {Event} event */
async function pick(event) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  const file = input.files?.[0];
  if (!file) return;
  read.value = 'Reading …';
  try {
    const n = await readBackup(file);
    read.value =
      'Read in: ' +
      count(n.events, 'event') +
      ' and ' +
      count(n.files, 'text') +
      ' that were not here. They go to the server by themselves.';
  } catch (err) {
    read.value = 'Not read in: ' + (err instanceof Error ? err.message : err) + '.';
  }
  input.value = '';
}

/** The screen. */
export function House() {
  useEffect(() => {
    look();
  }, []);
  const { usage, quota } = room.value;
  return html`
    <${Top} at="settings" />
    <main id="house">
      <a class="up" href="#/settings"><span aria-hidden="true">‹</span> Settings</a>
      <h1>Phones and backup</h1>
      <${Damage} />
      <div class="two">
        <section aria-label="Who is let in">
          <h2>Who is let in</h2>
          ${
            barred.value
              ? html`<p class="error" id="barred">
                  ${barred.value}. <a href="/pair.html">Type a code</a>
                </p>`
              : null
          }
          ${said.value ? html`<p role="alert" id="house-said">${said.value}</p>` : null}
          <${Devices} />
        </section>
        <section aria-label="What is kept here">
          <h2>What is kept on this phone</h2>
          ${worry.value ? html`<p role="alert" class="error" id="worry">${worry.value}</p>` : null}
          <dl class="stand">
            <dt>Kept for good</dt>
            <dd id="persisted" data-persisted=${persisted.value}>
              ${{
                yes: 'yes, the browser has agreed',
                no:
                  'not promised: the browser may clear it when room is short. ' +
                  'Adding the app to the home screen helps',
                unknown: 'this browser does not say',
              }[persisted.value]}
            </dd>
            <dt>Room</dt>
            <dd>
              ${quota ? size(usage) + ' in use of ' + size(quota) : 'this browser does not say'}
            </dd>
          </dl>
          <h2>Backup of this phone</h2>
          <p class="soft">
            Cards, dinners and all that waits for the server, in one file. Reading one in adds what
            is missing and takes nothing away.
          </p>
          <div class="row">
            <button type="button" id="backup" onClick=${saveBackup}>Backup to a file</button>
            <input
              type="file"
              id="backup-file"
              class="unseen"
              accept=".json,application/json"
              onChange=${pick}
            />
            <label class="button" for="backup-file">Read a backup in</label>
          </div>
          <p role="status" id="backup-said">${read.value}</p>
        </section>
      </div>
    </main>
  `;
}
