// What must still be found out before a baby may be called well: danger signs that were not answered, what a half-met rule
// waits for, and the age where a rule is met but for it.

import type { Facts } from './facts.ts';
import type { Program } from './program.ts';
import { isKnown } from './value.ts';

/** Ids of findings, in the order in which they are looked for; then `ageHours`. */
export function missingIn(program: Program, facts: Facts): string[] {
  const missing: string[] = [];
  for (const { finding, slot, insteadSlot } of program.dangers) {
    const isAnswered = isKnown(facts.values[slot]) || (insteadSlot !== undefined && isKnown(facts.values[insteadSlot]));
    if (!isAnswered) missing.push(finding.id);
  }
  for (const need of program.needs) if (need.when.holds(facts) && !missing.includes(need.finding)) missing.push(need.finding);
  if (facts.given.some((verdict) => verdict.restsOnAge)) missing.push('ageHours');
  return missing;
}
