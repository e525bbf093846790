// The conditions inside a condition, for whoever walks one: checks, the order of classifications, what a rule reads.

import type { Condition } from './condition.ts';

export function parts(condition: Condition): readonly Condition[] {
  switch (condition.kind) {
    case 'all':
    case 'any':
    case 'none':
    case 'at-least':
      return condition.of;
    case 'not':
    case 'named':
      return [condition.of];
    default:
      return [];
  }
}

/** The terms that this condition itself tests, not those of the conditions inside it. */
export function termIn(condition: Condition): readonly string[] {
  if (!('term' in condition)) return [];
  return condition.kind === 'compared' && 'term' in condition.to ? [condition.term, condition.to.term] : [condition.term];
}
