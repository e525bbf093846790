// The conditions on which a classification or a question hangs, each once, with the classifications that hang on it.
// What only says which rows a well baby meets decides nothing, nor does what chooses a dose or a visit. Next: rule-lines.ts.

import type { Condition } from '../../clinical/condition.ts';
import { parts, termIn } from '../../clinical/condition-parts.ts';
import type { ClassificationRule, Protocol } from '../../clinical/protocol.ts';

export interface Deciding {
  readonly condition: Condition;
  /** The classification or named condition that it is written under, or the finding that is asked for. */
  readonly owner: string;
  /** True: written by that name, so that what stands around it is not known here. */
  readonly isNamed: boolean;
  readonly classifications: readonly string[];
}

export function decidingConditions(protocol: Protocol): Deciding[] {
  const named = new Map<string, { readonly condition: Condition; readonly users: Set<string> }>();
  const noteNamed = (condition: Condition, user: string | undefined): void => {
    if (condition.kind === 'named') {
      const known = named.get(condition.name) ?? { condition: condition.of, users: new Set() };
      if (user !== undefined) known.users.add(user);
      named.set(condition.name, known);
    }
    for (const part of parts(condition)) noteNamed(part, user);
    // Which line a bilirubin is held against hangs on who is at risk.
    if (condition.kind === 'compared' && 'term' in condition.to)
      for (const part of [protocol.bilirubin.atRisk, protocol.bilirubin.yellow]) noteNamed(part, user);
  };
  const own: Deciding[] = [
    ...protocol.classifications
      .filter((rule) => rule.givenTo === 'any-baby')
      .flatMap((rule) =>
        conditionsIn(rule).map((condition) => ({ condition, owner: rule.id, isNamed: false, classifications: [rule.id] })),
      ),
    ...protocol.needs.map((need) => ({ condition: need.when, owner: need.finding, isNamed: false, classifications: [] })),
  ];
  for (const { condition, classifications } of own) noteNamed(condition, classifications[0]);
  return [...own, ...[...named].map(([owner, { condition, users }]) => ({ condition, owner, isNamed: true, classifications: [...users] }))];
}

function conditionsIn({ unless, rules, raised }: ClassificationRule): Condition[] {
  return [...(unless ? [unless] : []), ...[...rules, ...raised].map((rule) => rule.when)];
}

/** The classifications that hang on one of these terms. */
export function readersOf(terms: readonly string[], deciding: readonly Deciding[]): string[] {
  const reads = (condition: Condition): boolean =>
    termIn(condition).some((term) => terms.includes(term)) || (condition.kind !== 'named' && parts(condition).some(reads));
  return [...new Set(deciding.filter(({ condition }) => reads(condition)).flatMap((one) => one.classifications))];
}
