// What a guard's terms stand for: findings and fields by their names, and what the interpretation says so far.
// A term that is neither, and not named in flow.ts (guardFields), is never known to a guard: src/authoring refuses it there.

import type { Lookup } from '../clinical/condition.ts';
import type { Interpretation } from '../clinical/protocol.ts';
import type { Value } from '../clinical/value.ts';
import type { Gathered } from './gather.ts';

/** What is known of a baby at one instant, and what it means. */
export interface Standing {
  readonly gathered: Gathered;
  readonly interpretation: Interpretation;
  /** The worker is marked on the roster as authorised to give injections. */
  readonly mayInject: boolean;
}

/** How a condition asks whether a classification is given, and how many hours ago an earlier look gave it first. */
const given = 'given ';
const before = 'given-before ';

export function lookupOf({ gathered, interpretation, mayInject }: Standing): Lookup {
  const { case: aCase, known } = gathered;
  return (term) => {
    switch (term) {
      case 'urgency':
        return interpretation.urgency;
      case 'worker':
        return mayInject ? 'may-inject' : 'may-not-inject';
      case 'age':
        return aCase.ageHours;
      case 'gestation':
        return aCase.gestation?.weeks;
      case 'weight-change':
        return interpretation.computed.weightChangePercent as Value;
      default:
        if (term.startsWith(before)) return aCase.givenBefore?.[term.slice(before.length)];
        return term.startsWith(given) ? isGiven(term.slice(given.length), interpretation) : known.get(term);
    }
  };
}

function isGiven(classification: string, { classifications }: Interpretation): boolean {
  return classifications.some((one) => one.id === classification);
}
