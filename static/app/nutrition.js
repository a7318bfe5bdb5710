// @ts-check
/**
 * What something consists of: a table by the EU's rules, one by the US's, how much of the weight has
 * a composition, and what is missing or assumed. Under 95 % there are no figures.
 * @module
 */
import { html, useEffect } from './html.js';
import { composed, composeTrouble, compose } from './composition.js';

/** @typedef {import('./engine.d.ts').DeclarationLine} DeclarationLine */
/** @typedef {import('./engine.d.ts').NutritionView} NutritionView */

/**
 * One declaration, in the legal order.
 * @param {{ name: string, portion: string, of: DeclarationLine[], each: DeclarationLine[] }} props
 */
export function Declaration({ name, portion, of, each }) {
  const lines = of.length ? of : each;
  return html`<table class="declaration" data-rules=${name}>
    <caption>${name}</caption>
    <thead>
      <tr>
        <td></td>
        ${of.length ? html`<th scope="col">100 g</th>` : null}
        ${each.length ? html`<th scope="col">${portion}</th>` : null}
      </tr>
    </thead>
    <tbody>
      ${lines.map(
        (l, i) => html`<tr class=${l.name.startsWith('of which') ? 'of-which' : ''}>
          <th scope="row">${l.name}</th>
          ${of.length ? html`<td>${l.text}</td>` : null}
          ${each.length ? html`<td>${each[i]?.text}</td>` : null}
        </tr>`,
      )}
    </tbody>
  </table>`;
}

/** What is known, or what is missing for it. @param {{ of: NutritionView }} props */
export function Nutrition({ of: n }) {
  const known = n.eu.length + n.euPortion.length > 0;
  const percent = Math.floor(1000 * n.share) / 10;
  return html`<div class="nutrition" data-share=${percent} data-known=${known ? '1' : '0'}>
    <p>
      <b>${percent} %</b> of the weight has a composition
      ${
        known
          ? '.'
          : n.share < 0.95
            ? ': under 95 %, so no figure is given.'
            : '; no figure is given.'
      }
    </p>
    ${
      known
        ? html`<div class="declarations">
            <${Declaration} name="EU, UK" portion=${n.portion} of=${n.eu} each=${n.euPortion} />
            <${Declaration} name="US" portion=${n.portion} of=${n.us} each=${n.usPortion} />
          </div>`
        : null
    }
    ${
      n.missing.length
        ? html`<p>Missing:</p><ul class="missing">${n.missing.map((m) => html`<li>${m}</li>`)}</ul>`
        : null
    }
    ${
      n.assumed.length
        ? html`<p>Assumed:</p><ul class="assumed">${n.assumed.map((a) => html`<li>${a}</li>`)}</ul>`
        : null
    }
    ${
      known
        ? html`<p class="small">
            Worked out from USDA SR28 by the weight of what goes in; not measured. Not for the label
            of goods on sale: ask your food authority.
          </p>`
        : null
    }
  </div>`;
}

/**
 * Nutrition under a heading to open. What foods consist of is fetched when it is first opened.
 * @param {{ of: NutritionView | null | undefined }} props
 */
export function Folded({ of }) {
  useEffect(() => {
    compose();
  }, []);
  return of
    ? html`<${Nutrition} of=${of} />`
    : composeTrouble.value
      ? html`<p class="trouble" role="alert">
          ${composeTrouble.value}
          <button type="button" onClick=${() => compose()}>Try again</button>
        </p>`
      : html`<p class="wait">
          ${composed.value ? 'Adding up …' : 'Fetching what foods consist of …'}
        </p>`;
}
