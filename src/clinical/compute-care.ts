// What is computed once it is known what the baby has: doses, feed volume, next contacts; joined to the sizes.

import { type Computed, known, type NotComputed } from './computed.ts';
import { contactsAfter, type NextContact } from './contacts.ts';
import { type Dose, dosesFor } from './doses.ts';
import type { Facts } from './facts.ts';
import { type FeedVolume, feedVolume } from './feeds.ts';
import { doseWeight } from './lay-case.ts';
import type { Program } from './program.ts';

export interface Care {
  readonly doses: readonly Dose[];
  readonly feedVolume: FeedVolume | null;
  readonly nextContacts: readonly NextContact[] | null;
}

export function withCare(program: Program, facts: Facts): Computed & Care {
  const { lines } = program.protocol;
  const { computed } = facts;
  const age = known(facts.case.ageHours);
  const feeds = feedsOf(program, facts, age);
  return {
    // Named one by one: spreading is several times slower, and this runs for every case.
    weightChangePercent: computed.weightChangePercent,
    sizeForGestation: computed.sizeForGestation,
    weightForAge: computed.weightForAge,
    headForAge: computed.headForAge,
    headForGestation: computed.headForGestation,
    lengthForGestation: computed.lengthForGestation,
    weightGainPerDay: computed.weightGainPerDay,
    doses: dosesFor(program.doses, facts, doseWeight(facts.case, lines)),
    feedVolume: typeof feeds === 'string' ? null : feeds,
    nextContacts: age === null ? null : contactsAfter(program.contacts, facts, age),
    notComputed: lackingOf(computed, feeds, age),
  };
}

function lackingOf({ notComputed }: Computed, feeds: FeedVolume | NotComputed, age: number | null): Computed['notComputed'] {
  if (age === null) return { ...notComputed, feedVolume: 'no-age', nextContacts: 'no-age' };
  return typeof feeds === 'string' ? { ...notComputed, feedVolume: feeds } : notComputed;
}

/** From the weight now; in the first days, where it is not known, from the birth weight. */
function feedsOf({ protocol, feedTable }: Program, { case: aCase }: Facts, age: number | null): FeedVolume | NotComputed {
  if (age === null) return 'no-age';
  const isEarly = age < protocol.lines.weightStandsInUntilHours;
  const weight = known(aCase.weightGrams) ?? (isEarly ? known(aCase.birthWeightGrams) : null);
  if (weight === null) return 'no-weight';
  return (feedTable && feedVolume(feedTable, weight, age)) ?? 'outside-reference';
}
