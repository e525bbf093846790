// A YAML node as the plain value that JSON would hold: for cases, which are typed field by field by read-case.ts.
// A word stays a word ("yes", "NO"); only what JSON itself calls a number, true, false or null becomes one.

import { isMap, isScalar, isSeq, type Node } from 'yaml';

export function plainValue(node: Node | null): unknown {
  if (isScalar(node)) return node.type === 'PLAIN' ? typed(String(node.value)) : String(node.value);
  if (isSeq(node)) return node.items.map((item) => plainValue(item as Node | null));
  if (!isMap(node)) return null;
  return Object.fromEntries(
    node.items.map((pair) => [isScalar(pair.key) ? String(pair.key.value) : '', plainValue(pair.value as Node | null)]),
  );
}

function typed(text: string): unknown {
  if (text === 'true') return true;
  if (text === 'false') return false;
  if (text === 'null' || text === '') return null;
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}
