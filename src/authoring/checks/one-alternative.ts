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

export type Choosing = Condition & { readonly kind: 'any' | 'at-least'; readonly of: readonly Condition[] };

/** What holds where this alternative is the one that counts: by itself, or beside as many others as are asked for. */
export function onlyWith(choosing: Choosing, part: Condition): Condition {
  if (choosing.kind !== 'at-least') return part;
  const others = choosing.of.filter((one) => one !== part);
  return {
    kind: 'all',
    of: [part, choosing.count === 2 ? { kind: 'any', of: others } : { ...choosing, count: choosing.count - 1, of: others }],
  };
}

export function without(choosing: Choosing, part: Condition): Condition {
  return { ...choosing, of: choosing.of.filter((one) => one !== part) };
}

/** The condition with another in place of one inside, also where a name stands for it; the same where it is not inside. */
export function replacedIn(condition: Condition, inside: Condition, by: Condition): Condition {
  if (condition === inside) return by;
  if (condition.kind === 'named') {
    const of = replacedIn(condition.of, inside, by);
    return of === condition.of ? condition : { ...condition, name: `${condition.name} as edited`, of };
  }
  if (condition.kind !== 'all' && condition.kind !== 'any' && condition.kind !== 'at-least') return condition;
  const of = condition.of.map((part) => replacedIn(part, inside, by));
  return of.every((part, at) => part === condition.of[at]) ? condition : { ...condition, of };
}
