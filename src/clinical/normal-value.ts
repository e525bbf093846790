// What a finding is when it was looked at and nothing is wrong.

import type { Finding, FindingValue } from './protocol.ts';

/** False of a sign, the first option of a choice; undefined of a number, which has bands instead. */
export function normalValue(finding: Finding | undefined): FindingValue | undefined {
  if (finding?.kind === 'sign') return false;
  return finding?.kind === 'choice' ? (finding.options[0] ?? null) : undefined;
}
