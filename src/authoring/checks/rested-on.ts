// The alternatives on which it rests that a condition holds: of "any of a, b" the one that is there when the other is not, however
// deep it stands. What makes a condition false, under "not" and "none", is nothing that it rests on. Next: alternative-coverage.ts.

import type { Condition } from '../../clinical/condition.ts';

/** Alternatives without which the condition would not hold; none when it does not hold. */
export function restedOn(condition: Condition, holds: (part: Condition) => boolean): ReadonlySet<Condition> {
  switch (condition.kind) {
    case 'named':
      return condition.besides.length === 0 ? restedOn(condition.of, holds) : none;
    case 'all':
      return holds(condition) ? new Set(condition.of.flatMap((part) => [...restedOn(part, holds)])) : none;
    case 'any':
      return restedOnAmong(condition.of, 1, holds);
    case 'at-least':
      return restedOnAmong(condition.of, condition.count, holds);
    default:
      return none;
  }
}

/** Of parts of which so many must hold: each part, and each alternative inside, with which the last that is needed would go. */
export function restedOnAmong(parts: readonly Condition[], count: number, holds: (part: Condition) => boolean): ReadonlySet<Condition> {
  const held = parts.filter(holds);
  if (held.length < count) return none;
  const lost = new Map<Condition, number>();
  for (const part of held) for (const one of new Set([part, ...restedOn(part, holds)])) lost.set(one, (lost.get(one) ?? 0) + 1);
  return new Set([...lost].filter(([, times]) => held.length - times < count).map(([one]) => one));
}

const none: ReadonlySet<Condition> = new Set();
