// The order in which classifications are judged: each after those that its rules ask about with "is given".
// That nothing waits for itself is checked when the protocol is read (src/authoring/protocol-names.ts).

import type { Condition } from './condition.ts';
import { parts, termIn } from './condition-parts.ts';
import type { ClassificationRule, Protocol } from './protocol.ts';

export function inJudgingOrder<T extends { readonly rule: ClassificationRule }>(all: readonly T[], protocol: Protocol): T[] {
  const byId = new Map(all.map((one) => [one.rule.id, one]));
  const placed = new Set<T>();
  const place = (one: T): void => {
    if (placed.has(one)) return;
    for (const id of awaited(one.rule, protocol)) {
      const other = byId.get(id);
      if (other !== undefined && other !== one && !placed.has(other)) place(other);
    }
    placed.add(one);
  };
  for (const one of all) place(one);
  return [...placed];
}

/** Classifications that the rules ask about, also through the lines for bilirubin. */
export function awaited(rule: ClassificationRule, protocol: Pick<Protocol, 'bilirubin'>): Set<string> {
  const conditions = [rule.unless, ...rule.rules.map((one) => one.when), ...rule.raised.map((one) => one.when)].filter(
    (one) => one !== undefined,
  );
  const readsLines = conditions.some((condition) => readsLine(condition));
  return new Set([...conditions, ...(readsLines ? [protocol.bilirubin.atRisk] : [])].flatMap(givenIn));
}

function givenIn(condition: Condition): readonly string[] {
  return condition.kind === 'given' ? condition.classifications : parts(condition).flatMap(givenIn);
}

function readsLine(condition: Condition): boolean {
  return termIn(condition).some((term) => term.startsWith('bilirubin-')) || parts(condition).some(readsLine);
}
