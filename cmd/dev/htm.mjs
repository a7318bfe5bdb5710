// A plugin for Prettier: it lays out the page's html`…` templates, which Prettier alone leaves as
// they are. The templates are read by htm, not by HTML's rules: white space that holds a line break
// is dropped at both ends of a text, and all other white space counts. So a line may be broken
// between two tags, between attributes and between the words of a text, and never at a space
// between a word and a tag.
import { doc } from 'prettier';
import * as estree from 'prettier/plugins/estree';

const { fill, group, hardline, indent, join, line, lineSuffixBoundary, softline } = doc.builders;

/**
 * The tree of a template. A node is { text }, { expression } (an index) or { tag, attributes,
 * children }. A tag and an attribute are lists of strings and of indexes of expressions.
 * Returns undefined where the template isn't of the kind that this file knows: then it stays as it is.
 */
function read(quasis) {
  const pieces = quasis.flatMap((q, i) => (i ? [i - 1, ...q.value.raw] : [...q.value.raw]));
  const root = { children: [] };
  const open = [root];
  let at = 0;
  let text = '';
  const add = (node) => open.at(-1).children.push(node);
  const flush = () => {
    const kept = text.replace(/^\s*\n\s*|\s*\n\s*$/g, ''); // as htm does
    if (kept) add({ text: kept });
    text = '';
  };
  const blank = () => {
    while (/^\s$/.test(pieces[at])) at++;
  };
  /** What comes until white space, ">" or "/>", quoted parts whole. */
  const word = () => {
    const out = [];
    let quote = '';
    for (; at < pieces.length; at++) {
      const c = pieces[at];
      if (quote) {
        if (c === quote) quote = '';
      } else if (c === '"' || c === "'") {
        quote = c;
      } else if (/^[\s>]$/.test(c) || (c === '/' && pieces[at + 1] === '>')) {
        break;
      }
      if (typeof c === 'string' && typeof out.at(-1) === 'string') out.push(out.pop() + c);
      else out.push(c);
    }
    return out;
  };
  while (at < pieces.length) {
    const c = pieces[at];
    if (typeof c === 'number') {
      flush();
      add({ expression: c });
      at++;
    } else if (c !== '<') {
      text += c;
      at++;
    } else if (pieces[at + 1] === '/') {
      flush();
      while (at < pieces.length && pieces[at] !== '>') at++;
      at++;
      if (open.length === 1) return undefined;
      open.pop();
    } else if (pieces[at + 1] === '!') {
      return undefined; // a comment
    } else {
      flush();
      at++;
      const node = { tag: word(), attributes: [], children: [] };
      for (blank(); at < pieces.length && pieces[at] !== '>' && pieces[at] !== '/'; blank()) {
        node.attributes.push(word());
      }
      add(node);
      if (pieces[at] === '/') {
        node.empty = true;
        at += 2;
      } else {
        open.push(node);
        at++;
      }
    }
  }
  flush();
  return open.length === 1 ? root.children : undefined;
}

const textOf = (node) => node?.text ?? '';
/** Whether a line may end between two nodes. Punctuation could, and stays with what it follows. */
const mayBreak = (a, b) => !/\s$/.test(textOf(a)) && !/^[\s,.;:!?)]/.test(textOf(b));

/** The words of a text, with the places between them where a line may end. */
function words(text) {
  const [, before, body, after] = /^(\s*)(.*?)(\s*)$/s.exec(text);
  if (!body) return [text];
  const parts = body.split(/\s+/).flatMap((w, i) => (i ? [line, w] : [w]));
  parts[0] = before + parts[0];
  parts.push(parts.pop() + after);
  return parts;
}

function printer(expressions, show) {
  const isBlock = (node) =>
    node.tag || (node.expression !== undefined && show.holdsTags(node.expression));

  /** Nodes beside each other: each tag on a line of its own, unless all of it fits on one. */
  function siblings(nodes) {
    const rows = [];
    let row = [];
    nodes.forEach((node, i) => {
      const last = nodes[i - 1];
      if (last) {
        const free = mayBreak(last, node);
        if (free && (isBlock(last) || isBlock(node))) {
          rows.push(fill(row));
          row = [];
        } else {
          row.push(free ? softline : '');
        }
      }
      if (node.text === undefined) row.push(print(node));
      else row.push(...words(node.text));
    });
    if (row.length) rows.push(fill(row));
    return join(softline, rows);
  }

  const mixed = (parts) =>
    parts.map((p) => (typeof p === 'string' ? join(hardline, p.split(/\n\s*/)) : expressions[p]));

  function print(node) {
    if (node.expression !== undefined) return expressions[node.expression];
    const head = [
      '<',
      ...mixed(node.tag),
      node.attributes.length ? indent([line, join(line, node.attributes.map(mixed))]) : '',
    ];
    if (node.empty) return group([...head, line, '/>']);
    const end = ['</', ...(typeof node.tag[0] === 'number' ? ['/'] : mixed(node.tag)), '>'];
    const start = group([...head, node.attributes.length ? softline : '', '>']);
    if (!node.children.length) return group([start, ...end]);
    const first = mayBreak(undefined, node.children[0]) ? softline : '';
    const last = mayBreak(node.children.at(-1), undefined) ? softline : '';
    return group([start, indent([first, siblings(node.children)]), last, ...end]);
  }

  return { siblings, print };
}

function embed(path, options) {
  const { node } = path;
  if (node.type !== 'TemplateLiteral' || path.parent.tag?.name !== 'html' || path.key !== 'quasi') {
    return estree.printers.estree.embed?.(path, options);
  }
  const nodes = read(node.quasis);
  if (!nodes) return undefined;
  return (textToDoc, print) => {
    const expressions = path.map((at) => {
      const { type } = at.node;
      const apart = /Conditional|Binary|Logical|Sequence/.test(type);
      const inner = print();
      return group([
        '${',
        apart ? [indent([softline, inner]), softline] : inner,
        lineSuffixBoundary,
        '}',
      ]);
    }, 'expressions');
    const source = (i) =>
      options.originalText.slice(
        options.locStart(node.expressions[i]),
        options.locEnd(node.expressions[i]),
      );
    const { siblings, print: one } = printer(expressions, {
      holdsTags: (i) => source(i).includes('html`'),
    });
    if (nodes.length === 1 && nodes[0].tag) return ['`', one(nodes[0]), '`'];
    if (!nodes.length) return '``';
    const first = mayBreak(undefined, nodes[0]) ? softline : '';
    const last = mayBreak(nodes.at(-1), undefined) ? softline : '';
    return group(['`', indent([first, siblings(nodes)]), last, '`']);
  };
}
embed.getVisitorKeys = estree.printers.estree.embed?.getVisitorKeys;

export const printers = { estree: { ...estree.printers.estree, embed } };
