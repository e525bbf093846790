// A case as it is judged: as it is written down, or with its findings at hand, as the dialog gathers them. Next: lay-case.ts.

import { FindingsAtHand } from './findings-at-hand.ts';
import type { Case, FindingValue } from './protocol.ts';

export interface CaseAtHand extends Omit<Case, 'findings'> {
  readonly findings: FindingsAtHand;
}

export type AnyCase = Case | CaseAtHand;

/** What was recorded for a finding; undefined: nothing. */
export function foundIn({ findings }: AnyCase, id: string): FindingValue | undefined {
  if (findings instanceof FindingsAtHand) return findings.get(id);
  return Object.hasOwn(findings, id) ? findings[id] : undefined;
}

/** All that was recorded, by name; of a case at hand also what is no finding. */
export function allFoundIn({ findings }: AnyCase): readonly (readonly [string, FindingValue | undefined])[] {
  return findings instanceof FindingsAtHand ? findings.entries() : Object.entries(findings);
}
