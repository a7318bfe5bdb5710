// @ts-check
/**
 * The guests with exclusions, and the plates that clash with them. Says what was found, never that something is safe.
 * @module
 */
import { html } from './html.js';
import { dinner } from './follow.js';
import { Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Strip } from './strip.js';
import { count } from './words.js';

/** The guests' screen. */
export function Guests() {
  const d = dinner.value;
  return html`<${Top} at="home" /><main id="guests"><${DinnerHead} at="guests" />
    ${!d ? html`<${Opening} />` : d.guests.length === 0 ? html`<p>The menu names no exclusions.</p>` : d.guests.map((g) => html`<section class="guest" data-clashes=${g.clashes.length}>
      <h2>${count(g.covers, 'cover')} without ${g.exclude.join(', ')}</h2>${g.note ? html`<p class="soft">${g.note}</p>` : null}
      ${g.clashes.length === 0 ? html`<p>No clash found among the items the food table knows.</p>` : html`<ul class="clashes">${g.clashes.map((c) => html`<li class=${c.sure ? 'sure' : 'unsure'}>
        <b>${c.plate}</b>, ${c.course}: ${c.sure ? '' : 'not assessed: '}${c.via.join(' › ')}</li>`)}</ul>`}</section>`)}
    ${d && d.guests.length ? html`<p class="small">Checked: the items of each card by name, against the food table and what the cards say they contain. Not checked: labels of what was bought,
      traces, shared boards and oil. Read the labels and ask the guest.</p>` : null}
  </main><${Strip} />`;
}
