// @ts-check
/**
 * What is shown where there is nothing: an address that leads nowhere, a dinner or a card that is
 * not on this phone.
 * @module
 */
import { html } from './html.js';
import { Top } from './parts.js';
import { net } from './server.js';

/**
 * Words for what is not there, and a way on.
 * @param {{ what: string, why?: string, href?: string, way?: string }} props
 */
export function NotFound({ what, why, href = '#/', way = 'To the dinners' }) {
  return html`<section id="not-found">
    <h1>${what}</h1>
    ${why ? html`<p class="soft">${why}</p>` : null}
    <p class="tools"><a class="button main" id="way-home" href=${href}>${way}</a></p>
  </section>`;
}

/** The screen of an address that leads nowhere. */
export function Lost() {
  return html`
    <${Top} at="" />
    <main id="lost" class="narrow">
      <${NotFound}
        what="Not found"
        why="This address leads to no screen of the app. It may be mistyped or of an older release."
      />
    </main>
  `;
}

/** The screen of a dinner that neither this phone nor, as far as is known, the server has. */
export function NoDinner() {
  return html`
    <${Top} at="home" />
    <main id="lost" class="narrow">
      <${NotFound}
        what="This dinner is not on this phone."
        why=${
          net.value === 'on'
            ? 'The server does not have it either. The address may be mistyped.'
            : 'It comes when the server is reached, if the server has it.'
        }
      />
    </main>
  `;
}
