// A YAML node on one line, in the author's own words: what stands over several lines as it would between brackets. Comments and
// layout are not in it, so two nodes that say the same have the same line. Next: flow-places.ts, changes/entry.ts.

import { isMap, isScalar, isSeq, type Node } from 'yaml';

export function oneLine(node: Node | null): string {
  if (isScalar(node)) return String(node.value).trim();
  if (isSeq(node)) return `[${node.items.map((item) => oneLine(item as Node | null)).join(', ')}]`;
  if (!isMap(node)) return '';
  const pairs = node.items.map((pair) => `${oneLine(pair.key as Node | null)}: ${oneLine(pair.value as Node | null)}`);
  return `{ ${pairs.join(', ')} }`;
}
