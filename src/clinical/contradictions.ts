// Answers that cannot both be true, as the protocol lists them (contradictions.yaml). Only what was recorded counts, not what is assumed.

import { type AnyCase, foundIn } from './any-case.ts';
import { holds } from './condition.ts';
import type { Contradiction, FindingValue, Protocol } from './protocol.ts';
import { weightChangePercent, weightGainPerDay } from './weight-change.ts';

/** Those that the case is in, in the protocol's order. Never throws. */
export function contradictionsIn({ contradictions }: Pick<Protocol, 'contradictions'>, aCase: AnyCase): Contradiction[] {
  const changes = changesOf(aCase);
  const lookup = (term: string): FindingValue | undefined => (Object.hasOwn(changes, term) ? changes[term] : foundIn(aCase, term));
  return contradictions.filter(({ when }) => holds(when, lookup));
}

/** What contradictions may ask for besides the findings, by the names that conditions have for it. */
function changesOf(aCase: AnyCase): Readonly<Record<string, number | null>> {
  const { ageHours, birthWeightGrams, weightGrams } = aCase;
  const [previousWeightGrams, days] = [foundIn(aCase, 'previous-weight'), foundIn(aCase, 'days-since-previous')];
  const isGainKnown = typeof previousWeightGrams === 'number' && typeof days === 'number' && weightGrams != null;
  return {
    age: ageHours ?? null,
    'weight-change': birthWeightGrams == null || weightGrams == null ? null : weightChangePercent(birthWeightGrams, weightGrams),
    'weight-gain': isGainKnown ? (weightGainPerDay({ previousWeightGrams, weightGrams, days })?.gramsPerKg ?? null) : null,
  };
}
