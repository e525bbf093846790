// A case as it is judged: as it is written down, or with its findings in a map, as the dialog gathers them. Two hundred findings are
// laid out from a map in a tenth of the time. Only written down is it stored: a map would be lost there. Next: facts.ts, lay-case.ts.

import type { Case, FindingValue } from './protocol.ts';

export interface CaseAtHand extends Omit<Case, 'findings'> {
  /** What is no finding, such as a field of the baby, is let be. */
  readonly findings: ReadonlyMap<string, FindingValue>;
}

export type AnyCase = Case | CaseAtHand;

/** What was recorded for a finding; undefined: nothing. */
export function foundIn({ findings }: AnyCase, id: string): FindingValue | undefined {
  if (findings instanceof Map) return findings.get(id);
  return Object.hasOwn(findings, id) ? (findings as Case['findings'])[id] : undefined;
}

/** Calls back for every finding that is listed. */
export function eachFound({ findings }: AnyCase, take: (value: FindingValue, id: string) => void): void {
  if (findings instanceof Map) {
    findings.forEach(take);
    return;
  }
  for (const id of Object.keys(findings)) {
    const value = (findings as Case['findings'])[id];
    if (value !== undefined) take(value, id);
  }
}
