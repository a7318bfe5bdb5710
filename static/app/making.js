// @ts-check
/**
 * A making: what it is for, its mise with scaled amounts, and its steps at a glance.
 * @module
 */
import { html, useDerived, useEffect } from './html.js';
import { emit } from './events.js';
import { now } from './clock.js';
import { dinner, tick } from './follow.js';
import { route, stepOf, to } from './router.js';
import { Top, TickRow } from './parts.js';
import { entry, Written } from './entries.js';
import { Strip } from './strip.js';
import { Opening } from './dinner.js';

/** @typedef {import('./engine.d.ts').CardView} CardView */
/** @typedef {import('./engine.d.ts').MakingView} MakingView */
/** @typedef {import('./engine.d.ts').MiseView} MiseView */

/** The making's screen. */
export function Making() {
  const r = route.value;
  const d = dinner.value;
  const card = d?.cards.find((c) => c.id === r.card);
  const making = card?.makings[r.making - 1] ?? card?.makings[0];
  return html`<${Top} at="home" /><main id="making" class="making" data-card=${r.card} data-making=${making?.key ?? ''}>
    <p><a class="up" id="to-dinner" href=${to.dinner(r.id)}><span aria-hidden="true">‹</span> ${d?.title ?? 'Dinner'}</a></p>
    ${!d ? html`<${Opening} />` : !card || !making ? html`<h1>This card is not in the dinner any more.</h1>` : html`<${Sheet} card=${card} making=${making} />`}
  </main><${Strip} />`;
}

/** The making a weight is being entered for, and what it gave before: what the weight means is then brought into sight. */
let weighing = { key: '', got: '' };

