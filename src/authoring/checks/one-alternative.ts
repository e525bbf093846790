// A condition with one of its alternatives in place of all: of "any of a, b", a and b each by itself. For checks that ask of every
// single sign in a rule what they ask of the rule. What a name stands for is left whole: it is asked where it is defined.

import type { Condition } from '../../clinical/condition.ts';

/** One for each alternative in it; none when it has no "any". */
export function eachAlternative(condition: Condition): Condition[] {
  switch (condition.kind) {
    case 'any':
      return condition.of.length < 2
        ? condition.of.flatMap(eachAlternative)
        : condition.of.flatMap((part) => [part, ...eachAlternative(part)]);
    case 'all':
    case 'at-least':
      return condition.of.flatMap((part, at) =>
        eachAlternative(part).map((chosen): Condition => ({ ...condition, of: condition.of.with(at, chosen) })),
      );
    default:
      return [];
  }
}
