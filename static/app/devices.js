// @ts-check
/**
 * Who is let in: this phone, the others, and the codes for new ones.
 * @module
 */
import { html, signal } from './html.js';
import { minute } from './clock.js';
import { clock, when } from './words.js';

/** @typedef {{ id: string, name: string, role: string, gated: boolean }} Me */
/** @typedef {{ id: string, name: string, role: string, paired: number, seen: number }} Device */
/**
 * @typedef {{ devices: Device[], gated: boolean, addresses: string[], authority: boolean }} List
 */

const me = signal(/** @type {Me | null} */ (null));
const list = signal(/** @type {List | null} */ (null));
const code = signal(/** @type {{ code: string, role: string, until: number } | null} */ (null));
/** What could not be done, in words. */
export const said = signal('');

/** @param {string} method @param {string} path @param {unknown} [body] */
async function ask(method, path, body) {
  const res = await fetch(path, {
    method,
    cache: 'no-store',
    ...(body
      ? { headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) }
      : {}),
  });
  const answer = await res.json().catch(() => ({}));
  if (!res.ok) throw new Error(answer.error || 'the server answered ' + res.status);
  return answer;
}

/** Do something about devices, then look again. @param {() => Promise<unknown>} fn */
async function act(fn) {
  said.value = '';
  try {
    await fn();
  } catch (err) {
    said.value =
      err instanceof TypeError
        ? 'The server is not reached; this needs it.'
        : String(err instanceof Error ? err.message : err);
  }
  await look();
}

/** Ask the server who this phone is, and who else is let in. */
export async function look() {
  try {
    me.value = await ask('GET', '/api/me');
    list.value = me.value?.role === 'helper' ? null : await ask('GET', '/api/devices');
  } catch (err) {
    if (!said.peek())
      said.value =
        err instanceof TypeError
          ? 'The server is not reached; who is let in can be seen when it is.'
          : String(err instanceof Error ? err.message : err);
  }
}

/** @param {{ d: Device }} props */
function Row({ d }) {
  const self = d.id === me.value?.id;
  return html`<li class="device" data-device=${d.id}>
    <span>
      <b>${d.name}</b>
      ${self ? ' (this one)' : ''}
      <br />
      <span class="soft">
        ${d.role === 'cook' ? 'cook' : 'helper: ticks, weighs and notes'}; last here ${when(
          d.seen,
          minute.value,
        )}
      </span>
    </span>
    <span class="row">
      <button
        type="button"
        data-role
        onClick=${() =>
          act(() =>
            ask('POST', '/api/devices/' + d.id, { role: d.role === 'cook' ? 'helper' : 'cook' }),
          )}
      >
        ${d.role === 'cook' ? 'Make helper' : 'Make cook'}
      </button>
      <button
        type="button"
        data-revoke
        onClick=${() => act(() => ask('DELETE', self ? '/api/me' : '/api/devices/' + d.id))}
      >
        ${self ? 'Leave' : 'Revoke'}
      </button>
    </span>
  </li>`;
}

/** The list, and the buttons that let others in. */
export function Devices() {
  const l = list.value;
  if (me.value?.role === 'helper')
    return html`
      <p>
        This phone is a helper’s: it ticks, weighs and notes. Cards, covers and times are the
        cook’s.
      </p>
      <button type="button" id="leave" onClick=${() => act(() => ask('DELETE', '/api/me'))}>
        Leave this kitchen
      </button>
    `;
  if (!l) return null;
  if (!l.gated)
    return html`<p>
      Only this machine can reach the server. To let phones in, start it with <code>
        hobside serve --lan
      </code>.
    </p>`;
  const c = code.value;
  return html`
    ${
      l.devices.length
        ? html`<ul class="problems" id="device-list">
            ${l.devices.map((d) => html`<${Row} key=${d.id} d=${d} />`)}
          </ul>`
        : html`<p class="soft">No phone is let in yet.</p>`
    }
    <div class="row">
      <button
        type="button"
        id="code-helper"
        onClick=${() =>
          act(async () => {
            code.value = await ask('POST', '/api/devices', { role: 'helper' });
          })}
      >
        Let a helper in
      </button>
      <button
        type="button"
        id="code-cook"
        onClick=${() =>
          act(async () => {
            code.value = await ask('POST', '/api/devices', { role: 'cook' });
          })}
      >
        Let a cook in
      </button>
    </div>
    ${
      c
        ? html`<section id="code" role="status">
            <p>On the new phone open</p>
            <ul>${l.addresses.map((a) => html`<li><b>${a}pair.html</b></li>`)}</ul>
            <p>
              and type <b class="big" id="code-word">${c.code.slice(0, 4)} ${c.code.slice(4)}</b>.
              It lets one ${c.role} in, once, until ${clock(c.until, '')}.
            </p>
            ${
              l.authority
                ? html`<p class="small">
                    A phone must first trust this kitchen’s own certificate: <a href="/trust.html">
                      how
                    </a>.
                  </p>`
                : null
            }
          </section>`
        : null
    }
  `;
}
