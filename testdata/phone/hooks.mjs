// Module hooks of Node: the page's modules as they are, but for two that need a browser.
export { load } from './modules.mjs';

const instead = { 'idb.js': 'idb.mjs', 'ask.js': 'ask.mjs' };

export async function resolve(specifier, context, next) {
  const name = specifier.split('/').at(-1);
  if (specifier.startsWith('.') && context.parentURL?.includes('/static/') && instead[name])
    return { url: new URL('./' + instead[name], import.meta.url).href, shortCircuit: true };
  return next(specifier, context);
}
