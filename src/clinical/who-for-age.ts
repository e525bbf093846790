// Weight, length and head circumference for age by the WHO Child Growth Standards: the row of that day where one is
// printed, else a straight line between its neighbours. Takes the tables as an argument.
// For babies born preterm read preterm-growth.ts first.

import type { GrowthTables, Lms, LmsRow } from './growth-tables.ts';
import { normalCdf } from './normal.ts';
import { type GrowthSex, inTableUnit, type Measure, type NoReference, noReferenceForAge, noReferenceForValue, type Size } from './size.ts';

/** Beyond 3 SD the standards name no centile. */
export type WhoCentile = number | 'below-0.1' | 'above-99.9';

export interface MeasuredAtAge {
  readonly measure: Measure;
  readonly sex: GrowthSex;
  readonly ageDays: number;
  readonly value: number;
}

/**
 * Where a measure lies among healthy children of the same sex and age.
 *
 * Takes    ageDays: whole days, the day of birth is 0. value: grams for weight, centimetres for length and head.
 * Returns  z, and the centile within 3 SD; "no-reference" beyond the last row (weight 5 years, the others 26 weeks).
 * Source   WHO Child Growth Standards, Geneva 2006 and 2007, and their computation of z-scores beyond 3 SD;
 *          checked in tests/published/growth-who.test.ts.
 */
export function whoForAge(tables: GrowthTables, { measure, sex, ageDays, value }: MeasuredAtAge): Size<WhoCentile> | NoReference {
  const y = inTableUnit(measure, value);
  if (y === null) return noReferenceForValue;
  const lms = lmsAt(tables.who[measure][sex], ageDays);
  if (lms === null) return noReferenceForAge;
  const z = restrictedZ(lms, y);
  if (!Number.isFinite(z)) return noReferenceForValue;
  return { kind: 'size', z, centile: whoCentile(z), standard: 'who' };
}

/**
 * The value that has this z-score at this age, in the table's unit: whoForAge the other way.
 *
 * Takes    ageDays: whole days. z: -3 to 3, where the restriction beyond changes nothing.
 * Returns  null beyond the last row.
 */
export function whoValueAt(rows: readonly LmsRow[], ageDays: number, z: number): number | null {
  const lms = lmsAt(rows, ageDays);
  return lms === null ? null : valueAt(lms, z);
}

function whoCentile(z: number): WhoCentile {
  if (z < -3) return 'below-0.1';
  if (z > 3) return 'above-99.9';
  return 100 * normalCdf(z);
}

/** Interpolating across the first weeks would be wrong by up to 0.14 z; the daily rows cover them. */
function lmsAt(rows: readonly LmsRow[], ageDays: number): Lms | null {
  if (!Number.isInteger(ageDays)) return null;
  const next = rows.findIndex((row) => row.ageDays >= ageDays);
  const above = rows[next];
  if (above === undefined) return null;
  if (above.ageDays === ageDays) return above;
  const below = rows[next - 1];
  if (below === undefined) return null;
  const share = (ageDays - below.ageDays) / (above.ageDays - below.ageDays);
  const between = (from: number, to: number) => from + share * (to - from);
  return { l: between(below.l, above.l), m: between(below.m, above.m), s: between(below.s, above.s) };
}

/**
 * Beyond 3 SD, WHO goes on in steps of the distance from 2 to 3 SD, because few healthy babies lie out there to fit a
 * power to. WHO writes the rule for weight; where L is 1 (length, head) it changes nothing, so it is used throughout.
 */
function restrictedZ(lms: Lms, y: number): number {
  const z = plainZ(lms, y);
  if (z > 3) return 3 + (y - valueAt(lms, 3)) / (valueAt(lms, 3) - valueAt(lms, 2));
  if (z < -3) return -3 + (y - valueAt(lms, -3)) / (valueAt(lms, -2) - valueAt(lms, -3));
  return z;
}

/** L passes through 0 (girls' weight near day 118), where the power itself loses its digits: hence expm1 and log1p. */
const almostZero = 1e-9;

function plainZ({ l, m, s }: Lms, y: number): number {
  const logarithm = Math.log(y / m);
  return Math.abs(l) < almostZero ? logarithm / s : Math.expm1(l * logarithm) / (l * s);
}

function valueAt({ l, m, s }: Lms, z: number): number {
  return m * Math.exp(Math.abs(l) < almostZero ? s * z : Math.log1p(l * s * z) / l);
}
