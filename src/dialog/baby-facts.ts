// What is known of a baby besides findings, in the units that the register keeps: read from what an examination gathered,
// and laid out again as answers. Next: known-baby.ts.

import type { Sex } from '../clinical/protocol.ts';
import type { Gathered } from './gather.ts';

/** Not known: null. */
export interface BabyFacts {
  readonly sex: Sex | null;
  /** Epoch milliseconds. */
  readonly bornAt: number | null;
  readonly gestationDays: number | null;
  readonly birthWeightGrams: number | null;
  /** Number of the mother's card. */
  readonly card: string | null;
}

const minute = 60_000;
const daysPerWeek = 7;

export function babyFactsOf({ case: aCase, known }: Pick<Gathered, 'case' | 'known'>): BabyFacts {
  const born = known.get('born');
  const card = known.get('card');
  const { gestation } = aCase;
  return {
    sex: aCase.sex ?? null,
    bornAt: typeof born === 'number' ? born * minute : null,
    gestationDays: gestation ? gestation.weeks * daysPerWeek + (gestation.days ?? 0) : null,
    birthWeightGrams: aCase.birthWeightGrams ?? null,
    card: typeof card === 'string' ? card : null,
  };
}

/** The same by the names of the fields that an examination asks, as answers hold them; what is not known is left out. */
export function fieldsOf({ sex, bornAt, gestationDays, birthWeightGrams, card }: BabyFacts): Readonly<Record<string, string | number>> {
  const days = gestationDays === null ? 0 : gestationDays % daysPerWeek;
  const weeks = gestationDays === null ? null : `${Math.floor(gestationDays / daysPerWeek)}`;
  return {
    ...(sex === null ? {} : { sex }),
    ...(bornAt === null ? {} : { born: Math.floor(bornAt / minute) }),
    ...(weeks === null ? {} : { gestation: days === 0 ? weeks : `${weeks}+${days}` }),
    ...(birthWeightGrams === null ? {} : { 'birth-weight': birthWeightGrams }),
    ...(card === null ? {} : { card }),
  };
}
