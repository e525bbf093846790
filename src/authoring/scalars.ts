// Every text of a YAML file with the name it stands under, for checks that look across files.

import { isScalar, type Node, visit } from 'yaml';
import type { Range } from './diagnostic.ts';
import { type Place, rangeOfNode } from './yaml-source.ts';

export interface Scalar {
  readonly text: string;
  /** The nearest key above it. */
  readonly under: string;
  readonly range: Range;
}

export function scalarsOf(top: Place): Scalar[] {
  const scalars: Scalar[] = [];
  if (top.node === null) return scalars;
  visit(top.node, {
    Scalar(key, node, path) {
      if (key === 'key') return;
      const pair = path.findLast((one) => 'key' in one && isScalar((one as { key: unknown }).key)) as
        | { key: { value: unknown } }
        | undefined;
      scalars.push({ text: String(node.value), under: String(pair?.key.value ?? ''), range: rangeOfNode(top, node as Node) });
    },
  });
  return scalars;
}