/** @param {{ card: CardView, making: MakingView }} props */
function Sheet({ card, making }) {
  const r = route.value;
  useEffect(() => {
    if (weighing.key !== making.key || weighing.got === making.got) return;
    weighing = { key: '', got: '' };
    (document.querySelector('#means') ?? document.querySelector('#got'))?.scrollIntoView({ block: 'center' });
  }, [making.key, making.got]);
  return html`
    <h1>${card.title}</h1>
    <p class="makes" id="make"><b>${making.make}</b>${card.makings.length > 1 ? html` <span class="soft">making ${r.making} of ${card.makings.length}</span>` : ''}</p>
    ${making.got ? html`<p>It gave <b id="got">${making.got}</b>.</p>` : null}
    ${card.means ? html`<${Means} means=${card.means} />` : null}
    ${card.feeds.length ? html`<p class="feeds"><span class="tag">For</span> ${card.feeds.join('; ')}</p>` : null}
    ${card.saves.length ? html`<p class="feeds"><span class="tag">Saves</span> ${card.saves.join('; ')}</p>` : null}
    ${card.makings.length > 1 ? html`<nav class="faces" aria-label="Makings">${card.makings.map((m, i) => html`<a href=${to.making(r.id, card.id, i + 1)} aria-current=${m === making ? 'page' : null}>${m.make}</a>`)}</nav>` : null}
    ${card.ways.length ? html`<fieldset class="ways"><legend>Way</legend>${card.ways.map((w, i) => html`<label><input type="radio" name="way" id=${'way-' + (i + 1)} checked=${card.way === i + 1}
      onChange=${() => emit('way', card.id, { number: i + 1 })} /><span>${w}</span></label>`)}</fieldset>` : null}
    <${Start} card=${card} making=${making} />
    <div class="two">
      <section aria-labelledby="mise-h"><h2 id="mise-h">Mise en place</h2><ul class="mise" id="mise">${groups(making.mise).map(([name, items]) => html`
        ${name ? html`<li class="group">${name}</li>` : null}${items.map((m) => html`<${MiseLine} key=${m.key} m=${m} card=${card} />`)}`)}</ul></section>
      <section aria-labelledby="steps-h"><h2 id="steps-h">Steps</h2><ol class="steps" id="steps">${making.steps.map((s) => html`<${TickRow} key=${s.key} on=${s.key} label=${html`<span class="n">${s.number}</span>`}>
        <a class="step-line" href=${to.step(r.id, card.id, r.making, stepOf(s.key)?.step ?? 0)}>${s.runs.map((x) => x.text).join('')}
        <small>${[s.heat, s.hands && 'hands ' + s.hands, s.wait && 'wait ' + s.wait].filter(Boolean).join(' · ')}</small></a><//>`)}</ol>
        <${Written} on=${making.key} />
        <div class="tools"><button type="button" id="weigh-making" onClick=${() => { weighing = { key: making.key, got: making.got }; entry.value = { what: 'weigh', on: making.key, unit: making.make.split(' ').at(-1), title: card.title + ': what did it give?' }; }}>Weigh what it gave</button>
        <a class="button quiet" id="to-card" href=${to.card(card.id + '.md')}>The card</a></div></section>
    </div>`;
}

/** What a weighed or short card means, and the ways out. @param {{ means: import('./engine.d.ts').MeansView }} props */
function Means({ means: m }) {
  return html`<section class="means" id="means" data-short=${m.short} aria-label="What it means">
    ${m.doubt ? html`<p class="trouble" role="alert" id="doubt">${m.doubt}.</p>` : null}
    ${m.short ? html`<p><b id="short">${m.short} short</b>: ${m.made} where ${m.need} is wanted. ${m.covers} covers are still whole.</p>
      <ul>${m.gets.map((g) => html`<li>${g.to}: <b class="amount">${g.now}</b> of ${g.planned}</li>`)}</ul>
      <div class="tools">${m.choices.map((c) => html`<button type="button" data-choice=${c.kind} onClick=${() => emit(c.kind, c.on, { ...(c.done ? { done: true } : {}),
        ...(c.number ? { number: c.number } : {}), ...(c.amount ? { amount: c.amount } : {}), ...(c.kind === 'measure' ? { start: now() } : {}) })}>${c.text}</button>`)}</div>`
      : m.spare ? html`<p class="soft" id="spare">${m.spare} is left over.</p>` : null}
  </section>`;
}

/** Items by their group, in order. @param {MiseView[]} mise @returns {[string, MiseView[]][]} */
function groups(mise) {
  /** @type {[string, MiseView[]][]} */
  const out = [];
  for (const m of mise) {
    if (out.at(-1)?.[0] !== m.group) out.push([m.group, []]);
    out.at(-1)?.[1].push(m);
  }
  return out;
}

/** @param {{ m: MiseView, card: CardView }} props */
function MiseLine({ m, card }) {
  const name = html`<b class="amount">${m.amount}</b><span class="name">${m.name}${m.prep ? html`<small>${m.prep}</small>` : ''}${m.aside ? html`<small class="aside">${m.aside}</small>` : ''}</span>`;
  return html`<${TickRow} on=${m.key} label=${name} class=${m.left ? 'left-out' : ''}>
    ${m.card ? html`<a class="from" href=${to.making(route.value.id, m.card)} >made here<span class="unseen">: ${m.name}</span></a>` : null}
    ${m.optional ? html`<button type="button" class="from" data-leave=${m.item} aria-pressed=${m.left ? 'true' : 'false'} onClick=${() => emit('leave', card.id + '/item/' + m.item, m.left ? {} : { done: true })}>${m.left ? 'put back' : 'leave out'}</button>` : null}<//>`;
}

/** Into cook mode, at the first step that is not done. @param {{ card: CardView, making: MakingView }} props */
function Start({ card, making }) {
  const r = route.value;
  const next = useDerived(() => {
    const open = making.steps.find((s) => !tick(s.key).value);
    return { step: open ? stepOf(open.key)?.step ?? 0 : 0, number: open?.number ?? 0, begun: making.steps.some((s) => tick(s.key).value) };
  }, [making]);
  const n = next.value;
  if (making.steps.length === 0) return html`<p class="soft">It has no steps.</p>`;
  if (!n.step) return html`<a class="button wide" id="start" href=${to.step(r.id, card.id, r.making, 'end')}>All steps done</a>`;
  return html`<a class="button main wide" id="start" href=${to.step(r.id, card.id, r.making, n.step)}>${n.begun ? 'Go on at step ' + n.number : 'Cook'}</a>`;
}
