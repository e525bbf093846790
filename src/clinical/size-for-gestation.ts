// Size at birth for gestation and sex. Two references meet at 33+0: rows for each exact day from there on, equations
// before. They do not agree where they meet, and the jump is kept: smoothing it would be a reference of our own.
// Takes the tables as an argument; the distribution is skew-t.ts, the equations growth-equation.ts.

import { zFromEquation } from './growth-equation.ts';
import type { GrowthTables } from './growth-tables.ts';
import { normalCdf } from './normal.ts';
import { type GrowthSex, inTableUnit, type Measure, type NoReference, noReferenceForAge, noReferenceForValue, type Size } from './size.ts';
import { skewTTails, zFromTails } from './skew-t.ts';

export interface MeasuredAtBirth {
  readonly measure: Measure;
  readonly sex: GrowthSex;
  readonly gestationDays: number;
  readonly value: number;
}

/**
 * Where a measure taken at birth lies among babies of the same sex and the same exact day of gestation.
 *
 * Takes    gestationDays: whole days. With completed weeks only, ask for +0 and +6 and show both: a day moves a baby at
 *          the 10th centile by up to 2 points. value: grams for weight, centimetres for length and head.
 * Returns  z and centile, unrounded; "no-reference" outside the tables.
 * Source   From 33+0: Villar et al., Lancet 2014;384:857-68. Before: Villar et al., Lancet 2016;387:844-45.
 *          Checked in tests/published/growth-size-at-birth.test.ts.
 */
export function sizeForGestation(tables: GrowthTables, { measure, sex, gestationDays, value }: MeasuredAtBirth): Size | NoReference {
  const y = inTableUnit(measure, value);
  if (y === null) return noReferenceForValue;

  const row = tables.newborn[measure][sex].get(gestationDays);
  if (row !== undefined) {
    const tails = skewTTails(row, y);
    const z = zFromTails(tails);
    return Number.isFinite(z) ? { kind: 'size', z, centile: 100 * tails.below, standard: 'intergrowth-21st' } : noReferenceForValue;
  }

  if (!Number.isInteger(gestationDays)) return noReferenceForAge;
  const z = zFromEquation(tables.veryPreterm[measure], gestationDays / 7, sex, y);
  if (z === null) return noReferenceForAge;
  return { kind: 'size', z, centile: 100 * normalCdf(z), standard: 'intergrowth-21st-very-preterm' };
}
