// @ts-check
/**
 * The library: every card, menu and kitchen, to find and to read.
 * @module
 */
import { html, signal, useComputed } from './html.js';
import { library } from './library.js';
import { to } from './router.js';
import { Findings, Top } from './parts.js';
import { count } from './words.js';

const looked = signal('');
const plain = (/** @type {string} */ s) => s.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** The library's screen. */
export function Cards() {
  const lib = library.value;
  const found = useComputed(() => {
    const words = plain(looked.value).split(/\s+/).filter(Boolean);
    return (library.value?.files ?? []).filter((f) => { const text = plain(f.title + ' ' + f.name); return words.every((w) => text.includes(w)); });
  });
  const kinds = [['menu', 'Menus'], ['card', 'Cards'], ['kitchen', 'Kitchens']];
  const shown = found.value;
  return html`<${Top} at="cards" /><main id="cards">
    <div class="head-row"><h1>Cards</h1><a class="button" id="new-card" href="#/cards/new">New card</a></div>
    <label class="find">Find<input type="search" id="search" value=${looked.value} autocomplete="off" onInput=${(/** @type {any} */ e) => { looked.value = e.target.value; }} /></label>
    <p class="unseen" role="status">${count(shown.length, 'file')} found</p>
    ${!lib ? html`<p class="wait">Reading the cards …</p>` : kinds.map(([kind, title]) => {
      const of = shown.filter((f) => f.kind === kind);
      return of.length === 0 ? null : html`<section key=${kind}><h2>${title}</h2><ul class="menus">${of.map((f) => html`<li key=${f.name}><a href=${to.card(f.name)} data-file=${f.name}>
        <b>${f.title || f.name}</b><small>${[f.makes, f.covers && kind === 'menu' ? count(f.covers, 'cover') : '', f.errors ? count(f.errors, 'error') : '', f.warnings ? count(f.warnings, 'warning') : ''].filter(Boolean).join(', ')}</small></a></li>`)}</ul></section>`;
    })}
    ${lib && shown.length === 0 ? html`<p>Nothing of that name.</p>` : null}
    ${lib?.findings.length ? html`<details class="found" id="all-findings"><summary>${count(lib.findings.length, 'finding')} in the library</summary><${Findings} findings=${lib.findings} file=${true} /></details>` : null}
  </main>`;
}
