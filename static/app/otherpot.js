// @ts-check
/**
 * From one batch to another in cook mode: a card that was opened is followed until it waits, and the
 * cook looks at another pot before a tap can tick it.
 * @module
 */
import { html, signal } from './html.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/** @typedef {import('./engine.d.ts').CardView} CardView */

/** Key of the step of another batch that the cook was sent to and has not looked at; "" for none. */
export const sentTo = signal('');

/** Key of the batch that the cook opened and follows; "" goes by the plan. */
export const following = signal('');

/** What is to be cooked now, in place of its step. @param {{ card: CardView, step: StepView }} props */
export function OtherPot({ card, step }) {
  return html`<section id="other-pot" class="other-pot" role="alert">
    <p class="number">Another card</p>
    <h1 class="say">${card.title}</h1>
    <p>Step ${step.number}</p>
  </section>`;
}
