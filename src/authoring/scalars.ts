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

/** Walked once for each file, however many checks look. */
const found = new WeakMap<Node, readonly Scalar[]>();

export function scalarsOf(top: Place): readonly Scalar[] {
  if (top.node === null) return [];
  const known = found.get(top.node) ?? walk(top, top.node);
  found.set(top.node, known);
  return known;
}

function walk(top: Place, node: Node): Scalar[] {
  const scalars: Scalar[] = [];
  visit(node, {
    Scalar(key, scalar, path) {
      if (key === 'key') return;
      const pair = path.findLast((one) => 'key' in one && isScalar((one as { key: unknown }).key)) as
        | { key: { value: unknown } }
        | undefined;
      scalars.push({ text: String(scalar.value), under: String(pair?.key.value ?? ''), range: rangeOfNode(top, scalar as Node) });
    },
  });
  return scalars;
}
