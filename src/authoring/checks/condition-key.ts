// A short text that is the same for conditions that ask the same, to compare them by. What a name stands for and where bands lie
// is left out: within one protocol both are known by their names. Made once for each condition.

import type { Condition } from '../../clinical/condition.ts';

const made = new WeakMap<Condition, string>();

export function keyOf(condition: Condition): string {
  const known = made.get(condition);
  if (known !== undefined) return known;
  const key = written(condition);
  made.set(condition, key);
  return key;
}

function written(condition: Condition): string {
  switch (condition.kind) {
    case 'all':
    case 'any':
    case 'none':
      return `${condition.kind}(${condition.of.map(keyOf).join(',')})`;
    case 'at-least':
      return `${condition.count} of(${condition.of.map(keyOf).join(',')})`;
    case 'not':
      return `not(${keyOf(condition.of)})`;
    case 'named':
      return `${condition.name} besides ${condition.besides.join('|')}`;
    case 'given':
      return `given ${condition.classifications.join('|')}`;
    case 'given-before':
      return `given ${condition.hours} h before ${condition.classification}`;
    case 'switch':
      return `switch ${condition.switch.id} ${condition.options.join('|')}`;
    case 'in-band':
      return `${condition.which} ${condition.term} in ${condition.bands.join('|')}`;
    case 'readings-in-band':
      return `${condition.atLeast} ${condition.term} in ${condition.bands.join('|')}`;
    case 'beside-line':
      return `${condition.term} ${condition.side} ${condition.limit.id}`;
    default:
      return JSON.stringify(condition);
  }
}
