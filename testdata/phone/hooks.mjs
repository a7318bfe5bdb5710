// Module hooks of Node: the page's modules as they are, but for three that need a browser.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const instead = { 'idb.js': 'idb.mjs', 'ask.js': 'ask.mjs' };

export async function resolve(specifier, context, next) {
  const name = specifier.split('/').at(-1);
  if (specifier.startsWith('.') && context.parentURL?.includes('/static/') && instead[name])
    return { url: new URL('./' + instead[name], import.meta.url).href, shortCircuit: true };
  return next(specifier, context);
}

export async function load(url, context, next) {
  if (url.includes('/static/') && url.endsWith('.js'))
    return { format: 'module', source: readFileSync(fileURLToPath(url), 'utf8'), shortCircuit: true };
  return next(url, context);
}
