// @ts-check
/**
 * Settings, and how things stand: what waits for the server, what it refused, whether the app opens
 * with no network.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { db, meta } from './db.js';
import { waiting } from './events.js';
import { engine } from './ask.js';
import { prefer } from './follow.js';
import { unpark } from './parking.js';
import { Damage } from './damage.js';
import { barred, heard, net, parked, syncTrouble } from './server.js';
import { nudge } from './sync.js';
import { settings } from './settings.js';
import { notices } from './alarm.js';
import { offline, ready, useNewVersion } from './update.js';
import { minute } from './clock.js';
import { Top } from './parts.js';
import { count, when } from './words.js';

const list = signal(/** @type {import('./db.js').Parked[]} */ ([]));

/**
 * @param {{ name: keyof typeof settings, title: string, of: [string, string][], then?: () => void
 * }} props
 */
function Choice({ name, title, of, then }) {
  const now = settings[name].value;
  return html`<fieldset class="ways">
    <legend>${title}</legend>
    ${of.map(
      ([value, word]) => html`<label>
        <input
          type="radio"
          name=${name}
          id=${name + '-' + value.replace(/[^a-z0-9]/gi, '')}
          checked=${now === value}
          onChange=${() => {
            settings[name].value = value;
            then?.();
          }}
        />
        <span>${word}</span>
      </label>`,
    )}
  </fieldset>`;
}

/** The settings' screen. */
export function Settings() {
  const n = parked.value;
  useEffect(() => {
    db()
      .then((d) => d.getAll('parked'))
      .then((all) => {
        list.value = all;
      });
  }, [n]);
  return html`
    <${Top} at="settings" />
    <main id="settings">
      <h1>Settings</h1>
      <div class="two">
        <div>
          <label class="who">
            Your name <small>(shown beside what you read and weigh)</small>
            <input
              type="text"
              id="who"
              maxlength="40"
              autocomplete="name"
              value=${settings.who.value}
              onInput=${(/** @type {any} */ e) => {
                settings.who.value = e.target.value.trim();
              }}
            />
          </label>
          <${Choice}
            name="system"
            title="Amounts"
            of=${[
              ['metric', 'Metric'],
              ['us', 'US'],
              ['imperial', 'Imperial'],
              ['typed', 'As typed'],
            ]}
            then=${prefer}
          />
          <${Choice}
            name="scale"
            title="The scale weighs to"
            of=${[
              ['0.1 g', '0.1 g'],
              ['1 g', '1 g'],
              ['5 g', '5 g'],
            ]}
            then=${prefer}
          />
          <${Choice}
            name="theme"
            title="Light"
            of=${[
              ['auto', 'As the phone'],
              ['light', 'Light'],
              ['dark', 'Dark'],
            ]}
          />
          <${Choice}
            name="text"
            title="Text"
            of=${[
              ['normal', 'Normal'],
              ['large', 'Large'],
              ['huge', 'Very large'],
            ]}
          />
          <${Choice}
            name="hand"
            title="Main hand"
            of=${[
              ['right', 'Right'],
              ['left', 'Left'],
            ]}
          />
          <${Choice}
            name="tap"
            title="A tap in the lower half of a step"
            of=${[
              ['off', 'Does nothing'],
              ['on', 'Done, next'],
            ]}
          />
          <${Choice}
            name="sound"
            title="Bell"
            of=${[
              ['on', 'On'],
              ['off', 'Off'],
            ]}
          />
        </div>
        <div>
          <h2>Between phone and server</h2>
          <${Damage} />
          <dl class="stand" id="stand">
            <dt>Server</dt>
            <dd id="sync-net" data-net=${net.value}>
              ${
                net.value === 'on'
                  ? 'in touch'
                  : net.value === 'off'
                    ? 'not reached; tried again by itself, for ever'
                    : 'not tried yet'
              }
              ${heard.value ? ', last at ' + when(heard.value, minute.value, '') : ''}
              ${syncTrouble.value ? html`<br />${syncTrouble.value}` : ''}
              ${barred.value ? html`<br /><a href="/pair.html">Type a code to be let in</a>` : ''}
            </dd>
            <dt>To send</dt>
            <dd id="sync-waiting">
              ${waiting.value ? count(waiting.value, 'record') + ', safe on this phone' : 'nothing'}
            </dd>
            <dt>Opens with no network</dt>
            <dd id="offline-ready" data-ready=${offline.value === 'yes' ? '1' : '0'}>
              ${offline.value}
            </dd>
            <dt>Engine</dt>
            <dd id="engine-state">${engine.value}</dd>
            <dt>Screen</dt>
            <dd>
              ${
                'wakeLock' in navigator
                  ? 'held awake while cooking'
                  : 'this browser has no lock for it: a playing picture is tried while cooking; ' +
                    'should the phone ignore that, set its own screen time longer'
              }
            </dd>
            <dt>Notices</dt>
            <dd>
              ${{
                granted: 'allowed',
                denied: 'not allowed; timers ring only while this page is in front',
                default: 'asked at the first timer',
                none: 'not possible in this browser',
              }[notices()]}
            </dd>
            <dt>This phone</dt>
            <dd>
              ${meta.device.slice(-6)}
              ${
                meta.offset
                  ? ', its clock is off by ' +
                    Math.round(meta.offset / 1000) +
                    ' s (put right here)'
                  : ''
              }
            </dd>
          </dl>
          <p class="small">
            A web page cannot ring on a locked phone. The end of each timer is kept whatever
            happens; for a bell you can count on, leave the screen on.
          </p>
          <div class="row">
            <button type="button" id="sync-now" onClick=${nudge}>Try now</button>
            <a class="button" id="to-house" href="#/house">Phones and backup</a>
          </div>
          ${
            ready.value
              ? html`<p class="update" id="update">
                  A newer version is here. <button
                    type="button"
                    id="use-new"
                    onClick=${useNewVersion}
                  >
                    Use it now
                  </button>
                </p>`
              : null
          }
          ${
            list.value.length
              ? html`<section id="parked">
                  <h2>Refused by the server</h2>
                  <p class="soft">Kept here, and counted nowhere.</p>
                  <ul class="problems">
                    ${list.value.map(
                      (p) => html`<li key=${p.id} class="error" data-parked=${p.id}>
                        <span>
                          <b>${p.what?.kind ?? p.what?.name}</b> ${p.what?.on ?? ''} ${
                            p.what?.text?.slice?.(0, 80) ?? ''
                          }
                          <br />
                          ${p.why}
                        </span>
                        <button type="button" onClick=${() => unpark(p.id)}>Try again</button>
                      </li>`,
                    )}
                  </ul>
                </section>`
              : null
          }
        </div>
      </div>
    </main>
  `;
}
