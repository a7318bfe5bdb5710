// A module hook of Node: the page's files are modules. Without a package.json beside them the Node of
// a Debian takes them for scripts.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export async function load(url, context, next) {
  if (url.includes('/static/') && url.endsWith('.js'))
    return { format: 'module', source: readFileSync(fileURLToPath(url), 'utf8'), shortCircuit: true };
  return next(url, context);
}
